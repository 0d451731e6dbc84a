#include "grade/results.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "grade/json_reader.hpp"
#include "grade/names.hpp"

namespace footroom::grade {
namespace {

using Json = nlohmann::ordered_json;

struct OutcomeName {
  Outcome outcome;
  std::string_view name;
};
constexpr std::array outcome_names{
    OutcomeName{Outcome::right, "right"},
    OutcomeName{Outcome::right_in_other_unit, "right-in-other-unit"},
    OutcomeName{Outcome::right_without_unit, "right-without-unit"},
    OutcomeName{Outcome::right_with_wrong_unit, "right-with-wrong-unit"},
    OutcomeName{Outcome::partly_right, "partly-right"},
    OutcomeName{Outcome::named_mistake, "named-mistake"},
    OutcomeName{Outcome::general_mistake, "general-mistake"},
    OutcomeName{Outcome::wrong, "wrong"},
    OutcomeName{Outcome::empty, "empty"},
    OutcomeName{Outcome::unreadable, "unreadable"},
};

constexpr int most_points = 1'000'000;

double points_number(Points points) {
  return static_cast<double>(points.hundredths) / 100;
}

Points read_points(const JsonReader& at) {
  const double number = at.number();
  if (!(number >= 0 && number <= most_points)) at.refuse("expected points from 0 to 1000000");
  return {std::llround(number * 100)};
}

Json question_json(const QuestionResult& question) {
  Json json{
      {"number", question.number}, {"item", question.item},
      {"topic", question.topic},   {"topic-title", question.topic_title},
      {"level", question.level},   {"kind", kind_names()[static_cast<std::size_t>(question.kind)]},
      {"title", question.title},   {"outcome", name_of(question.outcome)}};
  if (!question.mistake.empty()) json["mistake"] = question.mistake;
  if (!question.says.empty()) json["says"] = question.says;
  json["typed"] = question.typed;
  json["read"] = question.read;
  if (!question.reason.empty()) json["reason"] = question.reason;
  if (question.value) json["value"] = *question.value;
  if (question.kind != quiz::Kind::number) json["chosen"] = question.chosen;
  json["right"] = question.right;
  json["points"] = points_number(question.points);
  json["possible"] = points_number(question.possible);
  return json;
}

QuestionResult read_question(const JsonReader& at) {
  QuestionResult question;
  question.number = at.member("number").whole(1, 1'000'000);
  question.item = at.text("item");
  question.topic = at.text("topic");
  question.topic_title = at.text("topic-title");
  question.level = at.member("level").whole(1, 4);
  question.kind = static_cast<quiz::Kind>(at.choice("kind", kind_names()));
  question.title = at.text("title");
  std::vector<std::string> outcomes;
  for (const OutcomeName& one : outcome_names) outcomes.emplace_back(one.name);
  question.outcome = outcome_names[at.choice("outcome", outcomes)].outcome;
  question.mistake = at.text_or("mistake", {});
  question.says = at.text_or("says", {});
  question.typed = at.text("typed");
  question.read = at.text("read");
  question.reason = at.text_or("reason", {});
  if (at.has("value")) question.value = at.member("value").number();
  if (at.has("chosen"))
    for (const JsonReader& option : at.member("chosen").elements())
      question.chosen.push_back(option.text());
  question.right = at.text("right");
  question.points = read_points(at.member("points"));
  question.possible = read_points(at.member("possible"));
  return question;
}

}  // namespace

std::string_view name_of(Outcome outcome) {
  const auto found = std::find_if(outcome_names.begin(), outcome_names.end(),
                                  [&](const OutcomeName& one) { return one.outcome == outcome; });
  return found->name;
}

std::optional<Outcome> find_outcome(std::string_view name) {
  for (const OutcomeName& one : outcome_names)
    if (one.name == name) return one.outcome;
  return std::nullopt;
}

bool is_right(Outcome outcome) {
  return outcome == Outcome::right || outcome == Outcome::right_in_other_unit ||
         outcome == Outcome::right_without_unit;
}

Points Points::share(std::int64_t numerator, std::int64_t denominator) const {
  return {(2 * hundredths * numerator + denominator) / (2 * denominator)};
}

std::string Points::text(notation::Style style) const {
  return notation::write_shortest(points_number(*this), style);
}

std::string results_json(const Results& results) {
  Json seats = Json::array();
  for (const SeatResult& seat : results.seats) {
    Json questions = Json::array();
    for (const QuestionResult& question : seat.questions)
      questions.push_back(question_json(question));
    seats.push_back({{"seat", seat.seat},
                     {"name", seat.name},
                     {"code", seat.code},
                     {"points", points_number(seat.points)},
                     {"possible", points_number(seat.possible)},
                     {"questions", std::move(questions)}});
  }
  Json json{{"format", 1}};
  if (results.practice) json["occasion"] = "practice";
  json.update({{"quiz", results.quiz},
               {"title", results.title},
               {"course", results.course},
               {"date", results.date},
               {"blueprint", results.blueprint},
               {"bank", results.bank},
               {"program", results.program},
               {"rules", results.rules},
               {"units", system_names()[results.system == notation::System::us ? 0 : 1]},
               {"language", language_names()[static_cast<std::size_t>(results.style.language)]},
               {"decimal-mark", decimal_mark_names()[results.style.decimal_mark == '.' ? 0 : 1]},
               {"seats", std::move(seats)},
               {"absent", results.absent}});
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

Results read_results(std::string_view text, const std::string& file) {
  const nlohmann::json json = parse_json(text, file);
  const JsonReader whole(json, file);
  whole.member("format").whole(1, 1);
  Results results;
  if (whole.has("occasion")) results.practice = whole.choice("occasion", {"test", "practice"}) == 1;
  results.quiz = whole.text("quiz");
  results.title = whole.text("title");
  results.course = whole.text("course");
  results.date = whole.text("date");
  results.blueprint = whole.text("blueprint");
  results.bank = whole.text("bank");
  results.program = whole.text("program");
  results.rules = whole.text("rules");
  results.system =
      whole.choice("units", system_names()) == 0 ? notation::System::us : notation::System::si;
  results.style.language =
      static_cast<engine::Language>(whole.choice("language", language_names()));
  results.style.decimal_mark = whole.choice("decimal-mark", decimal_mark_names()) == 0 ? '.' : ',';
  for (const JsonReader& at : whole.member("seats").elements()) {
    SeatResult seat;
    seat.seat = at.text("seat");
    seat.name = at.text("name");
    seat.code = at.text("code");
    seat.points = read_points(at.member("points"));
    seat.possible = read_points(at.member("possible"));
    for (const JsonReader& question : at.member("questions").elements())
      seat.questions.push_back(read_question(question));
    results.seats.push_back(std::move(seat));
  }
  for (const JsonReader& seat : whole.member("absent").elements())
    results.absent.push_back(seat.text());
  return results;
}

}  // namespace footroom::grade
