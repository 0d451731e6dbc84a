#include "engine/anchor_strength.hpp"

#include "engine/shared_inputs.hpp"

// Notation
//   n      persons attached
//   P_1    strength for each person
//   F      arresting force of one person's system
//   SF     safety factor
//   P      strength needed
//   P_d    strength of a designed system

namespace footroom::engine {
namespace {

using Def = Definition<AnchorStrengthCase, AnchorStrength>;

const Def& definition() {
  static const Def made{
      "anchor-strength",
      {"Strength of an anchorage", "Resistencia de un anclaje"},
      {"What an anchorage must carry: for each person attached, or as part of a designed system.",
       "Lo que un anclaje debe resistir: por cada persona conectada, o como parte de un sistema "
       "diseñado."},
      {
          input("persons", "n", {"persons attached", "personas conectadas"},
                &AnchorStrengthCase::persons, {1, 20}, count_show),
          limit_input(
              "strength-per-person", "P_1",
              {"strength for each person attached", "resistencia por cada persona conectada"},
              &AnchorStrengthCase::strength_per_person, {100, 100000}, force_show,
              "anchor-strength-per-person"),
          limit_input("arrest-force", "F",
                      {"arresting force of one person's system",
                       "fuerza de detención del sistema de una persona"},
                      &AnchorStrengthCase::arrest_force, arrest_force_domain, force_show,
                      "arrest-force"),
          limit_input("safety-factor", "SF", {"safety factor", "factor de seguridad"},
                      &AnchorStrengthCase::safety_factor, {1, 10}, {"", 1, "", 1},
                      "anchor-safety-factor"),
      },
      {
          output("strength-needed", "P",
                 {"strength needed without a design", "resistencia necesaria sin un diseño"},
                 &AnchorStrength::strength_needed, force_show),
          output("designed-strength", "P_d",
                 {"strength needed of a designed system",
                  "resistencia necesaria de un sistema diseñado"},
                 &AnchorStrength::designed_strength, force_show),
      },
      {
          {"strength-needed",
           "persons * strength-per-person",
           "",
           {"Every person attached counts in full.", "Cada persona conectada cuenta completa."}},
          {"designed-strength",
           "persons * safety-factor * arrest-force",
           "",
           {"A system that a qualified person answers for carries the arresting force with its "
            "safety factor.",
            "Un sistema a cargo de una persona calificada resiste la fuerza de detención con su "
            "factor de seguridad."}},
      },
      {
          {"29 CFR 1926.502(d)(15)",
           Status::read,
           {"strength for each person attached, or a complete system with its safety factor",
            "resistencia por cada persona conectada, o un sistema completo con su factor de "
            "seguridad"}},
          {"29 CFR 1926.502(d)(16)(ii)",
           Status::second_hand,
           {"the limit of the arresting force", "el límite de la fuerza de detención"}},
      },
      {
          {"The designed strength holds only for a complete system designed, installed and used "
           "under a qualified person.",
           "La resistencia diseñada vale solo para un sistema completo diseñado, instalado y usado "
           "a cargo de una persona calificada."},
          {"All persons are taken to fall at once.",
           "Se supone que todas las personas caen a la vez."},
      }};
  return made;
}

}  // namespace

AnchorStrength anchor_strength(const AnchorStrengthCase& c) {
  refuse_outside_domain(definition(), c);
  const double persons = c.persons;
  AnchorStrength r{};
  r.strength_needed = persons * c.strength_per_person;               // (1)
  r.designed_strength = persons * c.safety_factor * c.arrest_force;  // (2)
  return r;
}

const Calculation& anchor_strength_calculation() {
  static const Calculation made = make_calculation(definition(), anchor_strength);
  return made;
}

}  // namespace footroom::engine
