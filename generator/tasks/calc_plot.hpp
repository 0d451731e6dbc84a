#pragma once
// Plots of calculations: one result against one value, the force of an arrest over time, and the
// clearance against slack.

#include <string>
#include <variant>

#include "figure/plot.hpp"
#include "tasks/calc_form.hpp"

namespace footroom::tasks {

/// A result against an input that moves from one value to another, in SI units.
struct PlotAsked {
  const engine::Input* input = nullptr;
  const engine::Output* output = nullptr;
  double from = 0;
  double to = 0;
};

/// Whether it is one number, so that it can be plotted, or plotted against.
bool can_be_plotted(const ShownValue& value);

/// What is plotted where no range is given: twice the value, as far as the calculation takes it.
PlotAsked default_range(const CalcCase& given, const engine::Input& input,
                        const engine::Output& output);

/// The plot, with the result for the value that is given and the limit on such results. Where the
/// calculation takes no value the curve is broken, and so it is where the result jumps. Text: why
/// nothing can be drawn, in the language.
std::variant<figure::Plot, std::string> plot_of(const CalcCase& given, const PlotAsked& asked,
                                                const CalcSetting& setting);

/// How a limit is named beside its line: whole, with its citation, or in brief, which leaves both
/// to the plot's description, as a phone has little room beside a plot.
enum class Names { whole, brief };

/// The force on the worker and the drop over time, of a sound case of arrest-in-time.
figure::Plot plot_over_time(const CalcCase& given, const CalcSetting& setting, Names names);

/// The clearance needed against the slack, up to the slack of a sound case of edge-fall; `room` is
/// one of clearance, whose free fall follows. Declined where the two do not fit.
std::variant<figure::Plot, Declined> plot_against_slack(const CalcCase& fall, const CalcCase& room,
                                                        const CalcSetting& setting, Names names,
                                                        notation::Style told_in);

}  // namespace footroom::tasks
