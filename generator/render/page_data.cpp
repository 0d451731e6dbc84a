#include "render/page_data.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "notation/quantity_text.hpp"
#include "notation/unit.hpp"
#include "quiz/right_letters.hpp"

namespace footroom::render {
namespace {

using Data = mustache::data;
using quiz::Kind;

// A narrow figure stands beside the text. The style makes it 92 mm wide at most, which leaves lines
// of 67 mm on the narrower paper; its lettering stays above 7.5 points.
constexpr double widest_beside = 100;  // mm

/// What every part of a page needs.
struct Page {
  const Templates::Parts& parts;
  const quiz::Header& header;
  const quiz::Sheet& sheet;
  Face face;
  const Dress& dress;

  const std::string& label(std::string_view id) const {
    return parts.labels.at(id, header.style.language);
  }
};

std::string with_value(std::string text, std::string_view placeholder, std::string_view value) {
  const std::size_t at = text.find(placeholder);
  if (at != std::string::npos) text.replace(at, placeholder.size(), value);
  return text;
}

std::string questions_text(const Page& page, std::size_t questions) {
  return fmt::format("{} {}", questions, page.label(questions == 1 ? "one-question" : "questions"));
}

std::string points_text(const Page& page, int points) {
  return fmt::format("{}\u00A0{}", points, page.label(points == 1 ? "point" : "points"));
}

Data limit_data(const Page& page, const quiz::LimitLine& limit) {
  Data data;
  data.set("limit-name", limit.name);
  data.set("limit-text", limit.text);
  data.set("citation", limit.citation);
  data.set("status", page.label("status-" + limit.status));
  data.set("unread", Data(limit.status != "read"));
  return data;
}

Data box_data(const Page& page) {
  const quiz::ReferenceBox& box = page.sheet.box;
  Data data;
  set_list(data, "formula-groups", box.formulas, [&](const quiz::FormulaGroup& group) {
    Data one;
    one.set("group-title", group.title);
    set_list(one, "lines", group.lines, [&](const quiz::FormulaLine& line) {
      return Data("formula", page.dress.formula(line.formula));
    });
    set_list(one, "symbols", group.symbols, [&](const quiz::SymbolLine& line) {
      Data symbol;
      symbol.set("symbol", page.dress.formula(line.symbol));
      symbol.set("meaning", line.meaning);
      return symbol;
    });
    return one;
  });
  set_list(data, "box-limits", box.limits,
           [&](const quiz::LimitLine& limit) { return limit_data(page, limit); });
  return data;
}

std::string letters_of_answer(const quiz::Question& question) {
  const char* between = question.kind == Kind::order ? "\u2002" : ", ";
  return fmt::format("{}", fmt::join(quiz::right_letters(question), between));
}

std::string tolerance_text(const Page& page, const quiz::NumberAnswer& answer) {
  const notation::Unit* unit = notation::find_unit(answer.unit);
  if (!unit) return notation::write_shortest(answer.tolerance, page.header.style);
  return notation::write_quantity_shortest(answer.tolerance, *unit, page.header.style);
}

// What choosing an option shows. Where the option itself says nothing, the mistake behind it does.
std::string option_says(const quiz::Question& question, const quiz::Option& option) {
  if (!option.says.empty()) return option.says;
  for (const quiz::Mistake& mistake : question.mistakes)
    if (mistake.letter == option.letter) return mistake.says;
  return {};
}

void set_options(Data& data, const Page& page, const quiz::Question& question) {
  const bool order = question.kind == Kind::order;
  const bool several = question.kind == Kind::several_of;
  data.set("choice", Data(!question.options.empty() && !order));
  data.set("order", Data(order));
  data.set("several", Data(several));
  data.set("instruction",
           page.label(order ? "write-order" : (several ? "mark-several" : "mark-one")));
  set_list(data, "options", question.options, [&](const quiz::Option& option) {
    const std::string says = option_says(question, option);
    Data one;
    one.set("letter", option.letter);
    one.set("option-text", page.dress.option(option.text));
    one.set("right", Data(option.right));
    one.set("place", std::to_string(option.place));
    one.set("has-says", Data(!says.empty()));
    one.set("says", page.dress.option(says));
    return one;
  });
  Data places(Data::type::list);
  if (order)
    for (std::size_t place = 1; place <= question.options.size(); ++place)
      places << Data("blank-place", std::to_string(place));
  data.set("places", places);
}

void set_answer(Data& data, const Page& page, const quiz::Question& question) {
  const bool number = question.kind == Kind::number && question.answer.has_value();
  data.set("number-answer", Data(number));
  data.set("answer-unit", number ? question.answer->unit_text : std::string());
  if (page.face == Face::sheet) return;
  data.set("answer-text", number ? question.answer->text : letters_of_answer(question));
  const bool tolerant = number && question.answer->tolerance > 0;
  data.set("has-tolerance", Data(tolerant));
  data.set("tolerance", tolerant ? tolerance_text(page, *question.answer) : std::string());
}

void set_figure(Data& data, const Page& page, const quiz::Question& question) {
  const auto& drawing = page.face == Face::sheet ? question.sheet_figure : question.key_figure;
  const bool in_words = page.sheet.accommodations.without_figures;
  const bool large = page.sheet.accommodations.large_print;
  data.set("has-figure", Data(drawing && !in_words));
  // Lettering in a drawing stays smaller than large print, so words stand beside it.
  data.set("has-figure-words", Data(drawing && (in_words || large)));
  data.set("beside", Data(drawing && !in_words && !large && drawing->width <= widest_beside));
  if (!drawing) return;
  data.set("figure-title", drawing->title);
  data.set("figure-description", drawing->description);
  if (in_words) return;
  const std::string place = page.sheet.seat + "-" + std::to_string(question.number);
  const std::string suffix = page.face == Face::sheet ? "" : "-key";
  data.set("drawing", page.dress.drawing(*drawing, "figure-" + place));
  data.set("figure-path", "figures/" + place + suffix + ".svg");
}

Data step_data(const Page& page, const quiz::WorkedStep& step) {
  Data data;
  data.set("has-says", Data(!step.says.empty()));
  data.set("says", page.dress.option(step.says));
  data.set("has-line", Data(step.line.has_value()));
  if (step.line) {
    data.set("symbols", page.dress.formula(step.line->symbols));
    data.set("numbers", page.dress.formula(step.line->numbers));
    data.set("result", step.line->result);
  }
  return data;
}

// Mistakes behind an option stand with that option.
std::vector<quiz::Mistake> mistakes_without_option(const quiz::Question& question) {
  std::vector<quiz::Mistake> rest;
  for (const quiz::Mistake& mistake : question.mistakes)
    if (!mistake.letter) rest.push_back(mistake);
  return rest;
}

// A limit stands with its value and citation; the source behind it need not be said twice.
std::vector<quiz::SourceLine> sources_beside_limits(const quiz::Question& question) {
  std::vector<quiz::SourceLine> rest;
  for (const quiz::SourceLine& source : question.sources) {
    const bool said = std::any_of(
        question.limits.begin(), question.limits.end(), [&](const quiz::LimitLine& limit) {
          return limit.citation == source.citation && limit.name == source.supports;
        });
    if (!said) rest.push_back(source);
  }
  return rest;
}

void set_solution(Data& data, const Page& page, const quiz::Question& question) {
  set_list(data, "steps", question.steps,
           [&](const quiz::WorkedStep& step) { return step_data(page, step); });
  set_list(data, "mistakes", mistakes_without_option(question), [&](const quiz::Mistake& mistake) {
    Data one;
    one.set("mistake-text", mistake.text);
    one.set("says", page.dress.option(mistake.says));
    return one;
  });
  set_list(data, "limits", question.limits,
           [&](const quiz::LimitLine& limit) { return limit_data(page, limit); });
  set_list(data, "sources", sources_beside_limits(question), [&](const quiz::SourceLine& source) {
    Data one;
    one.set("citation", source.citation);
    one.set("has-supports", Data(!source.supports.empty()));
    one.set("supports", source.supports);
    const std::string& status = page.label("status-" + source.status);
    one.set("has-status", Data(status != source.citation));
    one.set("status", status);
    return one;
  });
  data.set("has-references", Data(!question.limits.empty() || !question.sources.empty()));
  set_list(data, "cautions", question.cautions,
           [](const std::string& caution) { return Data("caution-text", caution); });
}

Data question_data(const Page& page, const quiz::Question& question) {
  Data data;
  data.set("number", std::to_string(question.number));
  data.set("question-id", page.sheet.seat + "-" + std::to_string(question.number));
  data.set("question-title", question.title);
  data.set("topic", question.topic_title);
  data.set("level", std::to_string(question.level));
  data.set("question-points", points_text(page, question.points));
  data.set("points-number", std::to_string(question.points));
  data.set("stem", page.dress.prose(question.stem));
  set_options(data, page, question);
  set_answer(data, page, question);
  set_figure(data, page, question);
  if (page.face == Face::key) set_solution(data, page, question);
  return data;
}

}  // namespace

std::string long_date(const Labels& labels, engine::Language language, const std::string& date) {
  if (date.size() != 10 || date[4] != '-' || date[7] != '-') return date;
  const auto part = [&](std::size_t from) {
    return date.substr(date[from] == '0' ? from + 1 : from, date[from] == '0' ? 1 : 2);
  };
  const std::string month = "month-" + part(5);
  if (!labels.has(month)) return date;
  std::string text = labels.at("date-format", language);
  text = with_value(std::move(text), "{day}", part(8));
  text = with_value(std::move(text), "{month}", labels.at(month, language));
  return with_value(std::move(text), "{year}", date.substr(0, 4));
}

Data page_data(const Templates::Parts& parts, const quiz::Header& header, Face face) {
  const auto language = header.style.language;
  Data data;
  data.look_also_in(parts.label_data(language));
  data.set("language", language == engine::Language::english ? "en" : "es");
  data.set("quiz-title", header.title);
  data.set("course", header.course);
  data.set("date", long_date(parts.labels, language, header.date));
  data.set("rules", header.rules_title);
  data.set("face-title",
           parts.labels.at(face == Face::sheet ? "sheet-title" : "key-title", language));
  return data;
}

Data head_data(const Templates::Parts& parts, const quiz::Header& header, const quiz::Sheet& sheet,
               Face face, const Dress& dress) {
  const Page page{parts, header, sheet, face, dress};
  Data data = page_data(parts, header, face);
  data.set("seat", sheet.seat);
  data.set("code", sheet.code);
  data.set("qr-code", dress.scannable(sheet.code, parts.labels.at("code", header.style.language)));
  data.set("has-name", Data(!sheet.name.empty()));
  data.set("name", sheet.name);
  data.set("points", points_text(page, sheet.points));
  data.set("minutes", std::to_string(sheet.minutes));
  const int extra = sheet.accommodations.extra_minutes;
  data.set("has-extra-time", Data(extra > 0));
  data.set("extra-minutes", std::to_string(extra));
  data.set("minutes-in-all", std::to_string(sheet.minutes + extra));
  data.set("own-language", Data(sheet.accommodations.language.has_value()));
  data.set("large", Data(sheet.accommodations.large_print));
  data.set("count", questions_text(page, sheet.questions.size()));
  return data;
}

Data question_data(const Templates::Parts& parts, const quiz::Header& header,
                   const quiz::Sheet& sheet, const quiz::Question& question, Face face,
                   const Dress& dress) {
  return question_data(Page{parts, header, sheet, face, dress}, question);
}

Data sheet_data(const Templates::Parts& parts, const quiz::Header& header, const quiz::Sheet& sheet,
                Face face, const Dress& dress) {
  const Page page{parts, header, sheet, face, dress};
  Data data = head_data(parts, header, sheet, face, dress);
  data.set("box", box_data(page));
  data.set("has-box", Data(!sheet.box.formulas.empty() || !sheet.box.limits.empty()));
  set_list(data, "questions", sheet.questions,
           [&](const quiz::Question& question) { return question_data(page, question); });
  return data;
}

}  // namespace footroom::render
