#pragma once
// Small banks for tests: items as XML text, and a rule set of invented limits.

#include <gtest/gtest.h>

#include <string>

#include "bank/read.hpp"
#include "quiz/maker.hpp"

namespace footroom::tests {

inline bank::Item item_of(const std::string& xml) {
  const bank::ReadItems read = bank::read_items(xml, "item.xml");
  for (const bank::Defect& defect : read.defects) ADD_FAILURE() << defect.text();
  return read.items.empty() ? bank::Item{} : read.items.front();
}

/// An item of one kind around `parts`, which start in line 3.
inline std::string item_xml(const std::string& kind, const std::string& parts,
                            const std::string& id = "item", int level = 1) {
  return "<item xmlns=\"urn:footroom:bank\" id=\"" + id + "\" topic=\"roof\" level=\"" +
         std::to_string(level) + "\" kind=\"" + kind + "\" training=\"i\">\n" +
         "<title><en>Title</en><es>Título</es></title>\n" + parts + "</item>\n";
}

/// A length on a grid of whole feet or metres.
inline std::string draw_xml(const std::string& name, int from, int to,
                            const std::string& symbol = "a", const std::string& step = "1") {
  const std::string grid = "from=\"" + std::to_string(from) + "\" to=\"" + std::to_string(to) +
                           "\" step=\"" + step + "\"/>";
  return "<draw name=\"" + name + "\" symbol=\"" + symbol +
         "\"><meaning><en>m</en><es>m</es></meaning><us unit=\"ft\" " + grid + "<si unit=\"m\" " +
         grid + "</draw>\n";
}

inline std::string stem_xml(const std::string& text) {
  return "<stem><en>" + text + "</en><es>" + text + "</es></stem>\n";
}

inline std::string answer_xml(const std::string& formula, int places = 1) {
  const std::string shown = "places=\"" + std::to_string(places) + "\"/>";
  return "<answer value=\"" + formula + "\"><us unit=\"ft\" " + shown + "<si unit=\"m\" " + shown +
         "</answer>\n";
}

inline std::string mistake_xml(const std::string& id, const std::string& attributes) {
  return "<mistake id=\"" + id + "\" " + attributes + "><en>" + id + "</en><es>" + id +
         "</es></mistake>\n";
}

/// Three mistakes whose numbers are far from any other, and a source.
inline std::string mistakes_and_source_xml() {
  return mistake_xml("far", "value=\"1001 ft\"") + mistake_xml("farther", "value=\"2002 ft\"") +
         mistake_xml("farthest", "value=\"3003 ft\"") +
         "<source citation=\"invented\" status=\"computed\"/>\n";
}

inline std::string option_xml(const std::string& id, const std::string& attributes,
                              const std::string& text = {}) {
  const std::string words = text.empty() ? id : text;
  return "<option id=\"" + id + "\" " + attributes + "><en>" + words + "</en><es>" + words +
         "</es><says><en>says " + id + "</en><es>dice " + id + "</es></says></option>\n";
}

/// Rule set "test": height is 6 ft or 1.8 m, us-only has no SI value. Pool "names": three.
inline bank::Bank small_bank() {
  bank::Bank bank;
  bank.topics = {{"roof", {"The roof", "El techo", {}}}, {"swing", {"Swing", "Péndulo", {}}}};
  bank::RuleSet rules;
  rules.id = "test";
  rules.title = {"Test rules", "Reglas de prueba", {}};
  rules.limits["height"] = {"height",      {"height", "altura", {}}, "6 ft", "1.8 m", "invented",
                            "from-memory", {"rules.xml", 4}};
  rules.limits["us-only"] = {"us-only",  {"force", "fuerza", {}}, "1800 lbf",      "",
                             "invented", "from-memory",           {"rules.xml", 5}};
  bank.rules["test"] = rules;
  bank::Pick pool;
  pool.name = "names";
  for (const char* name : {"ana", "bea", "carl"})
    pool.choices.push_back({name, {name, name, {}}, {}});
  bank.pools["names"] = pool;
  bank.digest = "0";
  return bank;
}

inline quiz::Settings settings_of(notation::System system = notation::System::us,
                                  engine::Language language = engine::Language::english) {
  quiz::Settings settings;
  settings.seed = 1;
  settings.rules = "test";
  settings.system = system;
  settings.style.language = language;
  return settings;
}

inline quiz::Question ask(const bank::Bank& bank, const std::string& xml, std::uint32_t sheet = 0,
                          const quiz::Settings& settings = settings_of()) {
  const bank::Item item = item_of(xml);
  return quiz::make_question(bank, item, settings, {settings.seed, sheet, 0, 0});
}

/// The message with which an item is refused, or "none".
inline std::string refusal_of(const bank::Bank& bank, const std::string& xml,
                              const quiz::Settings& settings = settings_of()) {
  try {
    ask(bank, xml, 0, settings);
  } catch (const quiz::CannotMake& refusal) {
    return refusal.what();
  }
  return "none";
}

}  // namespace footroom::tests
