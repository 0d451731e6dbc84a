#include "engine/edge_fall.hpp"

// Notation
//   L      slope length, anchor to eave edge
//   theta  roof angle (pitch)
//   h      height of the dorsal D-ring over the feet
//   sigma  slack
//   d_0    taut line: straight from the anchor to the D-ring
//   l      line out between anchor and D-ring
//   b      line below the edge
//   FF     free fall of the D-ring
//   u      distance upslope of the edge at which a short line stops the fall

namespace footroom::engine {
namespace {

using Def = Definition<EdgeFallCase, EdgeFall>;

const Def& definition() {
  constexpr Show feet{"ft", 1, "m", 2};
  static const Def made{
      "edge-fall",
      {"Fall over the eave, straight down", "Caída por el alero, en línea recta"},
      {"How far the dorsal D-ring falls before the line takes load, when the worker goes over "
       "the eave straight below the anchor.",
       "Cuánto cae el anillo en D dorsal antes de que la cuerda reciba carga, cuando el "
       "trabajador pasa el alero justo debajo del anclaje."},
      {
          input("slope-length", "L",
                {"slope length from anchor to eave edge",
                 "largo de la pendiente, del anclaje al alero"},
                &EdgeFallCase::slope_length, {0.3, 60}, feet),
          input("pitch", "theta", {"roof angle", "ángulo del techo"}, &EdgeFallCase::pitch,
                {0, 80 * M_PI / 180}, {"pitch", 0, "deg", 1}),
          input("d-ring-height", "h",
                {"height of the D-ring over the feet", "altura del anillo en D sobre los pies"},
                &EdgeFallCase::d_ring_height, {0.5, 2}, feet),
          input("slack", "sigma", {"slack in the line", "holgura de la cuerda"},
                &EdgeFallCase::slack, {0, 30}, feet),
      },
      {
          output("taut-line", "d_0", {"taut line", "cuerda tensa"}, &EdgeFall::taut_line, feet),
          output("line-out", "l", {"line out", "cuerda extendida"}, &EdgeFall::line_out, feet),
          output("below-edge", "b", {"line below the edge", "cuerda debajo del borde"},
                 &EdgeFall::below_edge, feet),
          output("free-fall", "FF", {"free fall", "caída libre"}, &EdgeFall::free_fall, feet),
          output("stopped-upslope", "u", {"stop, upslope of the edge", "parada, antes del borde"},
                 &EdgeFall::stopped_upslope, feet),
          word_output("end", {"where the fall ends", "dónde termina la caída"}, &EdgeFall::end,
                      {{"below-edge", {"below the edge", "debajo del borde"}},
                       {"on-the-roof", {"on the roof", "sobre el techo"}}}),
      },
      {
          {"taut-line",
           "hypot(slope-length * cos(pitch), d-ring-height - slope-length * sin(pitch))",
           "",
           {"The taut line runs straight from the anchor to the D-ring.",
            "La cuerda tensa va recta del anclaje al anillo en D."}},
          {"line-out",
           "taut-line + slack",
           "",
           {"Slack adds to the line that is out.", "La holgura se suma a la cuerda extendida."}},
          {"below-edge",
           "line-out - slope-length",
           "",
           {"Over the eave, the slope uses up its own length; the rest hangs below the edge.",
            "Pasado el alero, la pendiente ocupa su propio largo; el resto cuelga debajo del "
            "borde."}},
          {"free-fall",
           "d-ring-height + below-edge",
           "below-edge > 0 ft",
           {"The D-ring started its height above the edge and ends below it.",
            "El anillo en D empezó a su altura sobre el borde y termina debajo de él."}},
          {"stopped-upslope",
           "-below-edge",
           "below-edge <= 0 ft",
           {"The line is too short to reach the edge: it stops the fall upslope.",
            "La cuerda no llega al borde: detiene la caída antes de él."}},
          {"free-fall",
           "d-ring-height - stopped-upslope * sin(pitch)",
           "below-edge <= 0 ft",
           {"The D-ring comes down to the roof surface, upslope of the edge.",
            "El anillo en D baja hasta la superficie del techo, antes del borde."}},
      },
      {
          {{"29 CFR 1926.500(b), free fall", "29 CFR 1926.500(b), caída libre"},
           Status::second_hand,
           {"what counts as free fall", "qué cuenta como caída libre"}},
      },
      {
          {"Valid on the anchor's fall line only; away from it add the eave swing.",
           "Vale solo en la línea de máxima pendiente del anclaje; fuera de ella sume el péndulo "
           "por el alero."},
      }};
  return made;
}

}  // namespace

EdgeFall edge_fall(const EdgeFallCase& c) {
  refuse_outside_domain(definition(), c);
  const Length none = 0.0 * si::metre;
  EdgeFall r{};
  r.taut_line = hypot(c.slope_length * cos(c.pitch),
                      c.d_ring_height - c.slope_length * sin(c.pitch));  // (1)
  r.line_out = r.taut_line + c.slack;                                    // (2)
  r.below_edge = r.line_out - c.slope_length;                            // (3)
  if (r.below_edge > none) {
    r.end = EdgeFallEnd::below_edge;
    r.free_fall = c.d_ring_height + r.below_edge;  // (4)
  } else {
    r.end = EdgeFallEnd::on_the_roof;
    r.stopped_upslope = -r.below_edge;                                 // (5)
    r.free_fall = c.d_ring_height - r.stopped_upslope * sin(c.pitch);  // (6)
  }
  return r;
}

const Calculation& edge_fall_calculation() {
  static const Calculation made = make_calculation(definition(), edge_fall);
  return made;
}

}  // namespace footroom::engine
