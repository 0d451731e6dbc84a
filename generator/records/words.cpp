#include "records/words.hpp"

#include <array>
#include <string>

namespace footroom::records {
namespace {

struct Called {
  std::string_view english;
  std::string_view spanish;
};
constexpr auto names = std::to_array<Called>({
    {"attendance", "asistencia"},
    {"certificate", "certificado"},
    {"code", "código"},
    {"course", "curso"},
    {"date", "fecha"},
    {"day", "día"},
    {"days", "días"},
    {"employer", "empleador"},
    {"erasure", "borrado"},
    {"identity", "identidad"},
    {"left", "salida"},
    {"name", "nombre"},
    {"occasion", "ocasión"},
    {"person", "persona"},
    {"place", "lugar"},
    {"policy", "política"},
    {"quiz", "examen"},
    {"remark", "observación"},
    {"result", "resultado"},
    {"retraining", "recapacitación"},
    {"session", "sesión"},
    {"signed by", "firma"},
    {"since", "desde"},
    {"title", "título"},
    {"trainer", "capacitador"},
    {"withdrawal", "anulación"},
});

}  // namespace

engine::Wording called(std::string_view name) {
  for (const auto& one : names)
    if (one.english == name) return {std::string(name), std::string(one.spanish)};
  return {std::string(name), std::string(name)};
}

}  // namespace footroom::records
