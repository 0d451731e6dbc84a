#pragma once
#include <string>
#include <vector>

#include "records/model.hpp"

namespace footroom::records {

/// What a person should train again: topics in which the latest result that asked them earned less
/// than all points, in alphabetical order. Latest by day, then by number. Practice counts here, as
/// it shows what was not understood just as well.
std::vector<std::string> missed_topics(const std::vector<Numbered<Result>>& results);

}  // namespace footroom::records
