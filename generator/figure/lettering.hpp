#pragma once
// Texts as the drawing font sets them.

#include <string_view>
#include <vector>

#include "figure/drawing.hpp"
#include "figure/figure.hpp"

namespace footroom::figure {

inline constexpr double label_size = 3.4;  // mm
inline constexpr double word_size = 3.1;

/// An index stands lower and smaller.
inline constexpr double index_size = 0.72;

/// "d₀" and "d_0" as a base and an index; a single letter is italic.
std::vector<Run> symbol_runs(std::string_view symbol);
/// "L = 16 ft", "L = ?", or the text alone where there is no symbol.
std::vector<Run> tag_runs(const Tag& tag);
double runs_width(const std::vector<Run>& runs, double size, bool bold);

}  // namespace footroom::figure
