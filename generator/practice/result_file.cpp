#include "practice/result_file.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "grade/characters.hpp"
#include "grade/json_reader.hpp"

namespace footroom::practice {
namespace {

using Json = nlohmann::ordered_json;
using grade::JsonReader;

constexpr int most_positions = 1'000'000;

bool is_day(const std::string& text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return false;
  for (const std::size_t i : {0, 1, 2, 3, 5, 6, 8, 9})
    if (!grade::is_digit(text[i])) return false;
  return true;
}

Asked read_question(const JsonReader& at) {
  Asked asked;
  asked.item = at.text("item");
  asked.position = at.member("position").whole(0, most_positions);
  asked.face = read_face(at);
  asked.typed = at.text("typed");
  if (asked.typed.size() > longest_typed)
    at.member("typed").refuse("is longer than " + std::to_string(longest_typed) + " bytes");
  if (at.has("steps")) asked.steps = at.member("steps").whole(1, most_steps);
  return asked;
}

}  // namespace

std::string result_json(const ResultFile& file) {
  Json questions = Json::array();
  for (const Asked& asked : file.progress.sitting) {
    Json one{{"item", asked.item}, {"position", asked.position}};
    put_face(one, asked.face);
    one["typed"] = asked.typed;
    if (asked.steps > 0) one["steps"] = asked.steps;
    questions.push_back(std::move(one));
  }
  const Json json{{"format", 1},
                  {"occasion", "practice"},
                  {"name", grade::cut_short(file.name, longest_name)},
                  {"date", file.date},
                  {"program", file.program},
                  {"bank", file.progress.bank},
                  {"rules", file.progress.rules},
                  {"seed", file.progress.seed},
                  {"questions", std::move(questions)}};
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

bool is_result(std::string_view json) {
  const auto parsed = nlohmann::json::parse(json, nullptr, false);
  if (!parsed.is_object() || !parsed.contains("questions")) return false;
  const auto occasion = parsed.find("occasion");
  return occasion != parsed.end() && *occasion == "practice";
}

ResultFile read_result(std::string_view text, const std::string& file) {
  const nlohmann::json json = grade::parse_json(text, file);
  const JsonReader whole(json, file);
  whole.member("format").whole(1, 1);
  whole.choice("occasion", {"practice"});
  ResultFile result;
  result.name = whole.text("name");
  if (result.name.size() > longest_name)
    whole.member("name").refuse("is longer than " + std::to_string(longest_name) + " bytes");
  result.date = whole.text("date");
  if (!is_day(result.date)) whole.member("date").refuse("expected a day as YYYY-MM-DD");
  result.program = whole.text("program");
  result.progress.bank = whole.text("bank");
  result.progress.rules = whole.text("rules");
  result.progress.seed = whole.member("seed").natural();
  if (result.progress.seed > greatest_seed)
    whole.member("seed").refuse("expected at most " + std::to_string(greatest_seed));
  const auto questions = whole.member("questions").elements();
  if (questions.empty()) whole.member("questions").refuse("is empty: nothing was answered");
  if (questions.size() > longest_sitting)
    whole.member("questions")
        .refuse("has more than " + std::to_string(longest_sitting) + " questions");
  for (const JsonReader& at : questions) {
    Asked asked = read_question(at);
    // A position is asked once, so that no right answer can be handed in many times.
    if (!result.progress.sitting.empty() &&
        asked.position <= result.progress.sitting.back().position)
      at.member("position").refuse("expected more than the one before");
    result.progress.sitting.push_back(std::move(asked));
  }
  return result;
}

}  // namespace footroom::practice
