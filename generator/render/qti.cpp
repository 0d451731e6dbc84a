#include "render/qti.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "grade/scoring_rules.hpp"
#include "quiz/reference_box.hpp"
#include "quiz/right_letters.hpp"
#include "render/commonmark.hpp"
#include "render/escape.hpp"
#include "render/page_data.hpp"
#include "render/templates.hpp"

namespace footroom::render {
namespace {

using quiz::Kind;

constexpr const char* head = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
constexpr const char* name_space = "http://www.imsglobal.org/xsd/imsqtiasi_v3p0";
constexpr const char* schema =
    "https://purl.imsglobal.org/spec/qti/v3p0/schema/xsd/imsqti_asiv3p0_v1p0.xsd";

/// Numbers for machines, whatever the quiz's decimal mark.
std::string number(double value) {
  return fmt::format("{:.12g}", value);
}
std::string number(grade::Points points) {
  return points.text(notation::Style());
}

/// A formula as plain text: not every client sets MathML, and one that shows its letters alone
/// loses roots and powers.
std::string formula(const notation::Math& math) {
  return escape_xml(notation::to_text(math));
}

/// A title is one line.
std::string attribute(std::string_view text) {
  std::string line(text);
  std::replace_if(
      line.begin(), line.end(), [](char c) { return c == '\n' || c == '\r' || c == '\t'; }, ' ');
  return escape_xml(line);
}

// ---- Expressions and rules of response processing ----------------------------------------------

std::string variable(std::string_view name) {
  return fmt::format("<qti-variable identifier=\"{}\"/>", name);
}

std::string value(std::string_view type, std::string_view text) {
  return fmt::format("<qti-base-value base-type=\"{}\">{}</qti-base-value>", type, text);
}

std::string operation(std::string_view name, const std::string& operands) {
  return fmt::format("<qti-{0}>{1}</qti-{0}>", name, operands);
}

std::string set_outcome(std::string_view name, const std::string& expression) {
  return fmt::format("<qti-set-outcome-value identifier=\"{}\">{}</qti-set-outcome-value>\n", name,
                     expression);
}

/// Rules of which the first whose condition holds is followed.
class Choice {
 public:
  void when(const std::string& condition, const std::string& rules) {
    text_ += fmt::format("<qti-response-{0}>{1}\n{2}</qti-response-{0}>\n",
                         text_.empty() ? "if" : "else-if", condition, rules);
  }
  void otherwise(const std::string& rules) { text_ += operation("response-else", rules) + "\n"; }
  std::string text() const { return operation("response-condition", "\n" + text_) + "\n"; }

 private:
  std::string text_;
};

// ---- An item -----------------------------------------------------------------------------------

class ItemWriter {
 public:
  ItemWriter(const Templates::Parts& parts, const quiz::Header& header, const quiz::Sheet& sheet,
             const quiz::Question& question)
      : parts_(parts), header_(header), sheet_(sheet), question_(question) {}

  std::string identifier() const { return fmt::format("{}-{}", sheet_.seat, question_.number); }
  /// Empty where the question has none or shows none.
  std::string image() const {
    const bool shown = question_.sheet_figure && !sheet_.accommodations.without_figures;
    return shown ? "images/" + identifier() + ".svg" : std::string();
  }

  std::string item() const {
    return head +
           fmt::format(
               "<qti-assessment-item xmlns=\"{0}\" "
               "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" "
               "xsi:schemaLocation=\"{0} {1}\" identifier=\"{2}\" title=\"{3}\" xml:lang=\"{4}\" "
               "tool-name=\"Footroom\" tool-version=\"{5}\" adaptive=\"false\" "
               "time-dependent=\"false\">\n",
               name_space, schema, identifier(), attribute(question_.title), language(),
               attribute(header_.program)) +
           response_declaration() + outcome_declarations() + body() + processing() +
           "</qti-assessment-item>\n";
  }

 private:
  bool is_number() const { return question_.kind == Kind::number; }
  bool is_order() const { return question_.kind == Kind::order; }
  bool is_several() const { return question_.kind == Kind::several_of; }
  const std::string& label(std::string_view id) const {
    return parts_.labels.at(id, header_.style.language);
  }
  std::string_view language() const {
    return header_.style.language == engine::Language::english ? "en" : "es";
  }

  std::string response_declaration() const {
    std::string right;
    if (is_number()) {
      right = operation("value", number(question_.answer->number));
    } else {
      for (const std::string& letter : quiz::right_letters(question_))
        right += operation("value", letter);
    }
    return fmt::format(
        "<qti-response-declaration identifier=\"RESPONSE\" cardinality=\"{}\" base-type=\"{}\">\n"
        "<qti-correct-response>{}</qti-correct-response>\n{}</qti-response-declaration>\n",
        is_order()     ? "ordered"
        : is_several() ? "multiple"
                       : "single",
        is_number() ? "float" : "identifier", right, mapping());
  }

  /// Of several-of: right letters count one, wrong ones take one away.
  std::string mapping() const {
    if (!is_several()) return {};
    std::string entries;
    for (const quiz::Option& option : question_.options)
      entries += fmt::format("<qti-map-entry map-key=\"{}\" mapped-value=\"{}\"/>\n", option.letter,
                             option.right ? 1 : -1);
    return "<qti-mapping lower-bound=\"0\" default-value=\"0\">\n" + entries + "</qti-mapping>\n";
  }

  std::string outcome_declarations() const {
    const std::string points = std::to_string(question_.points);
    const auto declare = [](std::string_view name, std::string_view cardinality,
                            std::string_view type, const std::string& rest) {
      return fmt::format(
          "<qti-outcome-declaration identifier=\"{}\" cardinality=\"{}\" base-type=\"{}\"{}", name,
          cardinality, type, rest);
    };
    const auto starting_at = [](const std::string& number) {
      return fmt::format(
          ">\n<qti-default-value><qti-value>{}</qti-value></qti-default-value>\n"
          "</qti-outcome-declaration>\n",
          number);
    };
    std::string all =
        declare(
            "SCORE", "single", "float",
            fmt::format(" normal-minimum=\"0\" normal-maximum=\"{}\"", points) + starting_at("0")) +
        declare("MAXSCORE", "single", "float", starting_at(points)) +
        declare("FEEDBACK", is_several() ? "multiple" : "single", "identifier", "/>\n") +
        declare("SOLUTION", "single", "identifier", "/>\n");
    if (is_order()) all += declare("PAIRS", "single", "integer", starting_at("0"));
    return all;
  }

  // ---- What the student sees

  std::string body() const {
    return "<qti-item-body>\n" + in_div(html_of_markdown(question_.stem)) + figure() + limits() +
           interaction() + feedback() + "</qti-item-body>\n";
  }

  static std::string in_div(const std::string& html) { return "<div>\n" + html + "</div>\n"; }

  std::string figure() const {
    if (!question_.sheet_figure) return {};
    const std::string words =
        question_.sheet_figure->title + ". " + question_.sheet_figure->description;
    if (image().empty())
      return fmt::format("<p>{}: {}</p>\n", escape_xml(label("figure-in-words")),
                         escape_xml(words));
    return fmt::format("<p><img src=\"../{}\" alt=\"{}\"/></p>\n", image(), attribute(words));
  }

  std::string limits() const {
    const std::vector<quiz::LimitLine> told = quiz::limits_told(question_);
    if (told.empty()) return {};
    std::string lines;
    for (const quiz::LimitLine& limit : told)
      lines += fmt::format("<li>{}: <strong>{}</strong> ({}, {})</li>\n", escape_xml(limit.name),
                           escape_xml(limit.text), escape_xml(limit.citation),
                           escape_xml(label("status-" + limit.status)));
    return fmt::format("<p>{} ({}):</p>\n<ul>\n{}</ul>\n", escape_xml(label("limits")),
                       escape_xml(header_.rules_title), lines);
  }

  std::string interaction() const {
    if (is_number())
      return fmt::format(
          "<p>{}</p>\n<p>{}: <qti-text-entry-interaction response-identifier=\"RESPONSE\" "
          "expected-length=\"12\"/> {}</p>\n",
          escape_xml(label("type-a-number")), escape_xml(label("answer")),
          escape_xml(question_.answer->unit_text));
    std::string choices;
    for (const quiz::Option& option : question_.options)
      choices += fmt::format("<qti-simple-choice identifier=\"{}\">{}</qti-simple-choice>\n",
                             option.letter, html_of_markdown(option.text));
    const std::string_view kind = is_order() ? "order" : "choice";
    const std::string_view how_many = is_order()     ? ""
                                      : is_several() ? " max-choices=\"0\""
                                                     : " max-choices=\"1\"";
    const std::string_view instruction = is_order()     ? "put-in-order"
                                         : is_several() ? "mark-several"
                                                        : "mark-one";
    return fmt::format(
        "<qti-{0}-interaction response-identifier=\"RESPONSE\" shuffle=\"false\"{1}>\n"
        "<qti-prompt>{2}</qti-prompt>\n{3}</qti-{0}-interaction>\n",
        kind, how_many, escape_xml(label(instruction)), choices);
  }

  // ---- How it is judged

  std::string processing() const {
    const std::string rules = is_number()    ? number_rules()
                              : is_order()   ? order_rules()
                              : is_several() ? several_rules()
                                             : one_rules();
    Choice answered;
    answered.when(operation("not", operation("is-null", variable("RESPONSE"))),
                  rules + set_outcome("SOLUTION", value("identifier", "solution")));
    return "<qti-response-processing>\n" + answered.text() + "</qti-response-processing>\n";
  }

  std::string score(grade::Points points) const {
    return set_outcome("SCORE", value("float", number(points)));
  }
  static std::string tell(std::string_view feedback) {
    return set_outcome("FEEDBACK", value("identifier", feedback));
  }

  std::string number_rules() const {
    Choice choice;
    for (const grade::NumberRange& range : grade::number_ranges(question_)) {
      const std::string inside = operation(
          "and", operation("gte", variable("RESPONSE") + value("float", number(range.from))) +
                     operation("lte", variable("RESPONSE") + value("float", number(range.to))));
      if (range.mistake.empty())
        choice.when(inside, score(grade::Points::whole(question_.points)) + tell("right"));
      else
        choice.when(inside, tell("mistake-" + range.mistake));
    }
    choice.otherwise(tell("wrong"));
    return choice.text();
  }

  std::string one_rules() const {
    Choice choice;
    choice.when(operation("match", variable("RESPONSE") + "<qti-correct identifier=\"RESPONSE\"/>"),
                score(grade::Points::whole(question_.points)));
    return set_outcome("FEEDBACK", variable("RESPONSE")) + choice.text();
  }

  /// Marks as a number of whole ones, in steps from the most down.
  std::string score_by(const std::string& marks, const std::string& type,
                       bool with_feedback) const {
    Choice choice;
    bool all = true;
    for (const grade::MarksStep& step : grade::marks_steps(question_)) {
      const std::string least =
          type == "float" ? number(step.marks - 0.5) : std::to_string(step.marks);
      choice.when(operation("gte", marks + value(type, least)),
                  score(step.points) +
                      (with_feedback ? tell(all ? "right" : "partly-right") : std::string()));
      all = false;
    }
    if (with_feedback) choice.otherwise(tell("wrong"));
    return choice.text();
  }

  std::string several_rules() const {
    return set_outcome("FEEDBACK", variable("RESPONSE")) +
           score_by("<qti-map-response identifier=\"RESPONSE\"/>", "float", false);
  }

  /// Counts the pairs of letters that stand in the right order.
  std::string order_rules() const {
    const std::vector<std::string> right = quiz::right_letters(question_);
    const auto stands_at = [](std::size_t place, const std::string& letter) {
      return operation("match", fmt::format("<qti-index n=\"{}\">{}</qti-index>", place + 1,
                                            variable("RESPONSE")) +
                                    value("identifier", letter));
    };
    std::string rules = set_outcome("PAIRS", value("integer", "0"));
    for (std::size_t first = 0; first < right.size(); ++first)
      for (std::size_t second = first + 1; second < right.size(); ++second) {
        std::string ways;
        for (std::size_t place = 0; place < right.size(); ++place)
          for (std::size_t later = place + 1; later < right.size(); ++later)
            ways +=
                operation("and", stands_at(place, right[first]) + stands_at(later, right[second])) +
                "\n";
        Choice choice;
        choice.when(
            operation("or", "\n" + ways),
            set_outcome("PAIRS", operation("sum", variable("PAIRS") + value("integer", "1"))));
        rules += choice.text();
      }
    return rules + score_by(variable("PAIRS"), "integer", true);
  }

  // ---- What is told afterwards

  /// Stands below the answer and is shown where the outcome is or holds `id`.
  static std::string block(std::string_view outcome, std::string_view id, const std::string& html) {
    return fmt::format(
        "<qti-feedback-block outcome-identifier=\"{}\" show-hide=\"show\" identifier=\"{}\">\n"
        "<qti-content-body>\n{}</qti-content-body>\n</qti-feedback-block>\n",
        outcome, id, html);
  }

  std::string line(std::string_view id) const {
    return fmt::format("<p><strong>{}</strong></p>\n", escape_xml(label(id)));
  }

  std::string feedback() const {
    std::string all;
    if (is_number() || is_order())
      all += block("FEEDBACK", "right", line("outcome-right")) +
             block("FEEDBACK", "wrong", line("outcome-wrong"));
    if (is_order()) all += block("FEEDBACK", "partly-right", line("outcome-partly-right"));
    if (is_number())
      for (const quiz::Mistake& mistake : question_.mistakes)
        all += block("FEEDBACK", "mistake-" + mistake.id,
                     line("outcome-named-mistake") + html_of_markdown(mistake.says));
    if (!is_number() && !is_order())
      for (const quiz::Option& option : question_.options)
        all += block("FEEDBACK", option.letter,
                     fmt::format("<p><strong>{}: {}</strong></p>\n", option.letter,
                                 escape_xml(label(option.right ? "right" : "wrong"))) +
                         html_of_markdown(says_of(option)));
    return all + block("SOLUTION", "solution", solution());
  }

  std::string says_of(const quiz::Option& option) const {
    if (!option.says.empty()) return option.says;
    for (const quiz::Mistake& mistake : question_.mistakes)
      if (mistake.letter == option.letter) return mistake.says;
    return {};
  }

  std::string right_answer() const {
    if (is_number()) return question_.answer->text;
    return fmt::format("{}", fmt::join(quiz::right_letters(question_), is_order() ? " " : ", "));
  }

  std::string solution() const {
    std::string html = fmt::format("<p>{}: <strong>{}</strong></p>\n",
                                   escape_xml(label("right-answer")), escape_xml(right_answer()));
    for (const quiz::WorkedStep& step : question_.steps) {
      html += html_of_markdown(step.says);
      if (!step.line) continue;
      html += fmt::format("<p>{} = {} = <strong>{}</strong></p>\n", formula(step.line->symbols),
                          formula(step.line->numbers), escape_xml(step.line->result));
    }
    for (const std::string& caution : question_.cautions)
      html += "<p>" + escape_xml(caution) + "</p>\n";
    return html + fmt::format("<p><strong>{}.</strong> {}</p>\n", escape_xml(label("caution-word")),
                              escape_xml(label("caution")));
  }

  const Templates::Parts& parts_;
  const quiz::Header& header_;
  const quiz::Sheet& sheet_;
  const quiz::Question& question_;
};

// ---- A test ------------------------------------------------------------------------------------

/// What stands above the questions of a sheet.
std::string rubric(const Templates::Parts& parts, const quiz::Header& header,
                   const quiz::Sheet& sheet) {
  const auto label = [&](std::string_view id) {
    return escape_xml(parts.labels.at(id, header.style.language));
  };
  std::string html = fmt::format("<p>{}</p>\n<p><strong>{}.</strong> {}</p>\n",
                                 label("instructions"), label("caution-word"), label("caution"));
  for (const quiz::FormulaGroup& group : sheet.box.formulas) {
    html += "<p><strong>" + escape_xml(group.title) + "</strong></p>\n<ul>\n";
    for (const quiz::FormulaLine& line : group.lines)
      html += "<li>" + formula(line.formula) + "</li>\n";
    for (const quiz::SymbolLine& line : group.symbols)
      html += "<li>" + formula(line.symbol) + " " + escape_xml(line.meaning) + "</li>\n";
    html += "</ul>\n";
  }
  return "<qti-rubric-block view=\"candidate\" use=\"instructions\">\n<qti-content-body>\n" + html +
         "</qti-content-body>\n</qti-rubric-block>\n";
}

std::string outcome_of_test(std::string_view name, std::string_view variable) {
  return fmt::format(
      "<qti-set-outcome-value identifier=\"{}\"><qti-sum><qti-test-variables "
      "variable-identifier=\"{}\"/></qti-sum></qti-set-outcome-value>\n",
      name, variable);
}

std::string test_of(const Templates::Parts& parts, const quiz::Header& header,
                    const quiz::Sheet& sheet, const std::string& title) {
  std::string items;
  for (const quiz::Question& question : sheet.questions)
    items += fmt::format(
        "<qti-assessment-item-ref identifier=\"item-{0}-{1}\" href=\"../items/{0}-{1}.xml\"/>\n",
        sheet.seat, question.number);
  const int seconds = 60 * (sheet.minutes + sheet.accommodations.extra_minutes);
  return head +
         fmt::format(
             "<qti-assessment-test xmlns=\"{0}\" "
             "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" xsi:schemaLocation=\"{0} "
             "{1}\" identifier=\"{2}\" title=\"{3}\" tool-name=\"Footroom\" tool-version=\"{4}\">\n"
             "<qti-outcome-declaration identifier=\"SCORE\" cardinality=\"single\" "
             "base-type=\"float\" normal-maximum=\"{5}\"/>\n"
             "<qti-outcome-declaration identifier=\"MAXSCORE\" cardinality=\"single\" "
             "base-type=\"float\"/>\n"
             "<qti-time-limits max-time=\"{6}\" allow-late-submission=\"true\"/>\n"
             "<qti-test-part identifier=\"part\" navigation-mode=\"nonlinear\" "
             "submission-mode=\"individual\">\n"
             "<qti-item-session-control max-attempts=\"1\" show-feedback=\"true\"/>\n"
             "<qti-assessment-section identifier=\"section\" title=\"{3}\" visible=\"true\">\n"
             "{7}{8}</qti-assessment-section>\n</qti-test-part>\n"
             "<qti-outcome-processing>\n{9}{10}</qti-outcome-processing>\n"
             "</qti-assessment-test>\n",
             name_space, schema, "sheet-" + attribute(sheet.code), attribute(title),
             attribute(header.program), sheet.points, seconds, rubric(parts, header, sheet), items,
             outcome_of_test("SCORE", "SCORE"), outcome_of_test("MAXSCORE", "MAXSCORE"));
}

std::string resource(std::string_view identifier, std::string_view type, const std::string& path,
                     const std::vector<std::string>& other_files,
                     const std::vector<std::string>& dependencies) {
  std::string inside = fmt::format("<file href=\"{}\"/>\n", path);
  for (const std::string& file : other_files) inside += fmt::format("<file href=\"{}\"/>\n", file);
  for (const std::string& other : dependencies)
    inside += fmt::format("<dependency identifierref=\"{}\"/>\n", other);
  return fmt::format("<resource identifier=\"{}\" type=\"{}\" href=\"{}\">\n{}</resource>\n",
                     identifier, type, path, inside);
}

}  // namespace

void QtiPackage::add(const quiz::Sheet& sheet) {
  const Templates::Parts& parts = templates_.parts();
  const quiz::Header header = quiz::header_of(header_, sheet);
  std::vector<std::string> items;
  for (const quiz::Question& question : sheet.questions) {
    const ItemWriter writer(parts, header, sheet, question);
    const std::string path = "items/" + writer.identifier() + ".xml";
    files_.push_back({path, writer.item()});
    std::vector<std::string> images;
    if (!writer.image().empty()) {
      files_.push_back({writer.image(), svg_file(*question.sheet_figure)});
      images.push_back(writer.image());
    }
    items.push_back("item-" + writer.identifier());
    resources_ += resource(items.back(), "imsqti_item_xmlv3p0", path, images, {});
  }
  const std::string title = fmt::format("{} {}", header.title, sheet.code);
  const std::string path = "tests/sheet-" + sheet.seat + ".xml";
  files_.push_back({path, test_of(parts, header, sheet, title)});
  resources_ += resource("test-" + sheet.seat, "imsqti_test_xmlv3p0", path, {}, items);
}

std::vector<PackageFile> QtiPackage::finish() {
  const std::string manifest =
      head +
      fmt::format(
          "<manifest xmlns=\"http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1\" "
          "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" "
          "xsi:schemaLocation=\"http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1 "
          "https://purl.imsglobal.org/spec/qti/v3p0/schema/xsd/imsqtiv3p0_imscpv1p2_v1p0.xsd\" "
          "identifier=\"quiz-{}\">\n<metadata>\n<schema>QTI Package</schema>\n"
          "<schemaversion>3.0.0</schemaversion>\n</metadata>\n<organizations/>\n<resources>\n"
          "{}</resources>\n</manifest>\n",
          attribute(header_.code), resources_);
  files_.insert(files_.begin(), {"imsmanifest.xml", manifest});
  return std::move(files_);
}

}  // namespace footroom::render
