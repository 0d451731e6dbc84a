#pragma once
#include <stdexcept>
#include <string>

#include "engine/quantity.hpp"

namespace footroom::engine {

/// The values a quantity may take, in SI base units.
struct Domain {
  double lowest;
  double highest;
  bool includes_lowest = true;
  bool includes_highest = true;

  /// False for NaN and infinities too.
  bool contains(double value) const {
    const bool above = includes_lowest ? value >= lowest : value > lowest;
    const bool below = includes_highest ? value <= highest : value < highest;
    return above && below && std::isfinite(value);
  }
};

/// A calculation declines an input. `quantity` names the input, so that a caller can point at it.
class Refusal : public std::runtime_error {
 public:
  Refusal(std::string in_calculation, std::string of_quantity, const std::string& because)
      : std::runtime_error(in_calculation + ": " + of_quantity + ": " + because),
        calculation(std::move(in_calculation)),
        quantity(std::move(of_quantity)),
        reason(because) {}

  std::string calculation;
  std::string quantity;
  std::string reason;
};

/// An input outside its domain; the caller can print value and domain in the units it works in.
class OutOfDomain : public Refusal {
 public:
  OutOfDomain(std::string in_calculation, std::string of_quantity, Quantity was, Domain expected);

  Quantity value;
  Domain domain;
};

}  // namespace footroom::engine
