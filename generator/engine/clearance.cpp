#include "engine/clearance.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   FF       free fall
//   z_l      lock distance of the arrester
//   X        deceleration distance
//   e        stretch of the line
//   e_h      stretch of the harness and shift of the D-ring
//   B        body below the D-ring
//   M        safety margin
//   a        height of the anchor above the D-ring
//   h        height of the D-ring over the standing surface
//   z        fall distance of the D-ring
//   C        clearance needed

namespace footroom::engine {
namespace {

using Def = Definition<ClearanceCase, ClearanceNeeded>;

const Def& definition() {
  static const Def made{
      "clearance",
      {"Clearance needed", "Espacio libre de caída necesario"},
      {"How much room a fall needs below a datum, term by term.",
       "Cuánto espacio necesita una caída debajo de un nivel de referencia, término por término."},
      {
          word_input("datum", {"measured", "se mide"}, &ClearanceCase::datum, datum_choices()),
          free_fall_input(&ClearanceCase::free_fall),
          optional_input("arrester-lock", "z_l",
                         {"lock distance of the fall arrester",
                          "distancia de bloqueo del dispositivo anticaídas"},
                         &ClearanceCase::arrester_lock, {0, 5}, feet_show),
          limit_input("deceleration", "X", {"deceleration distance", "distancia de desaceleración"},
                      &ClearanceCase::deceleration, {0, 5}, feet_show, "deceleration"),
          optional_input("line-stretch", "e", {"stretch of the line", "estiramiento de la cuerda"},
                         &ClearanceCase::line_stretch, {0, 20}, feet_show),
          optional_input("harness-stretch", "e_h",
                         {"stretch of the harness and shift of the D-ring",
                          "estiramiento del arnés y desplazamiento del anillo en D"},
                         &ClearanceCase::harness_stretch, {0, 1}, feet_show),
          input("body-below", "B",
                {"body below the D-ring: from D-ring to feet",
                 "cuerpo debajo del anillo en D: del anillo a los pies"},
                &ClearanceCase::body_below, {0, 2.5}, feet_show),
          optional_input("safety-margin", "M", {"safety margin", "margen de seguridad"},
                         &ClearanceCase::safety_margin, {0, 10}, feet_show),
          optional_input("anchor-above-d-ring", "a",
                         {"height of the anchor above the D-ring (negative: below)",
                          "altura del anclaje sobre el anillo en D (negativa: debajo)"},
                         &ClearanceCase::anchor_above_d_ring, {-15, 15}, feet_show),
          optional_input("d-ring-height", "h", d_ring_height_name, &ClearanceCase::d_ring_height,
                         {0, d_ring_height_domain.highest}, feet_show),
      },
      {
          output("fall-distance", "z",
                 {"fall distance of the D-ring", "distancia de caída del anillo en D"},
                 &ClearanceNeeded::fall_distance, feet_show),
          output("needed", "C", {"clearance needed", "espacio libre de caída necesario"},
                 &ClearanceNeeded::needed, feet_show),
      },
      {
          {"fall-distance",
           "free-fall + arrester-lock + deceleration + line-stretch",
           "",
           {"The D-ring falls freely, until the arrester locks, and while line and absorber give.",
            "El anillo en D cae libre, hasta que el anticaídas se bloquea, y mientras ceden la "
            "cuerda y el absorbedor."}},
          {"needed",
           "fall-distance + harness-stretch + body-below + safety-margin",
           "datum == \"below-d-ring\"",
           {"Below the D-ring hangs the body, lower by what the harness gives; the margin stays "
            "free below the feet.",
            "Debajo del anillo en D cuelga el cuerpo, más bajo por lo que cede el arnés; el margen "
            "queda libre bajo los pies."}},
          {"needed",
           "fall-distance + harness-stretch + body-below + safety-margin + anchor-above-d-ring",
           "datum == \"below-anchor\"",
           {"The body and the margin come below the D-ring; the anchor is its height higher up.",
            "El cuerpo y el margen van debajo del anillo en D; el anclaje está más arriba según su "
            "altura."}},
          {"needed",
           "fall-distance + harness-stretch + body-below + safety-margin - d-ring-height",
           "datum == \"below-standing-surface\"",
           {"The body and the margin come below the D-ring; the surface stood on is already its "
            "height lower.",
            "El cuerpo y el margen van debajo del anillo en D; la superficie donde se está de pie "
            "ya queda más abajo según su altura."}},
      },
      {
          {{"OSHA Technical Manual, section V, chapter 4, clearance form",
            "OSHA Technical Manual, sección V, capítulo 4, formulario de espacio libre"},
           Status::second_hand,
           {"free fall, deceleration, D-ring shift, D-ring height, margin",
            "caída libre, desaceleración, desplazamiento del anillo en D, altura del anillo en D, "
            "margen"}},
          {{"Roofing Contractors Association of Washington, fall distance example",
            "Roofing Contractors Association of Washington, ejemplo de distancia de caída"},
           Status::second_hand,
           {"lifeline elongation, body below the attachment",
            "estiramiento de la línea de vida, cuerpo bajo la conexión"}},
          {{"Washington WAC 296-880-505, appendix B", "Washington WAC 296-880-505, apéndice B"},
           Status::from_memory,
           {"clearance below the anchor", "espacio libre bajo el anclaje"}},
          {{"OSHA interpretation letter, 9 February 1995",
            "carta de interpretación de OSHA, 9 de febrero de 1995"},
           Status::read,
           {"stretch of the line is no part of the deceleration distance",
            "el estiramiento de la cuerda no es parte de la distancia de desaceleración"}},
          {"29 CFR 1926.502(d)(16)(iv)",
           Status::read,
           {"the limit of the deceleration distance",
            "el límite de la distancia de desaceleración"}},
      },
      {
          {"Count the D-ring height and the shift, or a whole body from head to feet, never both.",
           "Cuente la altura del anillo en D y el desplazamiento, o un cuerpo entero de la cabeza "
           "a los pies, nunca ambos."},
          {"Sources measure from different levels: never compare two figures without knowing "
           "theirs.",
           "Las fuentes miden desde niveles distintos: nunca compare dos cifras sin saber el de "
           "cada una."},
          {"Stretch of the line belongs here, never in the free fall. A swing adds more.",
           "El estiramiento de la cuerda va aquí, nunca en la caída libre. Un péndulo suma más."},
      }};
  return made;
}

}  // namespace

ClearanceNeeded clearance(const ClearanceCase& c) {
  refuse_outside_domain(definition(), c);
  if (c.datum == Datum::below_standing_surface &&
      !d_ring_height_domain.contains(c.d_ring_height.value()))
    throw OutOfDomain("clearance", "d-ring-height", erase_type(c.d_ring_height),
                      d_ring_height_domain);
  ClearanceNeeded r{};
  r.fall_distance = c.free_fall + c.arrester_lock + c.deceleration + c.line_stretch;  // (1)
  const Clearance<BelowDRing> needed(r.fall_distance + c.harness_stretch + c.body_below +
                                     c.safety_margin);                                // (2)
  r.needed = depth_below(c.datum, needed, {c.d_ring_height, c.anchor_above_d_ring});  // (3)
  return r;
}

const Calculation& clearance_calculation() {
  static const Calculation made = make_calculation(definition(), clearance);
  return made;
}

}  // namespace footroom::engine
