#pragma once
// What a bank covers: items by topic, level and kind, and by training topic.

#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"
#include "engine/text.hpp"

namespace footroom::tasks {

/// As item files write it: "one-of".
std::string_view kind_name(bank::Kind kind);

/// Tables of cells, the first row of each being its head; a point stands where there is no item.
/// Every topic has all four levels, so that gaps are seen.
struct Coverage {
  std::vector<std::vector<std::string>> by_topic;     ///< topic, level, each kind, all kinds
  std::vector<std::vector<std::string>> by_training;  ///< topic of 29 CFR 1926.503(a)(2), items
};
Coverage coverage_of(const bank::Bank& bank, engine::Language language);

/// Both as Markdown.
std::string to_markdown(const Coverage& coverage);

}  // namespace footroom::tasks
