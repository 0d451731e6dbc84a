#pragma once
#include <stdexcept>
#include <string>

#include "engine/wording.hpp"

namespace footroom::records {

/// What was given cannot be recorded; the store is unchanged. The message begins with what it is
/// about.
class Refused : public std::runtime_error, public engine::Spoken {
 public:
  explicit Refused(const engine::Wording& why) : std::runtime_error(why.english), Spoken(why) {}
};

/// The store cannot be read or written, or is damaged; what was acknowledged before is untouched.
/// The message begins with the store's name.
class Unavailable : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace footroom::records
