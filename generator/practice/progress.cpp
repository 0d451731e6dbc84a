#include "practice/progress.hpp"

#include <algorithm>
#include <iterator>
#include <nlohmann/json.hpp>

#include "grade/json_reader.hpp"

namespace footroom::practice {
namespace {

using Json = nlohmann::ordered_json;
using grade::JsonReader;

constexpr int most_questions = 1'000'000'000;

Json asked_json(const Asked& asked) {
  Json json{{"item", asked.item}, {"position", asked.position}, {"typed", asked.typed}};
  put_face(json, asked.face);
  if (asked.steps > 0) json["steps"] = asked.steps;
  return json;
}

Asked read_asked(const JsonReader& at) {
  Asked asked;
  asked.item = at.text("item");
  asked.position = at.member("position").whole(0, most_questions);
  asked.face = read_face(at);
  asked.typed = at.text("typed");
  if (asked.typed.size() > longest_typed) at.refuse("is too long");
  if (at.has("steps")) asked.steps = at.member("steps").whole(1, most_steps);
  return asked;
}

Json family_json(const Family& family) {
  Json json{{"asked", family.asked}, {"right", family.right}};
  if (family.due) {
    json["due"] = *family.due;
    json["stage"] = family.stage;
  }
  return json;
}

Family read_family(const JsonReader& at) {
  Family family;
  family.asked = at.member("asked").whole(0, most_questions);
  family.right = at.member("right").whole(0, family.asked);
  if (at.has("due")) {
    family.due = at.member("due").whole(0, most_questions + returns_after[2]);
    family.stage = at.member("stage").whole(0, static_cast<int>(std::size(returns_after)) - 1);
  }
  return family;
}

Progress read(const JsonReader& whole) {
  Progress progress;
  progress.bank = whole.text("bank");
  progress.rules = whole.text("rules");
  progress.asked = whole.member("asked").whole(0, most_questions);
  progress.position = whole.member("position").whole(0, most_questions);
  progress.right = whole.member("right").whole(0, most_questions);
  if (whole.has("seed")) {
    progress.begun = true;
    progress.seed = whole.member("seed").natural();
    if (progress.seed > greatest_seed) whole.refuse("has too great a seed");
  }
  for (const auto& [item, family] : whole.member("families").members())
    progress.families.emplace(item, read_family(family));
  const auto sitting = whole.member("sitting").elements();
  if (sitting.size() > longest_sitting) whole.refuse("has too many questions");
  for (const JsonReader& at : sitting) progress.sitting.push_back(read_asked(at));
  if (whole.has("open")) {
    const JsonReader at = whole.member("open");
    Open open;
    open.asked = read_asked(at);
    open.returned = at.member("returned").truth();
    open.answered = at.member("answered").truth();
    open.shown = at.member("shown").whole(0, most_steps);
    progress.open = open;
  }
  return progress;
}

}  // namespace

std::string text_of(const Progress& progress) {
  Json json{{"format", 1},
            {"bank", progress.bank},
            {"rules", progress.rules},
            {"asked", progress.asked},
            {"position", progress.position},
            {"right", progress.right}};
  if (progress.begun) json["seed"] = progress.seed;
  Json families = Json::object();
  for (const auto& [item, family] : progress.families) families[item] = family_json(family);
  json["families"] = std::move(families);
  Json sitting = Json::array();
  for (const Asked& asked : progress.sitting) sitting.push_back(asked_json(asked));
  json["sitting"] = std::move(sitting);
  if (progress.open) {
    Json open = asked_json(progress.open->asked);
    open["returned"] = progress.open->returned;
    open["answered"] = progress.open->answered;
    open["shown"] = progress.open->shown;
    json["open"] = std::move(open);
  }
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::optional<Progress> read_progress(const std::string& text, const bank::Bank& bank,
                                      const std::string& rules) {
  try {
    const nlohmann::json json = grade::parse_json(text, "progress");
    const JsonReader whole(json, "progress");
    whole.member("format").whole(1, 1);
    Progress progress = read(whole);
    if (progress.bank != bank.digest || progress.rules != rules) return std::nullopt;
    const auto known = [&](const std::string& item) {
      return std::any_of(bank.items.begin(), bank.items.end(),
                         [&](const bank::Item& one) { return one.id == item; });
    };
    for (const auto& [item, family] : progress.families)
      if (!known(item)) return std::nullopt;
    for (const Asked& asked : progress.sitting)
      if (!known(asked.item)) return std::nullopt;
    if (progress.open && !known(progress.open->asked.item)) return std::nullopt;
    return progress;
  } catch (const grade::FaultyFile&) {
    return std::nullopt;
  }
}

}  // namespace footroom::practice
