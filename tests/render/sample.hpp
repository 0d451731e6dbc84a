#pragma once
// A sheet as a quiz makes them, built by hand, so that rendering is tested alone: every kind of
// question, long texts, and a roster name that would be markup in each format.

#include <string>

#include "quiz/maker.hpp"
#include "quiz/question.hpp"

namespace footroom::render::sample {

using notation::Math;

inline Math identifier(std::string text) {
  return {Math::Kind::identifier, std::move(text), {}};
}
inline Math number(std::string text) {
  return {Math::Kind::number, std::move(text), {}};
}
inline Math sign(std::string text) {
  return {Math::Kind::sign, std::move(text), {}};
}
inline const std::string function_application = "\u2061";
inline const std::string invisible_times = "\u2062";

inline Math row(std::vector<Math> parts) {
  return {Math::Kind::row, {}, std::move(parts)};
}
inline Math fence(std::vector<Math> parts) {
  return {Math::Kind::fence, {}, std::move(parts)};
}
inline Math root(Math part) {
  return {Math::Kind::root, {}, {std::move(part)}};
}
inline Math fraction(Math over, Math under) {
  return {Math::Kind::fraction, {}, {std::move(over), std::move(under)}};
}
inline Math square(Math part) {
  return {Math::Kind::power, {}, {std::move(part), number("2")}};
}
inline Math index(std::string base, std::string below) {
  return {Math::Kind::subscript, {}, {identifier(std::move(base)), identifier(std::move(below))}};
}

inline const std::string hostile_name = "O'Neil <script>alert(\"1\")</script> | *A*, & \"Co\"\n# x";

inline engine::Quantity feet(double number) {
  return {engine::dimension::length, number * 0.3048};
}

inline quiz::Shown shown_feet(std::string name, std::string symbol, double value,
                              std::string text) {
  return {std::move(name), std::move(symbol), "a length", feet(value), "ft",
          value,           std::move(text)};
}

inline Math taut_line(bool numbers) {
  const Math length = numbers ? number("16 ft") : identifier("L");
  const Math angle = numbers ? number("26.57°") : identifier("θ");
  const Math height = numbers ? number("5 ft") : identifier("h");
  return root(
      row({square(fence({length, sign("·"), sign("cos"), sign(function_application), angle})),
           sign("+"),
           square(fence({height, sign("−"), length, sign("·"), sign("sin"),
                         sign(function_application), angle}))}));
}

inline figure::Drawing drawing(std::string description) {
  figure::Drawing made;
  made.width = 120;
  made.height = 60;
  made.title = "Roof with ridge anchor";
  made.description = std::move(description);
  figure::Path roof;
  roof.points = {{5, 50}, {70, 15}, {70, 58}};
  made.shapes.push_back(roof);
  figure::Label label;
  label.at = {35, 25};
  label.runs.emplace_back().text = "L = 16 ft";
  made.labels.push_back(label);
  return made;
}

inline quiz::Question number_question(int number_on_sheet) {
  quiz::Question q;
  q.number = number_on_sheet;
  q.item = "free-fall-over-the-eave";
  q.topic = "slack-and-free-fall";
  q.topic_title = "Slack and free fall";
  q.level = 3;
  q.kind = quiz::Kind::number;
  q.title = "Free fall over the eave";
  q.stem =
      "Rosa stands at the eave, straight below the ridge anchor. The slope from anchor to eave is "
      "16 ft long, at a pitch of 6:12. The D-ring is 5 ft above the feet. The line has 4 ft of "
      "slack. Rosa falls over the edge.\n\nHow far does the D-ring fall before the line takes "
      "load?";
  q.givens = {shown_feet("slope-length", "L", 16, "16 ft"),
              shown_feet("slack", "sigma", 4, "4 ft"),
              {"worker", "", "", engine::Word{"rosa"}, "", 0, "Rosa"}};
  q.calculations = {{"edge-fall",
                     "fall",
                     "Fall over the eave",
                     {shown_feet("slope-length", "L", 16, "16 ft")},
                     {shown_feet("free-fall", "FF", 7.4547, "7.5 ft"),
                      {"end", "", "", engine::Word{"below-edge"}, "", 0, "below the edge"}}}};
  q.lets = {shown_feet("spare", "s", 1.5, "1.5 ft")};
  q.answer = {feet(7.4547), "ft", 7.4547, 0.1, "7.5 ft", "ft"};
  q.mistakes = {{"slack-only",
                 4,
                 "4 ft",
                 {},
                 "Slack alone is not the free fall: the D-ring also comes down from its height "
                 "above the edge."},
                {"height-plus-slack",
                 9,
                 "9 ft",
                 {},
                 "The taut line is not as long as the slope: it runs straight from the anchor to "
                 "the D-ring."}};
  q.steps = {
      {"The taut line runs straight from the anchor to the D-ring.",
       quiz::WorkedStep::Line{"fall.taut-line", row({index("d", "0"), sign("="), taut_line(false)}),
                              taut_line(true), "14.5 ft"}},
      {"Over the eave, the slope uses up its own length; the rest hangs below the edge.",
       quiz::WorkedStep::Line{
           "fall.below-edge",
           row({identifier("b"), sign("="), index("d", "0"), sign("+"), identifier("σ"), sign("−"),
                identifier("L")}),
           row({number("14.5 ft"), sign("+"), number("4 ft"), sign("−"), number("16 ft")}),
           "2.5 ft"}},
      {"", quiz::WorkedStep::Line{"fall.free-fall",
                                  row({identifier("FF"), sign("="), identifier("h"), sign("+"),
                                       identifier("b")}),
                                  row({number("5 ft"), sign("+"), number("2.5 ft")}), "7.5 ft"}},
      {"That is more than the rule allows, so the slack must go.", {}}};
  q.sheet_figure = drawing("A worker at the eave, 16 ft below the anchor.");
  q.key_figure = drawing("The worker hangs below the edge; the D-ring fell 7.5 ft.");
  q.limits = {{"free-fall", "free fall, at most", "6 ft", "29 CFR 1926.502(d)(16)(iii)", "read"}};
  q.sources = {{"29 CFR 1926.500(b), free fall", "what counts as free fall", "second-hand"},
               {"Energy balance & standard gravity", "", "computed"}};
  q.cautions = {"Valid on the anchor's fall line only; away from it add the eave swing."};
  q.points = 2;
  q.minutes = 5;
  return q;
}

inline quiz::Question plain_number_question(int number_on_sheet) {
  quiz::Question q = number_question(number_on_sheet);
  q.item = "absorber-elongation";
  q.topic_title = "Arrest force and absorber";
  q.title = "How far the absorber opens";
  q.stem =
      "Deshawn weighs 282 lb with tools. He falls 6 ft before his line takes load. His energy "
      "absorber holds an average of 900 lbf while it opens.\n\nHow far does the absorber open?";
  q.steps = {{"The energy of the whole fall goes into the absorber.",
              quiz::WorkedStep::Line{
                  "stop.elongation",
                  row({identifier("X"), sign("="),
                       fraction(row({identifier("W"), sign(invisible_times), identifier("FF")}),
                                row({index("F", "avg"), sign("−"), identifier("W")}))}),
                  fraction(row({number("282 lbf"), sign("·"), number("6 ft")}),
                           row({number("900 lbf"), sign("−"), number("282 lbf")})),
                  "32.9 in"}}};
  q.sheet_figure.reset();
  q.key_figure.reset();
  q.answer = {{engine::dimension::length, 0.8346}, "in", 32.858, 0.5, "32.9 in", "in"};
  q.points = 1;
  return q;
}

inline quiz::Question choice_question(int number_on_sheet, quiz::Kind kind) {
  quiz::Question q;
  q.number = number_on_sheet;
  q.item = "anchor-verdict";
  q.topic = "rules";
  q.topic_title = "Rules and gear";
  q.level = 2;
  q.kind = kind;
  q.title = kind == quiz::Kind::several_of ? "Take it out of service" : "Two workers, one anchor";
  q.stem =
      kind == quiz::Kind::several_of
          ? "Before the shift, Mei looks over the gear. Which of these go **out of service**?"
          : "An anchor's maker rates it at 5,000 lbf for one person. Two workers want to tie off "
            "to it while they carry sheathing across the ridge. May they?";
  q.options = {
      {"A", "both", "Yes, 5,000 lbf is enough for both, because both never fall at once", false, 0,
       "The rule asks for the strength for *each person attached*."},
      {"B", "one", "No: the anchor carries one person", true, 0,
       "5,000 lbf for each person attached, unless the whole system has a factor of 2 under a "
       "qualified person."},
      {"C", "slack", "Yes, with short lines", false, 0, ""},
      {"D", "frayed",
       "A line with a cut strand, found near the thimble, where the sheath has been rubbed through "
       "on the edge of a metal drip flashing during last week's tear-off",
       kind == quiz::Kind::several_of, 0, "Cut fibres carry no load."}};
  q.mistakes = {
      {"shorter", {}, "C", "C", "Short lines lower the force, not the number of people."}};
  q.limits = {{"anchor-strength-per-person",
               "anchorage strength for each person attached, at least", "5,000 lbf",
               "29 CFR 1926.502(d)(15)", "read"}};
  q.sources = {{"29 CFR 1926.502(d)(19)", "out of service after an impact", "from-memory"},
               {"Within 30 degrees of the anchor", "", "common-practice"}};
  return q;
}

inline quiz::Question order_question(int number_on_sheet) {
  quiz::Question q = choice_question(number_on_sheet, quiz::Kind::order);
  q.item = "order-of-tying-off";
  q.title = "First things first";
  q.stem = "Put the steps of going up in order.";
  q.options = {{"A", "climb", "Climb the ladder", false, 3, ""},
               {"B", "inspect", "Inspect harness and line", false, 1, "Before each use."},
               {"C", "tie", "Tie off", false, 4, ""},
               {"D", "don", "Put the harness on", false, 2, ""}};
  q.mistakes.clear();
  q.points = 3;
  return q;
}

inline quiz::ReferenceBox box() {
  quiz::ReferenceBox made;
  const auto line = [](Math left, Math right) {
    return quiz::FormulaLine{row({std::move(left), sign("="), std::move(right)})};
  };
  made.formulas = {
      {"Fall over the eave, straight down",
       {line(index("d", "0"), taut_line(false)),
        line(identifier("b"),
             row({index("d", "0"), sign("+"), identifier("σ"), sign("−"), identifier("L")})),
        line(identifier("FF"), row({identifier("h"), sign("+"), identifier("b")}))}},
      {"Energy absorber",
       {line(identifier("X"),
             fraction(row({identifier("W"), sign(invisible_times), identifier("FF")}),
                      row({identifier("F"), sign("−"), identifier("W")})))}},
      {"Swing at the eave",
       {line(identifier("D"),
             root(row({square(identifier("L")), sign("+"), square(identifier("x"))}))),
        line(identifier("v"),
             root(row({number("2"), sign(invisible_times), identifier("g"), sign(invisible_times),
                       fence({identifier("D"), sign("−"), identifier("L")})})))}},
      {"Ladder", {line(identifier("a"), fraction(identifier("l"), number("4")))}}};
  made.formulas[0].symbols = {{identifier("L"), "slope length from anchor to eave edge"},
                              {identifier("θ"), "roof angle"},
                              {identifier("h"), "height of the D-ring over the feet"},
                              {identifier("σ"), "slack in the line"},
                              {index("d", "0"), "taut line"},
                              {identifier("b"), "line below the edge"},
                              {identifier("FF"), "free fall"},
                              {identifier("W"), "weight of the person with tools"},
                              {identifier("X"), "how far the absorber opens"}};
  made.limits = {{"free-fall", "free fall, at most", "6 ft", "29 CFR 1926.502(d)(16)(iii)", "read"},
                 {"deceleration", "deceleration distance, at most", "3.5 ft",
                  "29 CFR 1926.502(d)(16)(iv)", "read"},
                 {"arrest-force", "arresting force with a body harness, at most", "1,800 lbf",
                  "29 CFR 1926.502(d)(16)(ii)", "second-hand"}};
  return made;
}

inline quiz::Header header(engine::Language language = engine::Language::english,
                           quiz::Paper paper = quiz::Paper::letter) {
  quiz::Header made;
  made.code = "7K3QX";
  made.program = "0.1.0";
  made.bank_digest = std::string(64, 'a');
  made.blueprint = "weekly";
  made.title = "Weekly quiz";
  made.course = "Rooftop work: fall protection";
  made.seed = 9223372036854775807ULL;
  made.date = "2026-01-05";
  made.system = notation::System::us;
  made.style.language = language;
  made.rules = "us-construction";
  made.rules_title = "US construction, 29 CFR 1926 Subpart M";
  made.paper = paper;
  made.sheets = 2;
  made.minutes = 45;
  return made;
}

inline quiz::Sheet sheet(std::string seat = "A", std::string name = hostile_name) {
  quiz::Sheet made;
  made.code = "7K3QX-" + seat;
  made.seat = std::move(seat);
  made.name = std::move(name);
  made.questions = {number_question(1),
                    plain_number_question(2),
                    choice_question(3, quiz::Kind::one_of),
                    choice_question(4, quiz::Kind::several_of),
                    order_question(5),
                    choice_question(6, quiz::Kind::verdict),
                    number_question(7),
                    plain_number_question(8),
                    choice_question(9, quiz::Kind::one_of),
                    number_question(10),
                    plain_number_question(11),
                    number_question(12)};
  made.box = box();
  for (const quiz::Question& question : made.questions) {
    made.points += question.points;
    made.minutes += question.minutes;
  }
  return made;
}

}  // namespace footroom::render::sample
