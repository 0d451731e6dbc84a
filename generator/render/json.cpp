// quiz.json: the machine-readable whole of a quiz. Its shape is questionbank/quiz.schema.json.

#include "grade/names.hpp"
#include "quiz/right_letters.hpp"
#include "render/json_value.hpp"
#include "render/render.hpp"

namespace footroom::render {
namespace {

using Json = nlohmann::ordered_json;

// A given is shown in a unit of the quiz: `value` is the number in `unit`.
Json shown_value(const quiz::Shown& shown) {
  const auto* quantity = std::get_if<engine::Quantity>(&shown.value);
  if (!quantity) return json_value(shown.value, shown.text);
  return {{"si", twelve_digits(quantity->si)},
          {"unit", shown.unit},
          {"value", twelve_digits(shown.number)},
          {"text", shown.text}};
}

Json by_name(const std::vector<quiz::Shown>& all, Json (*write)(const quiz::Shown&)) {
  Json json = Json::object();
  for (const quiz::Shown& shown : all) json[shown.name] = write(shown);
  return json;
}

Json base_value(const quiz::Shown& shown) {
  return json_value(shown.value, shown.text);
}

Json calculation(const quiz::CalculationRecord& record) {
  return {{"id", record.id},
          {"name", record.name},
          {"inputs", by_name(record.inputs, base_value)},
          {"outputs", by_name(record.outputs, base_value)}};
}

Json answer(const quiz::Question& question) {
  if (question.kind == quiz::Kind::number)
    return {{"value", twelve_digits(question.answer->number)},
            {"unit", question.answer->unit},
            {"tolerance", twelve_digits(question.answer->tolerance)},
            {"text", question.answer->text},
            {"si", twelve_digits(question.answer->quantity.si)}};
  Json options = Json::array();
  for (const quiz::Option& option : question.options) {
    Json one{{"letter", option.letter}, {"id", option.id}, {"text", option.text}};
    if (question.kind == quiz::Kind::order)
      one["place"] = option.place;
    else
      one["right"] = option.right;
    if (!option.says.empty()) one["says"] = option.says;
    options.push_back(std::move(one));
  }
  return {{"options", std::move(options)}, {"right", quiz::right_letters(question)}};
}

Json mistake(const quiz::Mistake& made) {
  Json json{{"id", made.id}};
  if (made.number) json["value"] = twelve_digits(*made.number);
  if (made.letter) json["option"] = *made.letter;
  json["text"] = made.text;
  json["says"] = made.says;
  return json;
}

// {"row": [...]}, {"identifier": "L"}: the kind of a box, and its text or its parts.
Json math_tree(const notation::Math& math) {
  using Kind = notation::Math::Kind;
  const auto leaf = [&](const char* name) { return Json{{name, math.text}}; };
  const auto box = [&](const char* name) {
    Json parts = Json::array();
    for (const notation::Math& part : math.parts) parts.push_back(math_tree(part));
    return Json{{name, std::move(parts)}};
  };
  switch (math.kind) {
    case Kind::row:
      return box("row");
    case Kind::identifier:
      return leaf("identifier");
    case Kind::number:
      return leaf("number");
    case Kind::sign:
      return leaf("sign");
    case Kind::fraction:
      return box("fraction");
    case Kind::root:
      return box("root");
    case Kind::power:
      return box("power");
    case Kind::subscript:
      return box("subscript");
    case Kind::fence:
      break;
  }
  return box(math.text == "|" ? "absolute" : "fence");
}

Json step(const quiz::WorkedStep& worked) {
  Json json = Json::object();
  if (!worked.says.empty()) json["says"] = worked.says;
  if (worked.line) {
    json["value"] = worked.line->name;
    json["symbols"] = notation::to_text(worked.line->symbols);
    json["numbers"] = notation::to_text(worked.line->numbers);
    json["result"] = worked.line->result;
    json["math"] = {{"symbols", math_tree(worked.line->symbols)},
                    {"numbers", math_tree(worked.line->numbers)}};
  }
  return json;
}

Json limit(const quiz::LimitLine& line) {
  return {{"id", line.id},
          {"name", line.name},
          {"text", line.text},
          {"citation", line.citation},
          {"status", line.status}};
}

Json source(const quiz::SourceLine& line) {
  Json json{{"citation", line.citation}, {"status", line.status}};
  if (!line.supports.empty()) json["supports"] = line.supports;
  return json;
}

template <class Line>
Json list(const std::vector<Line>& lines, Json (*write)(const Line&)) {
  Json json = Json::array();
  for (const Line& line : lines) json.push_back(write(line));
  return json;
}

Json question_json(const quiz::Question& question) {
  return {{"number", question.number},
          {"item", question.item},
          {"topic", question.topic},
          {"topic-title", question.topic_title},
          {"level", question.level},
          {"kind", grade::kind_names()[static_cast<std::size_t>(question.kind)]},
          {"title", question.title},
          {"stem", question.stem},
          {"givens", by_name(question.givens, shown_value)},
          {"calculations", list(question.calculations, calculation)},
          {"lets", by_name(question.lets, shown_value)},
          {"answer", answer(question)},
          {"mistakes", list(question.mistakes, mistake)},
          {"steps", list(question.steps, step)},
          {"limits", list(question.limits, limit)},
          {"sources", list(question.sources, source)},
          {"cautions", question.cautions},
          {"points", question.points},
          {"minutes", question.minutes}};
}

Json question_with_class_words(const quiz::Question& question) {
  Json json = question_json(question);
  if (!question.class_words) return json;
  const quiz::ClassWords& words = *question.class_words;
  Json& in_class =
      json["class-words"] = {{"title", words.title}, {"topic-title", words.topic_title}};
  if (!words.answer.empty()) in_class["answer"] = words.answer;
  in_class["says"] = words.says;
  return json;
}

Json swaps(const std::map<int, quiz::Swapped>& all) {
  Json json = Json::array();
  for (const auto& [number, swapped] : all) {
    Json one{{"question", number}};
    if (!swapped.item.empty()) one["item"] = swapped.item;
    one["draw"] = swapped.draw;
    json.push_back(std::move(one));
  }
  return json;
}

std::string dump(const Json& json) {
  // A name that is not UTF-8 must not stop a class: its bad bytes become U+FFFD.
  return json.dump(1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

std::string json_start(const quiz::Header& header) {
  Json json{{"format", 1},
            {"code", header.code},
            {"program", header.program},
            {"bank", header.bank_digest},
            {"blueprint", header.blueprint},
            {"title", header.title},
            {"course", header.course},
            {"seed", header.seed}};
  if (!header.secret.empty()) json["secret"] = header.secret;
  json.update({
      {"date", header.date},
      {"units", header.system == notation::System::us ? "us" : "si"},
      {"language", header.style.language == engine::Language::english ? "en" : "es"},
      {"decimal-mark", header.style.decimal_mark == '.' ? "point" : "comma"},
      {"rules", header.rules},
      {"rules-title", header.rules_title},
      {"paper", header.paper == quiz::Paper::letter ? "letter" : "a4"},
      {"minutes", header.minutes},
  });
  if (!header.course_plan.empty()) {
    json["course-plan"] = header.course_plan;
    json["week"] = header.week;
  }
  if (!header.topics.empty()) json["topics"] = header.topics;
  if (!header.after.empty()) json["after"] = header.after;
  if (!header.levels.empty()) json["levels"] = header.levels;
  if (!header.swaps.empty()) json["swaps"] = swaps(header.swaps);
  std::string text = dump(json);
  text.erase(text.rfind("\n}"));
  return text + ",\n \"sheets\": [\n";
}

std::string json_sheet(const quiz::Sheet& sheet, bool first) {
  Json json{{"seat", sheet.seat}, {"name", sheet.name}, {"code", sheet.code}};
  const quiz::Accommodations& special = sheet.accommodations;
  if (special.language)
    json["language"] = grade::language_names()[static_cast<std::size_t>(*special.language)];
  if (sheet.words)
    json.update({{"title", sheet.words->title},
                 {"course", sheet.words->course},
                 {"rules-title", sheet.words->rules_title}});
  if (special.large_print) json["large-print"] = true;
  if (special.without_figures) json["without-figures"] = true;
  if (special.extra_minutes > 0) json["extra-minutes"] = special.extra_minutes;
  json.update({{"points", sheet.points},
               {"minutes", sheet.minutes},
               {"questions", list(sheet.questions, question_with_class_words)}});
  return (first ? "" : ",\n") + dump(json);
}

std::string json_end() {
  return "\n ]\n}\n";
}

}  // namespace footroom::render
