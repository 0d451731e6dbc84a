#include "engine/holes_to_patch.hpp"

// Notation
//   N_a  anchors taken off
//   n    nails in each
//   m    further nails, driven and pulled
//   N    holes

namespace footroom::engine {
namespace {

using Def = Definition<HolesToPatchCase, HolesToPatch>;

const Def& definition() {
  constexpr Show count{"", 0, "", 0};
  static const Def made{
      "holes-to-patch",
      {"Holes to patch", "Agujeros por sellar"},
      {"How many nail holes to seal when the anchors come off the roof.",
       "Cuántos agujeros de clavo hay que sellar al quitar los anclajes del techo."},
      {
          input("anchors", "N_a", {"anchors taken off", "anclajes que se quitan"},
                &HolesToPatchCase::anchors, {0, 1000}, count),
          input("nails-per-anchor", "n", {"nails in each anchor", "clavos en cada anclaje"},
                &HolesToPatchCase::nails_per_anchor, {1, 100}, count),
          optional_input("missed-nails", "m",
                         {"further nails, driven and pulled", "otros clavos, clavados y sacados"},
                         &HolesToPatchCase::missed_nails, {0, 10000}, count),
      },
      {
          output("holes", "N", {"holes to patch", "agujeros por sellar"}, &HolesToPatch::holes,
                 count),
      },
      {
          {"holes",
           "anchors * nails-per-anchor + missed-nails",
           "",
           {"Every nail leaves a hole, also one that missed the rafter.",
            "Cada clavo deja un agujero, también el que no dio en el cabrio."}},
      },
      {
          {{"counting", "conteo"}, Status::computed, {"a hole a nail", "un agujero por clavo"}},
      },
      {}};
  return made;
}

}  // namespace

HolesToPatch holes_to_patch(const HolesToPatchCase& c) {
  refuse_outside_domain(definition(), c);
  return {c.anchors * c.nails_per_anchor + c.missed_nails};
}

const Calculation& holes_to_patch_calculation() {
  static const Calculation made = make_calculation(definition(), holes_to_patch);
  return made;
}

}  // namespace footroom::engine
