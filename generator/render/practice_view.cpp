#include "render/practice_view.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "grade/names.hpp"
#include "notation/typeset.hpp"
#include "notation/unit.hpp"
#include "quiz/right_letters.hpp"
#include "render/commonmark.hpp"
#include "render/escape.hpp"
#include "render/render.hpp"

namespace footroom::render {
namespace {

using Json = nlohmann::ordered_json;
using quiz::Kind;

std::string markup(const std::string& markdown) {
  return markdown.empty() ? std::string() : html_of_markdown(markdown);
}

std::string drawn(const std::optional<figure::Drawing>& drawing, const std::string& id) {
  return drawing ? svg_element(*drawing, id) : std::string();
}

constexpr double widest_beside = 100;  // mm

std::string instruction_id(Kind kind) {
  switch (kind) {
    case Kind::order:
      return "write-order";
    case Kind::several_of:
      return "mark-several";
    case Kind::number:
      return {};
    case Kind::one_of:
    case Kind::verdict:
      break;
  }
  return "mark-one";
}

std::string limits_html(const Labels& labels, const std::vector<quiz::LimitLine>& limits,
                        notation::Style style) {
  std::string html = "<ul class=\"limits\">\n";
  for (const quiz::LimitLine& limit : limits) {
    std::string citation = limit.citation;
    if (limit.status != "read")
      citation += ", " + labels.at("status-" + limit.status, style.language);
    html += fmt::format("<li>{}: <strong>{}</strong> <span class=\"citation\">{}</span></li>\n",
                        escape_xml(limit.name), escape_xml(limit.text), escape_xml(citation));
  }
  return html + "</ul>\n";
}

std::string group_html(const quiz::FormulaGroup& group) {
  std::string html = fmt::format("<h3>{}</h3>\n<ul class=\"formulas\">\n", escape_xml(group.title));
  for (const quiz::FormulaLine& line : group.lines)
    html += "<li>" + mathml(line.formula) + "</li>\n";
  html += "</ul>\n";
  if (group.symbols.empty()) return html;
  html += "<ul class=\"symbols\">\n";
  for (const quiz::SymbolLine& line : group.symbols)
    html += fmt::format("<li>{} <span class=\"meaning\">{}</span></li>\n", mathml(line.symbol),
                        escape_xml(line.meaning));
  return html + "</ul>\n";
}

std::string box_html(const Labels& labels, const quiz::ReferenceBox& box, notation::Style style) {
  std::string html;
  for (const quiz::FormulaGroup& group : box.formulas) html += group_html(group);
  if (!box.limits.empty())
    html += fmt::format("<h3>{}</h3>\n", escape_xml(labels.at("limits", style.language))) +
            limits_html(labels, box.limits, style);
  return html;
}

// Told apart without colour.
std::string mark_of(const grade::QuestionResult& result) {
  if (result.outcome == grade::Outcome::unreadable) return "none";
  if (result.outcome == grade::Outcome::empty) return "wrong";
  if (result.points == result.possible) return "right";
  return result.points.hundredths > 0 ? "part" : "wrong";
}

std::string points_text(const Labels& labels, const grade::QuestionResult& result,
                        notation::Style style) {
  const bool one = result.possible == grade::Points::whole(1);
  return label_with(labels, one ? "one-point-of" : "points-of", style, result.points.text(style),
                    result.possible.text(style));
}

std::string within_text(const Labels& labels, const quiz::Question& question,
                        notation::Style style) {
  if (!question.answer || !(question.answer->tolerance > 0)) return {};
  const notation::Unit* unit = notation::find_unit(question.answer->unit);
  return fmt::format("{} ± {}", labels.at("within", style.language),
                     notation::write_quantity_shortest(question.answer->tolerance, *unit, style));
}

// Where an option says nothing, the mistake behind it does.
std::string option_says(const quiz::Question& question, const quiz::Option& option) {
  if (!option.says.empty()) return option.says;
  for (const quiz::Mistake& mistake : question.mistakes)
    if (mistake.letter == option.letter) return mistake.says;
  return {};
}

Json marked_options(const practice::Marked& marked) {
  Json options = Json::array();
  for (const quiz::Option& option : marked.question.options) {
    const auto& chosen = marked.result.chosen;
    options.push_back(
        {{"letter", option.letter},
         {"text-html", markup(option.text)},
         {"chosen", std::find(chosen.begin(), chosen.end(), option.id) != chosen.end()},
         {"right", option.right},
         {"place", option.place},
         {"says-html", markup(option_says(marked.question, option))}});
  }
  return options;
}

Json other_mistakes(const practice::Marked& marked) {
  Json others = Json::array();
  for (const quiz::Mistake& mistake : marked.question.mistakes)
    if (!mistake.letter && mistake.id != marked.result.mistake)
      others.push_back({{"text", mistake.text}, {"says-html", markup(mistake.says)}});
  return others;
}

Json limit_lines(const Labels& labels, const std::vector<quiz::LimitLine>& limits,
                 notation::Style style) {
  Json lines = Json::array();
  for (const quiz::LimitLine& limit : limits)
    lines.push_back({{"name", limit.name},
                     {"text", limit.text},
                     {"citation", limit.citation},
                     {"status-text", labels.at("status-" + limit.status, style.language)},
                     {"read", limit.status == "read"}});
  return lines;
}

Json source_lines(const Labels& labels, const quiz::Question& question, notation::Style style) {
  Json lines = Json::array();
  for (const quiz::SourceLine& source : question.sources) {
    const bool said = std::any_of(
        question.limits.begin(), question.limits.end(), [&](const quiz::LimitLine& limit) {
          return limit.citation == source.citation && limit.name == source.supports;
        });
    if (said) continue;
    lines.push_back({{"citation", source.citation},
                     {"supports", source.supports},
                     {"status-text", labels.at("status-" + source.status, style.language)}});
  }
  return lines;
}

std::string returns_text(const Labels& labels, const practice::Marked& marked,
                         notation::Style style) {
  if (!marked.returns) return {};
  return label_with(labels, "practice-returns", style, std::to_string(*marked.returns));
}

std::string symbol_html(const std::string& symbol) {
  return symbol.empty() ? std::string() : mathml(notation::symbol(symbol));
}

Json bench_control(const practice::BenchControl& control) {
  return {{"id", control.id},
          {"name", control.name},
          {"symbol-html", symbol_html(control.symbol)},
          {"kind", "number"},
          {"group", control.main ? "main" : "more"},
          {"unit", control.unit_text},
          {"least", control.least},
          {"most", control.most},
          {"step", control.step},
          {"value", control.value},
          {"value-text", control.text}};
}

Json bench_stack(const practice::BenchStack& stack) {
  Json terms = Json::array();
  for (const practice::BenchTerm& term : stack.terms)
    terms.push_back({{"name", term.name}, {"text", term.text}, {"share", term.share}});
  return {{"total-text", stack.needed},
          {"available-text", stack.available},
          {"available-share", stack.available_share},
          {"broken", stack.broken},
          {"terms", std::move(terms)},
          {"figure-html", drawn(stack.drawing, "bench-stack")}};
}

}  // namespace

std::string label_with(const Labels& labels, std::string_view id, notation::Style style,
                       const std::string& first, const std::string& second) {
  std::string text = labels.at(id, style.language);
  for (const auto& [name, value] : {std::pair{"{1}", &first}, std::pair{"{2}", &second}})
    if (const auto at = text.find(name); at != std::string::npos) text.replace(at, 3, *value);
  return text;
}

std::vector<std::string> labels_of_practice() {
  std::vector<std::string> ids{
      "caution",         "caution-word",     "mark-one",       "mark-several",  "write-order",
      "limits",          "within",           "level",          "points-of",     "one-point-of",
      "practice-title",  "practice-returns", "practice-again", "practice-kept", "practice-broken",
      "practice-so-far", "practice-dropped"};
  for (const char* outcome :
       {"right", "right-in-other-unit", "right-without-unit", "right-with-wrong-unit",
        "partly-right", "named-mistake", "general-mistake", "wrong", "empty", "unreadable"})
    ids.push_back(fmt::format("outcome-{}", outcome));
  for (const char* status : {"read", "second-hand", "from-memory", "computed", "common-practice"})
    ids.push_back(fmt::format("status-{}", status));
  return ids;
}

Json practice_question(const Labels& labels, const quiz::Question& question,
                       const quiz::ReferenceBox& box, bool returned, notation::Style style) {
  Json options = Json::array();
  for (const quiz::Option& option : question.options)
    options.push_back({{"letter", option.letter}, {"text-html", markup(option.text)}});
  const std::string instruction = instruction_id(question.kind);
  const auto& figure = question.sheet_figure;
  return {
      {"number", question.number},
      {"item", question.item},
      {"topic", question.topic},
      {"topic-title", question.topic_title},
      {"level", question.level},
      {"level-title", fmt::format("{} {}", labels.at("level", style.language), question.level)},
      {"title", question.title},
      {"again", returned},
      {"again-text", returned ? labels.at("practice-again", style.language) : std::string()},
      {"stem-html", markup(question.stem)},
      {"figure-html", drawn(figure, "figure")},
      {"figure-wide", figure && figure->width > widest_beside},
      {"kind", grade::kind_names()[static_cast<std::size_t>(question.kind)]},
      {"unit", question.answer ? question.answer->unit_text : std::string()},
      {"instruction", instruction.empty() ? std::string() : labels.at(instruction, style.language)},
      {"options", std::move(options)},
      {"box-html", box_html(labels, box, style)},
      {"steps", question.steps.size()}};
}

Json practice_reading(const grade::QuestionResult& result) {
  return {{"read", result.read}, {"problem", result.reason}};
}

Json practice_feedback(const Labels& labels, const practice::Marked& marked,
                       notation::Style style) {
  const quiz::Question& question = marked.question;
  const grade::QuestionResult& result = marked.result;
  const bool number = question.kind == Kind::number;
  return {{"outcome", grade::name_of(result.outcome)},
          {"outcome-text",
           labels.at(fmt::format("outcome-{}", grade::name_of(result.outcome)), style.language)},
          {"mark", mark_of(result)},
          {"typed", result.typed},
          {"read", result.read},
          {"reason", result.reason},
          // Of a choice the options themselves say it.
          {"mistake-html", number ? markup(result.says) : std::string()},
          {"right-text", result.right},
          {"within-text", within_text(labels, question, style)},
          {"options", marked_options(marked)},
          {"figure-html", drawn(question.key_figure, "key-figure")},
          {"points-text", points_text(labels, result, style)},
          {"others", other_mistakes(marked)},
          {"limits", limit_lines(labels, question.limits, style)},
          {"sources", source_lines(labels, question, style)},
          {"cautions", question.cautions},
          {"returns-text", returns_text(labels, marked, style)}};
}

Json practice_step(const quiz::Question& question, std::size_t index) {
  const quiz::WorkedStep& step = question.steps.at(index);
  return {{"number", index + 1},
          {"says-html", markup(step.says)},
          {"symbols-html", step.line ? mathml(step.line->symbols) : std::string()},
          {"numbers-html", step.line ? mathml(step.line->numbers) : std::string()},
          {"result", step.line ? step.line->result : std::string()}};
}

Json practice_bench(const Labels& labels, const practice::Bench& bench, notation::Style style) {
  Json json{{"controls", Json::array()}, {"problem", bench.problem}};
  for (const practice::BenchControl& control : bench.controls)
    json["controls"].push_back(bench_control(control));
  json["scenes"] = Json::array();
  for (const practice::BenchScene& scene : bench.scenes)
    json["scenes"].push_back({{"id", scene.id},
                              {"title", scene.title},
                              {"figure-html", svg_element(scene.drawing, "bench-" + scene.id)}});
  json["stack"] = bench.stack ? bench_stack(*bench.stack) : Json();
  json["plot-html"] = drawn(bench.plot, "bench-force");
  json["outputs"] = Json::array();
  for (const practice::BenchLine& line : bench.outputs)
    json["outputs"].push_back(
        {{"name", line.name}, {"symbol-html", symbol_html(line.symbol)}, {"text", line.text}});
  json["limits"] = Json::array();
  for (const practice::BenchLimit& limit : bench.limits)
    json["limits"].push_back(
        {{"name", limit.name},
         {"text", limit.text},
         {"value-text", limit.value_text},
         {"broken", limit.broken},
         {"verdict-text",
          labels.at(limit.broken ? "practice-broken" : "practice-kept", style.language)},
         {"citation", limit.citation},
         {"status-text", labels.at("status-" + limit.status, style.language)},
         {"read", limit.status == "read"}});
  json["notes"] = bench.notes;
  json["cautions"] = bench.cautions;
  return json;
}

}  // namespace footroom::render
