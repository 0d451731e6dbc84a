#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "notation/unit.hpp"

namespace footroom::tasks {

/// The inputs of the manual's worked example of a calculation, as typed behind `footroom calc ID`.
/// The values are invented. Throws std::logic_error where a calculation has none.
std::vector<std::string> example_words(std::string_view calculation, notation::System system);

}  // namespace footroom::tasks
