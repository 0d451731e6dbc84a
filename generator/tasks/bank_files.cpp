#include "tasks/bank_files.hpp"

#include "bank/read.hpp"
#include "tasks/choices.hpp"

namespace footroom::tasks {
namespace {

template <class Map>
const auto& find_named(const Map& map, std::string_view option, const std::string& name,
                       std::string_view what) {
  if (const auto found = map.find(name); found != map.end()) return found->second;
  std::vector<std::string> names;
  for (const auto& [id, row] : map) names.push_back(id);
  throw Failure(ExitCode::wrong_command_line, std::string(option) + ": the bank has no " +
                                                  std::string(what) + " named " + name +
                                                  did_you_mean(name, names));
}

}  // namespace

CheckedBank read_bank_reporting(const std::filesystem::path& folder, std::ostream& err) {
  auto read = bank::read_bank(folder);
  for (const auto& defect : read.defects) err << defect.text() << '\n';
  return {std::move(read.bank), read.defects.empty()};
}

bank::Bank read_sound_bank(const std::filesystem::path& folder, std::ostream& err) {
  auto checked = read_bank_reporting(folder, err);
  if (!checked.sound)
    throw Failure(ExitCode::input_faulty,
                  folder.string() + ": has the defects above; nothing was made from it");
  return std::move(checked.bank);
}

render::Templates read_templates(const std::filesystem::path& folder) try {
  return render::Templates(folder);
} catch (const std::runtime_error& error) {
  throw Failure(ExitCode::input_faulty, error.what());
}

const bank::RuleSet& find_rules(const bank::Bank& bank, const std::string& name) {
  return find_named(bank.rules, "--rules", name, "rule set");
}

const bank::Blueprint& find_blueprint(const bank::Bank& bank, const std::string& name) {
  return find_named(bank.blueprints, "--blueprint", name, "blueprint");
}

const bank::Course& find_course(const bank::Bank& bank, std::string_view option,
                                const std::string& name) {
  return find_named(bank.courses, option, name, "course");
}

const bank::Item& find_item(const bank::Bank& bank, const std::string& id) {
  std::vector<std::string> ids;
  for (const auto& item : bank.items) {
    if (item.id == id) return item;
    ids.push_back(item.id);
  }
  throw Failure(ExitCode::wrong_command_line,
                id + ": is no item of the bank" + did_you_mean(id, ids));
}

}  // namespace footroom::tasks
