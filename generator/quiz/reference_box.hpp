#pragma once
#include <vector>

#include "quiz/compiled_item.hpp"

namespace footroom::quiz {

/// The box of a sheet: each formula and symbol that its worked solutions take from the catalogue,
/// once, by calculation; and each limit once. Lets belong to one question and are left out.
ReferenceBox make_reference_box(const std::vector<Made>& questions, const Settings& settings);

}  // namespace footroom::quiz
