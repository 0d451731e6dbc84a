#pragma once
#include "bank/item.hpp"
#include "engine/text.hpp"
#include "grade/statistics.hpp"

namespace footroom::tasks {

/// What the bank says of its items, for statistics.
grade::KnownItems known_items(const bank::Bank& bank, engine::Language language);

}  // namespace footroom::tasks
