#include "engine/nails_needed.hpp"

#include "engine/counting.hpp"

// Notation
//   P    load
//   P_1  design value of one nail
//   q    load over P_1
//   n    number of nails

namespace footroom::engine {
namespace {

using Def = Definition<NailsNeededCase, NailsNeeded>;

const Def& definition() {
  static const Def made{
      "nails-needed",
      {"Nails for a load", "Clavos para una carga"},
      {"How many nails a load needs by the handbook's design value of one nail.",
       "Cuántos clavos exige una carga según el valor de diseño de un clavo en el manual."},
      {
          input("load", "P", {"load", "carga"}, &NailsNeededCase::load, {0, 1e6}, nail_force_show),
          input("capacity-per-nail", "P_1",
                {"design value of one nail", "valor de diseño de un clavo"},
                &NailsNeededCase::capacity_per_nail, {10, 1e6}, nail_force_show),
      },
      {
          output("share", "q",
                 {"load over the design value of one nail",
                  "carga entre el valor de diseño de un clavo"},
                 &NailsNeeded::share, {"", 2, "", 2}),
          output("count", "n", {"nails needed", "clavos necesarios"}, &NailsNeeded::count,
                 {"", 0, "", 0}),
          output("capacity", "P_n",
                 {"design value of that many nails", "valor de diseño de esa cantidad de clavos"},
                 &NailsNeeded::capacity, nail_force_show),
      },
      {
          {"share",
           "load / capacity-per-nail",
           "",
           {"The load, counted in nails.", "La carga, contada en clavos."}},
          {"count",
           "ceil(share)",
           "",
           {"A part of a nail takes a whole one: always round up.",
            "Una parte de clavo exige un clavo entero: siempre se redondea hacia arriba."}},
          {"capacity",
           "count * capacity-per-nail",
           "",
           {"What the whole nails hold together.", "Lo que aguantan juntos los clavos enteros."}},
      },
      {
          {{"counting", "conteo"}, Status::computed, {"whole nails", "clavos enteros"}},
      },
      {nail_caution}};
  return made;
}

}  // namespace

NailsNeeded nails_needed(const NailsNeededCase& c) {
  refuse_outside_domain(definition(), c);
  NailsNeeded r{};
  r.share = whole_if_near(c.load / c.capacity_per_nail);
  r.count = whole_above(r.share.value());
  r.capacity = double(r.count) * c.capacity_per_nail;
  return r;
}

const Calculation& nails_needed_calculation() {
  static const Calculation made = make_calculation(definition(), nails_needed);
  return made;
}

}  // namespace footroom::engine
