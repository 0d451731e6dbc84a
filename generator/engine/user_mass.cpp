#include "engine/user_mass.hpp"

#include "engine/told_refusal.hpp"

// Notation
//   m_b    body, with clothes
//   m_t    tools and gear
//   m      total
//   m_max  the total must stay below it
//   m_min  the maker's least user mass

namespace footroom::engine {
namespace {

using Def = Definition<UserMassCase, UserMass>;

const Def& definition() {
  constexpr Show mass{"lb", 0, "kg", 0};
  static const Def made{
      "user-mass",
      {"Mass of the worker with tools", "Masa del trabajador con herramientas"},
      {"Whether a worker with tools is within the mass that the gear is made for.",
       "Si un trabajador con herramientas está dentro de la masa para la que se hizo el equipo."},
      {
          input("body", "m_b", {"worker with clothes", "trabajador con ropa"}, &UserMassCase::body,
                {20, 300}, mass),
          input("tools", "m_t", {"tools and gear carried", "herramientas y equipo que lleva"},
                &UserMassCase::tools, {0, 100}, mass),
          limit_input("below", "m_max", {"total must stay below", "el total debe ser menor que"},
                      &UserMassCase::below, {20, 300}, mass, "user-mass"),
          optional_input("least", "m_min",
                         {"least user mass by the maker", "masa mínima según el fabricante"},
                         &UserMassCase::least, {0, 200}, mass),
      },
      {
          output("total", "m", {"mass with tools", "masa con herramientas"}, &UserMass::total,
                 mass),
          output("spare", "m_s", {"mass to spare", "masa de sobra"}, &UserMass::spare, mass),
          word_output(
              "verdict", {"the worker is", "el trabajador está"}, &UserMass::verdict,
              {{"within", {"within the range", "dentro del límite"}},
               {"too-heavy", {"too heavy for this gear", "por encima del límite del equipo"}},
               {"too-light", {"too light for this gear", "por debajo del mínimo del equipo"}}}),
      },
      {
          {"total",
           "body + tools",
           "",
           {"Everything that falls with the worker counts.",
            "Cuenta todo lo que cae con el trabajador."}},
          {"spare",
           "below - total",
           "",
           {"The limit must not be reached.", "No se debe llegar al límite."}},
      },
      {{{"29 CFR 1926.502(d)(16), note", "29 CFR 1926.502(d)(16), nota"},
        Status::read,
        {"below 310 lb (140 kg) with tools", "menos de 310 lb (140 kg) con herramientas"}}},
      {{"The maker's range on the label counts where it is narrower.",
        "Vale el rango de la etiqueta del fabricante si es más estrecho."}}};
  return made;
}

}  // namespace

UserMass user_mass(const UserMassCase& c) {
  refuse_outside_domain(definition(), c);
  if (c.least >= c.below)
    throw ToldRefusal("user-mass", "least", "is not below the greatest mass, expected less",
                      "no es menor que la masa máxima; se espera menos");
  UserMass r{};
  r.total = c.body + c.tools;
  r.spare = c.below - r.total;
  r.verdict = r.total >= c.below  ? UserMassVerdict::too_heavy
              : r.total < c.least ? UserMassVerdict::too_light
                                  : UserMassVerdict::within;
  return r;
}

const Calculation& user_mass_calculation() {
  static const Calculation made = make_calculation(definition(), user_mass);
  return made;
}

}  // namespace footroom::engine
