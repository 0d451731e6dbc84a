#include "tasks/calc_plot.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/told_refusal.hpp"
#include "tasks/text.hpp"

namespace footroom::tasks {
namespace {

using engine::Quantity;
using engine::Text;
using notation::Unit;

constexpr int samples = 241;
constexpr int halvings = 40;         ///< until a jump or the end of a domain is found
constexpr double jump_share = 0.02;  ///< of the whole height: a smooth curve has less in one step
constexpr std::size_t most_jumps = 60;

engine::Values values_of(const CalcCase& given) {
  engine::Values values;
  for (const auto& [name, shown] : given.inputs) values.emplace(name, shown.value);
  return values;
}

double number_of(const CalcCase& given, std::string_view name) {
  return std::get<Quantity>(given.inputs.find(name)->second.value).si;
}

bool counts(const engine::Show& show, notation::System system) {
  return shown_unit(show, system).name.empty() && shown_places(show, system) == 0;
}

/// A measure on an axis: feet with inches as feet.
const Unit& axis_unit(const engine::Show& show, notation::System system) {
  const Unit& unit = shown_unit(show, system);
  return unit.name == "ft-in" ? *notation::find_unit("ft") : unit;
}

std::string axis_name(Text name, const Unit& unit, notation::Style style) {
  std::string printed(unit.printed.in(style.language));
  printed.erase(0, std::min(printed.find_first_not_of(' '), printed.size()));
  return std::string(name.in(style.language)) + (printed.empty() ? "" : " (" + printed + ")");
}

struct Sample {
  double x = 0;  ///< in the unit of the axis
  double y = 0;
};

/// Follows a result along an input.
class Tracer {
 public:
  Tracer(const CalcCase& given, const PlotAsked& asked)
      : calculation_(*given.calculation),
        asked_(asked),
        across_(axis_unit(asked.input->show, given.system)),
        up_(axis_unit(asked.output->show, given.system)),
        language_(given.style.language),
        values_(values_of(given)) {}

  figure::Curve whole_numbers() {
    constexpr double half_width = 0.3;
    const double step = std::max(1.0, std::ceil((asked_.to - asked_.from) / samples));
    for (double at = std::ceil(asked_.from); at <= asked_.to; at += step) {
      const auto found = at_number(at);
      if (!found) continue;
      break_here();
      curve_.points.push_back({at - half_width, found->y});
      curve_.points.push_back({at + half_width, found->y});
    }
    return std::move(curve_);
  }

  figure::Curve smooth() {
    const double first = across_.from_si(asked_.from);
    const double last = across_.from_si(asked_.to);
    std::vector<double> places;
    std::vector<std::optional<Sample>> found;
    double lowest = 0;
    double highest = 0;
    for (int i = 0; i < samples; ++i) {
      places.push_back(i + 1 == samples ? last : first + (last - first) * i / (samples - 1));
      found.push_back(at_number(places.back()));
      if (!found.back()) continue;
      lowest = std::min(lowest, found.back()->y);
      highest = std::max(highest, found.back()->y);
    }
    const double jump = jump_share * (highest - lowest);
    std::size_t jumps = 0;
    for (std::size_t i = 0; i < found.size(); ++i) {
      if (i > 0 && found[i - 1].has_value() != found[i].has_value())
        to_the_end(found[i - 1], places[i - 1], found[i], places[i]);
      else if (i > 0 && found[i] && std::abs(found[i]->y - found[i - 1]->y) > jump &&
               jumps < most_jumps)
        jumps += over_a_jump(*found[i - 1], *found[i]) ? 1 : 0;
      if (found[i]) add(*found[i]);
    }
    return std::move(curve_);
  }

  /// Why the last place that was refused was.
  const std::string& reason() const { return reason_; }

 private:
  std::optional<Sample> at_number(double number) {
    values_.insert_or_assign(std::string(asked_.input->id),
                             Quantity{asked_.input->dimension, across_.to_si(number)});
    try {
      const auto made = calculation_.run(values_);
      const auto& result = std::get<Quantity>(made.find(asked_.output->id)->second);
      const double height = up_.from_si(result.si);
      if (std::isfinite(height)) return Sample{number, height};
      reason_.clear();
    } catch (const engine::OutOfDomain&) {
      reason_.clear();  // its reason is in SI units
    } catch (const engine::Refusal& refusal) {
      reason_ = engine::reason_in(refusal, language_);
    }
    return std::nullopt;
  }

  void add(const Sample& sample) { curve_.points.push_back({sample.x, sample.y}); }
  void break_here() {
    if (!curve_.points.empty()) curve_.breaks.push_back(curve_.points.size());
  }

  /// Of two neighbours one is taken: finds how far the curve goes.
  void to_the_end(const std::optional<Sample>& before, double from,
                  const std::optional<Sample>& behind, double to) {
    Sample taken = before ? *before : *behind;
    double refused = before ? to : from;
    for (int i = 0; i < halvings; ++i) {
      const double middle = (taken.x + refused) / 2;
      if (const auto found = at_number(middle))
        taken = *found;
      else
        refused = middle;
    }
    if (!before) break_here();
    add(taken);
  }

  /// Between two neighbours far apart: a steep piece gets a point more, a jump breaks the curve.
  bool over_a_jump(Sample left, Sample right) {
    const double whole = std::abs(right.y - left.y);
    for (int i = 0; i < halvings; ++i) {
      const auto middle = at_number((left.x + right.x) / 2);
      if (!middle) return false;
      if (std::abs(middle->y - left.y) > std::abs(right.y - middle->y))
        right = *middle;
      else
        left = *middle;
    }
    if (std::abs(right.y - left.y) < whole / 2) return false;
    add(left);
    break_here();
    add(right);
    return true;
  }

  const engine::Calculation& calculation_;
  const PlotAsked asked_;
  const Unit& across_;
  const Unit& up_;
  engine::Language language_;
  engine::Values values_;
  figure::Curve curve_;
  std::string reason_;
};

std::string limit_word(notation::Style style) {
  return std::string(Text{"limit", "límite"}.in(style.language));
}

std::string name_of(const LimitInForce& limit) {
  return limit.name + " (" + limit.published->citation +
         (limit.status.empty() ? "" : ", " + limit.status) + ")";
}

/// "Limit: 6 ft, free fall, at most (29 CFR ...)"
std::string cited_text(const LimitInForce& limit, notation::Style style) {
  return std::string(Text{"Limit: ", "Límite: "}.in(style.language)) + limit.text + ", " +
         name_of(limit);
}

std::vector<figure::PlotLimit> levels_of(const std::optional<LimitInForce>& limit, Names names,
                                         notation::Style style) {
  if (!limit) return {};
  return {{names == Names::whole ? name_of(*limit) : limit_word(style), limit->value.si}};
}

/// A brief name leaves the rest to the description.
void describe(figure::Plot& plot, const std::optional<LimitInForce>& limit, Names names) {
  if (limit && names == Names::brief)
    plot.description += " " + cited_text(*limit, plot.style) + ".";
}

engine::ArrestInTimeCase arrest_case(const CalcCase& given) {
  const auto put = [&](auto& field, std::string_view name) {
    field = std::remove_reference_t<decltype(field)>::from_value(number_of(given, name));
  };
  engine::ArrestInTimeCase c{};
  put(c.mass, "mass");
  put(c.free_fall, "free-fall");
  put(c.stiffness, "stiffness");
  put(c.absorber_force, "absorber-force");
  put(c.maximum_elongation, "maximum-elongation");
  put(c.damping_ratio, "damping-ratio");
  put(c.slide_distance, "slide-distance");
  put(c.pitch, "pitch");
  put(c.roof_friction, "roof-friction");
  put(c.edge_friction, "edge-friction");
  put(c.edge_angle, "edge-angle");
  return c;
}

}  // namespace

bool can_be_plotted(const ShownValue& value) {
  return std::holds_alternative<Quantity>(value.value);
}

PlotAsked default_range(const CalcCase& given, const engine::Input& input,
                        const engine::Output& output) {
  const double value = number_of(given, input.id);
  const engine::Domain& domain = input.domain;
  const double width = value != 0 ? std::abs(value)
                       : std::isfinite(domain.highest)
                           ? (domain.highest - std::max(domain.lowest, 0.0)) / 10
                           : 1.0;
  return {&input, &output, std::max(domain.lowest, value - width),
          std::min(domain.highest, value + width)};
}

std::variant<figure::Plot, std::string> plot_of(const CalcCase& given, const PlotAsked& asked,
                                                const CalcSetting& setting) {
  const auto& style = setting.style;
  const auto say = [&](Text text) { return std::string(text.in(style.language)); };
  Tracer tracer(given, asked);
  const bool whole = counts(asked.input->show, setting.system);
  const figure::Curve curve = whole ? tracer.whole_numbers() : tracer.smooth();
  if (curve.points.empty()) {
    std::string text = say(
        {"Nothing can be worked out in this range", "En este intervalo no se puede calcular nada"});
    return text + (tracer.reason().empty() ? "." : ": " + tracer.reason() + ".");
  }

  const Unit& across = axis_unit(asked.input->show, setting.system);
  const Unit& up = axis_unit(asked.output->show, setting.system);
  figure::Panel panel{axis_name(asked.output->name, up, style), false, {curve}};
  panel.counts = counts(asked.output->show, setting.system);
  const auto limit = limit_on(*asked.output, setting);
  if (limit)  // its whole name stands in the description: a phone has little room beside a plot
    panel.levels.push_back(
        {limit_word(style) + ": " + limit->text, up.from_si(limit->value.si), true});
  const double here = across.from_si(number_of(given, asked.input->id));
  const auto outputs = try_case(given, style);
  const auto* shown = std::get_if<ShownValues>(&outputs);
  if (shown && here >= across.from_si(asked.from) && here <= across.from_si(asked.to)) {
    const ShownValue& now = shown->find(asked.output->id)->second;
    panel.levels.push_back(
        {say({"at ", "con "}) + given.inputs.find(asked.input->id)->second.text + ": " + now.text,
         up.from_si(std::get<Quantity>(now.value).si), false});
  }
  figure::Plot plot;
  plot.title = say(asked.output->name) + say({" against ", " según "}) + say(asked.input->name);
  plot.description = say(given.calculation->title) + ".";
  if (limit) plot.description += " " + cited_text(*limit, style) + ".";
  plot.axis = axis_name(asked.input->name, across, style);
  plot.panels = {panel};
  plot.style = style;
  return plot;
}

figure::Plot plot_over_time(const CalcCase& given, const CalcSetting& setting, Names names) {
  const auto limit = limit_in_force("arrest-force", engine::dimension::force, setting);
  figure::Plot plot = figure::arrest_plot(
      arrest_case(given), levels_of(limit, names, setting.style), setting.system, setting.style);
  describe(plot, limit, names);
  return plot;
}

std::variant<figure::Plot, Declined> plot_against_slack(const CalcCase& fall, const CalcCase& room,
                                                        const CalcSetting& setting, Names names,
                                                        notation::Style told_in) {
  for (const CalcCase* given : {&fall, &room}) {
    auto tried = try_case(*given, told_in);
    if (auto* declined = std::get_if<Declined>(&tried)) return std::move(*declined);
  }
  figure::ClearanceAgainstSlack c;
  c.edge_fall = values_of(fall);
  c.clearance = values_of(room);
  c.largest_slack = number_of(fall, "slack");
  if (!(c.largest_slack > 0))
    return Declined{"slack", std::string(Text{"is the largest one drawn, expected more than 0",
                                              "es la mayor que se dibuja; se espera más de 0"}
                                             .in(told_in.language))};
  const auto limit = limit_in_force("free-fall", engine::dimension::length, setting);
  c.free_fall_limits = levels_of(limit, names, setting.style);
  try {
    figure::Plot plot = figure::clearance_plot(c, setting.system, setting.style);
    describe(plot, limit, names);
    return plot;
  } catch (const engine::Refusal& refusal) {
    return Declined{refusal.quantity, engine::reason_in(refusal, told_in.language)};
  }
}

}  // namespace footroom::tasks
