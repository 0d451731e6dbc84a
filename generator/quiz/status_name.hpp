#pragma once
#include <string>

#include "engine/catalogue.hpp"

namespace footroom::quiz {

/// What stands where a fact of the trade has no source to cite: the status in words.
inline constexpr engine::Text common_practice{"common practice, no single source",
                                              "práctica común, sin una fuente única"};

/// "read", "second-hand" ... as files name it.
std::string status_name(engine::Status status);

}  // namespace footroom::quiz
