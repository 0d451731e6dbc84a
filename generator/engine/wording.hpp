#pragma once
#include <exception>
#include <string>
#include <utility>

#include "engine/text.hpp"

namespace footroom::engine {

/// A text in both languages that is made while the program runs.
struct Wording {
  std::string english;
  std::string spanish;

  const std::string& in(Language language) const {
    return language == Language::english ? english : spanish;
  }
  bool empty() const { return english.empty(); }
};

inline Wording operator+(const Wording& first, const Wording& second) {
  return {first.english + second.english, first.spanish + second.spanish};
}
/// The same in both: a name, a number, a sign.
inline Wording operator+(const std::string& first, const Wording& second) {
  return {first + second.english, first + second.spanish};
}
inline Wording operator+(const Wording& first, const std::string& second) {
  return {first.english + second, first.spanish + second};
}

/// What an exception says, beside its what(), which is English.
struct Spoken {
  explicit Spoken(Wording both) : says(std::move(both)) {}
  virtual ~Spoken() = default;
  Wording says;
};

/// An exception of a kind that knows English only, told in both languages.
template <class Error>
class InBothLanguages : public Error, public Spoken {
 public:
  /// `before` are the arguments of Error in front of its message.
  template <class... Before>
  explicit InBothLanguages(const Wording& both, const Before&... before)
      : Error(before..., both.english), Spoken(both) {}
};

/// In both languages where the exception knows them; else what().
inline Wording wording_of(const std::exception& error) {
  const auto* spoken = dynamic_cast<const Spoken*>(&error);
  return spoken ? spoken->says : Wording{error.what(), error.what()};
}

}  // namespace footroom::engine
