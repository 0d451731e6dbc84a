#include "engine/change_datum.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   C      clearance below the datum it is given for
//   h      height of the D-ring over the surface stood on
//   a      height of the anchor above the D-ring
//   C_D    clearance below the D-ring
//   C_2    clearance below the datum asked for

namespace footroom::engine {
namespace {

using Def = Definition<ChangeDatumCase, ChangedDatum>;

const Def& definition() {
  static const Def made{
      "change-datum",
      {"Clearance below another datum", "Espacio libre desde otro nivel de referencia"},
      {"The same clearance, measured from another level.",
       "El mismo espacio libre de caída, medido desde otro nivel."},
      {
          input("clearance", "C", {"clearance", "espacio libre de caída"},
                &ChangeDatumCase::clearance, {-20, 1000}, feet_show),
          word_input("from", {"is measured", "se mide"}, &ChangeDatumCase::from, datum_choices()),
          word_input("to", {"shall be measured", "se quiere medir"}, &ChangeDatumCase::to,
                     datum_choices()),
          d_ring_height_input(&ChangeDatumCase::d_ring_height),
          input("anchor-above-d-ring", "a",
                {"height of the anchor above the D-ring (negative: below)",
                 "altura del anclaje sobre el anillo en D (negativa: debajo)"},
                &ChangeDatumCase::anchor_above_d_ring, {-60, 60}, feet_show),
      },
      {
          output("below-d-ring", "C_D",
                 {"clearance below the D-ring", "espacio libre debajo del anillo en D"},
                 &ChangedDatum::below_d_ring, feet_show),
          output("changed", "C_2",
                 {"clearance below the other datum", "espacio libre desde el otro nivel"},
                 &ChangedDatum::changed, feet_show),
      },
      {
          {"below-d-ring",
           "clearance - anchor-above-d-ring",
           "from == \"below-anchor\"",
           {"The D-ring is below the anchor by the anchor's height: so much less is below it.",
            "El anillo en D está debajo del anclaje según la altura de este: queda esa parte "
            "menos debajo."}},
          {"below-d-ring",
           "clearance",
           "from == \"below-d-ring\"",
           {"It is given below the D-ring.", "Se da debajo del anillo en D."}},
          {"below-d-ring",
           "clearance + d-ring-height",
           "from == \"below-standing-surface\"",
           {"The D-ring is its height above the surface stood on: so much more is below it.",
            "El anillo en D está a su altura sobre la superficie: queda esa parte más debajo."}},
          {"changed",
           "below-d-ring + anchor-above-d-ring",
           "to == \"below-anchor\"",
           {"From the anchor down there is the anchor's height more.",
            "Desde el anclaje hacia abajo hay además la altura del anclaje."}},
          {"changed",
           "below-d-ring",
           "to == \"below-d-ring\"",
           {"It is asked for below the D-ring.", "Se pide debajo del anillo en D."}},
          {"changed",
           "below-d-ring - d-ring-height",
           "to == \"below-standing-surface\"",
           {"From the surface down there is the D-ring's height less.",
            "Desde la superficie hacia abajo hay la altura del anillo en D menos."}},
      },
      {
          {{"subtraction of heights", "resta de alturas"},
           Status::computed,
           {"all of it", "todo el cálculo"}},
      },
      {
          {"The D-ring is taken where it is standing, before the fall.",
           "El anillo en D se toma donde está de pie, antes de la caída."},
      }};
  return made;
}

}  // namespace

ChangedDatum change_datum(const ChangeDatumCase& c) {
  refuse_outside_domain(definition(), c);
  const DRingPlace place{c.d_ring_height, c.anchor_above_d_ring};
  const Clearance<BelowDRing> clearance = below_d_ring(c.from, c.clearance, place);  // (1)
  return {clearance.depth(), depth_below(c.to, clearance, place)};                   // (2)
}

const Calculation& change_datum_calculation() {
  static const Calculation made = make_calculation(definition(), change_datum);
  return made;
}

}  // namespace footroom::engine
