#pragma once
#include <string_view>

namespace footroom::engine {

enum class Language { english, spanish };

/// A short text in both languages. The engine's texts are literals, so views are enough.
struct Text {
  std::string_view english;
  std::string_view spanish;

  constexpr std::string_view in(Language language) const {
    return language == Language::english ? english : spanish;
  }
};

}  // namespace footroom::engine
