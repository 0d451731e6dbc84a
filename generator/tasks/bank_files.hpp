#pragma once
// The question bank and the templates as a task needs them: read, with each defect told.

#include <filesystem>
#include <ostream>
#include <string>
#include <string_view>

#include "bank/item.hpp"
#include "render/render.hpp"

namespace footroom::tasks {

/// Reads the bank; each defect is printed to `err` as file:line.
struct CheckedBank {
  bank::Bank bank;
  bool sound = true;  ///< no defect was found
};
CheckedBank read_bank_reporting(const std::filesystem::path& folder, std::ostream& err);

/// As above, where a defect ends the command: nothing is made from a bank that is partly unread.
bank::Bank read_sound_bank(const std::filesystem::path& folder, std::ostream& err);

/// Throws Failure where a template or a label is missing or broken.
render::Templates read_templates(const std::filesystem::path& folder);

/// A row of the bank by name; throws Failure naming the option, with a suggestion.
const bank::RuleSet& find_rules(const bank::Bank& bank, const std::string& name);
const bank::Blueprint& find_blueprint(const bank::Bank& bank, const std::string& name);
const bank::Course& find_course(const bank::Bank& bank, std::string_view option,
                                const std::string& name);
const bank::Item& find_item(const bank::Bank& bank, const std::string& id);

}  // namespace footroom::tasks
