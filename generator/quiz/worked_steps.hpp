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

/// The worked solution of one draw. `answer` is the answer's text, empty for other kinds.
///
/// Places: what is asked stands in the answer's places, a let in its own. Any other result of a
/// calculation has one place more than the catalogue shows, and stands with the same text where
/// it is put in, so that a reader who follows with a calculator arrives at the answer. Counts stay
/// whole. An angle is put in in degrees, with two places.
WorkedSolution work_out(const CompiledItem& item, const Sample& sample, const std::string& answer);

/// The name of an expression that is nothing but a name; else empty.
std::string bare_name(const notation::Formula& formula);

}  // namespace footroom::quiz
