#include "engine/arrest_in_time.hpp"

#include <algorithm>
#include <cmath>

#include "engine/arrest_motion.hpp"
#include "engine/told_refusal.hpp"

// Notation
//   m, W     mass and weight
//   FF       free fall from the edge until the line is taut
//   k, zeta  stiffness of the line, and its damping as a part of the critical one
//   F_d      force at which the absorber tears; X its elongation, X_max the maximum
//   s        slide on the roof before the edge; theta the roof's pitch, mu the friction there
//   mu_e, beta  friction of the line on the edge, and the angle by which the line turns there
//   f        edge factor
//   v_0      speed when the line is taut
//   S        stopping distance

namespace footroom::engine {
namespace {

using C = ArrestInTimeCase;
using Def = Definition<C, ArrestInTime>;

const std::vector<Choice>& assumptions() {
  static const std::vector<Choice> all = {
      {"bottoms-out",
       {"the absorber has enough elongation; here it bottoms out",
        "al absorbedor le alcanza la elongación; aquí llega al tope"}},
      {"tears-under-weight",
       {"the absorber holds more than the weight; here it does not",
        "el absorbedor aguanta más que el peso; aquí no"}},
      {"line-damping", {"the line loses no energy", "la cuerda no pierde energía"}},
      {"edge-friction", {"no friction at the edge", "sin fricción en el borde"}},
      {"roof-slide",
       {"the fall begins at rest; here with a slide",
        "la caída empieza en reposo; aquí con un deslizamiento"}},
  };
  return all;
}

std::vector<Field<C>> inputs() {
  constexpr Show feet{"ft", 1, "m", 2};
  constexpr Show degrees{"deg", 0, "deg", 0};
  return {
      input("mass", "m", {"mass of the worker with tools", "masa del trabajador con herramientas"},
            &C::mass, {10, 300}, {"lb", 0, "kg", 0}),
      input("free-fall", "FF", {"free fall from the edge", "caída libre desde el borde"},
            &C::free_fall, {0, 30}, feet),
      input("stiffness", "k", {"stiffness of the line", "rigidez de la cuerda"}, &C::stiffness,
            {1e3, 1e7}, {"lbf/ft", 0, "kN/m", 1}),
      input("absorber-force", "F_d",
            {"force at which the absorber tears", "fuerza a la que se desgarra el absorbedor"},
            &C::absorber_force, {100, 1e5}, {"lbf", 0, "kN", 2}),
      input("maximum-elongation", "X_max",
            {"maximum elongation of the absorber (0: no absorber)",
             "elongación máxima del absorbedor (0: sin absorbedor)"},
            &C::maximum_elongation, {0, 10}, feet),
      optional_input("damping-ratio", "zeta",
                     {"damping of the line, part of the critical",
                      "amortiguamiento de la cuerda, parte del crítico"},
                     &C::damping_ratio, {0, 0.5}, {"", 2, "", 2}),
      optional_input(
          "slide-distance", "s",
          {"slide on the roof before the edge", "deslizamiento en el techo antes del borde"},
          &C::slide_distance, {0, 60}, feet),
      optional_input("pitch", "theta", {"roof angle", "ángulo del techo"}, &C::pitch,
                     {0, 80 * M_PI / 180}, {"pitch", 0, "deg", 1}),
      optional_input("roof-friction", "mu",
                     {"friction of the worker on the roof", "fricción del trabajador en el techo"},
                     &C::roof_friction, {0, 2}, {"", 2, "", 2}),
      optional_input("edge-friction", "mu_e",
                     {"friction of the line on the edge", "fricción de la cuerda en el borde"},
                     &C::edge_friction, {0, 2}, {"", 2, "", 2}),
      optional_input(
          "edge-angle", "beta",
          {"angle by which the line turns at the edge", "ángulo que gira la cuerda en el borde"},
          &C::edge_angle, {0, M_PI}, degrees),
  };
}

std::vector<ResultField<ArrestInTime>> outputs() {
  using R = ArrestInTime;
  constexpr Show feet{"ft", 2, "m", 2};
  constexpr Show force{"lbf", 0, "kN", 2};
  constexpr Show energy{"ft-lbf", 0, "J", 0};
  constexpr Show time{"s", 2, "s", 2};
  auto broken = output("broken-assumptions", "",
                       {"assumptions of the hand calculation that do not hold",
                        "supuestos del cálculo a mano que no se cumplen"},
                       &R::broken_assumptions, {});
  broken.output.choices = assumptions();
  return {
      output("edge-factor", "f",
             {"line force on the worker's side over the anchor's",
              "fuerza de la cuerda del lado del trabajador entre la del anclaje"},
             &R::edge_factor, {"", 2, "", 2}),
      output("speed-at-taut", "v_0",
             {"speed when the line is taut", "velocidad cuando la cuerda se tensa"},
             &R::speed_at_taut, {"ft/s", 1, "m/s", 1}),
      output("time-to-taut", "t_0", {"time until the line is taut", "tiempo hasta que se tensa"},
             &R::time_to_taut, time),
      output("time-to-arrest", "t", {"time until the first standstill", "tiempo hasta detenerse"},
             &R::time_to_arrest, time),
      output("peak-force", "F_max",
             {"greatest force on the worker", "fuerza máxima sobre el trabajador"}, &R::peak_force,
             force),
      output("peak-anchor-force", "F_a",
             {"greatest force on the anchor", "fuerza máxima sobre el anclaje"},
             &R::peak_anchor_force, force),
      output("elongation", "X", {"elongation of the absorber", "elongación del absorbedor"},
             &R::elongation, feet),
      output("stopping-distance", "S",
             {"stopping distance: stretch and elongation",
              "distancia de parada: estiramiento y elongación"},
             &R::stopping_distance, feet),
      output("lowest-drop", "d_max",
             {"drop of the D-ring at the lowest point",
              "descenso del anillo en D en el punto más bajo"},
             &R::lowest_drop, feet),
      output("drop-at-rest", "d_r",
             {"drop of the D-ring at rest, at most",
              "descenso del anillo en D en reposo, como máximo"},
             &R::drop_at_rest, feet),
      word_output("state", {"the absorber", "el absorbedor"}, &R::state,
                  {{"stays-closed", {"stays closed", "queda cerrado"}},
                   {"tears", {"tears", "se desgarra"}},
                   {"bottoms-out", {"bottoms out", "llega al tope"}}}),
      output("fall-energy", "E", {"energy of the fall", "energía de la caída"}, &R::fall_energy,
             energy),
      output("roof-friction-energy", "E_mu",
             {"energy lost on the roof", "energía perdida en el techo"}, &R::roof_friction_energy,
             energy),
      output("edge-friction-energy", "E_e",
             {"energy lost at the edge", "energía perdida en el borde"}, &R::edge_friction_energy,
             energy),
      output("absorber-energy", "E_X",
             {"energy taken by the absorber", "energía que toma el absorbedor"},
             &R::absorber_energy, energy),
      output("damping-energy", "E_c", {"energy lost in the line", "energía perdida en la cuerda"},
             &R::damping_energy, energy),
      output("line-energy", "E_k",
             {"energy stored in the stretched line", "energía guardada en la cuerda estirada"},
             &R::line_energy, energy),
      output("residual", "E_r", {"error of the energy ledger", "error de la cuenta de energía"},
             &R::residual, {"ft-lbf", 6, "J", 6}),
      std::move(broken),
  };
}

std::vector<Step> steps() {
  return {
      {"edge-factor",
       "exp(edge-friction * number-of(edge-angle, \"rad\"))",
       "",
       {"Friction at the edge lets the worker feel more than the anchor.",
        "Por la fricción en el borde, el trabajador siente más que el anclaje."}},
      {"speed-at-taut",
       "sqrt(2 * g * (free-fall + slide-distance * (sin(pitch) - roof-friction * cos(pitch))))",
       "",
       {"Slide and free fall bring the speed; friction on the roof takes some away.",
        "El deslizamiento y la caída libre dan la velocidad; la fricción en el techo quita algo."}},
      {"lowest-drop",
       "free-fall + stopping-distance",
       "",
       {"The D-ring falls freely, then it is stopped.",
        "El anillo en D cae libremente y después se detiene."}},
      {"drop-at-rest",
       "min(lowest-drop, free-fall + elongation + mass * g * edge-factor / stiffness)",
       "",
       {"At rest the line carries the weight, and the absorber stays as long as it is.",
        "En reposo la cuerda sostiene el peso, y el absorbedor queda como está."}},
      {"fall-energy",
       "mass * g * (lowest-drop + slide-distance * sin(pitch))",
       "",
       {"All the height lost counts, down to the lowest point.",
        "Cuenta toda la altura perdida, hasta el punto más bajo."}},
      {"roof-friction-energy",
       "roof-friction * mass * g * cos(pitch) * slide-distance",
       "",
       {"The roof takes its share by friction.", "El techo toma su parte por fricción."}},
      {"absorber-energy",
       "absorber-force * elongation",
       "",
       {"The absorber's force times its elongation.",
        "La fuerza del absorbedor por su elongación."}},
      {"line-energy",
       "stiffness * (stopping-distance - elongation) ^ 2 / 2",
       "",
       {"The stretched line holds the rest, and gives it back in the rebound.",
        "La cuerda estirada guarda el resto y lo devuelve en el rebote."}},
  };
}

const Def& definition() {
  static const Def made{
      "arrest-in-time",
      {"Arrest of a fall, followed through time", "Detención de una caída, seguida en el tiempo"},
      {"Force, distance and time of an arrest by an elastic line with an absorber, where the hand "
       "calculation leaves something out.",
       "Fuerza, distancia y tiempo de una detención con cuerda elástica y absorbedor, donde el "
       "cálculo a mano omite algo."},
      inputs(),
      outputs(),
      steps(),
      {
          {{"Newton's second law for a point mass, integrated (Dormand and Prince, order 5)",
            "segunda ley de Newton para una masa puntual, integrada (Dormand y Prince, orden 5)"},
           Status::computed,
           {"force, distance and time", "fuerza, distancia y tiempo"}},
          {{"capstan formula, L. Euler, 1769", "fórmula del cabrestante, L. Euler, 1769"},
           Status::from_memory,
           {"friction at the edge", "fricción en el borde"}},
      },
      {
          {"A point mass on a linear line: a body gives way and a rope stiffens, so take it as an "
           "estimate; the maker's clearance counts.",
           "Una masa puntual en una cuerda lineal: el cuerpo cede y la cuerda se endurece, así que "
           "es una estimación; vale el espacio libre que indica el fabricante."},
          {"Rope over an edge can be cut: pad the edge, or use a line rated for it.",
           "Una cuerda sobre un borde se puede cortar: proteja el borde o use una cuerda apta."},
      }};
  return made;
}

/// From the onset until the line is taut, in closed form.
struct FallBefore {
  Acceleration on_roof;
  Speed at_edge;
  Speed at_taut;
  Time sliding;
  Time falling;
};

FallBefore fall_before(const C& c) {
  const Acceleration g = standard_gravity;
  FallBefore fall{};
  if (c.slide_distance.value() > 0) {
    fall.on_roof = g * (double(sin(c.pitch)) - c.roof_friction.value() * double(cos(c.pitch)));
    if (!(fall.on_roof.value() > 0))
      throw ToldRefusal(
          "arrest-in-time", "roof-friction",
          "holds the worker on this slope, expected less than the tangent of its angle "
          "where there is a slide",
          "sostiene al trabajador en esta pendiente; donde hay deslizamiento se espera menos que "
          "la tangente de su ángulo");
    fall.at_edge = sqrt(2.0 * fall.on_roof * c.slide_distance);
    fall.sliding = fall.at_edge / fall.on_roof;
  }
  fall.at_taut = sqrt(fall.at_edge * fall.at_edge + 2.0 * g * c.free_fall);
  fall.falling = (fall.at_taut - fall.at_edge) / g;
  return fall;
}

Ratio edge_factor(const C& c) {
  return std::exp(c.edge_friction.value() * c.edge_angle.value());  // capstan
}

ArrestMotion motion_from_taut(const C& c, const FallBefore& fall) {
  const double critical = 2 * std::sqrt(c.stiffness.value() * c.mass.value());
  // Less than a millionth of the critical damping changes nothing that could be seen, but would
  // make the integrator follow a creep far quicker than the fall.
  const double ratio = c.damping_ratio.value() < 1e-6 ? 0.0 : c.damping_ratio.value();
  return {{c.mass.value(), standard_gravity.value(), c.stiffness.value(), ratio * critical,
           c.absorber_force.value(), c.maximum_elongation.value(), edge_factor(c).value()},
          fall.at_taut.value()};
}

std::vector<BrokenAssumption> broken_assumptions(const C& c, AbsorberState state) {
  std::vector<BrokenAssumption> all;
  if (state == AbsorberState::bottoms_out) all.push_back(BrokenAssumption::bottoms_out);
  if (c.maximum_elongation.value() > 0 && c.absorber_force <= c.mass * standard_gravity)
    all.push_back(BrokenAssumption::tears_under_weight);
  if (c.damping_ratio.value() > 0) all.push_back(BrokenAssumption::line_damping);
  if (edge_factor(c).value() > 1) all.push_back(BrokenAssumption::edge_friction);
  if (c.slide_distance.value() > 0) all.push_back(BrokenAssumption::roof_slide);
  return all;
}

}  // namespace

Value Bridge<std::vector<BrokenAssumption>>::to_value(const std::vector<BrokenAssumption>& all) {
  Words words;
  for (const BrokenAssumption one : all)
    words.push_back({std::string(assumptions().at(static_cast<std::size_t>(one)).id)});
  return words;
}

ArrestInTime arrest_in_time(const ArrestInTimeCase& c) {
  refuse_outside_domain(definition(), c);
  const FallBefore fall = fall_before(c);
  ArrestMotion motion = motion_from_taut(c, fall);
  motion.advance_to_standstill();
  const ArrestMotion::State end = motion.state();

  ArrestInTime r{};
  const Force weight = c.mass * standard_gravity;
  r.edge_factor = edge_factor(c);
  r.speed_at_taut = fall.at_taut;
  r.time_to_taut = fall.sliding + fall.falling;
  r.time_to_arrest = r.time_to_taut + motion.time() * si::second;
  r.peak_force = motion.peak_on_worker() * si::newton;
  r.peak_anchor_force = motion.peak_on_anchor() * si::newton;
  r.elongation = end.elongation * si::metre;
  r.stopping_distance = motion.travel() * si::metre;
  r.lowest_drop = c.free_fall + r.stopping_distance;
  r.drop_at_rest = std::min(
      r.lowest_drop, Length(c.free_fall + r.elongation + weight * r.edge_factor / c.stiffness));
  r.state = !motion.tore()                        ? AbsorberState::stays_closed
            : r.elongation < c.maximum_elongation ? AbsorberState::tears
                                                  : AbsorberState::bottoms_out;

  const Length stretch = end.stretch * si::metre;
  r.fall_energy = weight * (r.lowest_drop + c.slide_distance * double(sin(c.pitch)));
  r.roof_friction_energy = c.roof_friction * weight * double(cos(c.pitch)) * c.slide_distance;
  r.edge_friction_energy = end.edge_energy * si::joule;
  r.absorber_energy = end.absorber_energy * si::joule;
  r.damping_energy = end.damping_energy * si::joule;
  r.line_energy = 0.5 * c.stiffness * stretch * stretch;
  // What is smaller is mostly the rounding of this very sum, which differs between processors.
  const Energy grain = 1e-9 * r.fall_energy;
  const Energy left = r.fall_energy - r.roof_friction_energy - r.edge_friction_energy -
                      r.absorber_energy - r.damping_energy - r.line_energy;
  r.residual = std::round(left / grain) * grain;
  r.broken_assumptions = broken_assumptions(c, r.state);
  return r;
}

ArrestHistory arrest_history(const ArrestInTimeCase& c, Time duration, int samples) {
  refuse_outside_domain(definition(), c);
  if (!(duration.value() > 0 && duration.value() <= 60))
    throw ToldRefusal("arrest-in-time", "duration", "expected more than 0 and at most 60 s",
                      "se espera más de 0 y a lo más 60 s");
  if (samples < 2 || samples > 10'000)
    throw ToldRefusal("arrest-in-time", "samples", "expected 2 to 10,000",
                      "se espera de 2 a 10 000");

  const FallBefore fall = fall_before(c);
  ArrestMotion motion = motion_from_taut(c, fall);
  ArrestHistory history;
  const auto note = [&history](Time time, Length drop, Speed speed, Force force) {
    history.time.push_back(time);
    history.drop.push_back(drop);
    history.speed.push_back(speed);
    history.force.push_back(force);
  };
  const Force none = 0.0 * si::newton;
  for (int i = 0; i < samples; ++i) {
    const Time time = duration * (double(i) / (samples - 1));
    const Time past_edge = time - fall.sliding;
    const Time past_taut = past_edge - fall.falling;
    if (past_edge.value() < 0) {
      const Length slid = 0.5 * fall.on_roof * time * time;
      note(time, (slid - c.slide_distance) * double(sin(c.pitch)), fall.on_roof * time, none);
    } else if (past_taut.value() < 0) {
      note(time, fall.at_edge * past_edge + 0.5 * standard_gravity * past_edge * past_edge,
           fall.at_edge + standard_gravity * past_edge, none);
    } else {
      motion.advance_to(past_taut.value());
      note(time, c.free_fall + motion.travel() * si::metre,
           motion.state().speed * si::metre_per_second, motion.force_on_worker() * si::newton);
    }
  }
  return history;
}

const Calculation& arrest_in_time_calculation() {
  static const Calculation made = make_calculation(definition(), arrest_in_time);
  return made;
}

}  // namespace footroom::engine
