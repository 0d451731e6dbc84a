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
#include "render/render.hpp"

namespace footroom::cli {

/// "; did you mean NEAR?", or nothing where no name is near enough.
std::string did_you_mean(std::string_view misspelt, const std::vector<std::string>& names);

/// "us or si", "a, b or c".
std::string alternatives(const std::vector<std::string>& names, std::string_view or_word = " or ");

/// The value that `text` names. Throws Failure "--units: is metric, expected us or si".
template <class T>
struct Named {
  std::string_view name;
  T value;
};
[[noreturn]] void refuse_choice(std::string_view option, const std::string& text,
                                const std::vector<std::string>& names);
template <class T>
T choose(std::string_view option, const std::string& text, const std::vector<Named<T>>& named) {
  std::vector<std::string> names;
  for (const auto& one : named) {
    if (one.name == text) return one.value;
    names.emplace_back(one.name);
  }
  refuse_choice(option, text, names);
}

/// A whole number from `lowest` to `highest`. Throws Failure naming the option.
std::uint64_t whole_number(std::string_view option, const std::string& text, std::uint64_t lowest,
                           std::uint64_t highest);

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

}  // namespace footroom::cli
