#pragma once
#include <string>

#include "quiz/compiled_item.hpp"

namespace footroom::quiz {

/// Other base units to try an item in; near 1, so that hardly any value leaves its domain.
inline constexpr notation::Rescaling other_units{1.01, 1.017};

/// Works a draw out again where all base units are others (`rescaled` is
/// item.rescaled(other_units)) and compares: each value, the answer and each mistake must change by
/// the factor of its dimension, and each word, count and condition must stay. Returns what does
/// not, or an empty text. A draw that cannot be worked out there passes.
std::string scaling_fault(const CompiledItem& item, const CompiledItem& rescaled,
                          const draw::Key& key);

}  // namespace footroom::quiz
