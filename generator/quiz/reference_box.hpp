#pragma once
#include <vector>

#include "quiz/compiled_item.hpp"
#include "quiz/question.hpp"

namespace footroom::quiz {

/// The limits that a sheet tells beside a question: those it reckons with. A question where nothing
/// is drawn but words asks what the rule says; its limits are the answer and stand in the key.
std::vector<LimitLine> limits_told(const Question& question);

/// The box of a sheet: each formula and symbol that its worked solutions take from the catalogue,
/// once, by calculation; and each limit told once. Lets belong to one question and are left out.
ReferenceBox make_reference_box(const std::vector<Made>& questions, const Settings& settings);

}  // namespace footroom::quiz
