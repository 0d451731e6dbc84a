#include "practice/packed_bank.hpp"

#include <optional>
#include <utility>
#include <vector>

namespace footroom::practice {
namespace {

using Json = nlohmann::ordered_json;

// One function a type writes and reads, so that nothing can be packed and not unpacked: a Packer
// carries the fields of one object in one direction.
class Packer {
 public:
  static Packer into(Json& json) { return {&json, nullptr}; }
  static Packer out_of(const Json& json) { return {nullptr, &json}; }

  template <class T>
  void field(const char* name, T& value) {
    if (into_) {
      Json packed = write(value);
      if (!packed.is_null()) (*into_)[name] = std::move(packed);
    } else {
      const auto found = out_of_->find(name);
      if (found != out_of_->end()) read(*found, value);
    }
  }

 private:
  Packer(Json* into, const Json* out_of) : into_(into), out_of_(out_of) {}

  // An absent member is an empty value: left out where writing, left alone where reading.
  static Json write(const std::string& text) { return text.empty() ? Json() : Json(text); }
  static Json write(int number) { return number; }
  static Json write(double number) { return number; }
  static Json write(bank::Kind kind) { return write(static_cast<int>(kind)); }
  static Json write(const bank::Text& text) {
    return text.english.empty() && text.spanish.empty() ? Json()
                                                        : Json::array({text.english, text.spanish});
  }
  static Json write(const bank::FormulaText& formula) { return write(formula.text); }
  template <class T>
  static Json write(const std::optional<T>& value) {
    if (!value) return {};
    Json json = write(*value);
    return json.is_null() ? Json::object() : json;  // there, though empty
  }
  template <class T>
  static Json write(const std::vector<T>& all) {
    if (all.empty()) return {};
    Json json = Json::array();
    for (const T& one : all) json.push_back(write(one));
    return json;
  }
  template <class T>
  static Json write(const T& object) {
    Json json = Json::object();
    T copy = object;
    Packer packer = into(json);
    carry(packer, copy);
    return json;
  }

  static void read(const Json& json, std::string& text) { text = json.get<std::string>(); }
  static void read(const Json& json, int& number) { number = json.get<int>(); }
  static void read(const Json& json, double& number) { number = json.get<double>(); }
  static void read(const Json& json, bank::Kind& kind) {
    kind = static_cast<bank::Kind>(json.get<int>());
  }
  static void read(const Json& json, bank::Text& text) {
    text.english = json.at(0).get<std::string>();
    text.spanish = json.at(1).get<std::string>();
  }
  static void read(const Json& json, bank::FormulaText& formula) { read(json, formula.text); }
  template <class T>
  static void read(const Json& json, std::optional<T>& value) {
    value.emplace();
    if (!(json.is_object() && json.empty())) read(json, *value);
  }
  template <class T>
  static void read(const Json& json, std::vector<T>& all) {
    for (const Json& one : json) read(one, all.emplace_back());
  }
  template <class T>
  static void read(const Json& json, T& object) {
    Packer packer = out_of(json);
    carry(packer, object);
  }

  static void carry(Packer& p, bank::Grid& grid) {
    p.field("unit", grid.unit);
    p.field("from", grid.from);
    p.field("to", grid.to);
    p.field("step", grid.step);
  }
  static void carry(Packer& p, bank::Draw& draw) {
    p.field("name", draw.name);
    p.field("symbol", draw.symbol);
    p.field("meaning", draw.meaning);
    p.field("us", draw.us);
    p.field("si", draw.si);
  }
  static void carry(Packer& p, bank::PickChoice& choice) {
    p.field("id", choice.id);
    p.field("text", choice.text);
  }
  static void carry(Packer& p, bank::Pick& pick) {
    p.field("name", pick.name);
    p.field("pool", pick.pool);
    p.field("choices", pick.choices);
  }
  static void carry(Packer& p, bank::Shown& shown) {
    p.field("unit", shown.unit);
    p.field("places", shown.places);
    p.field("tolerance", shown.tolerance);
  }
  static void carry(Packer& p, bank::Let& let) {
    p.field("name", let.name);
    p.field("symbol", let.symbol);
    p.field("meaning", let.meaning);
    p.field("value", let.value);
    p.field("us", let.us);
    p.field("si", let.si);
  }
  static void carry(Packer& p, bank::Argument& argument) {
    p.field("input", argument.input);
    p.field("value", argument.value);
  }
  static void carry(Packer& p, bank::CalculationUse& use) {
    p.field("calculation", use.calculation);
    p.field("name", use.name);
    p.field("arguments", use.arguments);
  }
  static void carry(Packer& p, bank::Answer& answer) {
    p.field("value", answer.value);
    p.field("us", answer.us);
    p.field("si", answer.si);
  }
  static void carry(Packer& p, bank::Mistake& mistake) {
    p.field("id", mistake.id);
    p.field("change", mistake.change);
    p.field("to", mistake.to);
    p.field("value", mistake.value);
    p.field("says", mistake.says);
  }
  static void carry(Packer& p, bank::Option& option) {
    p.field("id", option.id);
    p.field("right", option.right);
    p.field("rank", option.rank);
    p.field("when", option.when);
    p.field("text", option.text);
    p.field("says", option.says);
  }
  static void carry(Packer& p, bank::Step& step) {
    p.field("of", step.of);
    p.field("text", step.text);
  }
  static void carry(Packer& p, bank::SourceText& source) {
    p.field("citation", source.citation);
    p.field("status", source.status);
    p.field("about", source.about);
  }
  static void carry(Packer& p, bank::Item::Derivation& derivation) {
    p.field("calculation", derivation.calculation);
    p.field("let", derivation.let);
  }
  static void carry(Packer& p, bank::Item& item) {
    p.field("id", item.id);
    p.field("topic", item.topic);
    p.field("training", item.training);
    p.field("level", item.level);
    p.field("kind", item.kind);
    p.field("title", item.title);
    p.field("draws", item.draws);
    p.field("picks", item.picks);
    p.field("rules", item.rules);
    p.field("limits", item.limits);
    p.field("derivations", item.derivations);
    p.field("keeps", item.keeps);
    p.field("stem", item.stem);
    p.field("answer", item.answer);
    p.field("mistakes", item.mistakes);
    p.field("options", item.options);
    p.field("options-shown", item.options_shown);
    p.field("steps", item.steps);
    p.field("figure-of", item.figure_of);
    p.field("sources", item.sources);
    p.field("points", item.points);
    p.field("minutes", item.minutes);
  }
  static void carry(Packer& p, bank::Limit& limit) {
    p.field("id", limit.id);
    p.field("name", limit.name);
    p.field("us", limit.us);
    p.field("si", limit.si);
    p.field("citation", limit.citation);
    p.field("status", limit.status);
  }
  static void carry(Packer& p, bank::Topic& topic) {
    p.field("id", topic.id);
    p.field("title", topic.title);
  }

  Json* into_;
  const Json* out_of_;
};

/// The bank's maps as lists.
struct Parts {
  std::string digest;
  std::vector<bank::Topic> topics;
  std::vector<bank::Item> items;
  std::vector<bank::Pick> pools;
  std::string rules;
  bank::Text rules_title;
  std::vector<bank::Limit> limits;

  void carry(Packer& p) {
    p.field("digest", digest);
    p.field("topics", topics);
    p.field("items", items);
    p.field("pools", pools);
    p.field("rules", rules);
    p.field("rules-title", rules_title);
    p.field("limits", limits);
  }
};

}  // namespace

nlohmann::ordered_json packed(const bank::Bank& bank, const std::string& rules) {
  const bank::RuleSet& set = bank.rules.at(rules);
  Parts parts{bank.digest, bank.topics, bank.items, {}, set.id, set.title, {}};
  for (const auto& [name, pool] : bank.pools) {
    parts.pools.push_back(pool);
    parts.pools.back().pool = name;
  }
  for (const auto& [id, limit] : set.limits) parts.limits.push_back(limit);
  Json json = Json::object();
  Packer packer = Packer::into(json);
  parts.carry(packer);
  return json;
}

bank::Bank unpacked(const nlohmann::ordered_json& json) {
  Parts parts;
  Packer packer = Packer::out_of(json);
  parts.carry(packer);
  bank::Bank bank;
  bank.digest = parts.digest;
  bank.topics = parts.topics;
  bank.items = parts.items;
  for (bank::Pick& pool : parts.pools) {
    const std::string name = std::exchange(pool.pool, {});
    bank.pools.emplace(name, std::move(pool));
  }
  bank::RuleSet set{parts.rules, parts.rules_title, {}, {}};
  for (const bank::Limit& limit : parts.limits) set.limits.emplace(limit.id, limit);
  bank.rules.emplace(set.id, std::move(set));
  return bank;
}

}  // namespace footroom::practice
