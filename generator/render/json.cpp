// quiz.json: the machine-readable whole of a quiz. Its shape is questionbank/quiz.schema.json.

#include "grade/names.hpp"
#include "quiz/right_letters.hpp"
#include "render/json_value.hpp"
#include "render/json_writer.hpp"
#include "render/render.hpp"

namespace footroom::render {
namespace {

using Json = nlohmann::ordered_json;

void base_value(JsonWriter& json, const quiz::Shown& shown) {
  json.begin_object();
  if (const auto* quantity = std::get_if<engine::Quantity>(&shown.value)) {
    json.number("si", nine_digits(quantity->si));
    json.text("unit", base_unit_name(quantity->dimension));
  } else if (const auto* list = std::get_if<engine::Quantities>(&shown.value)) {
    json.name("si");
    json.begin_array();
    for (const engine::Quantity& one : *list) json.number(nine_digits(one.si));
    json.end_array();
    json.text("unit", list->empty() ? std::string() : base_unit_name(list->front().dimension));
  } else if (const auto* word = std::get_if<engine::Word>(&shown.value)) {
    json.text("word", word->id);
  } else {
    json.name("words");
    json.begin_array();
    for (const engine::Word& one : std::get<engine::Words>(shown.value)) json.text(one.id);
    json.end_array();
  }
  json.text("text", shown.text);
  json.end_object();
}

// A given is shown in a unit of the quiz: `value` is the number in `unit`.
void shown_value(JsonWriter& json, const quiz::Shown& shown) {
  const auto* quantity = std::get_if<engine::Quantity>(&shown.value);
  if (!quantity) return base_value(json, shown);
  json.begin_object();
  json.number("si", nine_digits(quantity->si));
  json.text("unit", shown.unit);
  json.number("value", nine_digits(shown.number));
  json.text("text", shown.text);
  json.end_object();
}

void by_name(JsonWriter& json, std::string_view under, const std::vector<quiz::Shown>& all,
             void (*write)(JsonWriter&, const quiz::Shown&)) {
  json.name(under);
  json.begin_object();
  for (const quiz::Shown& shown : all) {
    json.name(shown.name);
    write(json, shown);
  }
  json.end_object();
}

template <class Line, class Write>
void list(JsonWriter& json, std::string_view under, const std::vector<Line>& lines, Write write) {
  json.name(under);
  json.begin_array();
  for (const Line& line : lines) write(json, line);
  json.end_array();
}

void texts(JsonWriter& json, std::string_view under, const std::vector<std::string>& all) {
  list(json, under, all, [](JsonWriter& to, const std::string& text) { to.text(text); });
}

void calculation(JsonWriter& json, const quiz::CalculationRecord& record) {
  json.begin_object();
  json.text("id", record.id);
  json.text("name", record.name);
  by_name(json, "inputs", record.inputs, base_value);
  by_name(json, "outputs", record.outputs, base_value);
  json.end_object();
}

void option(JsonWriter& json, const quiz::Option& one, bool order) {
  json.begin_object();
  json.text("letter", one.letter);
  json.text("id", one.id);
  json.text("text", one.text);
  if (order)
    json.number("place", one.place);
  else
    json.truth("right", one.right);
  if (!one.says.empty()) json.text("says", one.says);
  json.end_object();
}

void answer(JsonWriter& json, const quiz::Question& question) {
  json.name("answer");
  json.begin_object();
  if (question.kind == quiz::Kind::number) {
    json.number("value", twelve_digits(question.answer->number));
    json.text("unit", question.answer->unit);
    json.number("tolerance", twelve_digits(question.answer->tolerance));
    json.text("text", question.answer->text);
    json.number("si", twelve_digits(question.answer->quantity.si));
  } else {
    const bool order = question.kind == quiz::Kind::order;
    list(json, "options", question.options,
         [order](JsonWriter& to, const quiz::Option& one) { option(to, one, order); });
    texts(json, "right", quiz::right_letters(question));
  }
  json.end_object();
}

void mistake(JsonWriter& json, const quiz::Mistake& made) {
  json.begin_object();
  json.text("id", made.id);
  if (made.number) json.number("value", twelve_digits(*made.number));
  if (made.letter) json.text("option", *made.letter);
  json.text("text", made.text);
  json.text("says", made.says);
  json.end_object();
}

std::string_view name_of(const notation::Math& math) {
  using Kind = notation::Math::Kind;
  switch (math.kind) {
    case Kind::row:
      return "row";
    case Kind::identifier:
      return "identifier";
    case Kind::number:
      return "number";
    case Kind::sign:
      return "sign";
    case Kind::fraction:
      return "fraction";
    case Kind::root:
      return "root";
    case Kind::power:
      return "power";
    case Kind::subscript:
      return "subscript";
    case Kind::fence:
      break;
  }
  return math.text == "|" ? "absolute" : "fence";
}

// {"row": [...]}, {"identifier": "L"}: the kind of a box, and its text or its parts.
void math_tree(JsonWriter& json, const notation::Math& math) {
  using Kind = notation::Math::Kind;
  json.begin_object();
  json.name(name_of(math));
  if (math.kind == Kind::identifier || math.kind == Kind::number || math.kind == Kind::sign) {
    json.text(math.text);
  } else {
    json.begin_array();
    for (const notation::Math& part : math.parts) math_tree(json, part);
    json.end_array();
  }
  json.end_object();
}

void step(JsonWriter& json, const quiz::WorkedStep& worked) {
  json.begin_object();
  if (!worked.says.empty()) json.text("says", worked.says);
  if (worked.line) {
    json.text("value", worked.line->name);
    json.text("symbols", notation::to_text(worked.line->symbols));
    json.text("numbers", notation::to_text(worked.line->numbers));
    json.text("result", worked.line->result);
    json.name("math");
    json.begin_object();
    json.name("symbols");
    math_tree(json, worked.line->symbols);
    json.name("numbers");
    math_tree(json, worked.line->numbers);
    json.end_object();
  }
  json.end_object();
}

void limit(JsonWriter& json, const quiz::LimitLine& line) {
  json.begin_object();
  json.text("id", line.id);
  json.text("name", line.name);
  json.text("text", line.text);
  json.text("citation", line.citation);
  json.text("status", line.status);
  json.end_object();
}

void source(JsonWriter& json, const quiz::SourceLine& line) {
  json.begin_object();
  json.text("citation", line.citation);
  json.text("status", line.status);
  if (!line.supports.empty()) json.text("supports", line.supports);
  json.end_object();
}

void class_words(JsonWriter& json, const quiz::ClassWords& words) {
  json.name("class-words");
  json.begin_object();
  json.text("title", words.title);
  json.text("topic-title", words.topic_title);
  if (!words.answer.empty()) json.text("answer", words.answer);
  json.name("says");
  json.begin_object();
  for (const auto& [id, says] : words.says) json.text(id, says);
  json.end_object();
  json.end_object();
}

void write_question(JsonWriter& json, const quiz::Question& question) {
  json.begin_object();
  json.number("number", question.number);
  json.text("item", question.item);
  json.text("topic", question.topic);
  json.text("topic-title", question.topic_title);
  json.number("level", question.level);
  json.text("kind", grade::kind_names()[static_cast<std::size_t>(question.kind)]);
  json.text("title", question.title);
  json.text("stem", question.stem);
  by_name(json, "givens", question.givens, shown_value);
  list(json, "calculations", question.calculations, calculation);
  by_name(json, "lets", question.lets, shown_value);
  answer(json, question);
  list(json, "mistakes", question.mistakes, mistake);
  list(json, "steps", question.steps, step);
  list(json, "limits", question.limits, limit);
  list(json, "sources", question.sources, source);
  texts(json, "cautions", question.cautions);
  json.number("points", question.points);
  json.number("minutes", question.minutes);
  if (question.class_words) class_words(json, *question.class_words);
  json.end_object();
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
  JsonWriter json;
  json.begin_object();
  json.text("seat", sheet.seat);
  json.text("name", sheet.name);
  json.text("code", sheet.code);
  const quiz::Accommodations& special = sheet.accommodations;
  if (special.language)
    json.text("language", grade::language_names()[static_cast<std::size_t>(*special.language)]);
  if (sheet.words) {
    json.text("title", sheet.words->title);
    json.text("course", sheet.words->course);
    json.text("rules-title", sheet.words->rules_title);
  }
  if (special.large_print) json.truth("large-print", true);
  if (special.without_figures) json.truth("without-figures", true);
  if (special.extra_minutes > 0) json.number("extra-minutes", special.extra_minutes);
  json.number("points", sheet.points);
  json.number("minutes", sheet.minutes);
  list(json, "questions", sheet.questions, write_question);
  json.end_object();
  return (first ? "" : ",\n") + json.taken();
}

std::string json_end() {
  return "\n ]\n}\n";
}

}  // namespace footroom::render
