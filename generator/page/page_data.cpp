#include "page/page_data.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "grade/names.hpp"
#include "practice/packed_bank.hpp"

namespace footroom::page {
namespace {

using Json = nlohmann::ordered_json;

Json both(const bank::Text& text) {
  return Json::array({text.english, text.spanish});
}

}  // namespace

std::string page_data(const bank::Bank& bank, const render::Labels& labels,
                      const PageSettings& settings) {
  bank::Bank asked = bank;
  if (!settings.topics.empty())
    std::erase_if(asked.items, [&](const bank::Item& item) {
      return std::find(settings.topics.begin(), settings.topics.end(), item.topic) ==
             settings.topics.end();
    });
  Json words = Json::object();
  for (const std::string& id : labels.ids())
    words[id] = Json::array(
        {labels.at(id, engine::Language::english), labels.at(id, engine::Language::spanish)});
  Json weeks = Json::array();
  for (const Week& week : settings.weeks)
    weeks.push_back({{"number", week.number}, {"topics", week.topics}});
  Json json{{"program", settings.program},
            {"title", words.at("practice-title")},
            {"course-title", both(settings.course)},
            {"rules-title", both(bank.rules.at(settings.rules).title)},
            {"weeks", std::move(weeks)},
            {"labels", std::move(words)},
            {"bank", practice::packed(asked, settings.rules)}};
  practice::put_face(json, settings.face);
  return json.dump();
}

}  // namespace footroom::page
