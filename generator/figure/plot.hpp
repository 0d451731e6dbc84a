#pragma once
// A plain plot in black and white: axes with ticks at round numbers, curves told apart by their
// dashes, levels with their names at the right end.

#include <string>
#include <vector>

#include "engine/arrest_in_time.hpp"
#include "figure/drawing.hpp"
#include "notation/quantity_text.hpp"

namespace footroom::figure {

struct Curve {
  std::string name;                      ///< stands above its panel where there is more than one
  std::vector<Point> points;             ///< in the numbers of the axes, finite
  bool area = false;                     ///< closed and filled lightly: the bars of a count
  std::vector<std::size_t> breaks = {};  ///< points, in order, that nothing joins to the one before
};

/// A horizontal line through a panel: a limit, or a value worth reading.
struct PlotLevel {
  std::string name;
  double value = 0;
  bool limit = false;  ///< dash-dot, else a thin line
};

struct Panel {
  std::string axis;  ///< "force (lbf)"
  bool downwards = false;
  std::vector<Curve> curves;  ///< 1 to 4
  std::vector<PlotLevel> levels = {};
  bool counts = false;  ///< ticks at whole numbers only
};

struct Plot {
  std::string title;
  std::string description;
  std::string axis;  ///< "time (s)"
  std::vector<Panel> panels;
  notation::Style style = {};
};

/// Round numbers, 1, 2 or 5 times a power of ten apart, that reach from `low` or below to `high` or
/// above; 2 to about `most` of them.
std::vector<double> round_ticks(double low, double high, int most);

/// Draws the panels one below the other above a common axis. The marks "panel-1-origin" and
/// "panel-1-far" are the ends of a panel's frame at the first ticks and at the last ones.
/// Throws std::invalid_argument for a panel without a point, or a number that is not finite.
Drawing draw_plot(const Plot& plot);

/// A limit of a rule set, in SI units.
struct PlotLimit {
  std::string name;
  double value = 0;
};

/// Force on the worker and drop of the D-ring over time, to twice the time to the first standstill,
/// at so many samples.
Plot arrest_plot(const engine::ArrestInTimeCase& arrest, const std::vector<PlotLimit>& force_limits,
                 notation::System system, notation::Style style, int samples = 801);

struct ClearanceAgainstSlack {
  engine::Values edge_fall;  ///< inputs of that calculation but `slack`
  engine::Values clearance;  ///< inputs of that calculation but `free-fall`
  double largest_slack = 0;  ///< m, more than 0
  std::vector<PlotLimit> free_fall_limits;
};
/// Clearance needed, and below it the free fall, against the slack in the line. Throws
/// engine::Refusal as the two calculations do.
Plot clearance_plot(const ClearanceAgainstSlack& c, notation::System system, notation::Style style);

}  // namespace footroom::figure
