#include <map>

#include "usage/usage.hpp"
#include "usage/values.hpp"

namespace footroom::usage {
namespace {

/// The same for every program; what is particular to this one stands in the table before it.
constexpr const char* reader = R"bash(
# COMP_WORDS is cut at = and : too; sets `words` to what was typed between spaces.
_footroom_join_words() {
  local i word last
  words=("${COMP_WORDS[0]}")
  for ((i = 1; i <= COMP_CWORD; i++)); do
    word=${COMP_WORDS[i]}
    last=${words[${#words[@]} - 1]}
    if ((i > 2)) && [[ $word == [=:]* || $last == *[=:] ]]; then
      words[${#words[@]} - 1]+=$word
    else
      words+=("$word")
    fi
  done
}

# _footroom_offer WORDS: those that begin as the current word does.
_footroom_offer() {
  mapfile -t COMPREPLY < <(compgen -P "$before" -W "$1" -- "$current")
}

# _footroom_value KIND [DETAIL]: values of an option or a word.
_footroom_value() {
  local kind=$1 detail=$2
  if [[ $kind == *, ]]; then
    kind=${kind%,}
    if [[ $current == *,* ]]; then
      before=${current%,*},
      current=${current##*,}
    fi
  fi
  case $kind in
    fixed) _footroom_offer "$detail" ;;
    names)
      _footroom_offer "$("${words[0]}" --names "$detail" "${bank[@]}" 2>/dev/null)" ;;
    inputs)
      [[ $current == *=* ]] && return
      _footroom_offer "$("${words[0]}" --names inputs "$first" 2>/dev/null)"
      compopt -o nospace 2>/dev/null ;;
    folders)
      mapfile -t COMPREPLY < <(compgen -d -- "$current")
      compopt -o filenames 2>/dev/null ;;
    files)
      if [[ -n $detail ]]; then
        mapfile -t COMPREPLY < <(compgen -d -- "$current"
          compgen -f -X "!*$detail" -- "$current")
      else
        mapfile -t COMPREPLY < <(compgen -f -- "$current")
      fi
      compopt -o filenames 2>/dev/null ;;
  esac
}

_footroom() {
  COMPREPLY=()
  local -a words bank=()
  _footroom_join_words
  local current=${words[${#words[@]} - 1]} before='' command=${words[1]} start=2
  if ((${#words[@]} == 2)); then
    _footroom_offer "$_footroom_first --help --version"
    return
  fi
  local second
  second=$(_footroom_second "$command")
  if [[ -n $second ]]; then
    if ((${#words[@]} == 3)); then
      _footroom_offer "$second --help"
      return
    fi
    command+=" ${words[2]}"
    start=3
  fi

  # Which value the current word is: that of the option before it, or the word at this position.
  local i word option='' position=0 first='' options='' repeats=''
  local -a value=()
  _footroom_usage "$command" ''
  for ((i = start; i < ${#words[@]} - 1; i++)); do
    word=${words[i]}
    if [[ $word == --bank=* ]]; then
      bank=(--bank "${word#*=}")
    elif [[ $word == --* ]]; then
      option=''
      value=()
      [[ $word == *=* ]] || _footroom_usage "$command" "$word"
      ((${#value[@]})) && option=$word
    elif [[ -n $option ]]; then
      [[ $option == --bank ]] && bank=(--bank "$word")
      [[ " $repeats " == *" $option "* ]] || option=''
    else
      ((position == 0)) && first=$word
      ((++position))
    fi
  done
  value=()
  if [[ $current == --*=* ]]; then
    option=${current%%=*}
    current=${current#*=}
  elif [[ $current == -* ]]; then
    _footroom_offer "$options"
    return
  fi
  if [[ -n $option ]]; then
    _footroom_usage "$command" "$option"
  else
    _footroom_usage "$command" "word $position"
  fi
  if ((${#value[@]})); then
    _footroom_value "${value[@]}"
  elif [[ -z $current ]]; then
    _footroom_offer "$options"
  fi
} && complete -F _footroom footroom
)bash";

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const auto& word : words) all += (all.empty() ? "" : " ") + word;
  return all;
}

/// KIND DETAIL as _footroom_value takes them.
std::string value_words(const std::string& placeholder) {
  const Values values = values_of(placeholder);
  std::string text(name_of(values.kind));
  if (values.with_commas) text += ",";
  const std::string which = values.which();
  return which.empty() ? text : text + " \"" + which + "\"";
}

std::string usage_case(const CommandUsage& command) {
  std::vector<std::string> options;
  std::vector<std::string> repeats;
  std::string rows;
  const auto row = [&rows](const std::string& pattern, const Argument& argument) {
    rows += "        " + pattern + ") value=(" + value_words(argument.placeholder) + ") ;;\n";
  };
  for (std::size_t i = 0; i < command.words.size(); ++i)
    row(command.words[i].repeats ? "'word '*" : "'word " + std::to_string(i) + "'",
        command.words[i]);
  for (const auto& option : command.options) {
    options.push_back(option.name);
    if (option.repeats) repeats.push_back(option.name);
    if (!option.placeholder.empty()) row(option.name, option);
  }
  return "    '" + command.name + "')\n      options='" + joined(options) + "'\n      repeats='" +
         joined(repeats) + "'\n      case $2 in\n" + rows + "      esac ;;\n";
}

}  // namespace

std::string bash_completion(const std::vector<CommandUsage>& commands) {
  std::vector<std::string> first;
  std::map<std::string, std::string> second;
  std::string usages;
  for (const auto& command : commands) {
    const auto space = command.name.find(' ');
    const std::string word = command.name.substr(0, space);
    if (first.empty() || first.back() != word) first.push_back(word);
    if (space != std::string::npos) {
      std::string& words = second[word];
      words += (words.empty() ? "" : " ") + command.name.substr(space + 1);
    }
    usages += usage_case(command);
  }
  std::string groups;
  for (const auto& [word, words] : second) groups += "    " + word + ") echo '" + words + "' ;;\n";
  return "# Completion of footroom in bash, written from its table of commands.\n\n"
         "_footroom_first='" +
         joined(first) + "'\n\n_footroom_second() {\n  case $1 in\n" + groups +
         "  esac\n}\n\n"
         "# _footroom_usage COMMAND OPTION|'word N': sets options, repeats, and value where one "
         "is\n"
         "# taken.\n"
         "_footroom_usage() {\n  case $1 in\n" +
         usages + "  esac\n}\n" + reader;
}

}  // namespace footroom::usage
