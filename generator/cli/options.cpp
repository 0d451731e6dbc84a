#include "cli/options.hpp"

#include <algorithm>

#include "cli/surroundings.hpp"
#include "tasks/failure.hpp"

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
  const fs::path installed = installed_data_folder();
  if (fs::is_directory(installed / name, ignored)) return installed / name;
  const fs::path source = FOOTROOM_SOURCE_FOLDER;
  if (!source.empty() && fs::is_directory(source / name, ignored)) return source / name;
  throw Failure(ExitCode::cannot_read_or_write,
                std::string(option) + ": no folder " + name + " in " + installed.string() +
                    (source.empty() ? "" : " or " + source.string()) + "; name one");
}

}  // namespace

fs::path installed_data_folder() {
  std::error_code ignored;
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
  return (program.parent_path() / FOOTROOM_DATA_FROM_PROGRAM).lexically_normal();
}

fs::path practice_core_folder() {
  std::error_code ignored;
  const fs::path installed = installed_data_folder() / "page";
  if (fs::is_directory(installed, ignored)) return installed;
  const fs::path built = FOOTROOM_PAGE_FOLDER;
  if (!built.empty() && fs::exists(built / "core.wasm", ignored)) return built;
  throw Failure(ExitCode::cannot_read_or_write,
                ((built.empty() ? installed : built) / "core.wasm").string() +
                    ": is not there; build it with: cmake --build BUILD --target practice-page");
}

std::vector<std::string> split_at_commas(const std::string& text) {
  std::vector<std::string> parts;
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find(',', at), text.size());
    parts.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return parts;
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

}  // namespace footroom::cli
