#include "bank/read.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <optional>
#include <set>
#include <sstream>
#include <system_error>

#include "bank/blueprint.hpp"
#include "bank/digest.hpp"
#include "bank/element.hpp"
#include "notation/unit.hpp"

namespace footroom::bank {
namespace {

constexpr int one = 1;
const std::vector<ChildRule> both_languages = {{"en", one, one}, {"es", one, one}};
const std::vector<std::string> statuses = {"read", "second-hand", "from-memory", "computed",
                                           "common-practice"};

std::vector<ChildRule> with_languages(std::vector<ChildRule> rules) {
  rules.insert(rules.begin(), both_languages.begin(), both_languages.end());
  return rules;
}

// ---- Items -------------------------------------------------------------------------------------

Grid read_grid(ElementReader& reader, pugi::xml_node node) {
  reader.check(node, {{"unit", "from", "to", "step"}, {}, {}});
  Grid grid{reader.attribute(node, "unit"), reader.number(node, "from"), reader.number(node, "to"),
            reader.number(node, "step"), reader.at(node)};
  const double steps = (grid.to - grid.from) / grid.step;
  if (!(grid.step > 0))
    reader.refuse(node, "the step of a grid is above zero");
  else if (!(steps >= 0) || !(steps <= 1'000'000))
    reader.refuse(node, "a grid goes up, from \"from\" to \"to\", with at most a million steps");
  else if (!(std::abs(steps - std::round(steps)) < 1e-6))
    reader.refuse(node, "\"to\" is no whole number of steps above \"from\"");
  return grid;
}

Draw read_draw(ElementReader& reader, pugi::xml_node node) {
  reader.check(
      node, {{"name", "symbol"}, {}, {{"meaning", one, one}, {"us", one, one}, {"si", one, one}}});
  Draw draw;
  draw.at = reader.at(node);
  draw.name = reader.name(node, "name");
  draw.symbol = reader.attribute(node, "symbol");
  draw.meaning = reader.only_text(node.child("meaning"));
  draw.us = read_grid(reader, node.child("us"));
  draw.si = read_grid(reader, node.child("si"));
  return draw;
}

std::vector<PickChoice> read_choices(ElementReader& reader, pugi::xml_node node) {
  std::vector<PickChoice> choices;
  std::set<std::string> ids;
  for (const pugi::xml_node child : node.children("choice")) {
    reader.check(child, {{"id"}, {}, both_languages});
    choices.push_back({reader.name(child, "id"), reader.text(child), reader.at(child)});
    if (!ids.insert(choices.back().id).second)
      reader.refuse(child, "the choice \"" + choices.back().id + "\" stands twice");
  }
  return choices;
}

Pick read_pick(ElementReader& reader, pugi::xml_node node) {
  reader.check(node, {{"name"}, {"pool"}, {{"choice"}}});
  Pick pick{reader.name(node, "name"), reader.name(node, "pool"), read_choices(reader, node),
            reader.at(node)};
  if (pick.pool.empty() ? pick.choices.size() < 2 : !pick.choices.empty())
    reader.refuse(node, "<pick> has either a pool or two or more <choice>");
  return pick;
}

Shown read_shown(ElementReader& reader, pugi::xml_node node, bool of_answer) {
  reader.check(node,
               {{"unit", "places"},
                of_answer ? std::vector<std::string>{"tolerance"} : std::vector<std::string>{},
                {}});
  Shown shown{reader.attribute(node, "unit"), reader.whole(node, "places", 0, 6, 0), std::nullopt};
  if (of_answer && node.attribute("tolerance")) {
    shown.tolerance = reader.number(node, "tolerance");
    if (!(*shown.tolerance > 0)) reader.refuse(node, "a tolerance is above zero");
  }
  return shown;
}

Let read_let(ElementReader& reader, pugi::xml_node node) {
  reader.check(node, {{"name", "symbol", "value"},
                      {},
                      {{"meaning", one, one}, {"us", one, one}, {"si", one, one}}});
  Let let;
  let.at = reader.at(node);
  let.name = reader.name(node, "name");
  let.symbol = reader.attribute(node, "symbol");
  let.meaning = reader.only_text(node.child("meaning"));
  let.value = reader.formula(node, "value");
  let.us = read_shown(reader, node.child("us"), false);
  let.si = read_shown(reader, node.child("si"), false);
  return let;
}

CalculationUse read_calculation(ElementReader& reader, pugi::xml_node node) {
  reader.check(node, {{"of", "name"}, {}, {{"input", 0, 60}}});
  CalculationUse use{reader.name(node, "of"), reader.name(node, "name"), {}, reader.at(node)};
  std::set<std::string> seen;
  for (const pugi::xml_node child : node.children("input")) {
    reader.check(child, {{"name", "value"}, {}, {}});
    use.arguments.push_back(
        {reader.name(child, "name"), reader.formula(child, "value"), reader.at(child)});
    if (!seen.insert(use.arguments.back().input).second)
      reader.refuse(child, "the input \"" + use.arguments.back().input + "\" stands twice");
  }
  return use;
}

Answer read_answer(ElementReader& reader, pugi::xml_node node) {
  reader.check(node, {{"value"}, {}, {{"us", one, one}, {"si", one, one}}});
  return {reader.formula(node, "value"), read_shown(reader, node.child("us"), true),
          read_shown(reader, node.child("si"), true), reader.at(node)};
}

std::optional<FormulaText> read_optional_formula(ElementReader& reader, pugi::xml_node node,
                                                 const char* attribute) {
  if (!node.attribute(attribute)) return std::nullopt;
  return reader.formula(node, attribute);
}

Mistake read_mistake(ElementReader& reader, pugi::xml_node node) {
  reader.check(node, {{"id"}, {"change", "to", "value"}, both_languages});
  Mistake mistake{reader.name(node, "id"),
                  reader.attribute(node, "change"),
                  read_optional_formula(reader, node, "to"),
                  read_optional_formula(reader, node, "value"),
                  reader.text(node),
                  reader.at(node)};
  const bool changes = !mistake.change.empty() && mistake.to && !mistake.value;
  const bool replaces = mistake.change.empty() && !mistake.to && mistake.value;
  if (!changes && !replaces)
    reader.refuse(node, "<mistake> has either \"change\" and \"to\", or \"value\"");
  return mistake;
}

Option read_option(ElementReader& reader, pugi::xml_node node, Kind kind) {
  const bool ordered = kind == Kind::order;
  reader.check(node, {{"id", ordered ? "rank" : "right"},
                      {"when"},
                      with_languages({{"says", ordered ? 0 : 1, one}})});
  Option option;
  option.at = reader.at(node);
  option.id = reader.name(node, "id");
  if (!ordered) option.right = reader.formula(node, "right");
  option.rank = read_optional_formula(reader, node, "rank");
  option.when = read_optional_formula(reader, node, "when");
  option.text = reader.text(node);
  if (const auto says = node.child("says")) option.says = reader.only_text(says);
  return option;
}

Step read_step(ElementReader& reader, pugi::xml_node node) {
  const bool has_text = node.child("en") || node.child("es");
  reader.check(node,
               {{}, {"of"}, has_text ? both_languages : std::vector<ChildRule>{{"en"}, {"es"}}});
  Step step{reader.attribute(node, "of"), {}, reader.at(node)};
  if (has_text) step.text = reader.text(node);
  if (!has_text && step.of.empty())
    reader.refuse(node, "<step> is empty, expected \"of\" or a text");
  return step;
}

SourceText read_source(ElementReader& reader, pugi::xml_node node) {
  const bool has_text = node.child("en") || node.child("es");
  reader.check(node, {{"status"},
                      {"citation"},
                      has_text ? both_languages : std::vector<ChildRule>{{"en"}, {"es"}}});
  SourceText source{
      reader.citation(node), reader.word(node, "status", statuses), reader.at(node), {}};
  if (has_text) source.about = reader.text(node);
  if (!node.attribute("citation") && !has_text && source.status != "common-practice")
    reader.refuse(node, "<source> names nothing, expected \"citation\" or a text");
  return source;
}

Kind kind_named(const std::string& name) {
  if (name == "one-of") return Kind::one_of;
  if (name == "several-of") return Kind::several_of;
  if (name == "order") return Kind::order;
  if (name == "verdict") return Kind::verdict;
  return Kind::number;
}

/// Draws, picks, calculations and lets share one space of names, with the formulas' own words.
void refuse_taken_names(ElementReader& reader, pugi::xml_node root) {
  std::set<std::string> taken = {"g", "pi", "true", "false", "and", "or", "not", "limit"};
  for (const pugi::xml_node child : root.children()) {
    const std::string_view element = child.name();
    if (element != "draw" && element != "pick" && element != "calculation" && element != "let")
      continue;
    const std::string name = reader.attribute(child, "name");
    if (!name.empty() && !taken.insert(name).second)
      reader.refuse(child, "the name \"" + name + "\" is taken, expected another");
  }
}

template <class Entries>
void refuse_repeated_ids(ElementReader& reader, pugi::xml_node parent, const char* element,
                         const Entries& entries) {
  std::set<std::string> seen;
  auto node = parent.child(element);
  for (const auto& entry : entries) {
    if (!entry.id.empty() && !seen.insert(entry.id).second)
      reader.refuse(node, "the id \"" + entry.id + "\" stands twice, expected each once");
    node = node.next_sibling(element);
  }
}

/// What a kind of question needs and cannot have.
void check_kind(ElementReader& reader, pugi::xml_node root, const Item& item) {
  const bool answer = item.answer.has_value();
  const bool options = !item.options.empty();
  switch (item.kind) {
    case Kind::number:
      if (!answer || options)
        reader.refuse(root, "kind=\"number\" has an <answer> and no <options>");
      break;
    case Kind::one_of:
      if (answer == options)
        reader.refuse(root, "kind=\"one-of\" has either an <answer> with mistakes, or <options>");
      if (answer && item.mistakes.size() < 2)
        reader.refuse(root,
                      "kind=\"one-of\" with an <answer> has two or more <mistake>, which become "
                      "the wrong choices");
      break;
    default:
      if (answer || item.options.size() < 2)
        reader.refuse(root, "kind=\"" + reader.attribute(root, "kind") +
                                "\" has two or more <option> and no <answer>");
  }
  if (!answer && !item.mistakes.empty())
    reader.refuse(root, "<mistake> belongs to an <answer>; a wrong <option> has <says>");
}

void read_options(ElementReader& reader, pugi::xml_node node, Item& item) {
  reader.check(node, {{}, {"show"}, {{"option", 2, 60}}});
  for (const pugi::xml_node child : node.children("option"))
    item.options.push_back(read_option(reader, child, item.kind));
  refuse_repeated_ids(reader, node, "option", item.options);
  if (item.options.size() >= 2)
    item.options_shown = reader.whole(node, "show", 2, static_cast<int>(item.options.size()), 0);
}

/// The rule sets that an item belongs to, with blanks between. That they exist is checked when the
/// whole folder is read.
std::vector<std::string> read_rule_sets(ElementReader& reader, pugi::xml_node node) {
  std::vector<std::string> ids;
  if (!node.attribute("rules")) return ids;
  std::istringstream words(reader.attribute(node, "rules"));
  for (std::string id; words >> id;) {
    if (std::find(ids.begin(), ids.end(), id) != ids.end())
      reader.refuse(node, "the rule set \"" + id + "\" stands twice, expected each once");
    ids.push_back(id);
  }
  if (ids.empty())
    reader.refuse(node, "rules is empty, expected rule sets, or no \"rules\" for all of them");
  return ids;
}

Item read_item(ElementReader& reader, pugi::xml_node root) {
  reader.check(root, {{"id", "topic", "level", "kind"},
                      {"training", "points", "minutes", "rules"},
                      {{"title", one, one},
                       {"pick", 0, 20},
                       {"draw", 0, 20},
                       {"limit", 0, 50},
                       {"calculation", 0, 20},
                       {"let", 0, 50},
                       {"keep", 0, 50},
                       {"stem", one, one},
                       {"answer", 0, one},
                       {"mistake", 0, 20},
                       {"options", 0, one},
                       {"step", 0, 60},
                       {"figure", 0, one},
                       {"source", 0, 50}}});
  Item item;
  item.at = reader.at(root);
  item.id = reader.name(root, "id");
  item.topic = reader.name(root, "topic");
  item.level = reader.whole(root, "level", 1, 4, 1);
  item.kind =
      kind_named(reader.word(root, "kind", {"number", "one-of", "several-of", "order", "verdict"}));
  item.training = reader.word(root, "training", {"i", "ii", "iii", "iv", "v", "vi", "vii", "viii"});
  item.rules = read_rule_sets(reader, root);
  item.points = reader.whole(root, "points", 1, 100, 1);
  item.minutes = reader.whole(root, "minutes", 1, 120, 3);

  std::set<std::string> limits;
  for (const pugi::xml_node child : root.children()) {
    const std::string_view element = child.name();
    if (element == "title") item.title = reader.only_text(child);
    if (element == "draw") item.draws.push_back(read_draw(reader, child));
    if (element == "pick") item.picks.push_back(read_pick(reader, child));
    if (element == "limit") {
      reader.check(child, {{"name"}, {}, {}});
      item.limits.push_back(reader.name(child, "name"));
      if (!limits.insert(item.limits.back()).second)
        reader.refuse(child, "the limit \"" + item.limits.back() + "\" stands twice");
    }
    if (element == "calculation")
      item.derivations.push_back({read_calculation(reader, child), std::nullopt});
    if (element == "let") item.derivations.push_back({std::nullopt, read_let(reader, child)});
    if (element == "keep") {
      reader.check(child, {{"if"}, {}, {}});
      item.keeps.push_back(reader.formula(child, "if"));
    }
    if (element == "stem") item.stem = reader.only_text(child);
    if (element == "answer") item.answer = read_answer(reader, child);
    if (element == "mistake") item.mistakes.push_back(read_mistake(reader, child));
    if (element == "options") read_options(reader, child, item);
    if (element == "step") item.steps.push_back(read_step(reader, child));
    if (element == "figure") {
      reader.check(child, {{"of"}, {}, {}});
      item.figure_of = reader.name(child, "of");
    }
    if (element == "source") {
      item.sources.push_back(read_source(reader, child));
    }
  }
  refuse_taken_names(reader, root);
  refuse_repeated_ids(reader, root, "mistake", item.mistakes);
  check_kind(reader, root, item);
  return item;
}

// ---- The other files ---------------------------------------------------------------------------

Pick read_pool(ElementReader& reader, pugi::xml_node root) {
  reader.check(root, {{"name"}, {}, {{"choice", 2}}});
  return {reader.name(root, "name"), {}, read_choices(reader, root), reader.at(root)};
}

std::vector<Topic> read_topics(ElementReader& reader, pugi::xml_node root) {
  reader.check(root, {{}, {}, {{"topic", 1}}});
  std::vector<Topic> topics;
  for (const pugi::xml_node child : root.children("topic")) {
    reader.check(child, {{"id"}, {}, both_languages});
    topics.push_back({reader.name(child, "id"), reader.text(child)});
  }
  refuse_repeated_ids(reader, root, "topic", topics);
  return topics;
}

std::vector<Text> read_trade_terms(ElementReader& reader, pugi::xml_node root) {
  reader.check(root, {{}, {}, {{"term"}}});
  std::vector<Text> terms;
  for (const pugi::xml_node child : root.children("term")) terms.push_back(reader.only_text(child));
  return terms;
}

RuleSet read_rules(ElementReader& reader, pugi::xml_node root) {
  reader.check(root, {{"id"}, {}, {{"title", one, one}, {"limit", 1}}});
  RuleSet rules;
  rules.at = reader.at(root);
  rules.id = reader.name(root, "id");
  rules.title = reader.only_text(root.child("title"));
  for (const pugi::xml_node child : root.children("limit")) {
    reader.check(child, {{"id", "citation", "status"}, {"us", "si"}, both_languages});
    Limit limit{reader.name(child, "id"),
                reader.text(child),
                reader.attribute(child, "us"),
                reader.attribute(child, "si"),
                reader.citation(child),
                reader.word(child, "status", statuses),
                reader.at(child)};
    if (limit.us.empty() && limit.si.empty())
      reader.refuse(child, "<limit> has no value, expected \"us\", \"si\" or both");
    const std::string id = limit.id;
    if (!rules.limits.emplace(id, std::move(limit)).second)
      reader.refuse(child, "the id \"" + id + "\" stands twice, expected each once");
  }
  return rules;
}

// ---- The folder --------------------------------------------------------------------------------

/// What `read` makes of a file, or nothing where the file has a defect.
template <class Read>
auto read_file(std::string_view xml, const std::string& file, const std::string& root_element,
               std::vector<Defect>& defects, Read read)
    -> std::optional<decltype(read(std::declval<ElementReader&>(), pugi::xml_node()))> {
  const std::size_t before = defects.size();
  const XmlFile parsed(xml, file, defects);
  if (defects.size() > before) return std::nullopt;
  ElementReader reader(parsed, defects);
  if (!reader.is_root(parsed.root(), root_element)) return std::nullopt;
  auto made = read(reader, parsed.root());
  if (defects.size() > before) return std::nullopt;
  return made;
}

struct File {
  std::string name;  ///< within the bank folder, with slashes
  std::string bytes;
};

/// The XML files of the bank in name order; files too large are left empty and refused.
std::vector<File> load_files(const std::filesystem::path& folder, const std::string& prefix,
                             std::vector<Defect>& defects) {
  namespace fs = std::filesystem;
  std::vector<fs::path> paths;
  std::vector<Defect> refused;
  const auto refuse = [&](const fs::path& path, const char* message) {
    const std::string name = path.lexically_relative(folder).generic_string();
    refused.push_back({{prefix + name, 1}, message});
  };
  // A link could lead out of the bank, and a pipe would be waited for.
  const auto is_link = [&](const fs::path& path) {
    if (!fs::is_symlink(path)) return false;
    refuse(path, "a symbolic link, expected a file or folder itself");
    return true;
  };
  const auto add = [&](const fs::directory_entry& entry) {
    const fs::path& path = entry.path();
    if (path.extension() != ".xml" || is_link(path) || !entry.exists() || entry.is_directory())
      return;
    if (entry.is_regular_file())
      paths.push_back(path);
    else
      refuse(path, "no plain file");
  };
  add(fs::directory_entry(folder / "topics.xml"));
  add(fs::directory_entry(folder / "trade-terms.xml"));
  for (const char* part : {"blueprints", "courses", "pools", "rules"})
    if (!is_link(folder / part) && fs::is_directory(folder / part))
      for (const auto& entry : fs::directory_iterator(folder / part)) add(entry);
  if (!is_link(folder / "items") && fs::is_directory(folder / "items"))
    for (const auto& entry : fs::recursive_directory_iterator(folder / "items")) add(entry);

  std::sort(refused.begin(), refused.end(),
            [](const Defect& a, const Defect& b) { return a.at.file < b.at.file; });
  defects.insert(defects.end(), refused.begin(), refused.end());

  std::vector<File> files;
  for (const fs::path& path : paths) {
    File file{path.lexically_relative(folder).generic_string(), {}};
    const auto size = fs::file_size(path);
    if (size > largest_file) {
      defects.push_back({{prefix + file.name, 1}, too_large(size)});
      continue;
    }
    std::ifstream stream(path, std::ios::binary);
    file.bytes.assign(std::istreambuf_iterator<char>(stream), {});
    if (!stream || file.bytes.size() != size)
      throw fs::filesystem_error("cannot read", path, std::make_error_code(std::errc::io_error));
    files.push_back(std::move(file));
  }
  std::sort(files.begin(), files.end(),
            [](const File& a, const File& b) { return a.name < b.name; });
  return files;
}

std::string name_without_extension(const std::string& file) {
  return std::filesystem::path(file).stem().string();
}

/// Puts an entry into its map under its id, which must be the file's name.
template <class Entry>
void add_entry(std::map<std::string, Entry, std::less<>>& map, std::optional<Entry> entry,
               const std::string& id, const std::string& file, std::vector<Defect>& defects) {
  if (!entry) return;
  const std::string expected = name_without_extension(file);
  if (id != expected)
    defects.push_back(
        {entry->at, "named \"" + id + "\", expected \"" + expected + "\" as the file is named"});
  else
    map.emplace(id, std::move(*entry));
}

void check_item_place(const Item& item, const std::string& file, const std::set<std::string>& ids,
                      std::vector<Defect>& defects) {
  const std::string expected = name_without_extension(file);
  if (item.id != expected)
    defects.push_back(
        {item.at, "id=\"" + item.id + "\", expected \"" + expected + "\" as the file is named"});
  const std::string folder = std::filesystem::path(file).parent_path().filename().string();
  if (item.topic != folder)
    defects.push_back({item.at, "topic=\"" + item.topic + "\", expected \"" + folder +
                                    "\" as the folder is named"});
  if (ids.contains(item.id))
    defects.push_back({item.at, "id=\"" + item.id + "\" is another item's, expected each once"});
}

/// What refers to another file: topics, pools and blueprints.
void check_references(const Bank& bank, std::vector<Defect>& defects) {
  const auto is_topic = [&](const std::string& id) {
    return std::any_of(bank.topics.begin(), bank.topics.end(),
                       [&](const Topic& topic) { return topic.id == id; });
  };
  std::vector<std::string> rule_sets;
  for (const auto& [id, rules] : bank.rules) rule_sets.push_back(id);
  for (const Item& item : bank.items) {
    if (!is_topic(item.topic))
      defects.push_back(
          {item.at, "unknown topic \"" + item.topic + "\", expected one of topics.xml"});
    for (const std::string& id : item.rules) {
      if (bank.rules.contains(id)) continue;
      const auto near = notation::suggest(id, rule_sets);
      defects.push_back({item.at, "unknown rule set \"" + id + "\"" +
                                      (near ? "; did you mean \"" + *near + "\"?"
                                            : ", expected a file in rules/")});
    }
    for (const Pick& pick : item.picks)
      if (!pick.pool.empty() && !bank.pools.contains(pick.pool))
        defects.push_back(
            {pick.at, "unknown pool \"" + pick.pool + "\", expected a file in pools/"});
  }
  const auto check_topic = [&](const std::string& topic, const Position& at) {
    if (!is_topic(topic))
      defects.push_back({at, "unknown topic \"" + topic + "\", expected one of topics.xml"});
  };
  for (const auto& [id, blueprint] : bank.blueprints)
    for (const Section& section : blueprint.sections) check_topic(section.topic, section.at);
  for (const auto& [id, course] : bank.courses)
    for (const Week& week : course.weeks) {
      for (const NewTopic& topic : week.topics) check_topic(topic.topic, topic.at);
      for (const Section& section : week.sections) check_topic(section.topic, section.at);
      if (!week.blueprint.empty() && !bank.blueprints.contains(week.blueprint))
        defects.push_back({week.at, "unknown blueprint \"" + week.blueprint +
                                        "\", expected a file in blueprints/"});
    }
}

std::string prefix_of(const std::filesystem::path& folder) {
  auto name = folder.lexically_normal();
  if (!name.has_filename()) name = name.parent_path();
  const std::string last = name.filename().generic_string();
  return last.empty() || last == "." || last == ".." ? "" : last + "/";
}

}  // namespace

ReadItems read_items(std::string_view xml, const std::string& file) {
  ReadItems all;
  if (auto item = read_file(xml, file, "item", all.defects, read_item))
    all.items.push_back(std::move(*item));
  return all;
}

ReadBank read_bank(const std::filesystem::path& folder) {
  if (!std::filesystem::is_directory(folder))
    throw std::filesystem::filesystem_error("no bank folder", folder,
                                            std::make_error_code(std::errc::not_a_directory));
  ReadBank all;
  auto& [bank, defects] = all;
  const std::string prefix = prefix_of(folder);
  const std::vector<File> files = load_files(folder, prefix, defects);

  std::set<std::string> ids;
  std::vector<std::pair<std::string, std::string>> digested;
  for (const File& file : files) {
    const std::string shown = prefix + file.name;
    digested.emplace_back(file.name, file.bytes);
    if (file.name == "topics.xml") {
      if (auto topics = read_file(file.bytes, shown, "topics", defects, read_topics))
        bank.topics = std::move(*topics);
    } else if (file.name == "trade-terms.xml") {
      if (auto terms = read_file(file.bytes, shown, "trade-terms", defects, read_trade_terms))
        bank.trade_terms = std::move(*terms);
    } else if (file.name.starts_with("pools/")) {
      auto pool = read_file(file.bytes, shown, "pool", defects, read_pool);
      const std::string name = pool ? pool->name : "";
      add_entry(bank.pools, std::move(pool), name, file.name, defects);
    } else if (file.name.starts_with("blueprints/")) {
      auto blueprint = read_file(file.bytes, shown, "blueprint", defects, read_blueprint);
      const std::string id = blueprint ? blueprint->id : "";
      add_entry(bank.blueprints, std::move(blueprint), id, file.name, defects);
    } else if (file.name.starts_with("courses/")) {
      auto course = read_file(file.bytes, shown, "course", defects, read_course);
      const std::string id = course ? course->id : "";
      add_entry(bank.courses, std::move(course), id, file.name, defects);
    } else if (file.name.starts_with("rules/")) {
      auto rules = read_file(file.bytes, shown, "rules", defects, read_rules);
      const std::string id = rules ? rules->id : "";
      add_entry(bank.rules, std::move(rules), id, file.name, defects);
    } else {
      ReadItems read = read_items(file.bytes, shown);
      defects.insert(defects.end(), read.defects.begin(), read.defects.end());
      for (Item& item : read.items) {
        const std::size_t before = defects.size();
        check_item_place(item, file.name, ids, defects);
        if (defects.size() > before) continue;
        ids.insert(item.id);
        bank.items.push_back(std::move(item));
      }
    }
  }
  if (bank.topics.empty() && std::none_of(files.begin(), files.end(), [](const File& file) {
        return file.name == "topics.xml";
      }))
    defects.push_back({{prefix + "topics.xml", 1}, "missing, expected the list of topics"});
  check_references(bank, defects);
  bank.digest = digest_of_files(std::move(digested));
  return all;
}

}  // namespace footroom::bank
