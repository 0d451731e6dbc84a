#include <map>

#include "usage/usage.hpp"
#include "usage/values.hpp"

namespace footroom::usage {
namespace {

constexpr const char* helpers = R"zsh(
# _footroom_names LIST: names of the bank that the command line chooses.
_footroom_names() {
  local -a bank names
  local at=${words[(I)--bank]} joined=${words[(r)--bank=*]}
  ((at)) && bank=(--bank ${(Q)words[at + 1]})
  [[ -n $joined ]] && bank=(--bank ${(Q)joined#*=})
  names=(${(f)"$($_footroom_program --names $1 $bank 2>/dev/null)"})
  compadd -a names
}

_footroom_inputs() {
  local -a names
  compset -P '*=*' && return
  names=(${(f)"$($_footroom_program --names inputs $words[2] 2>/dev/null)"})
  compadd -S '' -a names
}
)zsh";

constexpr const char* dispatcher = R"zsh(
_footroom() {
  local _footroom_program=$words[1] command=$words[2]
  if ((CURRENT == 2)); then
    _footroom_first
    return
  fi
  if (($+functions[_footroom_second_$command])); then
    if ((CURRENT == 3)); then
      _footroom_second_$command
      return
    fi
    command+=" $words[3]"
    shift 2 words
    ((CURRENT -= 2))
  else
    shift words
    ((CURRENT -= 1))
  fi
  _footroom_usage $command
}

_footroom "$@"
)zsh";

/// Within single quotes.
std::string in_single_quotes(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out;
}

/// Within a specification of _arguments: what would end a description or a message.
std::string escaped(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == ':' || c == '[' || c == ']' || c == '\\') out += '\\';
    out += c;
  }
  return in_single_quotes(out);
}

std::string action(const std::string& placeholder) {
  const Values values = values_of(placeholder);
  const std::string commas = values.with_commas ? "compset -P \"*,\"; " : "";
  switch (values.kind) {
    case Values::Kind::any:
      return " ";
    case Values::Kind::fixed: {
      std::string all;
      for (const auto& word : values.words) all += (all.empty() ? "" : " ") + word;
      return "(" + all + ")";
    }
    case Values::Kind::files:
      return values.suffix.empty() ? "_files" : "_files -g \"*" + values.suffix + "\"";
    case Values::Kind::folders:
      return "_files -/";
    case Values::Kind::names:
      return "{" + commas + "_footroom_names " + values.list + "}";
    case Values::Kind::inputs:
      return "_footroom_inputs";
  }
  return {};
}

std::string value(const Argument& argument) {
  return ":" + escaped(argument.placeholder) + ":" + in_single_quotes(action(argument.placeholder));
}

std::string usage_case(const CommandUsage& command) {
  std::string specifications;
  for (const auto& option : command.options) {
    const std::string says = "[" + escaped(option.says) + "]";
    specifications += " \\\n        '";
    if (option.placeholder.empty())
      specifications += option.name + says;
    else if (option.repeats)
      specifications += "*" + option.name + says + ":*-*" + value(option);
    else
      specifications += option.name + "=" + says + value(option);
    specifications += "'";
  }
  for (std::size_t i = 0; i < command.words.size(); ++i) {
    const bool repeats = command.words[i].repeats;
    specifications +=
        " \\\n        '" + (repeats ? "*" : std::to_string(i + 1)) + value(command.words[i]) + "'";
  }
  return "    '" + command.name + "')\n      _arguments" + specifications + " ;;\n";
}

std::string described(const std::string& function, const std::string& what,
                      const std::vector<std::pair<std::string, std::string>>& words) {
  std::string rows;
  for (const auto& [word, says] : words) rows += "    '" + word + ":" + escaped(says) + "'\n";
  return function + "() {\n  local -a offered=(\n" + rows + "  )\n  _describe '" + what +
         "' offered\n}\n\n";
}

}  // namespace

std::string zsh_completion(const std::vector<CommandUsage>& commands) {
  std::vector<std::pair<std::string, std::string>> first;
  std::map<std::string, std::vector<std::pair<std::string, std::string>>> second;
  std::string usages;
  for (const auto& command : commands) {
    const auto space = command.name.find(' ');
    const std::string word = command.name.substr(0, space);
    if (space == std::string::npos) {
      first.emplace_back(word, command.summary);
    } else {
      second[word].emplace_back(command.name.substr(space + 1), command.summary);
      if (second[word].size() == 1) first.emplace_back(word, "");
    }
    usages += usage_case(command);
  }
  for (auto& [word, says] : first)
    if (const auto group = second.find(word); group != second.end())
      for (const auto& [name, summary] : group->second) says += (says.empty() ? "" : ", ") + name;
  first.emplace_back("--help", "the commands");
  first.emplace_back("--version", "version and bank");
  std::string groups;
  for (auto& [word, words] : second) {
    words.emplace_back("--help", "the commands");
    groups += described("_footroom_second_" + word, "command", words);
  }
  return "#compdef footroom\n"
         "# Completion of footroom in zsh, written from its table of commands.\n" +
         std::string(helpers) + "\n" + described("_footroom_first", "command", first) + groups +
         "_footroom_usage() {\n  case $1 in\n" + usages + "  esac\n}\n" + dispatcher;
}

}  // namespace footroom::usage
