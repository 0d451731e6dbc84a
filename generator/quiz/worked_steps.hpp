#pragma once
#include <optional>
#include <string>
#include <vector>

#include "quiz/compiled_item.hpp"

namespace footroom::quiz {

struct WorkedSolution {
  std::vector<WorkedStep> steps;
  std::vector<StepShown> shown;          ///< those of the catalogue among them
  std::vector<std::string> names_shown;  ///< what they work out: "fall.free-fall", lets
};

/// The worked solution of one draw.
///
/// Places: what is asked stands in the answer's places, a let in its own. Any other result of a
/// calculation has one place more than the catalogue shows (none where it is whole in them), and
/// stands with the same text where it is put in. Counts stay whole. An angle is put in in degrees,
/// with two places. A draw is thrown away where the numbers put in last, worked out with a
/// calculator, would miss the answer by more than its tolerance.
///
/// A sentence of the catalogue is said once, where several calculations go the same way.
WorkedSolution work_out(const CompiledItem& item, const Sample& sample,
                        const std::optional<NumberAnswer>& answer);

/// The name of an expression that is nothing but a name; else empty.
std::string bare_name(const notation::Formula& formula);

}  // namespace footroom::quiz
