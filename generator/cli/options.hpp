#pragma once
// Options that several commands share, and how their texts are read.

#include <CLI/CLI.hpp>
#include <cstdint>
#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"
#include "notation/quantity_text.hpp"
#include "tasks/bank_files.hpp"
#include "tasks/choices.hpp"

namespace footroom::cli {

using namespace tasks;  // as command.hpp has it

/// "a,b" as a list.
std::vector<std::string> split_at_commas(const std::string& text);

/// --seed, or a random one where nothing was given.
std::uint64_t choose_seed(const std::string& text);

/// `CLI::App::add_option` with our help: `placeholder` stands for the value.
void add_text_option(CLI::App& app, const std::string& name, std::string& text,
                     const std::string& placeholder, const std::string& says);

/// The value of --language.
engine::Language choose_language(const std::string& text);

/// The value of --paper.
quiz::Paper choose_paper(const std::string& text);

/// --units, --language and --decimal-mark.
class StyleOptions {
 public:
  void declare(CLI::App& app);
  notation::System system() const;
  notation::Style style() const;

 private:
  std::string units_ = "us";
  std::string language_ = "en";
  std::string decimal_mark_ = "point";
};

/// Where an installed program has its data, by the way from its own folder. It may not be there.
std::filesystem::path installed_data_folder();

/// Where core.js and core.wasm of the practice page are: installed, or else, unless the program is
/// built for a package, where they were built. Throws Failure where they are not.
std::filesystem::path practice_core_folder();

/// --bank and --templates: as given, else beside the installed program, else the source folder.
class FolderOptions {
 public:
  void declare_bank(CLI::App& app);
  void declare_templates(CLI::App& app);
  /// Throw Failure where there is no such folder.
  std::filesystem::path bank() const;
  std::filesystem::path templates() const;

 private:
  std::string bank_;
  std::string templates_;
};

}  // namespace footroom::cli
