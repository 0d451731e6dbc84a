#include "engine/datum.hpp"

// Notation
//   h      height of the D-ring over the standing surface
//   a      height of the anchor above the D-ring
//   C_D    clearance below the D-ring, C_A below the anchor, C_S below the standing surface

namespace footroom::engine {

std::vector<Choice> datum_choices() {
  return {{"below-anchor", {"below the anchor", "debajo del anclaje"}},
          {"below-d-ring",
           {"below the D-ring before the fall", "debajo del anillo en D antes de la caída"}},
          {"below-standing-surface",
           {"below the surface stood on", "debajo de la superficie donde se está de pie"}}};
}

Clearance<BelowDRing> to_d_ring(Clearance<BelowAnchor> clearance, const DRingPlace& place) {
  return Clearance<BelowDRing>(clearance.depth() - place.below_anchor);  // C_D = C_A - a
}

Clearance<BelowDRing> to_d_ring(Clearance<BelowStandingSurface> clearance,
                                const DRingPlace& place) {
  return Clearance<BelowDRing>(clearance.depth() + place.over_standing_surface);  // C_D = C_S + h
}

Clearance<BelowAnchor> to_anchor(Clearance<BelowDRing> clearance, const DRingPlace& place) {
  return Clearance<BelowAnchor>(clearance.depth() + place.below_anchor);  // C_A = C_D + a
}

Clearance<BelowStandingSurface> to_standing_surface(Clearance<BelowDRing> clearance,
                                                    const DRingPlace& place) {
  return Clearance<BelowStandingSurface>(clearance.depth() -
                                         place.over_standing_surface);  // C_S = C_D - h
}

Length depth_below(Datum datum, Clearance<BelowDRing> clearance, const DRingPlace& place) {
  switch (datum) {
    case Datum::below_anchor:
      return to_anchor(clearance, place).depth();
    case Datum::below_standing_surface:
      return to_standing_surface(clearance, place).depth();
    case Datum::below_d_ring:
      break;
  }
  return clearance.depth();
}

Clearance<BelowDRing> below_d_ring(Datum datum, Length depth, const DRingPlace& place) {
  switch (datum) {
    case Datum::below_anchor:
      return to_d_ring(Clearance<BelowAnchor>(depth), place);
    case Datum::below_standing_surface:
      return to_d_ring(Clearance<BelowStandingSurface>(depth), place);
    case Datum::below_d_ring:
      break;
  }
  return Clearance<BelowDRing>(depth);
}

}  // namespace footroom::engine
