#pragma once
#include "render/manual.hpp"
#include "tasks/calc_case.hpp"
#include "tasks/told.hpp"

namespace footroom::tasks {

/// The manual of the whole catalogue, each worked example computed through it. Throws Failure where
/// the rule set lacks a limit that an example takes.
render::Manual make_manual(const bank::RuleSet& rules, notation::System system,
                           notation::Style style, const Told& worked_out = tell_nobody);

}  // namespace footroom::tasks
