#include "engine/gear_check.hpp"

#include <algorithm>

#include "engine/told_refusal.hpp"

// Notation
//   m        mass of the user with tools
//   m_c      capacity marked on the kit
//   m_r      mass below which the rule's criteria hold
//   F_c      strength marked on the connector, F_l on the lanyard or lifeline, F_a of the anchor
//   o, e     gate opening of the connector, thickness of the eye it goes into
//   d        rope diameter; d_1 to d_2 the rope grab's range

namespace footroom::engine {
namespace {

using Def = Definition<GearCheckCase, GearCheck>;

constexpr Citation impact = "29 CFR 1926.502(d)(19)";
constexpr Citation inspection = "29 CFR 1926.502(d)(21)";
constexpr Citation practice = {"common practice, no single source",
                               "práctica común, sin una fuente única"};

/// In the order of Reason; the first ones are also the findings, in the order of Finding.
const std::vector<Choice>& reasons() {
  static const std::vector<Choice> all = {
      {"absorber-deployed",
       {"the absorber has torn open", "el absorbedor está desplegado"},
       {impact, Status::from_memory}},
      {"arrested-a-fall",
       {"it has arrested a fall", "detuvo una caída"},
       {impact, Status::from_memory}},
      {"cut", {"a cut", "un corte"}, {inspection, Status::from_memory}},
      {"burn",
       {"a burn or melted fibres", "una quemadura o fibras derretidas"},
       {inspection, Status::from_memory}},
      {"stitching-broken",
       {"broken stitching", "costuras rotas"},
       {inspection, Status::from_memory}},
      {"corroded", {"corrosion", "corrosión"}, {inspection, Status::from_memory}},
      {"deformed",
       {"a bent or cracked part", "una pieza doblada o agrietada"},
       {inspection, Status::from_memory}},
      {"chemical-stain",
       {"a stain of solvent, acid or tar", "una mancha de solvente, ácido o brea"},
       {inspection, Status::from_memory}},
      {"knot",
       {"a knot in lanyard or lifeline", "un nudo en la cuerda"},
       {practice, Status::common_practice}},
      {"label-missing",
       {"the label is missing or cannot be read", "falta la etiqueta o no se lee"},
       {practice, Status::common_practice}},
      {"body-belt",
       {"a body belt is no support for fall arrest", "un cinturón no sirve para detener caídas"},
       {"29 CFR 1926.502(d)", Status::from_memory}},
      {"not-dorsal",
       {"the lanyard is not on the dorsal D-ring",
        "la cuerda de seguridad no va al anillo en D dorsal"},
       {"29 CFR 1926.502(d)(17)", Status::read}},
      {"above-capacity",
       {"the user with tools is heavier than the marked capacity",
        "el usuario con herramientas pesa más que la capacidad marcada"},
       {practice, Status::common_practice}},
      {"above-criteria",
       {"the user with tools is not below the mass the rule's criteria hold for",
        "el usuario con herramientas no está por debajo de la masa para la que "
        "valen los criterios de la regla"},
       {{"29 CFR 1926.502(d)(16), note", "29 CFR 1926.502(d)(16), nota"}, Status::read}},
      {"not-locking",
       {"the connector does not close and lock by itself", "el conector no se cierra y traba solo"},
       {"29 CFR 1926.502(d)(5)", Status::from_memory}},
      {"one-action",
       {"the connector opens with fewer than two deliberate actions",
        "el conector se abre con menos de dos acciones deliberadas"},
       {{"29 CFR 1926.500(b), snaphook", "29 CFR 1926.500(b), gancho"}, Status::from_memory}},
      {"connector-weak",
       {"the connector's marked strength is too low",
        "la resistencia marcada del conector es insuficiente"},
       {"29 CFR 1926.502(d)(3)", Status::second_hand}},
      {"connector-too-small",
       {"the connector cannot close around the anchor's eye",
        "el conector no cierra alrededor del ojo del anclaje"},
       {"29 CFR 1926.502(d)(5)", Status::from_memory}},
      {"lanyard-weak",
       {"lanyard or lifeline is marked too weak",
        "la resistencia marcada de la cuerda es insuficiente"},
       {"29 CFR 1926.502(d)(9)", Status::read}},
      {"rope-too-thin",
       {"the rope is thinner than the rope grab's range",
        "la cuerda es más delgada que el rango del agarracuerda"},
       {practice, Status::common_practice}},
      {"rope-too-thick",
       {"the rope is thicker than the rope grab's range",
        "la cuerda es más gruesa que el rango del agarracuerda"},
       {practice, Status::common_practice}},
      {"grab-upside-down",
       {"the rope grab is on the rope upside down", "el agarracuerda está al revés en la cuerda"},
       {practice, Status::common_practice}},
      {"shared-line",
       {"more than one person is on the vertical lifeline",
        "más de una persona usa la línea de vida vertical"},
       {"29 CFR 1926.502(d)(10)(i)", Status::from_memory}},
      {"anchor-weak",
       {"the anchor is too weak for the persons attached",
        "el anclaje no resiste a las personas conectadas"},
       {"29 CFR 1926.502(d)(15)", Status::read}},
  };
  return all;
}

std::vector<Choice> findings() {
  std::vector<Choice> all(reasons().begin(),
                          reasons().begin() + static_cast<int>(Reason::label_missing) + 1);
  return all;
}

const Def& definition() {
  constexpr Show mass{"lb", 0, "kg", 0};
  constexpr Show force{"lbf", 0, "kN", 1};
  constexpr Show small{"in", 3, "mm", 1};
  constexpr Show count{"", 0, "", 0};
  constexpr Domain any_force{0, 1e6};
  constexpr Domain any_size{0, 0.5};
  using C = GearCheckCase;
  static const Def made{
      "gear-check",
      {"Is the kit in service", "¿Está el equipo en servicio?"},
      {"Whether a fall arrest kit may be used as it is, and every reason against it.",
       "Si un equipo de detención de caídas puede usarse tal como está, y todas las razones en "
       "contra."},
      {
          word_input("body-support", {"body support", "soporte del cuerpo"}, &C::body_support,
                     {{"full-body-harness", {"full body harness", "arnés de cuerpo completo"}},
                      {"body-belt", {"body belt", "cinturón"}}}),
          word_input("attachment", {"lanyard connected at", "cuerda conectada en"}, &C::attachment,
                     {{"dorsal", {"dorsal D-ring", "anillo en D dorsal"}},
                      {"sternal", {"front D-ring", "anillo en D frontal"}},
                      {"side", {"side D-ring", "anillo en D lateral"}},
                      {"waist", {"waist", "cintura"}}}),
          input("user-mass", "m", {"user with tools", "usuario con herramientas"}, &C::user_mass,
                {30, 250}, mass),
          input("marked-capacity", "m_c", {"marked capacity", "capacidad marcada"},
                &C::marked_capacity, {30, 400}, mass),
          limit_input("criteria-mass", "m_r",
                      {"mass below which the rule's criteria hold",
                       "masa bajo la cual valen los criterios de la regla"},
                      &C::criteria_mass, {30, 400}, mass, "user-mass"),
          word_input("connector-lock", {"connector", "conector"}, &C::connector_lock,
                     {{"locks-by-itself", {"closes and locks by itself", "se cierra y traba solo"}},
                      {"closes-only", {"closes, does not lock", "se cierra sin trabarse"}},
                      {"stays-open", {"can stay open", "puede quedar abierto"}}}),
          input("opening-actions", "",
                {"actions to open the connector", "acciones para abrir el conector"},
                &C::opening_actions, {0, 4}, count),
          input("connector-strength", "F_c",
                {"connector strength as marked", "resistencia marcada del conector"},
                &C::connector_strength, any_force, force),
          limit_input("connector-limit", "",
                      {"connector strength needed", "resistencia exigida al conector"},
                      &C::connector_limit, any_force, force, "connector-strength"),
          input("connector-opening", "o", {"gate opening", "apertura del conector"},
                &C::connector_opening, any_size, small),
          input("eye-thickness", "e",
                {"thickness of the anchor's eye", "grosor del ojo del anclaje"}, &C::eye_thickness,
                any_size, small),
          input("lanyard-strength", "F_l",
                {"lanyard and lifeline strength as marked", "resistencia marcada de la cuerda"},
                &C::lanyard_strength, any_force, force),
          limit_input("lanyard-limit", "",
                      {"lanyard and lifeline strength needed", "resistencia exigida a la cuerda"},
                      &C::lanyard_limit, any_force, force, "lanyard-strength"),
          input("rope-diameter", "d", {"rope diameter", "diámetro de la cuerda"}, &C::rope_diameter,
                any_size, small),
          input("grab-smallest", "d_1",
                {"thinnest rope for the rope grab", "cuerda más delgada para el agarracuerda"},
                &C::grab_smallest, any_size, small),
          input("grab-largest", "d_2",
                {"thickest rope for the rope grab", "cuerda más gruesa para el agarracuerda"},
                &C::grab_largest, any_size, small),
          word_input("grab-direction", {"rope grab on the rope", "agarracuerda en la cuerda"},
                     &C::grab_direction,
                     {{"as-marked", {"as its arrow shows", "como indica la flecha"}},
                      {"upside-down", {"upside down", "al revés"}}}),
          input("persons-on-line", "", {"persons on the lifeline", "personas en la línea de vida"},
                &C::persons_on_line, {1, 20}, count),
          input("persons-on-anchor", "n", {"persons on the anchor", "personas en el anclaje"},
                &C::persons_on_anchor, {1, 20}, count),
          input("anchor-strength", "F_a", {"anchor strength", "resistencia del anclaje"},
                &C::anchor_strength, any_force, force),
          limit_input("strength-per-person", "",
                      {"anchor strength needed for each person", "resistencia exigida por persona"},
                      &C::strength_per_person, any_force, force, "anchor-strength-per-person"),
          words_input("findings", {"found on inspection", "hallazgos de la inspección"},
                      &C::findings, "cut"),
      },
      {
          word_output("state", {"the kit is", "el equipo está"}, &GearCheck::state,
                      {{"in-service", {"in service", "en servicio"}},
                       {"out-of-service", {"out of service", "fuera de servicio"}}}),
          output("reasons", "", {"reasons", "razones"}, &GearCheck::reasons, {}),
      },
      {},
      {{"29 CFR 1926.502(d)",
        Status::from_memory,
        {"each reason names its own paragraph", "cada razón nombra su propio párrafo"}}},
      {
          {"No reason found is no release: inspect before each use, and let a competent person and "
           "the manufacturer's instructions decide.",
           "No hallar razones no es una autorización: inspeccione antes de cada uso y deje que "
           "decidan una persona competente y las instrucciones del fabricante."},
      }};
  static const Def complete = [] {
    Def d = made;
    for (auto& field : d.inputs)
      if (field.input.id == "findings") field.input.choices = findings();
    for (auto& field : d.outputs)
      if (field.output.id == "reasons") field.output.choices = reasons();
    return d;
  }();
  return complete;
}

}  // namespace

const Choice& describe(Reason reason) {
  return reasons().at(static_cast<std::size_t>(reason));
}

Value Bridge<std::vector<Finding>>::to_value(const std::vector<Finding>& all) {
  Words words;
  for (const Finding finding : all)
    words.push_back({std::string(reasons().at(static_cast<std::size_t>(finding)).id)});
  return words;
}

std::vector<Finding> Bridge<std::vector<Finding>>::from_value(const Value& value) {
  std::vector<Finding> all;
  for (const Word& word : std::get<Words>(value))
    for (std::size_t i = 0; i < findings().size(); ++i)
      if (reasons()[i].id == word.id) all.push_back(static_cast<Finding>(i));
  return all;
}

Value Bridge<std::vector<Reason>>::to_value(const std::vector<Reason>& all) {
  Words words;
  for (const Reason reason : all) words.push_back({std::string(describe(reason).id)});
  return words;
}

GearCheck gear_check(const GearCheckCase& c) {
  refuse_outside_domain(definition(), c);
  if (c.grab_smallest > c.grab_largest)
    throw ToldRefusal(
        "gear-check", "grab-smallest", "is above grab-largest, expected at most that",
        "es mayor que la cuerda más gruesa del amarre; se espera a lo más esa medida");

  GearCheck r{};
  const auto against = [&r](bool holds, Reason reason) {
    if (holds) r.reasons.push_back(reason);
  };
  for (std::size_t i = 0; i < findings().size(); ++i)
    against(std::find(c.findings.begin(), c.findings.end(), static_cast<Finding>(i)) !=
                c.findings.end(),
            static_cast<Reason>(i));
  against(c.body_support == BodySupport::body_belt, Reason::body_belt);
  against(c.attachment != Attachment::dorsal, Reason::not_dorsal);
  against(c.user_mass > c.marked_capacity, Reason::above_capacity);
  against(c.user_mass >= c.criteria_mass, Reason::above_criteria);
  against(c.connector_lock != ConnectorLock::locks_by_itself, Reason::not_locking);
  against(c.opening_actions < 2, Reason::one_action);
  against(c.connector_strength < c.connector_limit, Reason::connector_weak);
  against(c.connector_opening < c.eye_thickness, Reason::connector_too_small);
  against(c.lanyard_strength < c.lanyard_limit, Reason::lanyard_weak);
  against(c.rope_diameter < c.grab_smallest, Reason::rope_too_thin);
  against(c.rope_diameter > c.grab_largest, Reason::rope_too_thick);
  against(c.grab_direction == GrabDirection::upside_down, Reason::grab_upside_down);
  against(c.persons_on_line > 1, Reason::shared_line);
  against(c.anchor_strength < double(c.persons_on_anchor) * c.strength_per_person,
          Reason::anchor_weak);
  r.state = r.reasons.empty() ? GearState::in_service : GearState::out_of_service;
  return r;
}

const Calculation& gear_check_calculation() {
  static const Calculation made = make_calculation(definition(), gear_check);
  return made;
}

}  // namespace footroom::engine
