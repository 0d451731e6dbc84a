#pragma once
// What the manual's templates may mention.

#include <string>

#include "render/manual.hpp"
#include "render/templates.hpp"

namespace footroom::render {

struct ManualDress {
  std::string (*formula)(const notation::Math& formula);
  /// The drawing, or nothing where it is linked.
  std::string (*drawing)(const figure::Drawing& drawing, const std::string& id);
};

mustache::data manual_data(const Templates::Parts& parts, const Manual& manual,
                           const ManualDress& dress);

}  // namespace footroom::render
