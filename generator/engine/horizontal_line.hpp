#pragma once
#include "engine/catalogue.hpp"

namespace footroom::engine {

inline constexpr Text sag_angle_name{"angle of each half of the line below the horizontal",
                                     "ángulo de cada mitad de la cuerda bajo la horizontal"};

/// A load at the middle of a line between two level anchors.
struct HorizontalLineCase {
  Force load;       ///< at the middle; 0 to 1 MN
  Angle sag_angle;  ///< of each half below the horizontal, under load; 0.5 to 90 degrees
};

struct HorizontalLine {
  Force tension;        ///< in the line, and on each anchor
  Ratio amplification;  ///< tension over load
};

/// Returns the tension of a loaded horizontal line.
///
/// Source: balance of forces at the load, T = P / (2 sin a). The values "15 degrees about 2, 5
/// degrees about 6" are second hand (copy of 29 CFR 1926 Subpart M, Appendix C).
/// Valid for one load at the middle of a light line. A design is a qualified person's, with a
/// safety factor of 2: 29 CFR 1926.502(d)(8).
/// Errors: OutOfDomain.
/// Checked: the published values (tests/reference/lines.csv), vertical balance.
HorizontalLine horizontal_line(const HorizontalLineCase& c);

const Calculation& horizontal_line_calculation();

}  // namespace footroom::engine
