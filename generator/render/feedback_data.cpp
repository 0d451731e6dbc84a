#include "render/feedback_data.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace footroom::render {
namespace {

using Data = mustache::data;
using grade::Outcome;

/// What both kinds of page need.
struct Page {
  const Templates::Parts& parts;
  const quiz::Header& header;
  const Dress& dress;

  const std::string& label(std::string_view id) const {
    return parts.labels.at(id, header.style.language);
  }
  std::string label_with(std::string_view id, const std::string& first,
                         const std::string& second = {}) const {
    std::string text = label(id);
    for (const auto& [name, value] : {std::pair{"{1}", &first}, std::pair{"{2}", &second}})
      if (const auto at = text.find(name); at != std::string::npos) text.replace(at, 3, *value);
    return text;
  }
  std::string points(grade::Points points) const { return points.text(header.style); }
  std::string points_of(grade::Points points, grade::Points possible) const {
    const bool one = possible == grade::Points::whole(1);
    return label_with(one ? "one-point-of" : "points-of", this->points(points),
                      this->points(possible));
  }
};

std::string outcome_label(const Page& page, Outcome outcome) {
  return page.label(fmt::format("outcome-{}", name_of(outcome)));
}

// Told apart without colour: right, in part, wrong.
void set_mark(Data& data, const grade::QuestionResult& result) {
  const bool full = result.points == result.possible && result.outcome != Outcome::empty;
  const bool some = result.points.hundredths > 0;
  data.set("full", Data(full));
  data.set("part", Data(!full && some));
  data.set("none", Data(!full && !some));
}

void set_reading(Data& data, const Page& page, const grade::QuestionResult& result) {
  const bool read = !result.read.empty();
  const bool empty = result.outcome == Outcome::empty;
  data.set("empty", Data(empty));
  data.set("typed", result.typed);
  data.set("has-typed", Data(!empty && result.typed != result.read));
  data.set("read", read ? result.read : empty ? page.label("nothing-written") : std::string());
  data.set("has-read", Data(read || empty));
  data.set("unreadable", Data(result.outcome == Outcome::unreadable));
  data.set("reason", result.reason);
}

// The options of a choice, with what was marked and what it shows.
void set_options(Data& data, const Page& page, const quiz::Question& question,
                 const grade::QuestionResult& result) {
  data.set("has-choice", Data(question.kind != quiz::Kind::order && !question.options.empty()));
  data.set("has-order", Data(question.kind == quiz::Kind::order));
  set_list(data, "marked-options", question.options, [&](const quiz::Option& option) {
    const bool chosen =
        std::find(result.chosen.begin(), result.chosen.end(), option.id) != result.chosen.end();
    const bool says = !option.says.empty() && (chosen || option.right);
    Data one;
    one.set("letter", option.letter);
    one.set("option-text", page.dress.option(option.text));
    one.set("chosen", Data(chosen));
    one.set("right", Data(option.right));
    one.set("place", std::to_string(option.place));
    one.set("has-option-says", Data(says));
    one.set("option-says", says ? page.dress.option(option.says) : std::string());
    return one;
  });
}

Data question_result(const Page& page, const quiz::Sheet& sheet, const quiz::Question& question,
                     const grade::QuestionResult& result) {
  Data data = question_data(page.parts, page.header, sheet, question, Face::key, page.dress);
  // Of a choice the options themselves say it.
  const bool says = !result.says.empty() && question.kind == quiz::Kind::number;
  data.set("outcome", outcome_label(page, result.outcome));
  data.set("has-mistake", Data(says));
  data.set("mistake", says ? page.dress.option(result.says) : std::string());
  data.set("earned", page.points_of(result.points, result.possible));
  data.set("earned-number", page.points(result.points));
  data.set("possible-number", page.points(result.possible));
  set_mark(data, result);
  set_reading(data, page, result);
  set_options(data, page, question, result);
  return data;
}

void set_scores(Data& data, const Page& page, const grade::ClassReport& report) {
  set_list(data, "scores", report.results.seats, [&](const grade::SeatResult& seat) {
    Data one;
    one.set("score-seat", seat.seat);
    one.set("score-name", seat.name);
    one.set("score-points", page.points(seat.points));
    one.set("score-possible", page.points(seat.possible));
    one.set("score-percent", grade::percent_text(seat.points, seat.possible, page.header.style));
    return one;
  });
}

void set_items(Data& data, const Page& page, const grade::ClassReport& report) {
  set_list(data, "items", report.items, [&](const grade::ItemLine& line) {
    Data one;
    one.set("item-title", line.title);
    one.set("item-topic", line.topic_title);
    one.set("item-level", std::to_string(line.level));
    one.set("right-by",
            page.label_with("right-by", std::to_string(line.right), std::to_string(line.asked)));
    one.set("item-percent", grade::percent_text(line.points, line.possible, page.header.style));
    return one;
  });
}

void set_mistakes(Data& data, const Page& page, const grade::ClassReport& report) {
  constexpr std::size_t to_teach = 3;
  std::vector<grade::MistakeLine> first(
      report.mistakes.begin(), report.mistakes.begin() + static_cast<std::ptrdiff_t>(std::min(
                                                             to_teach, report.mistakes.size())));
  set_list(data, "taught", first, [&](const grade::MistakeLine& line) {
    Data one;
    one.set("item-title", line.title);
    one.set("says", page.dress.option(line.says));
    one.set("made-by",
            page.label_with("made-by", std::to_string(line.made), std::to_string(line.asked)));
    one.set("example-seat", line.example_seat);
    one.set("example-read", line.example_read);
    one.set("example-right", line.example_right);
    return one;
  });
}

void set_to_check(Data& data, const grade::ClassReport& report) {
  set_list(data, "to-check", report.to_check, [](const grade::ToCheck& check) {
    Data one;
    one.set("check-seat", check.seat);
    one.set("check-name", check.name);
    one.set("check-number", std::to_string(check.number));
    one.set("item-title", check.title);
    one.set("typed", check.typed);
    one.set("reason", check.reason);
    return one;
  });
}

void set_credit(Data& data, const Page& page, const grade::Credit& credit) {
  struct Rule {
    Outcome outcome;
    int percent;
  };
  const std::vector<Rule> rules{
      {Outcome::right, 100},
      {Outcome::right_in_other_unit, credit.right_in_other_unit},
      {Outcome::right_without_unit, credit.right_without_unit},
      {Outcome::right_with_wrong_unit, credit.right_with_wrong_unit},
      {Outcome::named_mistake, credit.mistake},
      {Outcome::general_mistake, credit.mistake},
      {Outcome::wrong, 0},
  };
  set_list(data, "credit", rules, [&](const Rule& rule) {
    Data one;
    one.set("outcome", outcome_label(page, rule.outcome));
    one.set("share", fmt::format("{}%", rule.percent));
    return one;
  });
}

std::string seats_text(const Page& page, const grade::Results& results) {
  std::string text = page.label_with("seats-graded", std::to_string(results.seats.size()));
  if (results.absent.empty()) return text;
  return text + " · " +
         page.label_with("seats-absent", std::to_string(results.absent.size()),
                         fmt::format("{}", fmt::join(results.absent, ", ")));
}

}  // namespace

Data feedback_data(const Templates::Parts& parts, const quiz::Header& header,
                   const quiz::Sheet& sheet, const grade::SeatResult& result, const Dress& dress) {
  const Page page{parts, header, dress};
  Data data = head_data(parts, header, sheet, Face::key, dress);
  data.set("face-title", page.label("feedback-title"));
  data.set("has-name", Data(!result.name.empty()));
  data.set("name", result.name);
  data.set("total", page.points_of(result.points, result.possible));
  data.set("total-percent", grade::percent_text(result.points, result.possible, header.style));
  Data all(Data::type::list);
  Data again(Data::type::list);
  bool any_again = false;
  for (std::size_t i = 0; i < sheet.questions.size(); ++i) {
    const Data one = question_result(page, sheet, sheet.questions[i], result.questions.at(i));
    all << one;
    if (result.questions[i].points == result.questions[i].possible &&
        result.questions[i].outcome != Outcome::empty)
      continue;
    again << one;
    any_again = true;
  }
  data.set("questions", all);
  data.set("has-again", Data(any_again));
  data.set("again", again);
  return data;
}

Data class_report_data(const Templates::Parts& parts, const quiz::Header& header,
                       const grade::ClassReport& report, const Dress& dress) {
  const Page page{parts, header, dress};
  Data data = page_data(parts, header, Face::key);
  data.set("face-title", page.label("class-report-title"));
  data.set("code", header.code);
  data.set("seats", seats_text(page, report.results));
  data.set("graded", Data(!report.results.seats.empty()));
  data.set("mean", report.mean);
  data.set("median", report.median);
  data.set("lowest", report.lowest);
  data.set("highest", report.highest);
  data.set("drawing", dress.drawing(report.distribution, "class-scores"));
  data.set("figure-title", report.distribution.title);
  data.set("figure-description", report.distribution.description);
  set_scores(data, page, report);
  set_items(data, page, report);
  set_mistakes(data, page, report);
  set_to_check(data, report);
  set_credit(data, page, report.credit);
  return data;
}

}  // namespace footroom::render
