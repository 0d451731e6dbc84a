#pragma once
#include <filesystem>
#include <string>

#include "bank/item.hpp"
#include "page/page_data.hpp"

namespace footroom::tasks {

/// Offers the weeks of a course plan: in each what was taught up to it. Where `settings` names
/// topics, those alone; what the plan never teaches stays out. False where nothing is left.
bool add_course(const bank::Course& course, page::PageSettings& settings);

/// The page for students as one file. `templates` is templates/; `core` has core.js, core.wasm and
/// their notices. Throws Failure.
std::string practice_page(const bank::Bank& bank, const std::filesystem::path& templates,
                          const std::filesystem::path& core, const page::PageSettings& settings);

}  // namespace footroom::tasks
