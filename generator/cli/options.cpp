#include "cli/options.hpp"

#include <charconv>

#include "bank/read.hpp"
#include "cli/failure.hpp"
#include "cli/surroundings.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;

fs::path data_folder(std::string_view option, const std::string& given, const char* name) {
  if (!given.empty()) {
    if (!fs::is_directory(given))
      throw Failure(ExitCode::cannot_read_or_write,
                    std::string(option) + ": " + given + " is no folder that can be read");
    return given;
  }
  std::error_code ignored;
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
  const fs::path installed = program.parent_path().parent_path() / "share" / "footroom" / name;
  if (fs::is_directory(installed, ignored)) return installed;
  const fs::path source = fs::path(FOOTROOM_SOURCE_FOLDER) / name;
  if (fs::is_directory(source, ignored)) return source;
  throw Failure(ExitCode::cannot_read_or_write, std::string(option) + ": no folder " + name +
                                                    " in " + installed.parent_path().string() +
                                                    " or " + source.parent_path().string() +
                                                    "; name one");
}

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

std::string alternatives(const std::vector<std::string>& names, std::string_view or_word) {
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) all += i + 1 == names.size() ? or_word : ", ";
    all += names[i];
  }
  return all;
}

std::string did_you_mean(std::string_view misspelt, const std::vector<std::string>& names) {
  const auto near = notation::suggest(misspelt, names);
  return near ? "; did you mean " + *near + "?" : "";
}

void refuse_choice(std::string_view option, const std::string& text,
                   const std::vector<std::string>& names) {
  throw Failure(ExitCode::wrong_command_line,
                std::string(option) + ": is " + text + ", expected " + alternatives(names));
}

std::uint64_t whole_number(std::string_view option, const std::string& text, std::uint64_t lowest,
                           std::uint64_t highest) {
  std::uint64_t number = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, number);
  if (read.ec != std::errc{} || read.ptr != end || number < lowest || number > highest)
    throw Failure(ExitCode::wrong_command_line,
                  std::string(option) + ": is " + text + ", expected a whole number from " +
                      std::to_string(lowest) + " to " + std::to_string(highest));
  return number;
}

std::uint64_t choose_seed(const std::string& text) {
  return text.empty() ? random_seed() : whole_number("--seed", text, 0, ~std::uint64_t{0});
}

void add_text_option(CLI::App& app, const std::string& name, std::string& text,
                     const std::string& placeholder, const std::string& says) {
  app.add_option(name, text, says)
      ->type_name(placeholder)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);
}

engine::Language choose_language(const std::string& text) {
  return choose<engine::Language>(
      "--language", text, {{"en", engine::Language::english}, {"es", engine::Language::spanish}});
}

quiz::Paper choose_paper(const std::string& text) {
  return choose<quiz::Paper>("--paper", text,
                             {{"letter", quiz::Paper::letter}, {"a4", quiz::Paper::a4}});
}

void StyleOptions::declare(CLI::App& app) {
  add_text_option(app, "--units", units_, "us|si", "units of everything shown (us)");
  add_text_option(app, "--language", language_, "en|es", "English or Spanish (en)");
  add_text_option(app, "--decimal-mark", decimal_mark_, "point|comma", "1.5 or 1,5 (point)");
}

notation::System StyleOptions::system() const {
  return choose<notation::System>("--units", units_,
                                  {{"us", notation::System::us}, {"si", notation::System::si}});
}

notation::Style StyleOptions::style() const {
  return {choose_language(language_),
          choose<char>("--decimal-mark", decimal_mark_, {{"point", '.'}, {"comma", ','}})};
}

void FolderOptions::declare_bank(CLI::App& app) {
  add_text_option(app, "--bank", bank_, "DIR", "another question bank");
}

void FolderOptions::declare_templates(CLI::App& app) {
  add_text_option(app, "--templates", templates_, "DIR", "other page templates");
}

fs::path FolderOptions::bank() const {
  return data_folder("--bank", bank_, "questionbank");
}

fs::path FolderOptions::templates() const {
  return data_folder("--templates", templates_, "templates");
}

CheckedBank read_bank_reporting(const fs::path& folder, std::ostream& err) {
  auto read = bank::read_bank(folder);
  for (const auto& defect : read.defects) err << defect.text() << '\n';
  return {std::move(read.bank), read.defects.empty()};
}

bank::Bank read_sound_bank(const fs::path& folder, std::ostream& err) {
  auto checked = read_bank_reporting(folder, err);
  if (!checked.sound)
    throw Failure(ExitCode::input_faulty,
                  folder.string() + ": has the defects above; nothing was made from it");
  return std::move(checked.bank);
}

render::Templates read_templates(const fs::path& folder) try {
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

}  // namespace footroom::cli
