#include "engine/anchor_reach.hpp"

#include <algorithm>

#include "engine/counting.hpp"
#include "engine/told_refusal.hpp"

// Notation
//   L      slope length, ridge to eave
//   e      eave length
//   T      line length
//   phi    greatest angle of the line from straight down the slope
//   x_a    reach by the angle, x_l by the line, x the smaller
//   w      width covered by one anchor
//   q      e over w
//   n      anchors

namespace footroom::engine {
namespace {

using Def = Definition<AnchorReachCase, AnchorReach>;

const Def& definition() {
  constexpr Show feet{"ft", 1, "m", 2};
  static const Def made{
      "anchor-reach",
      {"Reach of an anchor along the eave", "Alcance de un anclaje a lo largo del alero"},
      {"How far to either side a ridge anchor serves the eave, and how many anchors cover it.",
       "Hasta dónde sirve a cada lado un anclaje de cumbrera, y cuántos cubren el alero."},
      {
          input("slope-length", "L",
                {"slope length from ridge to eave", "largo de la pendiente, de cumbrera a alero"},
                &AnchorReachCase::slope_length, {0.3, 60}, feet),
          input("eave-length", "e", {"length of the eave", "largo del alero"},
                &AnchorReachCase::eave_length, {0.1, 200}, feet),
          input("line-length", "T", {"length of the line", "largo de la cuerda"},
                &AnchorReachCase::line_length, {0.3, 100}, feet),
          optional_input("greatest-angle", "phi",
                         {"greatest angle of the line from straight down the slope",
                          "mayor ángulo de la cuerda con la línea de máxima pendiente"},
                         &AnchorReachCase::greatest_angle, {5 * M_PI / 180, 60 * M_PI / 180},
                         {"deg", 0, "deg", 0}),
      },
      {
          output("by-angle", "x_a", {"reach by the angle", "alcance según el ángulo"},
                 &AnchorReach::by_angle, feet),
          output("by-line", "x_l", {"reach by the line", "alcance según la cuerda"},
                 &AnchorReach::by_line, feet),
          output("reach", "x", {"reach to one side", "alcance a un lado"}, &AnchorReach::reach,
                 feet),
          output("width", "w", {"width covered by one anchor", "ancho que cubre un anclaje"},
                 &AnchorReach::width, feet),
          word_output("limited-by", {"limited by", "lo limita"}, &AnchorReach::limited_by,
                      {{"angle", {"the angle", "el ángulo"}}, {"line", {"the line", "la cuerda"}}}),
          output("share", "q",
                 {"eave over the width of one anchor", "alero entre el ancho de un anclaje"},
                 &AnchorReach::share, {"", 2, "", 2}),
          output("anchors", "n", {"anchors to cover the eave", "anclajes para cubrir el alero"},
                 &AnchorReach::anchors, {"", 0, "", 0}),
      },
      {
          {"by-angle",
           "slope-length * tan(greatest-angle)",
           "",
           {"To the side, the angle opens with the slope length.",
            "A los lados, el ángulo se abre con el largo de la pendiente."}},
          {"by-line",
           "sqrt(line-length ^ 2 - slope-length ^ 2)",
           "",
           {"The line runs slantwise to the eave.", "La cuerda va en diagonal hasta el alero."}},
          {"reach", "min(by-angle, by-line)", "", {"The smaller counts.", "Cuenta el menor."}},
          {"width",
           "2 * reach",
           "",
           {"The anchor serves both sides.", "El anclaje sirve a ambos lados."}},
          {"share",
           "eave-length / width",
           "",
           {"The eave, counted in widths.", "El alero, contado en anchos."}},
          {"anchors",
           "ceil(share)",
           "",
           {"A part of a width takes a whole anchor.",
            "Una parte de un ancho exige un anclaje entero."}},
      },
      {
          {{"within 30 degrees of the anchor", "a no más de 30 grados del anclaje"},
           Status::common_practice,
           {"greatest angle; 15 and 45 degrees are published too",
            "ángulo máximo; también se publican 15 y 45 grados"}},
      },
      {{"Within the reach a fall still swings: work out the swing at its ends.",
        "Dentro del alcance una caída todavía pendulea: calcule el péndulo en los extremos."}}};
  return made;
}

}  // namespace

AnchorReach anchor_reach(const AnchorReachCase& c) {
  refuse_outside_domain(definition(), c);
  if (!(c.line_length > c.slope_length))
    throw ToldRefusal("anchor-reach", "line-length",
                      "does not reach past the eave: expected more than the slope length",
                      "no llega más allá del alero: se espera más que el largo de la pendiente");
  AnchorReach r{};
  r.by_angle = c.slope_length * double(tan(c.greatest_angle));
  r.by_line = sqrt(c.line_length * c.line_length - c.slope_length * c.slope_length);
  r.reach = std::min(r.by_angle, r.by_line);
  r.limited_by = r.by_angle <= r.by_line ? ReachLimit::angle : ReachLimit::line;
  r.width = 2.0 * r.reach;
  r.share = whole_if_near(c.eave_length / r.width);
  if (!(r.share.value() <= 1000))
    throw ToldRefusal("anchor-reach", "eave-length", "would take more than 1,000 anchors",
                      "necesitaría más de 1000 anclajes");
  r.anchors = whole_above(r.share.value());
  return r;
}

const Calculation& anchor_reach_calculation() {
  static const Calculation made = make_calculation(definition(), anchor_reach);
  return made;
}

}  // namespace footroom::engine
