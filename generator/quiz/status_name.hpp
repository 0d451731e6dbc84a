#pragma once
#include <string>

#include "engine/catalogue.hpp"

namespace footroom::quiz {

/// "read", "second-hand" ... as files name it.
std::string status_name(engine::Status status);

}  // namespace footroom::quiz
