#include "grade/quiz_file.hpp"

#include <algorithm>
#include <set>

#include "grade/json_reader.hpp"
#include "grade/names.hpp"
#include "notation/unit_text.hpp"

namespace footroom::grade {
namespace {

constexpr int most = 1'000'000;
constexpr int deepest_mathematics = 64;

/// Seats, letters and codes become parts of file names.
std::string name_of_characters(const JsonReader& at, std::string_view allowed,
                               const std::string& expected) {
  const std::string text = at.text();
  if (text.empty() || text.size() > 64 || text.find_first_not_of(allowed) != std::string::npos)
    at.refuse("expected " + expected);
  return text;
}

std::string capital_letters(const JsonReader& at) {
  return name_of_characters(at, "ABCDEFGHIJKLMNOPQRSTUVWXYZ", "capital letters");
}

/// The code of a quiz or of a sheet.
std::string code(const JsonReader& at) {
  return name_of_characters(at, "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-",
                            "capital letters and digits");
}

std::string status(const JsonReader& at) {
  static const std::vector<std::string> names{"read", "second-hand", "from-memory", "computed",
                                              "common-practice"};
  return names[at.choice("status", names)];
}

notation::Math math(const JsonReader& at, int depth = 0) {
  using Kind = notation::Math::Kind;
  struct Box {
    std::string_view name;
    Kind kind;
    std::size_t parts;  ///< 0: any number
  };
  static const std::vector<Box> boxes{
      {"row", Kind::row, 0},           {"identifier", Kind::identifier, 0},
      {"number", Kind::number, 0},     {"sign", Kind::sign, 0},
      {"fraction", Kind::fraction, 2}, {"root", Kind::root, 1},
      {"power", Kind::power, 2},       {"subscript", Kind::subscript, 2},
      {"fence", Kind::fence, 0},       {"absolute", Kind::fence, 0},
  };
  if (depth > deepest_mathematics) at.refuse("goes deeper than 64 boxes");
  const auto members = at.members();
  const auto box = std::find_if(boxes.begin(), boxes.end(), [&](const Box& one) {
    return members.size() == 1 && members.front().first == one.name;
  });
  if (box == boxes.end()) at.refuse("expected one box of mathematics");
  const JsonReader& inside = members.front().second;
  notation::Math made{box->kind, {}, {}};
  if (box->kind == Kind::identifier || box->kind == Kind::number || box->kind == Kind::sign) {
    made.text = inside.text();
    return made;
  }
  if (box->name == "absolute") made.text = "|";
  for (const JsonReader& part : inside.elements()) made.parts.push_back(math(part, depth + 1));
  if (box->parts > 0 && made.parts.size() != box->parts)
    inside.refuse("expected " + std::to_string(box->parts) + " parts");
  return made;
}

quiz::WorkedStep step(const JsonReader& at) {
  quiz::WorkedStep made;
  made.says = at.text_or("says", {});
  if (!at.has("value")) return made;
  quiz::WorkedStep::Line line;
  line.name = at.text("value");
  line.result = at.text("result");
  if (at.has("math")) {
    line.symbols = math(at.member("math").member("symbols"));
    line.numbers = math(at.member("math").member("numbers"));
  } else {
    line.symbols = {notation::Math::Kind::identifier, at.text("symbols"), {}};
    line.numbers = {notation::Math::Kind::number, at.text("numbers"), {}};
  }
  made.line = std::move(line);
  return made;
}

quiz::NumberAnswer number_answer(const JsonReader& at, engine::Language language) {
  quiz::NumberAnswer answer;
  answer.unit = at.text("unit");
  const notation::Unit* unit = notation::find_unit(answer.unit);
  if (!unit || unit->name != answer.unit)
    at.member("unit").refuse("is \"" + answer.unit + "\", expected the name of a unit");
  answer.quantity = {unit->dimension, at.member("si").number()};
  answer.number = at.member("value").number();
  answer.tolerance = at.member("tolerance").number();
  if (!(answer.tolerance >= 0)) at.member("tolerance").refuse("expected 0 or more");
  answer.text = at.text("text");
  answer.unit_text = notation::unit_alone(*unit, language);
  return answer;
}

std::vector<quiz::Option> options(const JsonReader& at, quiz::Kind kind) {
  std::vector<quiz::Option> all;
  std::set<std::string> letters;
  std::set<int> places;
  std::size_t right = 0;
  const auto elements = at.elements();
  for (const JsonReader& one : elements) {
    quiz::Option option;
    option.letter = capital_letters(one.member("letter"));
    if (!letters.insert(option.letter).second) one.refuse("has the letter of another option");
    option.id = one.text("id");
    option.text = one.text("text");
    option.says = one.text_or("says", {});
    if (kind == quiz::Kind::order) {
      option.place = one.member("place").whole(1, static_cast<int>(elements.size()));
      if (!places.insert(option.place).second) one.refuse("has the place of another option");
    } else {
      option.right = one.member("right").truth();
      right += option.right ? 1 : 0;
    }
    all.push_back(std::move(option));
  }
  if (all.size() < 2) at.refuse("expected two options or more");
  if (kind == quiz::Kind::several_of && right == 0)
    at.refuse("none is right, expected one or more");
  if ((kind == quiz::Kind::one_of || kind == quiz::Kind::verdict) && right != 1)
    at.refuse(std::to_string(right) + " are right, expected one");
  return all;
}

quiz::Mistake mistake(const JsonReader& at) {
  quiz::Mistake made;
  made.id = at.text("id");
  made.text = at.text("text");
  made.says = at.text("says");
  if (at.has("value")) made.number = at.member("value").number();
  if (at.has("option")) made.letter = at.text("option");
  return made;
}

quiz::ClassWords class_words(const JsonReader& at) {
  quiz::ClassWords words{at.text("title"), at.text("topic-title"), at.text_or("answer", {}), {}};
  for (const auto& [id, says] : at.member("says").members()) words.says[id] = says.text();
  return words;
}

quiz::Question question(const JsonReader& at, engine::Language language) {
  quiz::Question made;
  made.number = at.member("number").whole(1, most);
  made.item = at.text("item");
  made.topic = at.text("topic");
  made.topic_title = at.text_or("topic-title", made.topic);
  made.level = at.member("level").whole(1, 4);
  made.kind = static_cast<quiz::Kind>(at.choice("kind", kind_names()));
  made.title = at.text("title");
  made.stem = at.text("stem");
  if (made.kind == quiz::Kind::number)
    made.answer = number_answer(at.member("answer"), language);
  else
    made.options = options(at.member("answer").member("options"), made.kind);
  for (const JsonReader& one : at.member("mistakes").elements())
    made.mistakes.push_back(mistake(one));
  for (const JsonReader& one : at.member("steps").elements()) made.steps.push_back(step(one));
  for (const JsonReader& one : at.member("limits").elements())
    made.limits.push_back(
        {one.text("id"), one.text("name"), one.text("text"), one.text("citation"), status(one)});
  for (const JsonReader& one : at.member("sources").elements())
    made.sources.push_back({one.text("citation"), one.text_or("supports", {}), status(one)});
  for (const JsonReader& one : at.member("cautions").elements())
    made.cautions.push_back(one.text());
  made.points = at.member("points").whole(0, most);
  made.minutes = at.member("minutes").whole(0, most);
  if (at.has("class-words")) made.class_words = class_words(at.member("class-words"));
  return made;
}

quiz::Accommodations accommodations(const JsonReader& at) {
  quiz::Accommodations made;
  if (at.has("language"))
    made.language = static_cast<engine::Language>(at.choice("language", language_names()));
  made.large_print = at.has("large-print") && at.member("large-print").truth();
  made.without_figures = at.has("without-figures") && at.member("without-figures").truth();
  if (at.has("extra-minutes")) made.extra_minutes = at.member("extra-minutes").whole(0, most);
  return made;
}

/// `language` is the quiz's; a sheet may have its own.
quiz::Sheet sheet(const JsonReader& at, engine::Language language) {
  quiz::Sheet made;
  made.seat = capital_letters(at.member("seat"));
  made.name = at.text("name");
  made.code = code(at.member("code"));
  made.accommodations = accommodations(at);
  if (made.accommodations.language)
    made.words = {at.text("title"), at.text("course"), at.text("rules-title")};
  made.points = at.member("points").whole(0, most);
  made.minutes = at.member("minutes").whole(0, most);
  std::set<int> numbers;
  int points = 0;
  for (const JsonReader& one : at.member("questions").elements()) {
    made.questions.push_back(question(one, made.accommodations.language.value_or(language)));
    points += made.questions.back().points;
    if (points > most) one.member("points").refuse("makes more than 1000000 in all");
    if (!numbers.insert(made.questions.back().number).second)
      one.refuse("has the number of another question");
  }
  return made;
}

/// What narrowed or changed the questions of a quiz.
void add_choice_of_questions(quiz::Header& made, const JsonReader& at) {
  made.course_plan = at.text_or("course-plan", {});
  if (at.has("week")) made.week = at.member("week").whole(1, most);
  if (at.has("topics"))
    for (const JsonReader& topic : at.member("topics").elements())
      made.topics.push_back(topic.text());
  if (at.has("after"))
    for (const JsonReader& code : at.member("after").elements()) made.after.push_back(code.text());
  if (at.has("levels"))
    for (const auto& [item, level] : at.member("levels").members())
      made.levels[item] = level.whole(1, 4);
  if (!at.has("swaps")) return;
  for (const JsonReader& swap : at.member("swaps").elements())
    made.swaps[swap.member("question").whole(1, most)] = {
        swap.text_or("item", {}), static_cast<std::uint32_t>(swap.member("draw").whole(0, most))};
}

quiz::Header header(const JsonReader& at) {
  quiz::Header made;
  made.code = code(at.member("code"));
  made.program = at.text("program");
  made.bank_digest = at.text("bank");
  made.blueprint = at.text("blueprint");
  made.title = at.text("title");
  made.course = at.text("course");
  made.seed = at.member("seed").natural();
  if (at.has("secret"))
    made.secret = name_of_characters(at.member("secret"), "0123456789abcdef",
                                     "hexadecimal digits in lower case");
  made.date = at.text("date");
  made.system =
      at.choice("units", system_names()) == 0 ? notation::System::us : notation::System::si;
  made.style.language = static_cast<engine::Language>(at.choice("language", language_names()));
  if (at.has("decimal-mark"))
    made.style.decimal_mark = at.choice("decimal-mark", decimal_mark_names()) == 0 ? '.' : ',';
  made.rules = at.text("rules");
  made.rules_title = at.text_or("rules-title", made.rules);
  made.paper = at.choice("paper", {"letter", "a4"}) == 0 ? quiz::Paper::letter : quiz::Paper::a4;
  made.minutes = at.member("minutes").whole(0, most);
  add_choice_of_questions(made, at);
  return made;
}

}  // namespace

Quiz read_quiz(std::string_view text, const std::string& file) {
  const nlohmann::json json = parse_json(text, file);
  const JsonReader whole(json, file);
  whole.member("format").whole(1, 1);
  Quiz quiz;
  quiz.header = header(whole);
  std::set<std::string> seats;
  for (const JsonReader& one : whole.member("sheets").elements()) {
    quiz.sheets.push_back(sheet(one, quiz.header.style.language));
    if (!seats.insert(quiz.sheets.back().seat).second) one.refuse("has the seat of another sheet");
  }
  quiz.header.sheets = static_cast<int>(quiz.sheets.size());
  std::vector<quiz::Accommodations> special;
  for (const quiz::Sheet& sheet : quiz.sheets) special.push_back(sheet.accommodations);
  quiz.header.accommodations =
      std::make_shared<const std::vector<quiz::Accommodations>>(std::move(special));
  if (quiz.sheets.empty()) whole.member("sheets").refuse("is empty, expected a sheet");
  return quiz;
}

}  // namespace footroom::grade
