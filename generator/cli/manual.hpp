#pragma once
#include "cli/calc_case.hpp"
#include "render/manual.hpp"

namespace footroom::cli {

/// The manual of the whole catalogue, each worked example computed through it. Throws Failure where
/// the rule set lacks a limit that an example takes.
render::Manual make_manual(const bank::RuleSet& rules, notation::System system,
                           notation::Style style);

}  // namespace footroom::cli
