#pragma once
// A clearance is a depth below a datum, and sources use different data. The datum is part of the
// type, so that depths below different data can be neither added nor compared; going from one to
// another takes the place of the D-ring.

#include <string_view>
#include <vector>

#include "engine/catalogue.hpp"

namespace footroom::engine {

struct BelowAnchor {};
struct BelowDRing {};  ///< where the D-ring is at the onset of the fall, standing
struct BelowStandingSurface {};

/// The same as words of the catalogue, in the order of datum_choices().
enum class Datum { below_anchor, below_d_ring, below_standing_surface };

std::vector<Choice> datum_choices();

/// A depth, positive downwards, below the datum `From`.
template <class From>
class Clearance {
 public:
  explicit Clearance(Length depth) : depth_(depth) {}
  Length depth() const { return depth_; }

  friend Clearance operator+(Clearance clearance, Length deeper) {
    return Clearance(clearance.depth_ + deeper);
  }
  friend Length operator-(Clearance a, Clearance b) { return a.depth_ - b.depth_; }

 private:
  Length depth_;
};

/// Where the D-ring is at the onset of the fall.
struct DRingPlace {
  Length over_standing_surface;
  Length below_anchor;  ///< negative: above the anchor
};

Clearance<BelowDRing> to_d_ring(Clearance<BelowAnchor> clearance, const DRingPlace& place);
Clearance<BelowDRing> to_d_ring(Clearance<BelowStandingSurface> clearance, const DRingPlace& place);
Clearance<BelowAnchor> to_anchor(Clearance<BelowDRing> clearance, const DRingPlace& place);
Clearance<BelowStandingSurface> to_standing_surface(Clearance<BelowDRing> clearance,
                                                    const DRingPlace& place);

/// The depth below whichever datum a word names, of one below the D-ring; and the other way.
Length depth_below(Datum datum, Clearance<BelowDRing> clearance, const DRingPlace& place);
Clearance<BelowDRing> below_d_ring(Datum datum, Length depth, const DRingPlace& place);

}  // namespace footroom::engine
