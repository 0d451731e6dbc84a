#pragma once
#include <string>

#include "engine/refusal.hpp"
#include "engine/text.hpp"

namespace footroom::engine {

/// A refusal that has its reason in both languages, as those have that a user's values can meet.
class ToldRefusal : public Refusal {
 public:
  ToldRefusal(std::string in_calculation, std::string of_quantity, const std::string& english,
              std::string in_spanish)
      : Refusal(std::move(in_calculation), std::move(of_quantity), english),
        spanish(std::move(in_spanish)) {}

  std::string spanish;
};

/// Why, in the language, where the refusal has it.
inline const std::string& reason_in(const Refusal& refusal, Language language) {
  const auto* told = dynamic_cast<const ToldRefusal*>(&refusal);
  return told && language == Language::spanish ? told->spanish : refusal.reason;
}

}  // namespace footroom::engine
