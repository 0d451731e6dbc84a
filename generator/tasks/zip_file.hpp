#pragma once
#include <string>
#include <vector>

#include "render/qti.hpp"

namespace footroom::tasks {

/// The files as a zip archive (libzip), in their order. Equal files give equal bytes: every file
/// has the same date, the first that an archive can hold. Throws std::runtime_error.
std::string zip_of(const std::vector<render::PackageFile>& files);

}  // namespace footroom::tasks
