#include <fmt/format.h>

#include <algorithm>

#include "figure/figure.hpp"
#include "figure/scenes.hpp"

namespace footroom::figure {
namespace {

// A column of a sheet, with a little room to spare.
constexpr double widest = 150;  // mm
constexpr double highest = 63;  // mm
constexpr double smallest_scale = 0.001;

struct Scene {
  std::string_view calculation;
  void (*draw)(Sketch&);
  double largest_scale;  ///< mm for a metre: a person is never larger than a finger
  engine::Text title;
  engine::Text before;  ///< what a sheet shows
  engine::Text after;   ///< what a key adds
};

constexpr double person_scale = 13;

const Scene scenes[] = {
    {"roof",
     draw_roof,
     14,
     {"Roof in section", "Corte del techo"},
     {"Section through one side of a roof, from ridge to eave, with its horizontal run.",
      "Corte de un lado del techo, de la cumbrera al alero, con su distancia horizontal."},
     {"The worked-out values stand beside their lines.",
      "Los valores calculados están junto a sus líneas."}},
    {"roof-area",
     draw_roof_area,
     12,
     {"One side of a roof, plan and section", "Un lado del techo, planta y corte"},
     {"Left, one side of the roof from straight above; right, the same side in section.",
      "A la izquierda, un lado del techo visto desde arriba; a la derecha, el mismo en corte."},
     {"The areas stand below.", "Las áreas están abajo."}},
    {"rafters",
     draw_rafters,
     20,
     {"Ridge and rafters from above", "Cumbrera y cabrios vistos desde arriba"},
     {"The ridge from above, with the rafters on both sides and a marked place on the ridge.",
      "La cumbrera vista desde arriba, con los cabrios a ambos lados y un lugar marcado."},
     {"The nearest rafter is dark.", "El cabrio más cercano está en negro."}},
    {"roof-slide",
     draw_roof_slide,
     person_scale,
     {"Worker sitting on the slope", "Trabajador sentado en la pendiente"},
     {"A worker sits on the roof slope above the eave, without a line.",
      "Un trabajador está sentado en la pendiente, arriba del alero, sin cuerda."},
     {"An arrow shows the slide, if there is one.",
      "Una flecha muestra el deslizamiento, si lo hay."}},
    {"edge-fall",
     draw_edge_fall,
     person_scale,
     {"Worker at the eave, below a ridge anchor",
      "Trabajador en el alero, debajo de un anclaje en la cumbrera"},
     {"A worker stands at the eave, straight below the anchor on the ridge; the line runs loosely "
      "from the anchor to the dorsal D-ring.",
      "Un trabajador está de pie en el alero, justo debajo del anclaje de la cumbrera; la cuerda "
      "va "
      "floja del anclaje al anillo en D dorsal."},
     {"The dark figure shows where the line takes load, the light one the start.",
      "La figura oscura muestra dónde la cuerda recibe carga; la clara, el inicio."}},
    {"largest-slack",
     draw_largest_slack,
     person_scale,
     {"Largest slack at the eave", "Holgura máxima en el alero"},
     {"A worker stands at the eave, straight below the anchor on the ridge, with some slack in the "
      "line; a level marks how far the D-ring may fall.",
      "Un trabajador está de pie en el alero, justo debajo del anclaje de la cumbrera, con algo de "
      "holgura; un nivel marca hasta dónde puede caer el anillo en D."},
     {"The dark figure hangs where the largest slack lets the fall end.",
      "La figura oscura cuelga donde la holgura máxima deja que termine la caída."}},
    {"free-fall-rule",
     draw_free_fall_rule,
     person_scale,
     {"Lanyard and anchor", "Cuerda de seguridad y anclaje"},
     {"A worker stands with a lanyard from the anchor to the dorsal D-ring.",
      "Un trabajador está de pie con una cuerda de seguridad del anclaje al anillo en D dorsal."},
     {"At the right the worker hangs as the lanyard takes load.",
      "A la derecha el trabajador cuelga cuando la cuerda recibe carga."}},
    {"free-fall-motion",
     draw_free_fall_motion,
     person_scale,
     {"Free fall", "Caída libre"},
     {"A worker stands before a free fall of a given height.",
      "Un trabajador está de pie antes de una caída libre de altura dada."},
     {"At the right the worker at the end of the free fall.",
      "A la derecha el trabajador al final de la caída libre."}},
    {"absorber",
     draw_absorber,
     person_scale,
     {"Energy absorber", "Absorbedor de energía"},
     {"A worker stands with a lanyard and a closed energy absorber; the free fall is marked.",
      "Un trabajador está de pie con una cuerda de seguridad y un absorbedor de energía cerrado; "
      "está marcada la caída libre."},
     {"At the right the absorber has torn out and the worker hangs at the end of the fall.",
      "A la derecha el absorbedor se ha abierto y el trabajador cuelga al final de la caída."}},
    {"arrest-force",
     draw_arrest_force,
     person_scale,
     {"Fall and stopping distance", "Caída y distancia de parada"},
     {"A worker stands with a lanyard; the free fall and the stopping distance are marked.",
      "Un trabajador está de pie con una cuerda de seguridad; están marcadas la caída libre y la "
      "distancia de parada."},
     {"At the right the worker hangs at the end of the fall.",
      "A la derecha el trabajador cuelga al final de la caída."}},
    {"elastic-line",
     draw_elastic_line,
     person_scale,
     {"Fall into a stretching line", "Caída sobre una cuerda que se estira"},
     {"A worker stands with a line from the anchor; the free fall is marked.",
      "Un trabajador está de pie con una cuerda desde el anclaje; está marcada la caída libre."},
     {"At the right the worker hangs at the greatest stretch.",
      "A la derecha el trabajador cuelga con el mayor estiramiento."}},
    {"line-then-absorber",
     draw_line_then_absorber,
     person_scale,
     {"Fall into a line with an absorber", "Caída sobre una cuerda con absorbedor"},
     {"A worker stands with a line and a closed energy absorber; the free fall is marked.",
      "Un trabajador está de pie con una cuerda y un absorbedor de energía cerrado; está marcada "
      "la "
      "caída libre."},
     {"At the right the worker hangs at the end of the fall.",
      "A la derecha el trabajador cuelga al final de la caída."}},
    {"eave-swing",
     draw_eave_swing,
     person_scale,
     {"Swing along the eave", "Péndulo por el alero"},
     {"The roof slope seen square on: the anchor on the ridge, its fall line, and a worker at the "
      "eave, off to the side.",
      "La pendiente vista de frente: el anclaje en la cumbrera, su línea de máxima pendiente y un "
      "trabajador en el alero, hacia un lado."},
     {"The line slides along the eave to the fall line; the light figure is the start.",
      "La cuerda se desliza por el alero hasta la línea de máxima pendiente; la figura clara es el "
      "inicio."}},
    {"roof-swing",
     draw_roof_swing,
     person_scale,
     {"Swing on the roof", "Péndulo sobre el techo"},
     {"The roof slope seen square on: the anchor on the ridge, its fall line, and a worker down "
      "the "
      "slope, off to the side.",
      "La pendiente vista de frente: el anclaje en la cumbrera, su línea de máxima pendiente y un "
      "trabajador pendiente abajo, hacia un lado."},
     {"An arc shows the swing to the fall line.",
      "Un arco muestra el péndulo hasta la línea de máxima pendiente."}},
    {"rake-swing",
     draw_rake_swing,
     person_scale,
     {"Fall over the rake", "Caída por el borde del hastial"},
     {"The roof slope seen square on: the anchor on the ridge, and a worker at the sloping gable "
      "edge.",
      "La pendiente vista de frente: el anclaje en la cumbrera y un trabajador en el borde "
      "inclinado "
      "del hastial."},
     {"The line slides down the rake to its place of rest.",
      "La cuerda se desliza por el borde del hastial hasta su lugar de reposo."}},
    {"overhead-swing",
     draw_overhead_swing,
     person_scale,
     {"Swing below an overhead anchor", "Péndulo debajo de un anclaje en alto"},
     {"Seen from the front: an anchor overhead, and a worker off to the side with a taut line.",
      "Visto de frente: un anclaje en alto y un trabajador hacia un lado con la cuerda tensa."},
     {"An arc shows the swing to below the anchor.",
      "Un arco muestra el péndulo hasta debajo del anclaje."}},
    {"anchor-reach",
     draw_anchor_reach,
     person_scale,
     {"Reach of a ridge anchor along the eave", "Alcance de un anclaje de cumbrera en el alero"},
     {"The roof slope seen square on, with the whole eave: an anchor on the ridge, its fall line, "
      "and "
      "the greatest angle to both sides.",
      "La pendiente vista de frente, con todo el alero: un anclaje en la cumbrera, su línea de "
      "máxima "
      "pendiente y el mayor ángulo a ambos lados."},
     {"The part of the eave within reach is drawn thick.",
      "La parte del alero al alcance está trazada más gruesa."}},
    {"clearance",
     draw_clearance,
     person_scale,
     {"Clearance needed", "Espacio libre de caída necesario"},
     {"The terms of the clearance stand one below the other from the datum line down.",
      "Los términos del espacio libre están uno debajo del otro, desde la línea de referencia."},
     {"Beside them the worker at the end of the fall.",
      "Al lado, el trabajador al final de la caída."}},
    {"clearance-check",
     draw_clearance_check,
     person_scale,
     {"Clearance needed and available", "Espacio libre necesario y disponible"},
     {"From the datum line down to the lower level: what is available and what is needed.",
      "Desde la línea de referencia hasta el nivel inferior: lo disponible y lo necesario."},
     {"The difference is hatched.", "La diferencia está rayada."}},
    {"change-datum",
     draw_change_datum,
     person_scale,
     {"Clearance from another datum", "Espacio libre desde otra referencia"},
     {"A worker stands above a lower level; the levels of anchor, D-ring and standing surface are "
      "marked.",
      "Un trabajador está de pie sobre un nivel inferior; están marcados los niveles del anclaje, "
      "del "
      "anillo en D y de la superficie de apoyo."},
     {"Both clearances end at the lower level.",
      "Los dos espacios libres terminan en el nivel inferior."}},
    {"ladder",
     draw_ladder,
     24,
     {"Ladder against a landing", "Escalera apoyada en un descanso"},
     {"A ladder from the side, leaning on the edge of a landing, its rails reaching above.",
      "Una escalera de lado, apoyada en el borde de un descanso; los largueros lo sobrepasan."},
     {"The worked-out values stand beside their lines.",
      "Los valores calculados están junto a sus líneas."}},
    {"ladder-for-landing",
     draw_ladder_for_landing,
     24,
     {"Ladder for a landing", "Escalera para un descanso"},
     {"A ladder from the side, leaning on the edge of a landing, its rails reaching above.",
      "Una escalera de lado, apoyada en el borde de un descanso; los largueros lo sobrepasan."},
     {"The worked-out values stand beside their lines.",
      "Los valores calculados están junto a sus líneas."}},
    {"anchor-strength",
     draw_anchor_strength,
     12,
     {"Workers on a roof, each with an anchor",
      "Trabajadores en un techo, cada uno con su anclaje"},
     {"Seen from the front: workers on the slope, each with an own line and an own anchor on the "
      "ridge.",
      "Visto de frente: trabajadores en la pendiente, cada uno con su cuerda y su anclaje en la "
      "cumbrera."},
     {"The strengths stand below.", "Las resistencias están abajo."}},
    {"rope-passes",
     draw_rope_passes,
     7,
     {"Ropes that cross", "Cuerdas que se cruzan"},
     {"Ropes hang side by side from their ridge anchors, seen from the front; each pass is a "
      "crossing, and the rope that lies below is broken there.",
      "Las cuerdas cuelgan una junto a otra de sus anclajes en la cumbrera, vistas de frente; cada "
      "paso es un cruce, y la cuerda que queda debajo está interrumpida ahí."},
     {"Below each worker stands the number of the rope.",
      "Debajo de cada trabajador está el número de su cuerda."}},
};

const Scene* find_scene(std::string_view calculation) {
  const auto found = std::find_if(std::begin(scenes), std::end(scenes), [&](const Scene& scene) {
    return scene.calculation == calculation;
  });
  return found == std::end(scenes) ? nullptr : found;
}

Bounds bare_bounds(const Scene& scene, const Request& request, double scale) {
  Sketch sketch(request, scale);
  scene.draw(sketch);
  return sketch.bounds();
}

// Extents are about a + b * scale: two sketches without texts tell a and b.
double first_scale(const Scene& scene, const Request& request) {
  const double low = scene.largest_scale / 8;
  const double high = scene.largest_scale;
  const Bounds small = bare_bounds(scene, request, low);
  const Bounds large = bare_bounds(scene, request, high);
  double scale = high;
  const auto limit = [&](double at_low, double at_high, double room) {
    const double growth = (at_high - at_low) / (high - low);
    const double fixed = at_low - growth * low;
    if (growth > hair && fixed + growth * scale > room + hair)
      scale = std::max((room - fixed) / growth, room / (growth * 8));
  };
  limit(small.width(), large.width(), widest - 4);
  limit(small.height(), large.height(), highest - 4);
  return std::max(scale, smallest_scale);
}

std::string named_value(std::string_view name, const Tag& tag) {
  std::string text(name);
  if (!tag.symbol.empty()) text += (text.empty() ? "" : " ") + tag.symbol;
  if (!tag.text.empty()) text += (text.empty() ? "" : ": ") + tag.text;
  return text;
}

// What the labels tell, in words: inputs, then outputs, in the order of the catalogue.
std::string values_in_words(const Request& request) {
  using engine::Text;
  const auto say = [&](Text text) { return std::string(text.in(request.language)); };
  std::vector<std::string> given;
  std::vector<std::string> asked;
  std::vector<std::string> found;
  const auto add = [&](const auto& entry, std::vector<std::string>& told) {
    const auto label = request.labels.find(entry.id);
    if (label == request.labels.end()) return;
    (label->second.text.empty() ? asked : told)
        .push_back(named_value(entry.name.in(request.language), label->second));
  };
  if (const engine::Calculation* calculation = engine::find_calculation(request.calculation)) {
    const bool key = request.wanted == Request::For::key;
    for (const engine::Input& input : calculation->inputs) add(input, given);
    for (const engine::Output& output : calculation->outputs) add(output, key ? found : given);
  }
  std::string text;
  const auto list = [&](Text head, const std::vector<std::string>& values) {
    if (!values.empty()) text += fmt::format(" {} {}.", say(head), fmt::join(values, "; "));
  };
  list({"Given:", "Datos:"}, given);
  list({"Asked:", "Se pide:"}, asked);
  list({"Result:", "Resultado:"}, found);
  return text;
}

}  // namespace

bool has_drawing(std::string_view calculation) {
  return find_scene(calculation) != nullptr;
}

std::optional<Drawing> draw(const Request& request) {
  const Scene* scene = find_scene(request.calculation);
  if (!scene) return std::nullopt;
  Drawing drawing;
  double scale = first_scale(*scene, request);
  for (int tries = 0; tries < 40; ++tries) {
    Sketch sketch(request, scale);
    scene->draw(sketch);
    drawing = sketch.finish();
    const double excess = std::max(drawing.width / widest, drawing.height / highest);
    // The first scale often fits exactly, give or take a last bit.
    if (excess <= 1 + 1e-9 || scale <= smallest_scale) break;
    scale *= std::clamp(1 / excess, 0.8, 0.97);
  }
  drawing.title = scene->title.in(request.language);
  drawing.description = scene->before.in(request.language);
  if (request.wanted == Request::For::key)
    drawing.description.append(" ").append(scene->after.in(request.language));
  drawing.description += values_in_words(request);
  return drawing;
}

}  // namespace footroom::figure
