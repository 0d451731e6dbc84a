#include "practice/bench.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>

#include "engine/arrest_in_time.hpp"
#include "engine/catalogue.hpp"
#include "figure/figure.hpp"
#include "figure/plot.hpp"
#include "notation/typeset.hpp"
#include "notation/unit_text.hpp"
#include "quiz/status_name.hpp"

namespace footroom::practice {
namespace {

using engine::Quantity;
using engine::Text;
using engine::Values;
using notation::Unit;

struct Slider {
  std::string_view unit;
  double least;
  double most;
  double step;
  double start;
};

/// A control takes its name and symbol from the input of a calculation that it stands for.
struct ControlRow {
  std::string_view id;
  std::string_view calculation;
  std::string_view input;
  Slider us;
  Slider si;
  bool main = true;
};

// The ranges are those of everyday roofs and gear; the calculations themselves allow more.
constexpr ControlRow rows[] = {
    {"slack", "edge-fall", "slack", {"ft", 0, 12, 0.25, 2}, {"m", 0, 3.6, 0.05, 0.6}},
    {"pitch", "edge-fall", "pitch", {"pitch", 0, 18, 0.5, 6}, {"deg", 0, 56, 0.5, 26.5}},
    {"slope-length", "edge-fall", "slope-length", {"ft", 6, 40, 0.5, 16}, {"m", 2, 12, 0.1, 5}},
    {"offset", "eave-swing", "offset", {"ft", 0, 24, 0.5, 0}, {"m", 0, 7.2, 0.1, 0}},
    {"mass", "arrest-in-time", "mass", {"lb", 100, 350, 5, 220}, {"kg", 45, 160, 1, 100}},
    {"absorber-force",
     "arrest-in-time",
     "absorber-force",
     {"lbf", 450, 1800, 50, 900},
     {"kN", 2, 8, 0.1, 4}},
    {"maximum-elongation",
     "arrest-in-time",
     "maximum-elongation",
     {"ft", 0, 5, 0.25, 3.5},
     {"m", 0, 1.5, 0.05, 1.05}},
    {"eave-height", "", "", {"ft", 6, 40, 0.5, 20}, {"m", 2, 12, 0.1, 6}},
    {"rope-stretch", "", "", {"percent", 1, 20, 0.5, 5}, {"percent", 1, 20, 0.5, 5}, false},
    {"d-ring-height",
     "edge-fall",
     "d-ring-height",
     {"ft", 4, 6, 0.25, 5},
     {"m", 1.2, 1.8, 0.05, 1.5},
     false},
    {"harness-stretch",
     "clearance",
     "harness-stretch",
     {"ft", 0, 2, 0.25, 1},
     {"m", 0, 0.6, 0.05, 0.3},
     false},
    {"safety-margin",
     "clearance",
     "safety-margin",
     {"ft", 0, 4, 0.5, 2},
     {"m", 0, 1.2, 0.1, 0.6},
     false},
};

// Fewer than on paper: the plot follows a slider.
constexpr int plot_samples = 201;

// The force at which the rope's stretch is told: 8 kN, in US units 1,800 lbf.
constexpr std::string_view test_force_us = "1,800 lbf";
constexpr std::string_view test_force_si = "8 kN";

const Slider& slider(const ControlRow& row, notation::System system) {
  return system == notation::System::us ? row.us : row.si;
}

const Unit& unit_named(std::string_view name) {
  return *notation::find_unit(name);
}

/// The point of the slider's grid nearest to `number`, as its decimals print it.
double on_grid(const Slider& slider, double number) {
  if (!(number > slider.least)) return slider.least;
  if (!(number < slider.most)) return slider.most;
  const double steps = std::round((number - slider.least) / slider.step);
  return std::round((slider.least + steps * slider.step) * 1000) / 1000;
}

double value_of(const ControlRow& row, notation::System system, const BenchValues& values) {
  const Slider& of = slider(row, system);
  const auto found = values.find(row.id);
  return found != values.end() && std::isfinite(found->second) ? on_grid(of, found->second)
                                                               : of.start;
}

const engine::Calculation& calculation(std::string_view id) {
  return *engine::find_calculation(id);
}

double number(const Values& values, std::string_view name) {
  return std::get<Quantity>(values.find(name)->second).si;
}

const std::string& word(const Values& values, std::string_view name) {
  return std::get<engine::Word>(values.find(name)->second).id;
}

class Builder {
 public:
  Builder(const bank::Bank& bank, const std::string& rules, const Face& face,
          const BenchValues& values)
      : rules_(bank.rules.at(rules)), face_(face) {
    for (const ControlRow& row : rows) add_control(row, values);
  }

  Bench build() {
    try {
      work_out();
    } catch (const engine::Refusal& refusal) {
      Bench only;
      only.controls = std::move(bench_.controls);
      only.problem = refusal.quantity + ": " + refusal.reason;
      return only;
    }
    return std::move(bench_);
  }

 private:
  std::string say(Text text) const { return std::string(text.in(face_.style.language)); }
  bool us() const { return face_.system == notation::System::us; }

  void add_control(const ControlRow& row, const BenchValues& values) {
    const Slider& of = slider(row, face_.system);
    const Unit& unit = unit_named(of.unit);
    BenchControl control;
    control.id = row.id;
    control.main = row.main;
    control.unit = of.unit;
    control.unit_text = notation::unit_alone(unit, face_.style.language);
    control.least = of.least;
    control.most = of.most;
    control.step = of.step;
    control.value = value_of(row, face_.system, values);
    control.text = notation::write_quantity_shortest(control.value, unit, face_.style);
    if (row.calculation.empty()) {
      control.name = own_name(row.id);
    } else {
      const engine::Input& input = *calculation(row.calculation).find_input(row.input);
      control.name = say(input.name);
      control.symbol = input.symbol;
    }
    si_[std::string(row.id)] = unit.to_si(control.value);
    texts_[std::string(row.id)] = control.text;
    bench_.controls.push_back(std::move(control));
  }

  std::string own_name(std::string_view id) const {
    if (id == "eave-height")
      return say(
          {"height of the eave above the lower level", "altura del alero sobre el nivel inferior"});
    return fmt::format(
        fmt::runtime(say({"stretch of the rope at {}", "estiramiento de la cuerda con {}"})),
        us() ? test_force_us : test_force_si);
  }

  double si(std::string_view id) const { return si_.find(id)->second; }
  const std::string& text(std::string_view id) const { return texts_.find(id)->second; }

  std::string in_words(const engine::Show& show, double si_value, int more_places = 0) const {
    const Unit& unit = unit_named(us() ? show.us : show.si);
    return notation::write_quantity(unit.from_si(si_value), unit,
                                    (us() ? show.us_places : show.si_places) + more_places,
                                    face_.style);
  }

  std::string output_text(std::string_view id, const Values& values, std::string_view name) const {
    return in_words(calculation(id).find_output(name)->show, number(values, name));
  }

  void add_output(std::string_view id, const Values& values, std::string_view name) {
    const engine::Output& output = *calculation(id).find_output(name);
    bench_.outputs.push_back({std::string(output.symbol), say(output.name),
                              in_words(output.show, number(values, name))});
  }

  static Quantity length(double metres) { return {engine::dimension::length, metres}; }
  static Quantity angle(double radians) { return {engine::dimension::angle, radians}; }

  void work_out() {
    swing_ =
        calculation("eave-swing")
            .run({{"slope-length", length(si("slope-length"))}, {"offset", length(si("offset"))}});
    const double diagonal = number(swing_, "diagonal");
    const double steepness = std::asin(si("slope-length") * std::sin(si("pitch")) / diagonal);
    fall_given_ = {{"slope-length", length(diagonal)},
                   {"pitch", angle(si("offset") > 0 ? steepness : si("pitch"))},
                   {"d-ring-height", length(si("d-ring-height"))},
                   {"slack", length(si("slack"))}};
    fall_ = calculation("edge-fall").run(fall_given_);
    const bool falls = word(fall_, "end") == "below-edge";
    add_output("edge-fall", fall_, "taut-line");
    add_output("edge-fall", fall_, "line-out");
    add_output("edge-fall", fall_, "free-fall");
    if (si("offset") > 0) {
      add_output("eave-swing", swing_, "extra-line");
      add_output("eave-swing", swing_, "angle");
      add_output("eave-swing", swing_, "speed");
    }
    add_fall_scene();
    if (si("offset") > 0) add_swing_scene();
    if (falls)
      follow_the_arrest();
    else
      bench_.notes.push_back(
          say({"The line is too short for a fall over the edge: it stops the "
               "worker on the roof.",
               "La cuerda es demasiado corta para caer por el borde: detiene al "
               "trabajador sobre el techo."}));
    add_limits(falls);
    add_swing_note();
    add_cautions("edge-fall");
    if (si("offset") > 0) add_cautions("eave-swing");
    if (falls) add_cautions("clearance");
  }

  void add_fall_scene() {
    const bool aside = si("offset") > 0;
    figure::Request request{"edge-fall", fall_given_, fall_, {}};
    request.wanted = figure::Request::For::key;
    request.language = face_.style.language;
    request.system = face_.system;
    request.labels["slope-length"] =
        aside ? figure::Tag{"D", output_text("eave-swing", swing_, "diagonal")}
              : figure::Tag{"L", text("slope-length")};
    if (!aside) request.labels["pitch"] = {"θ", text("pitch")};
    request.labels["d-ring-height"] = {"h", text("d-ring-height")};
    request.labels["slack"] = {"σ", text("slack")};
    request.labels["free-fall"] = {"FF", output_text("edge-fall", fall_, "free-fall")};
    add_scene("fall",
              aside ? Text{"From the side, in the plane of anchor and worker",
                           "De lado, en el plano del anclaje y el trabajador"}
                    : Text{"From the side", "De lado"},
              request);
  }

  void add_swing_scene() {
    figure::Request request{
        "eave-swing",
        {{"slope-length", length(si("slope-length"))}, {"offset", length(si("offset"))}},
        swing_,
        {}};
    request.wanted = figure::Request::For::key;
    request.language = face_.style.language;
    request.system = face_.system;
    request.labels["slope-length"] = {"L", text("slope-length")};
    request.labels["offset"] = {"x", text("offset")};
    request.labels["diagonal"] = {"D", output_text("eave-swing", swing_, "diagonal")};
    request.labels["extra-line"] = {"e", output_text("eave-swing", swing_, "extra-line")};
    request.labels["angle"] = {"φ", output_text("eave-swing", swing_, "angle")};
    add_scene("swing", {"The roof, square on", "El techo, de frente"}, request);
  }

  void add_scene(std::string id, Text title, const figure::Request& request) {
    if (auto drawing = figure::draw(request))
      bench_.scenes.push_back({std::move(id), say(title), std::move(*drawing)});
  }

  void follow_the_arrest() {
    const double weight = si("mass") * engine::standard_gravity.value();
    const auto test =
        std::get<notation::ReadQuantity>(
            notation::read_quantity(us() ? test_force_us : test_force_si, engine::dimension::force))
            .quantity;
    const Values line =
        calculation("elastic-line")
            .run({{"weight", Quantity{engine::dimension::force, weight}},
                  {"free-fall", fall_.find("free-fall")->second},
                  {"line-length", fall_.find("line-out")->second},
                  {"test-force", test},
                  {"test-elongation", Quantity{engine::dimension::ratio, si("rope-stretch")}}});
    engine::ArrestInTimeCase c{};
    c.mass = engine::Mass::from_value(si("mass"));
    c.free_fall = engine::Length::from_value(number(fall_, "free-fall"));
    c.stiffness = engine::Stiffness::from_value(number(line, "stiffness"));
    c.absorber_force = engine::Force::from_value(si("absorber-force"));
    c.maximum_elongation = engine::Length::from_value(si("maximum-elongation"));
    const engine::ArrestInTime arrest = engine::arrest_in_time(c);
    peak_ = arrest.peak_force.value();
    elongation_ = arrest.elongation.value();
    stretch_ = arrest.stopping_distance.value() - elongation_;
    add_arrest_outputs(arrest);
    add_clearance();
    const auto limit = limit_of("arrest-force", engine::dimension::force);
    bench_.plot = figure::draw_plot(
        figure::arrest_plot(c,
                            limit ? std::vector<figure::PlotLimit>{{limit->name, limit->si}}
                                  : std::vector<figure::PlotLimit>{},
                            face_.system, face_.style, plot_samples));
  }

  void add_arrest_outputs(const engine::ArrestInTime& arrest) {
    const auto& in_time = calculation("arrest-in-time");
    const auto add = [&](std::string_view name, double si_value) {
      const engine::Output& output = *in_time.find_output(name);
      bench_.outputs.push_back(
          {std::string(output.symbol), say(output.name), in_words(output.show, si_value)});
    };
    add("peak-force", peak_);
    add("elongation", elongation_);
    // Without its symbol: the swing has the same one.
    const engine::Input& stretch = *calculation("clearance").find_input("line-stretch");
    bench_.outputs.push_back({{}, say(stretch.name), in_words(stretch.show, stretch_)});
    if (arrest.state == engine::AbsorberState::bottoms_out && si("maximum-elongation") > 0)
      bench_.notes.push_back(
          say({"The absorber bottoms out: the line takes the rest, and the "
               "force jumps.",
               "El absorbedor llega al tope: la cuerda toma el resto y la "
               "fuerza salta."}));
    if (si("maximum-elongation") == 0)
      bench_.notes.push_back(say({"There is no absorber: the line alone stops the fall.",
                                  "No hay absorbedor: la cuerda sola detiene la caída."}));
    else if (arrest.state == engine::AbsorberState::stays_closed)
      bench_.notes.push_back(say({"The absorber stays closed.", "El absorbedor queda cerrado."}));
  }

  void add_clearance() {
    const double aside = number(swing_, "extra-line");
    const Values given{{"datum", engine::Word{"below-d-ring"}},
                       {"free-fall", length(number(fall_, "free-fall") + aside)},
                       {"arrester-lock", length(0)},
                       {"deceleration", length(elongation_)},
                       {"line-stretch", length(stretch_)},
                       {"harness-stretch", length(si("harness-stretch"))},
                       {"body-below", length(si("d-ring-height"))},
                       {"safety-margin", length(si("safety-margin"))},
                       {"anchor-above-d-ring", length(0)},
                       {"d-ring-height", length(0)}};
    const auto& room = calculation("clearance");
    const Values needed = room.run(given);
    const double available = si("eave-height") + si("d-ring-height");
    const Values check_given{{"needed", needed.find("needed")->second},
                             {"available", length(available)}};
    const Values check = calculation("clearance-check").run(check_given);
    add_output("clearance", needed, "needed");
    add_output("clearance-check", check, "spare");

    BenchStack stack;
    stack.needed = output_text("clearance", needed, "needed");
    stack.available = in_words(room.find_output("needed")->show, available);
    stack.broken = word(check, "verdict") != "enough";
    const double whole = std::max(number(needed, "needed"), available);
    stack.available_share = available / whole;
    const auto add = [&](std::string name, double metres) {
      if (metres > 0)
        stack.terms.push_back(
            {std::move(name), in_words(room.find_output("needed")->show, metres), metres / whole});
    };
    const auto name_of = [&](std::string_view input) { return say(room.find_input(input)->name); };
    add(name_of("free-fall"), number(fall_, "free-fall"));
    add(say(calculation("eave-swing").find_output("extra-line")->name), aside);
    for (const std::string_view term :
         {"deceleration", "line-stretch", "harness-stretch", "body-below", "safety-margin"})
      add(name_of(term), number(given, term));
    add_stack_drawing(stack, given, needed);
    clearance_ = {number(needed, "needed"), available};
    add_check_scene(check_given, check, stack);
    bench_.stack = std::move(stack);
  }

  void add_stack_drawing(BenchStack& stack, const Values& given, const Values& needed) const {
    figure::Request request{"clearance", given, needed, {}};
    request.wanted = figure::Request::For::key;
    request.language = face_.style.language;
    request.system = face_.system;
    const auto& room = calculation("clearance");
    for (const engine::Input& input : room.inputs) {
      if (input.dimension != engine::dimension::length || !(number(given, input.id) > 0)) continue;
      request.labels[std::string(input.id)] = {
          notation::to_text(notation::symbol(input.symbol)),
          in_words(room.find_output("needed")->show, number(given, input.id))};
    }
    request.labels["needed"] = {"C", stack.needed};
    stack.drawing = figure::draw(request);
  }

  void add_check_scene(const Values& given, const Values& check, const BenchStack& stack) {
    figure::Request request{"clearance-check", given, check, {}};
    request.wanted = figure::Request::For::key;
    request.language = face_.style.language;
    request.system = face_.system;
    request.labels["needed"] = {"C", stack.needed};
    request.labels["available"] = {"Cₐ", stack.available};
    request.labels["spare"] = {"S", output_text("clearance-check", check, "spare")};
    add_scene("check",
              {"Clearance below the D-ring before the fall",
               "Espacio libre debajo del anillo en D antes de la caída"},
              request);
  }

  struct Limit {
    std::string name;
    std::string text;
    double si;
    const bank::Limit* published;
  };
  std::optional<Limit> limit_of(std::string_view id, engine::Dimension dimension) const {
    const auto found = rules_.limits.find(id);
    if (found == rules_.limits.end()) return std::nullopt;
    const bank::Limit& limit = found->second;
    const auto read = notation::read_quantity(us() ? limit.us : limit.si, dimension);
    const auto* quantity = std::get_if<notation::ReadQuantity>(&read);
    if (!quantity) return std::nullopt;
    const bool english = face_.style.language == engine::Language::english;
    return Limit{english ? limit.name.english : limit.name.spanish,
                 notation::write_quantity_shortest(quantity->number, *quantity->unit, face_.style),
                 quantity->quantity.si, &limit};
  }

  void add_limit(std::string_view id, const engine::Show& show, engine::Dimension dimension,
                 double value, bool may_equal) {
    const auto limit = limit_of(id, dimension);
    if (!limit) return;
    const double slack = 1e-9 * limit->si;  // a binary number is no decimal one
    const bool kept = may_equal ? value <= limit->si + slack : value < limit->si - slack;
    bench_.limits.push_back({limit->name, limit->text, in_words(show, value, 1), !kept,
                             limit->published->citation, limit->published->status});
  }

  void add_limits(bool falls) {
    const auto& in_time = calculation("arrest-in-time");
    add_limit("user-mass", in_time.find_input("mass")->show, engine::dimension::mass, si("mass"),
              false);
    if (!falls) return;
    const auto& feet = calculation("edge-fall").find_output("free-fall")->show;
    add_limit("free-fall", feet, engine::dimension::length, number(fall_, "free-fall"), true);
    add_limit("arrest-force", in_time.find_output("peak-force")->show, engine::dimension::force,
              peak_, true);
    add_limit("deceleration", feet, engine::dimension::length, elongation_, true);
    const engine::Source& source = calculation("clearance-check").sources.front();
    bench_.limits.push_back({say({"clearance, at least what the fall needs",
                                  "espacio libre, al menos lo que la caída necesita"}),
                             in_words(feet, clearance_.needed, 1),
                             in_words(feet, clearance_.available, 1), bench_.stack->broken,
                             say(source.citation), quiz::status_name(source.status)});
  }

  void add_swing_note() {
    if (!(si("offset") > 0)) return;
    for (const engine::Source& source : calculation("eave-swing").sources)
      if (source.status == engine::Status::common_practice)
        bench_.notes.push_back(say(source.citation) + ": " + say(source.supports));
  }

  void add_cautions(std::string_view id) {
    for (const Text& caution : calculation(id).cautions) bench_.cautions.push_back(say(caution));
  }

  struct Room {
    double needed = 0;
    double available = 0;
  };

  const bank::RuleSet& rules_;
  Face face_;
  std::map<std::string, double, std::less<>> si_;
  std::map<std::string, std::string, std::less<>> texts_;
  Values swing_;
  Values fall_given_;
  Values fall_;
  double peak_ = 0;
  double elongation_ = 0;
  double stretch_ = 0;
  Room clearance_;
  Bench bench_;
};

}  // namespace

Bench make_bench(const bank::Bank& bank, const std::string& rules, const Face& face,
                 const BenchValues& values) {
  return Builder(bank, rules, face, values).build();
}

BenchValues bench_values_in(notation::System system, const BenchValues& values,
                            notation::System from) {
  BenchValues changed;
  for (const ControlRow& row : rows) {
    const double si = unit_named(slider(row, from).unit).to_si(value_of(row, from, values));
    const Slider& of = slider(row, system);
    changed.emplace(row.id, on_grid(of, unit_named(of.unit).from_si(si)));
  }
  return changed;
}

}  // namespace footroom::practice
