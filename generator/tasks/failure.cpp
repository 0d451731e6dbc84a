#include "tasks/failure.hpp"

#include <array>
#include <cerrno>
#include <system_error>

namespace footroom::tasks {
namespace {

/// In Spanish, what people meet; of the rest the system's own words.
std::string in_spanish(int error) {
  struct Known {
    int error;
    const char* says;
  };
  constexpr std::array known{Known{ENOSPC, "no queda espacio en el disco"},
                             Known{EDQUOT, "se acabó el espacio asignado en el disco"},
                             Known{EACCES, "no hay permiso"},
                             Known{EPERM, "no está permitido"},
                             Known{EROFS, "el disco es de solo lectura"},
                             Known{ENOENT, "no existe"},
                             Known{ENOTDIR, "no es una carpeta"},
                             Known{EISDIR, "es una carpeta"},
                             Known{EIO, "falló el disco"},
                             Known{EFBIG, "el archivo es demasiado grande"}};
  for (const Known& one : known)
    if (one.error == error) return one.says;
  return std::generic_category().message(error);
}

}  // namespace

Failure system_failure(const std::string& about, const engine::Wording& what, int error) {
  return {
      ExitCode::cannot_read_or_write,
      about + ": " + what +
          engine::Wording{": " + std::generic_category().message(error), ": " + in_spanish(error)}};
}

std::string RowFault::text(engine::Language language) const {
  std::string all = file + ":" + std::to_string(line) + ": " + says.in(language);
  if (!follows.empty()) all += "; " + follows.in(language);
  return all;
}

FaultyRow::FaultyRow(RowFault in)
    : Failure(ExitCode::input_faulty, engine::Wording{in.text(engine::Language::english),
                                                      in.text(engine::Language::spanish)}),
      fault(std::move(in)) {}

}  // namespace footroom::tasks
