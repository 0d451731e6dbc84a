#pragma once
#include <cstddef>
#include <functional>

namespace footroom::tasks {

/// Called during long work with how many units of it are done. What it throws ends the work.
using Told = std::function<void(std::size_t done)>;
inline const Told tell_nobody = [](std::size_t) {};

}  // namespace footroom::tasks
