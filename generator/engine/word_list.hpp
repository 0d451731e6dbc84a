#pragma once
#include <string_view>

#include "engine/catalogue.hpp"

namespace footroom::engine {

/// Returns the words of a list written with blanks or commas between: "1-over, 2-under".
/// Empty where there are none.
Words split_words(std::string_view text);

}  // namespace footroom::engine
