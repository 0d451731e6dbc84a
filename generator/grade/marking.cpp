#include "grade/marking.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "grade/characters.hpp"
#include "grade/reading.hpp"
#include "notation/unit.hpp"
#include "quiz/right_letters.hpp"

namespace footroom::grade {
namespace {

std::string in_words(notation::Style style, engine::Text text) {
  return std::string(text.in(style.language));
}

class NumberMarker {
 public:
  NumberMarker(const quiz::Question& question, const WrittenNumber& written, const Credit& credit,
               notation::Style style, QuestionResult& result)
      : question_(question),
        answer_(*question.answer),
        asked_(*notation::find_unit(answer_.unit)),
        written_(written),
        credit_(credit),
        style_(style),
        result_(result) {}

  void mark() {
    if (written_.comparable && fits(written_.value, answer_.number)) return mark_right();
    if (written_.unit && !same_unit() && fits(written_.number, answer_.number))
      return set(Outcome::right_with_wrong_unit, credit_.right_with_wrong_unit, {}, wrong_unit());
    if (!written_.comparable) return set(Outcome::wrong, 0, {}, wrong_kind());
    if (const quiz::Mistake* mistake = nearest_mistake())
      return set(Outcome::named_mistake, credit_.mistake, mistake->id, mistake->says);
    if (fits(-written_.value, answer_.number))
      return set(Outcome::general_mistake, credit_.mistake, "sign",
                 in_words(style_, {"The number is right, its sign is not.",
                                   "El número es correcto, su signo no."}));
    if (mark_other_unit_meant()) return;
    set(Outcome::wrong, 0, {}, {});
  }

 private:
  bool fits(double value, double target) const {
    return std::abs(value - target) <= widened(answer_.tolerance, target);
  }
  /// A mass stands for its weight in everyday speech: "1,800 lb" is 1,800 lbf.
  bool same_unit() const {
    const std::string_view unit = written_.unit->name;
    return unit == asked_.name || (unit == "ft" && asked_.name == "ft-in") ||
           (unit == "lb" && asked_.name == "lbf");
  }

  void set(Outcome outcome, int percent, std::string mistake, std::string says) {
    result_.outcome = outcome;
    result_.points = result_.possible.share(percent, 100);
    result_.mistake = std::move(mistake);
    result_.says = std::move(says);
  }

  void mark_right() {
    if (!written_.unit && !asked_.name.empty() && asked_.name != "pitch")
      return set(Outcome::right_without_unit, credit_.right_without_unit, {}, {});
    if (written_.unit && !same_unit())
      return set(Outcome::right_in_other_unit, credit_.right_in_other_unit, {}, {});
    set(Outcome::right, 100, {}, {});
  }

  std::string wrong_unit() const {
    return fmt::format(fmt::runtime(engine::Text{"The number is right, but {} is not {}.",
                                                 "El número es correcto, pero {} no es {}."}
                                        .in(style_.language)),
                       written_.text, answer_.text);
  }
  std::string wrong_kind() const {
    return fmt::format(
        fmt::runtime(
            engine::Text{"{} does not measure what is asked for.", "{} no mide lo que se pide."}.in(
                style_.language)),
        written_.text);
  }

  const quiz::Mistake* nearest_mistake() const {
    const quiz::Mistake* nearest = nullptr;
    double least = 0;
    for (const quiz::Mistake& mistake : question_.mistakes) {
      if (!mistake.number || !fits(written_.value, *mistake.number)) continue;
      const double distance = std::abs(written_.value - *mistake.number);
      if (nearest && !(distance < least)) continue;
      nearest = &mistake;
      least = distance;
    }
    return nearest;
  }

  /// What the number would be in the asked unit, had it been written in `unit`.
  std::optional<double> meant_in(const notation::Unit& unit) const {
    double si = unit.to_si(written_.number);
    const bool weight =
        unit.dimension == engine::dimension::mass && asked_.dimension == engine::dimension::force;
    if (weight)
      si *= engine::standard_gravity.value();
    else if (unit.dimension != asked_.dimension)
      return std::nullopt;
    return asked_.from_si(si);
  }

  bool mark_other_unit_meant() {
    if (written_.unit && !same_unit()) return false;
    for (const notation::Unit& unit : notation::all_units()) {
      if (unit.name == asked_.name || unit.name.empty()) continue;
      const auto meant = meant_in(unit);
      if (!meant || !fits(*meant, answer_.number)) continue;
      const std::string shown = notation::write_quantity_shortest(written_.number, unit, style_);
      set(Outcome::general_mistake, credit_.mistake, fmt::format("unit-{}", unit.name),
          fmt::format(fmt::runtime(engine::Text{"{0} would be right: the number is in another unit "
                                                "than the one asked for.",
                                                "{0} sería correcto: el número está en otra unidad "
                                                "que la que se pide."}
                                       .in(style_.language)),
                      shown));
      return true;
    }
    return false;
  }

  const quiz::Question& question_;
  const quiz::NumberAnswer& answer_;
  const notation::Unit& asked_;
  const WrittenNumber& written_;
  const Credit& credit_;
  notation::Style style_;
  QuestionResult& result_;
};

const quiz::Option& option_of(const quiz::Question& question, const std::string& letter) {
  return *std::find_if(question.options.begin(), question.options.end(),
                       [&](const quiz::Option& option) { return option.letter == letter; });
}

std::string says_of(const quiz::Question& question, const quiz::Option& option) {
  if (!option.says.empty()) return option.says;
  for (const quiz::Mistake& mistake : question.mistakes)
    if (mistake.letter == option.letter) return mistake.says;
  return {};
}

void mark_choice(const quiz::Question& question, const std::vector<std::string>& letters,
                 QuestionResult& result) {
  std::int64_t right_marks = 0;
  std::int64_t wrong_marks = 0;
  for (const std::string& letter : letters) {
    const quiz::Option& option = option_of(question, letter);
    if (option.right) {
      ++right_marks;
      continue;
    }
    ++wrong_marks;
    if (result.mistake.empty()) result.mistake = option.id;
    const std::string says = says_of(question, option);
    if (!says.empty()) result.says += (result.says.empty() ? "" : "\n\n") + says;
  }
  const auto all_right = static_cast<std::int64_t>(quiz::right_letters(question).size());
  const std::int64_t earned = std::max<std::int64_t>(right_marks - wrong_marks, 0);
  result.points = result.possible.share(earned, all_right);
  if (earned == all_right)
    result.outcome = Outcome::right;
  else if (earned > 0)
    result.outcome = Outcome::partly_right;
  else
    result.outcome = wrong_marks > 0 ? Outcome::named_mistake : Outcome::wrong;
}

void mark_order(const quiz::Question& question, const std::vector<std::string>& letters,
                QuestionResult& result) {
  std::int64_t in_order = 0;
  std::int64_t pairs = 0;
  for (std::size_t i = 0; i < letters.size(); ++i)
    for (std::size_t j = i + 1; j < letters.size(); ++j) {
      ++pairs;
      in_order += option_of(question, letters[i]).place < option_of(question, letters[j]).place;
    }
  const std::int64_t earned = std::max<std::int64_t>(2 * in_order - pairs, 0);
  result.points = result.possible.share(earned, pairs);
  result.outcome = earned == pairs ? Outcome::right
                   : earned > 0    ? Outcome::partly_right
                                   : Outcome::wrong;
}

std::string joined_letters(const std::vector<std::string>& letters, quiz::Kind kind) {
  return fmt::format("{}", fmt::join(letters, kind == quiz::Kind::order ? " " : ", "));
}

void mark_letters(const quiz::Question& question, const std::vector<std::string>& letters,
                  notation::Style style, QuestionResult& result) {
  result.read = letters.empty() ? in_words(style, {"none", "ninguna"})
                                : joined_letters(letters, question.kind);
  for (const std::string& letter : letters) result.chosen.push_back(option_of(question, letter).id);
  if (question.kind == quiz::Kind::order)
    mark_order(question, letters, result);
  else
    mark_choice(question, letters, result);
}

quiz::Question in_class_words(quiz::Question question) {
  if (!question.class_words) return question;
  const quiz::ClassWords& words = *question.class_words;
  question.title = words.title;
  question.topic_title = words.topic_title;
  if (question.answer) question.answer->text = words.answer;
  const auto say = [&](const std::string& id, std::string& says) {
    if (const auto found = words.says.find(id); found != words.says.end()) says = found->second;
  };
  for (quiz::Mistake& mistake : question.mistakes) say(mistake.id, mistake.says);
  for (quiz::Option& option : question.options) say(option.id, option.says);
  return question;
}

quiz::Sheet in_class_words(quiz::Sheet sheet) {
  for (quiz::Question& question : sheet.questions) question = in_class_words(std::move(question));
  return sheet;
}

}  // namespace

double widened(double tolerance, double value) {
  return tolerance + 1e-9 * std::max(tolerance, std::abs(value));
}

QuestionResult mark(const quiz::Question& question, std::string_view typed, const Credit& credit,
                    notation::Style style) {
  QuestionResult result;
  result.number = question.number;
  result.item = question.item;
  result.topic = question.topic;
  result.topic_title = question.topic_title;
  result.level = question.level;
  result.kind = question.kind;
  result.title = question.title;
  result.typed = cut_short(typed, longest_answer);
  result.possible = Points::whole(question.points);
  const bool number = question.kind == quiz::Kind::number;
  result.right =
      number ? question.answer->text : joined_letters(quiz::right_letters(question), question.kind);
  if (is_no_answer(typed)) return result;
  result.outcome = Outcome::unreadable;
  if (number) {
    const auto read = read_number(typed, *notation::find_unit(question.answer->unit), style);
    if (const auto* written = std::get_if<WrittenNumber>(&read)) {
      result.read = written->text;
      if (written->comparable) result.value = written->value;
      NumberMarker(question, *written, credit, style, result).mark();
    } else {
      result.reason = std::get<Unreadable>(read).reason;
    }
    return result;
  }
  const auto read = read_letters(typed, question, style);
  if (const auto* letters = std::get_if<std::vector<std::string>>(&read))
    mark_letters(question, *letters, style, result);
  else
    result.reason = std::get<Unreadable>(read).reason;
  return result;
}

SeatResult mark_sheet(const quiz::Sheet& sheet, const Response& response, const Credit& credit,
                      notation::Style style) {
  SeatResult seat{
      sheet.seat, response.name.empty() ? sheet.name : response.name, sheet.code, {}, {}, {}};
  for (std::size_t i = 0; i < sheet.questions.size(); ++i) {
    seat.questions.push_back(mark(sheet.questions[i], response.answers.at(i), credit, style));
    seat.points += seat.questions.back().points;
    seat.possible += seat.questions.back().possible;
  }
  return seat;
}

Results mark_class(const Quiz& quiz, const std::vector<Response>& responses, const Credit& credit,
                   const std::string& program) {
  const quiz::Header& header = quiz.header;
  Results results;
  results.quiz = header.code;
  results.title = header.title;
  results.course = header.course;
  results.date = header.date;
  results.blueprint = header.blueprint;
  results.bank = header.bank_digest;
  results.program = program;
  results.rules = header.rules;
  results.system = header.system;
  results.style = header.style;
  for (const quiz::Sheet& sheet : quiz.sheets) {
    const auto response = std::find_if(responses.begin(), responses.end(),
                                       [&](const Response& one) { return one.seat == sheet.seat; });
    const bool absent =
        response == responses.end() ||
        std::all_of(response->answers.begin(), response->answers.end(), is_no_answer);
    if (absent) {
      results.absent.push_back(sheet.seat);
      continue;
    }
    results.seats.push_back(mark_sheet(in_class_words(sheet), *response, credit, header.style));
  }
  return results;
}

}  // namespace footroom::grade
