#include "cli/names.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <set>
#include <sstream>

#include "cli/options.hpp"
#include "engine/catalogue.hpp"

namespace footroom::cli {
namespace {

using Names = std::vector<std::string>;

template <class Map>
Names keys(const Map& map) {
  Names names;
  for (const auto& [name, row] : map) names.push_back(name);
  return names;
}

template <class Rows>
Names ids(const Rows& rows) {
  Names names;
  for (const auto& row : rows) names.push_back(row.id);
  return names;
}

/// "slack=" and the like.
void add_inputs(std::set<std::string>& names, const std::string& calculation) {
  if (const auto* found = engine::find_calculation(calculation))
    for (const auto& input : found->inputs) names.insert(std::string(input.id) + "=");
}

Names inputs(const std::string& of) {
  std::set<std::string> names;
  add_inputs(names, of);
  if (of == "clearance-against-slack") {
    add_inputs(names, "edge-fall");
    add_inputs(names, "clearance");
    names.erase("free-fall=");  // follows from the slack
  }
  return {names.begin(), names.end()};
}

Names of_bank(const std::string& list, const bank::Bank& bank) {
  if (list == "blueprints") return keys(bank.blueprints);
  if (list == "courses") return keys(bank.courses);
  if (list == "rule-sets") return keys(bank.rules);
  if (list == "topics") return ids(bank.topics);
  if (list == "items") return ids(bank.items);
  return {};
}

}  // namespace

ExitCode print_names(const std::vector<std::string>& words, Terminal& terminal) {
  CLI::App app;
  app.allow_extras();
  FolderOptions folders;
  folders.declare_bank(app);
  app.parse(Names(words.rbegin(), words.rend()));
  const Names asked = app.remaining();
  Names names;
  if (asked == Names{"calculations"}) {
    for (const auto* calculation : engine::catalogue()) names.emplace_back(calculation->id);
  } else if (asked.size() == 2 && asked[0] == "inputs") {
    names = inputs(asked[1]);
  } else if (asked.size() == 1) {
    std::ostringstream unheard;  // what is wrong with a bank is for other commands to tell
    try {
      names = of_bank(asked[0], read_bank_reporting(folders.bank(), unheard).bank);
    } catch (const std::runtime_error&) {
      return ExitCode::done;
    }
  }
  for (const auto& name : names) terminal.out << name << '\n';
  return ExitCode::done;
}

}  // namespace footroom::cli
