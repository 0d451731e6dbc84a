#include "cli/record.hpp"

#include "cli/options.hpp"
#include "cli/surroundings.hpp"

namespace footroom::cli {

void RecordOptions::declare(CLI::App& app) {
  add_text_option(app, "--store", store_, "FILE|postgresql://...", "the store of training records");
  add_text_option(app, "--language", language_, "en|es", "English or Spanish (en)");
}

const std::string& RecordOptions::location() const {
  return need("--store", store_, "FILE or postgresql://...");
}

std::unique_ptr<records::Store> RecordOptions::open() const {
  const std::string& where = location();
  if (!records::is_server(where)) open_.emplace();
  return records::Store::open(where, random_salt);
}

engine::Language RecordOptions::language() const {
  return choose_language(language_);
}

void RecordedOption::declare(CLI::App& app) {
  add_text_option(app, "--date", date_, "YYYY-MM-DD", "day that the entry carries (today)");
}

records::Date RecordedOption::day() const {
  return need_date("--date", date_.empty() ? today() : date_);
}

}  // namespace footroom::cli
