#pragma once
// Whom a name means: names of a class or of a quiz beside the people of the records.

#include <optional>
#include <string>
#include <vector>

#include "desk/crew.hpp"

namespace footroom::desk {

/// What was chosen for a name.
struct Whom {
  enum class Kind { unclear, nobody, fresh, known };
  Kind kind = Kind::unclear;
  records::Number person = 0;  ///< kind known
};

/// Whom `name` can mean: people, someone new, nobody. The first is chosen: one who alone has the
/// name, someone new where nobody has it, and where several have it, none of them.
std::vector<Choice> whom_choices(const Call& call, const std::string& name,
                                 const std::vector<records::Numbered<records::Person>>& people);

/// What was chosen; anything else than was offered is unclear.
Whom whom(const std::vector<Choice>& offered, const std::string& chosen);

}  // namespace footroom::desk
