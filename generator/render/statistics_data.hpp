#pragma once
// What the templates of the statistics may mention.

#include "render/page_data.hpp"
#include "render/statistics.hpp"

namespace footroom::render {

mustache::data statistics_data(const Templates::Parts& parts, const StatisticsPage& page,
                               const Dress& dress);

}  // namespace footroom::render
