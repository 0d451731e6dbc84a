#include "usage/values.hpp"

#include <algorithm>
#include <map>

namespace footroom::usage {
namespace {

using Kind = Values::Kind;

const std::map<std::string, Values>& known() {
  static const std::map<std::string, Values> all = [] {
    std::map<std::string, Values> rows{
        {"DIR", {Kind::folders}},
        {"FILE", {Kind::files}},
        {"FILE|postgresql://", {Kind::files}},
        {"NAME=VALUE", {Kind::inputs}},
        {"QUIZ.json|DIR", {Kind::files, {}, ".json"}},
        {"PLOT", {Kind::fixed, {"arrest-in-time", "clearance-against-slack"}}},
        {"WHAT", {Kind::fixed, {"people", "results"}}},
        {"REASON",
         {Kind::fixed,
          {"workplace-changed", "equipment-changed", "knowledge-inadequate", "interval-passed"}}},
    };
    for (const auto& [placeholder, list] :
         {std::pair{"BLUEPRINT", "blueprints"}, std::pair{"CALCULATION", "calculations"},
          std::pair{"COURSE", "courses"}, std::pair{"ITEM", "items"},
          std::pair{"RULE-SET", "rule-sets"}, std::pair{"TOPIC", "topics"}})
      rows[placeholder] = {Kind::names, {}, {}, list};
    for (const char* typed :
         {"CODE", "DIGITS", "ENTRY", "FIRST..LAST", "K", "N", "N:DIGEST", "N[=ITEM]", "NAME",
          "PERCENT", "PERSON", "SEAT", "TEXT", "YYYY-MM-DD"})
      rows[typed] = {};
    return rows;
  }();
  return all;
}

bool is_lower_case_word(const std::string& text) {
  return !text.empty() &&
         text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
}

std::vector<std::string> split(const std::string& text, char at) {
  std::vector<std::string> parts{""};
  for (const char c : text) {
    if (c == at)
      parts.emplace_back();
    else
      parts.back() += c;
  }
  return parts;
}

}  // namespace

std::string_view name_of(Kind kind) {
  switch (kind) {
    case Kind::any:
      return "any";
    case Kind::fixed:
      return "fixed";
    case Kind::files:
      return "files";
    case Kind::folders:
      return "folders";
    case Kind::names:
      return "names";
    case Kind::inputs:
      return "inputs";
  }
  return {};
}

std::string Values::which() const {
  std::string all;
  for (const auto& word : words) all += (all.empty() ? "" : " ") + word;
  return all + suffix + list;
}

std::optional<Values> known_values_of(const std::string& placeholder) {
  std::string one = placeholder;
  if (one.starts_with('[') && one.ends_with(']')) one = one.substr(1, one.size() - 2);
  if (one.ends_with("...")) one.resize(one.size() - 3);
  const bool with_commas = one.ends_with(',');
  if (with_commas) one.pop_back();
  Values values;
  const auto words = split(one, '|');
  const auto dot = one.find('.');
  if (const auto found = known().find(one); found != known().end())
    values = found->second;
  else if (std::all_of(words.begin(), words.end(), is_lower_case_word))
    values = {Kind::fixed, words};
  else if (dot != std::string::npos && is_lower_case_word(one.substr(dot + 1)))
    values = {Kind::files, {}, one.substr(dot)};
  else
    return std::nullopt;
  values.with_commas = with_commas;
  return values;
}

Values values_of(const std::string& placeholder) {
  return known_values_of(placeholder).value_or(Values{});
}

}  // namespace footroom::usage
