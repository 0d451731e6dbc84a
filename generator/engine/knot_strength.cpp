#include "engine/knot_strength.hpp"

// Notation
//   F_r  breaking strength of the rope
//   q    part left with the knot
//   F_k  strength with the knot
//   F    strength needed

namespace footroom::engine {
namespace {

using Def = Definition<KnotStrengthCase, KnotStrength>;

const Def& definition() {
  constexpr Show force{"lbf", 0, "kN", 1};
  static const Def made{
      "knot-strength",
      {"Strength of a rope with a knot", "Resistencia de una cuerda con nudo"},
      {"What strength a knot leaves in a rope, and whether that is enough.",
       "Qué resistencia le deja un nudo a una cuerda, y si alcanza."},
      {
          input("rope-strength", "F_r",
                {"breaking strength of the rope", "resistencia a la rotura de la cuerda"},
                &KnotStrengthCase::rope_strength, {0, 1e6}, force),
          input("knot-factor", "q",
                {"part of the strength left with the knot",
                 "parte de la resistencia que queda con el nudo"},
                &KnotStrengthCase::knot_factor, {0, 1, false}, {"percent", 0, "percent", 0}),
          limit_input("needed", "F", {"strength needed", "resistencia exigida"},
                      &KnotStrengthCase::needed, {0, 1e6}, force, "lanyard-strength"),
      },
      {
          output("strength", "F_k", {"strength with the knot", "resistencia con el nudo"},
                 &KnotStrength::strength, force),
          output("spare", "F_s", {"strength to spare", "resistencia de sobra"},
                 &KnotStrength::spare, force),
          word_output(
              "verdict", {"the strength is", "la resistencia"}, &KnotStrength::verdict,
              {{"enough", {"enough", "alcanza"}}, {"too-little", {"too little", "no alcanza"}}}),
      },
      {
          {"strength",
           "rope-strength * knot-factor",
           "",
           {"A knot bends the rope sharply and leaves only a part of its strength.",
            "Un nudo dobla mucho la cuerda y deja solo una parte de su resistencia."}},
          {"spare",
           "strength - needed",
           "",
           {"Compare with the strength needed.", "Compare con la resistencia exigida."}},
      },
      {
          {"29 CFR 1926.502(d)(9)", Status::read, {"strength needed", "resistencia necesaria"}},
          {{"strength of knots", "resistencia de los nudos"},
           Status::common_practice,
           {"the factor is an input: take the rope maker's",
            "el factor es un dato: use el del fabricante de la cuerda"}},
      },
      {{"Tie no knot in a lifeline or lanyard unless its maker allows it.",
        "No haga nudos en una línea de vida ni en una cuerda de seguridad si el fabricante no lo "
        "permite."}}};
  return made;
}

}  // namespace

KnotStrength knot_strength(const KnotStrengthCase& c) {
  refuse_outside_domain(definition(), c);
  KnotStrength r{};
  r.strength = c.rope_strength * c.knot_factor;
  r.spare = r.strength - c.needed;
  r.verdict = r.strength >= c.needed ? StrengthVerdict::enough : StrengthVerdict::too_little;
  return r;
}

const Calculation& knot_strength_calculation() {
  static const Calculation made = make_calculation(definition(), knot_strength);
  return made;
}

}  // namespace footroom::engine
