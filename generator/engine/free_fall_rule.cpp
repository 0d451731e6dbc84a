#include "engine/free_fall_rule.hpp"

#include "engine/shared_inputs.hpp"
#include "engine/told_refusal.hpp"

// Notation
//   l      length of the lanyard
//   a      height of the anchor above the D-ring
//   FF     free fall

namespace footroom::engine {
namespace {

using Def = Definition<FreeFallRuleCase, FreeFallRule>;

const Def& definition() {
  static const Def made{
      "free-fall-rule",
      {"Free fall on a lanyard", "Caída libre con cuerda de seguridad"},
      {"The free fall from the length of the lanyard and the height of the anchor.",
       "La caída libre según el largo de la cuerda de seguridad y la altura del anclaje."},
      {
          input("lanyard-length", "l", {"length of the lanyard", "largo de la cuerda de seguridad"},
                &FreeFallRuleCase::lanyard_length, {0.3, 15}, feet_show),
          input("anchor-above-d-ring", "a",
                {"height of the anchor above the D-ring (negative: below)",
                 "altura del anclaje sobre el anillo en D (negativa: debajo)"},
                &FreeFallRuleCase::anchor_above_d_ring, {-15, 15}, feet_show),
      },
      {
          output("free-fall", "FF", {"free fall", "caída libre"}, &FreeFallRule::free_fall,
                 feet_show),
      },
      {
          {"free-fall",
           "lanyard-length - anchor-above-d-ring",
           "",
           {"An anchor above the D-ring takes its height off the lanyard; one below adds it.",
            "Un anclaje más alto que el anillo en D le resta su altura a la cuerda; uno más bajo "
            "se la suma."}},
      },
      {
          {{"29 CFR 1926.500(b), free fall", "29 CFR 1926.500(b), caída libre"},
           Status::second_hand,
           {"what counts as free fall", "qué cuenta como caída libre"}},
          {{"OSHA Technical Manual, section V, chapter 4",
            "OSHA Technical Manual, sección V, capítulo 4"},
           Status::second_hand,
           {"lanyard length less the height of the anchor above the D-ring",
            "largo de la cuerda de seguridad menos la altura del anclaje sobre el anillo en D"}},
      },
      {
          {"Tied off below the D-ring, the free fall is longer than the lanyard.",
           "Con el anclaje más bajo que el anillo en D, la caída libre es más larga que la "
           "cuerda."},
      }};
  return made;
}

}  // namespace

FreeFallRule free_fall_rule(const FreeFallRuleCase& c) {
  refuse_outside_domain(definition(), c);
  if (!(abs(c.anchor_above_d_ring) <= c.lanyard_length))
    throw ToldRefusal("free-fall-rule", "anchor-above-d-ring",
                      "is farther from the D-ring than the lanyard reaches",
                      "está más lejos del anillo en D de lo que alcanza la cuerda de seguridad");
  FreeFallRule r{};
  r.free_fall = c.lanyard_length - c.anchor_above_d_ring;  // (1)
  return r;
}

const Calculation& free_fall_rule_calculation() {
  static const Calculation made = make_calculation(definition(), free_fall_rule);
  return made;
}

}  // namespace footroom::engine
