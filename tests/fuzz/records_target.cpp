// Import into training records. The first line says "people" or "results", and "csv" or "json"; the
// rest is the file. Rows are taken or refused with their place, the store takes or refuses their
// content, and what is exported imports as the same.

#include "fuzz/own_folder.hpp"
#include "fuzz/target.hpp"
#include "records/store.hpp"
#include "tasks/record_exchange.hpp"
#include "tasks/record_import.hpp"
#include "tasks/responses.hpp"

namespace footroom::fuzz {
namespace {

using tasks::Exchanged;

records::Store& the_store() {
  static const OwnFolder folder;
  static const auto store = [] {
    const std::string file = (folder.path() / "crew.db").string();
    records::Store::create(file);
    return records::Store::open(file, [] { return std::string(64, 'a'); });
  }();
  return *store;
}

/// Rows of text, written and read again.
void try_again(Exchanged what, bool json, const std::vector<tasks::ExchangeRow>& rows) {
  std::string text;
  tasks::ExchangeWriter writer(what, json, [&](const std::string& bytes) { text += bytes; });
  std::vector<std::vector<std::string>> written;
  for (const auto& row : rows) {
    const bool is_text = std::none_of(row.cells.begin(), row.cells.end(), [](const auto& cell) {
      return tasks::fault_of(cell).has_value();
    });
    if (!is_text) continue;
    writer.add(row.cells);
    written.push_back(row.cells);
  }
  writer.finish();
  tasks::Refusals refused;
  const auto again = tasks::read_exchange(what, text, "again", json, refused);
  require(refused.empty() && again.size() == written.size(), "all that is exported imports");
  for (std::size_t i = 0; i < again.size(); ++i)
    require(again[i].cells == written[i], "what is exported imports as the same");
}

/// As the import command takes them, into a store that keeps nothing of it.
void try_recording(Exchanged what, const std::vector<tasks::ExchangeRow>& rows) {
  const auto writing =
      the_store().write({std::chrono::year(2026), std::chrono::November, std::chrono::day(26)});
  tasks::Refusals refused;
  std::size_t done = 0;
  tasks::RecordImport(the_store(), *writing, true).add(what, rows, refused, [&](std::size_t now) {
    done = now;
  });
  require(done == rows.size(), "each row is tried");
  for (const auto& message : refused)
    require(message.english.starts_with("file:") && message.spanish.starts_with("file:"),
            "a refusal names its place");
}

}  // namespace

void try_input(std::string_view input) {
  const auto line = take_line(input);
  const auto what = line.starts_with("results") ? Exchanged::results : Exchanged::people;
  const bool json = line.ends_with("json");
  tasks::Refusals refused;
  const auto rows = tasks::read_exchange(what, std::string(input), "file", json, refused);
  for (const auto& message : refused)
    require(message.english.starts_with("file:") && message.spanish.starts_with("file:"),
            "a refusal names its place");
  for (const auto& row : rows)
    require(row.cells.size() == tasks::columns_of(what).size(), "a row has all cells");
  try_again(what, json, rows);
  try_again(what, !json, rows);
  if (!rows.empty() && rows.size() <= 20) try_recording(what, rows);
}

}  // namespace footroom::fuzz
