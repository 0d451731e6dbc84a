#include "figure/plot.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "engine/catalogue.hpp"
#include "figure/figure.hpp"
#include "figure/geometry.hpp"
#include "figure/lettering.hpp"

namespace footroom::figure {
namespace {

constexpr double margin = 2;  // mm
constexpr double frame_width = 92;
constexpr double frame_height = 44;
constexpr double panel_gap = 6;
constexpr double tick_length = 1.2;
constexpr double text_gap = 1.0;
constexpr double line_height = word_size * 1.3;
constexpr double legend_sample = 9;
constexpr double widest_level_name = 44;
constexpr Pen curve_pens[] = {Pen::outline, Pen::hidden, Pen::motion, Pen::edge};

double width_of(const std::string& text, double size = word_size) {
  return text_width(text, size);
}

// A name in lines that fit beside the frame.
std::vector<std::string> in_lines(const std::string& text) {
  std::vector<std::string> lines;
  std::string line;
  std::string word;
  const auto flush = [&] {
    if (word.empty()) return;
    const std::string longer = line.empty() ? word : line + " " + word;
    if (!line.empty() && width_of(longer) > widest_level_name) {
      lines.push_back(line);
      line = word;
    } else {
      line = longer;
    }
    word.clear();
  };
  for (const char c : text) {
    if (c == ' ')
      flush();
    else
      word += c;
  }
  flush();
  if (!line.empty()) lines.push_back(line);
  return lines;
}

/// Maps numbers to millimetres along one axis.
struct Scale {
  std::vector<double> ticks;
  double from = 0;  ///< mm, of the first tick
  double to = 0;

  double at(double number) const {
    return from + (to - from) * (number - ticks.front()) / (ticks.back() - ticks.front());
  }
};

class Plotter {
 public:
  explicit Plotter(const Plot& plot) : plot_(plot) {}

  Drawing draw() {
    check();
    x_.ticks = ticks([](const Curve& c, auto add) {
      for (const Point p : c.points) add(p.x);
    });
    x_.from = left_margin();
    x_.to = x_.from + frame_width;
    double y = margin;
    for (std::size_t i = 0; i < plot_.panels.size(); ++i) {
      draw_panel(i, y);
      y += panel_gap;
    }
    draw_common_axis(y - panel_gap);
    double right = x_.to;
    double bottom = y;
    for (const auto& [x, low] : corners_) {
      right = std::max(right, x);
      bottom = std::max(bottom, low);
    }
    drawing_.width = right + margin;
    drawing_.height = bottom + margin;
    drawing_.title = plot_.title;
    drawing_.description = plot_.description;
    drawing_.scale = 1;
    return std::move(drawing_);
  }

 private:
  void check() const {
    if (plot_.panels.empty()) throw std::invalid_argument("a plot without a panel");
    for (const Panel& panel : plot_.panels) {
      std::size_t points = 0;
      for (const Curve& curve : panel.curves)
        for (const Point p : curve.points) {
          ++points;
          if (!std::isfinite(p.x) || !std::isfinite(p.y))
            throw std::invalid_argument("a plot of " + panel.axis + ": a number is not finite");
        }
      for (const PlotLevel& level : panel.levels)
        if (!std::isfinite(level.value))
          throw std::invalid_argument("a plot of " + panel.axis + ": a level is not finite");
      if (points == 0) throw std::invalid_argument("a plot of " + panel.axis + " without points");
    }
  }

  template <class Each>
  std::vector<double> ticks(const Each& each) const {
    double low = 1e300;
    double high = -1e300;
    for (const Panel& panel : plot_.panels)
      for (const Curve& curve : panel.curves)
        each(curve, [&](double number) {
          low = std::min(low, number);
          high = std::max(high, number);
        });
    return round_ticks(low, high, 8);
  }

  static std::vector<double> ticks_of(const Panel& panel) {
    double low = 0;  // forces and lengths are read against nothing
    double high = 0;
    const auto add = [&](double number) {
      low = std::min(low, number);
      high = std::max(high, number);
    };
    for (const Curve& curve : panel.curves)
      for (const Point p : curve.points) add(p.y);
    for (const PlotLevel& level : panel.levels) add(level.value);
    constexpr int most = 6;
    if (panel.counts) high = std::max(high, double(most));
    return round_ticks(low, high, most);
  }

  std::string number(double tick) const { return notation::write_shortest(tick, plot_.style); }

  double left_margin() const {
    double widest = 0;
    for (const Panel& panel : plot_.panels)
      for (const double tick : ticks_of(panel)) widest = std::max(widest, width_of(number(tick)));
    return margin + label_size + text_gap * 2 + widest + tick_length;
  }

  void line(std::vector<Point> points, Pen pen) {
    drawing_.shapes.push_back(Path{std::move(points), false, pen, Fill::none});
  }
  void text(Point at, const std::string& words, Align align, double size = word_size,
            double turn = 0) {
    drawing_.labels.push_back({at, {{words}}, size, false, align, turn});
    if (turn == 0)
      corners_.push_back(
          {align == Align::start ? at.x + width_of(words, size) : at.x + width_of(words, size) / 2,
           at.y + size * 0.3});
  }

  void draw_panel(std::size_t index, double& y) {
    const Panel& panel = plot_.panels[index];
    if (panel.curves.size() > 1) draw_legend(panel, y);
    y += word_size / 2;  // half of the topmost tick's number
    Scale scale{ticks_of(panel), 0, 0};
    const double top = y;
    const double bottom = y + frame_height;
    scale.from = panel.downwards ? top : bottom;
    scale.to = panel.downwards ? bottom : top;
    line({{x_.from, top}, {x_.from, bottom}}, Pen::edge);
    line({{x_.from, bottom}, {x_.to, bottom}}, Pen::edge);
    for (const double tick : scale.ticks) {
      const double at = scale.at(tick);
      line({{x_.from - tick_length, at}, {x_.to, at}}, Pen::extension);
      const std::string words = number(tick);
      text({x_.from - tick_length - text_gap - width_of(words), at + word_size * 0.28}, words,
           Align::start);
    }
    for (const double tick : x_.ticks)
      line({{x_.at(tick), bottom}, {x_.at(tick), bottom + tick_length}}, Pen::edge);
    text({margin + label_size * 0.78, (top + bottom) / 2}, panel.axis, Align::middle, label_size,
         -90);
    draw_levels(panel, scale, top);
    for (std::size_t i = 0; i < panel.curves.size(); ++i) {
      const Curve& curve = panel.curves[i];
      const Pen pen = curve_pens[i % std::size(curve_pens)];
      std::vector<Point> piece;
      auto next_break = curve.breaks.begin();
      const auto finish = [&] {
        if (piece.empty()) return;
        if (piece.size() == 1) piece.push_back(piece.front());
        drawing_.shapes.push_back(
            Path{std::move(piece), curve.area, pen, curve.area ? Fill::light : Fill::none});
        piece.clear();
      };
      for (std::size_t k = 0; k < curve.points.size(); ++k) {
        if (next_break != curve.breaks.end() && *next_break == k) {
          finish();
          ++next_break;
        }
        piece.push_back({x_.at(curve.points[k].x), scale.at(curve.points[k].y)});
      }
      finish();
    }
    const std::string name = fmt::format("panel-{}", index + 1);
    drawing_.marks[name + "-origin"] = {x_.from, scale.from};
    drawing_.marks[name + "-far"] = {x_.to, scale.to};
    y = bottom + tick_length;
  }

  // Names at the right, moved apart where their lines lie close.
  void draw_levels(const Panel& panel, const Scale& scale, double top) {
    struct Name {
      double line;
      std::vector<std::string> lines;
    };
    std::vector<Name> names;
    for (const PlotLevel& level : panel.levels) {
      const double at = scale.at(level.value);
      line({{x_.from, at}, {x_.to, at}}, level.limit ? Pen::limit : Pen::thin);
      names.push_back({at, in_lines(level.name)});
    }
    std::stable_sort(names.begin(), names.end(),
                     [](const Name& a, const Name& b) { return a.line < b.line; });
    const double text_left = x_.to + 5;
    double free_from = top - word_size / 2;
    for (std::size_t i = 0; i < names.size(); ++i) {
      // All names below this one must still fit above the frame's foot, where they can.
      double below = 0;
      for (std::size_t j = i; j < names.size(); ++j)
        below += double(names[j].lines.size()) * line_height;
      const double height = double(names[i].lines.size()) * line_height;
      const double latest = top + frame_height + word_size - below;
      const double begin =
          std::max(free_from, std::min(names[i].line - height / 2, std::max(latest, free_from)));
      line({{x_.to, names[i].line}, {text_left - text_gap, begin + height / 2}}, Pen::thin);
      for (std::size_t k = 0; k < names[i].lines.size(); ++k)
        text({text_left, begin + line_height * (double(k) + 0.5) + word_size * 0.28},
             names[i].lines[k], Align::start);
      free_from = begin + height + 0.6;
    }
  }

  void draw_legend(const Panel& panel, double& y) {
    double x = x_.from;
    y += line_height / 2;
    for (std::size_t i = 0; i < panel.curves.size(); ++i) {
      const std::string& name = panel.curves[i].name;
      const double width = legend_sample + text_gap + width_of(name);
      if (x > x_.from && x + width > x_.to) {
        x = x_.from;
        y += line_height;
      }
      line({{x, y}, {x + legend_sample, y}}, curve_pens[i % std::size(curve_pens)]);
      text({x + legend_sample + text_gap, y + word_size * 0.28}, name, Align::start);
      x += width + 5;
    }
    y += line_height;
  }

  void draw_common_axis(double y) {
    const double numbers = y + text_gap + word_size * 0.8;
    double taken = -1e300;  // numbers that would touch the one before are left out
    for (const double tick : x_.ticks) {
      const std::string words = number(tick);
      const double half = width_of(words) / 2;
      if (x_.at(tick) - half < taken) continue;
      text({x_.at(tick), numbers}, words, Align::middle);
      taken = x_.at(tick) + half + text_gap;
    }
    text({(x_.from + x_.to) / 2, numbers + word_size * 0.3 + text_gap + label_size * 0.8},
         plot_.axis, Align::middle, label_size);
  }

  const Plot& plot_;
  Drawing drawing_;
  Scale x_;
  std::vector<std::pair<double, double>> corners_;  ///< right and low ends of texts
};

/// A unit of the catalogue's systems by name.
const notation::Unit& unit(std::string_view name) {
  return *notation::find_unit(name);
}
std::string axis_name(engine::Text what, const notation::Unit& unit, notation::Style style) {
  return fmt::format("{} ({})", what.in(style.language), unit.name);
}
std::string named_level(std::string_view name, double si, const notation::Unit& unit, int places,
                        notation::Style style) {
  return fmt::format("{}: {}", name,
                     notation::write_quantity(unit.from_si(si), unit, places, style));
}
PlotLevel limit_level(const PlotLimit& limit, const notation::Unit& unit, notation::Style style) {
  const double number = unit.from_si(limit.value);
  return {fmt::format("{}: {}", limit.name, notation::write_quantity_shortest(number, unit, style)),
          number, true};
}

double number_of(const engine::Values& values, std::string_view id) {
  return std::get<engine::Quantity>(values.find(id)->second).si;
}

}  // namespace

std::vector<double> round_ticks(double low, double high, int most) {
  if (!(high > low)) high = low + std::max(1.0, std::abs(low));
  const double least = (high - low) / most;
  double step = std::pow(10.0, std::floor(std::log10(least)));
  for (const double factor : {1.0, 2.0, 5.0, 10.0})
    if (step * factor >= least * (1 - 1e-9)) {
      step *= factor;
      break;
    }
  const double first = std::floor(low / step + 1e-9);
  const double last = std::ceil(high / step - 1e-9);
  std::vector<double> ticks;
  for (double i = first; i <= std::max(last, first + 1); i += 1) ticks.push_back(i * step);
  return ticks;
}

Drawing draw_plot(const Plot& plot) {
  return Plotter(plot).draw();
}

Plot arrest_plot(const engine::ArrestInTimeCase& arrest, const std::vector<PlotLimit>& force_limits,
                 notation::System system, notation::Style style, int samples) {
  constexpr double longest = 60;  // s, of a history
  const bool us = system == notation::System::us;
  const auto& force = unit(us ? "lbf" : "kN");
  const auto& length = unit(us ? "ft" : "m");
  const auto say = [&](engine::Text text) { return std::string(text.in(style.language)); };

  const engine::ArrestInTime ends = engine::arrest_in_time(arrest);
  const double duration = std::min(longest, 2 * ends.time_to_arrest.value());
  const auto history = engine::arrest_history(arrest, duration * engine::si::second, samples);
  Curve forces{say({"force on the worker", "fuerza sobre el trabajador"}), {}};
  Curve drops{say({"drop of the D-ring", "caída del anillo en D"}), {}};
  for (std::size_t i = 0; i < history.time.size(); ++i) {
    const double time = history.time[i].value();
    forces.points.push_back({time, force.from_si(history.force[i].value())});
    drops.points.push_back({time, length.from_si(history.drop[i].value())});
  }

  Panel above{axis_name({"force", "fuerza"}, force, style), false, {forces}, {}};
  for (const PlotLimit& limit : force_limits)
    above.levels.push_back(limit_level(limit, force, style));
  const double peak = ends.peak_force.value();
  above.levels.push_back(
      {named_level(say({"greatest force", "fuerza máxima"}), peak, force, us ? 0 : 2, style),
       force.from_si(peak), false});
  Panel below{axis_name({"drop", "caída"}, length, style), true, {drops}, {}};
  const double lowest = ends.lowest_drop.value();
  below.levels.push_back(
      {named_level(say({"lowest point", "punto más bajo"}), lowest, length, us ? 1 : 2, style),
       length.from_si(lowest), false});
  Plot plot{say({"Arrest of a fall over time", "Detención de una caída en el tiempo"}),
            {},
            axis_name({"time", "tiempo"}, unit("s"), style),
            {above, below},
            style};
  plot.description =
      fmt::format("{} {}; {}.",
                  say({"Force on the worker and drop of the D-ring below its start.",
                       "Fuerza sobre el trabajador y caída del anillo en D desde su inicio."}),
                  above.levels.back().name, below.levels.back().name);
  return plot;
}

Plot clearance_plot(const ClearanceAgainstSlack& c, notation::System system,
                    notation::Style style) {
  constexpr int samples = 201;
  if (!(c.largest_slack > 0)) throw std::invalid_argument("a plot without slack");
  const auto& length = unit(system == notation::System::us ? "ft" : "m");
  const auto say = [&](engine::Text text) { return std::string(text.in(style.language)); };
  const auto& fall = *engine::find_calculation("edge-fall");
  const auto& clearance = *engine::find_calculation("clearance");
  Curve needed{say({"clearance needed", "espacio libre necesario"}), {}};
  Curve free_fall{say({"free fall", "caída libre"}), {}};
  for (int i = 0; i < samples; ++i) {
    const double slack = c.largest_slack * i / (samples - 1);
    engine::Values edge = c.edge_fall;
    edge["slack"] = engine::Quantity{engine::dimension::length, slack};
    const double falls = number_of(fall.run(edge), "free-fall");
    engine::Values room = c.clearance;
    room["free-fall"] = engine::Quantity{engine::dimension::length, falls};
    needed.points.push_back(
        {length.from_si(slack), length.from_si(number_of(clearance.run(room), "needed"))});
    free_fall.points.push_back({length.from_si(slack), length.from_si(falls)});
  }
  Panel below{axis_name({"free fall", "caída libre"}, length, style), false, {free_fall}, {}};
  for (const PlotLimit& limit : c.free_fall_limits)
    below.levels.push_back(limit_level(limit, length, style));
  return {say({"Clearance needed against slack", "Espacio libre necesario según la holgura"}),
          say({"How the clearance needed and the free fall over the eave grow with the slack in "
               "the line.",
               "Cómo crecen el espacio libre necesario y la caída libre por el alero con la "
               "holgura de la cuerda."}),
          axis_name({"slack", "holgura"}, length, style),
          {{axis_name({"clearance needed", "espacio libre necesario"}, length, style),
            false,
            {needed},
            {}},
           below},
          style};
}

}  // namespace footroom::figure
