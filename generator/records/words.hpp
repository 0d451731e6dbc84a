#pragma once
// How refusals are worded, in both languages.

#include <fmt/format.h>

#include <string_view>

#include "engine/text.hpp"
#include "engine/wording.hpp"

namespace footroom::records {

/// The text with values in the places of {}; the same values in both languages.
template <class... Values>
engine::Wording worded(const engine::Text& text, const Values&... values) {
  return {fmt::format(fmt::runtime(text.english), values...),
          fmt::format(fmt::runtime(text.spanish), values...)};
}

/// What a field or a kind of entry is called: "identity" is "identidad" in Spanish. What only files
/// have is called the same in both.
engine::Wording called(std::string_view name);

}  // namespace footroom::records
