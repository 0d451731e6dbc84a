#include <fmt/format.h>

#include <sstream>
#include <string_view>

#include "usage/usage.hpp"

namespace footroom::usage {
namespace {

/// Outside text for mdoc: nothing in it starts a request or an escape, hyphens stay hyphens.
std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    switch (c) {
      case '\\':
        out += "\\e";
        break;
      case '-':
        out += "\\-";
        break;
      case '\'':
        out += "\\(aq";
        break;
      case '`':
        out += "\\(ga";
        break;
      case '"':
        out += "\\(dq";
        break;
      case '^':
        out += "\\(ha";
        break;
      case '~':
        out += "\\(ti";
        break;
      default:
        out += c;
    }
  }
  return out.starts_with('.') ? "\\&" + out : out;
}

/// Ends of sentences end lines, as mdoc wants it.
std::string paragraph(std::string_view text) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find(". ", at), text.size());
    const auto next = std::min(end + 1, text.size());
    out += escaped(text.substr(at, next - at)) + "\n";
    at = std::min(next + 1, text.size());
  }
  return out;
}

std::string literal(std::string_view text) {
  std::string out = ".Bd -literal -offset indent\n";
  std::istringstream lines{std::string(text)};
  for (std::string line; std::getline(lines, line);) out += escaped(line) + "\n";
  return out + ".Ed\n";
}

/// A footer of the help: paragraphs, cut into lines, and examples that are indented by two.
std::string from_footer(const std::string& footer) {
  std::string out;
  std::string text;
  std::string example;
  const auto flush = [&] {
    if (!text.empty()) out += ".Pp\n" + paragraph(text);
    if (!example.empty()) out += literal(example);
    text.clear();
    example.clear();
  };
  std::istringstream lines(footer);
  for (std::string line; std::getline(lines, line);) {
    const bool of_example = line.starts_with("  ");
    if (line.empty() || (of_example ? !text.empty() : !example.empty())) flush();
    if (of_example)
      example += line.substr(2) + "\n";
    else if (!line.empty())
      text += (text.empty() ? "" : " ") + line;
  }
  flush();
  return out;
}

std::string list_of(const std::vector<Argument>& arguments) {
  std::string out = ".Bl -tag -width Ds\n";
  for (const auto& argument : arguments) {
    out += ".It";
    if (!argument.name.empty()) out += " Fl " + escaped(argument.name.substr(1));
    if (!argument.placeholder.empty()) out += " Ar " + escaped(argument.placeholder);
    out += "\n" + escaped(argument.says) + "\n";
  }
  return out + ".El\n";
}

std::string section(const CommandUsage& command) {
  std::string out = ".Ss " + command.name + "\n.Nm\n.Cm " + command.name + "\n";
  for (const auto& word : command.words) out += ".Ar " + escaped(word.placeholder) + "\n";
  out += ".Op Ar OPTION ...\n.Pp\n" + escaped(command.summary) + "\n";
  if (!command.words.empty()) out += list_of(command.words);
  return out + (command.words.empty() ? "" : ".Pp\nOptions:\n") + list_of(command.options) +
         from_footer(command.footer);
}

constexpr const char* introduction = R"(.Sh NAME
.Nm footroom
.Nd write fall\-protection quizzes with worked keys, grade them, keep training records
.Sh SYNOPSIS
.Nm
.Ar COMMAND
.Op Ar OPTION ...
.Nm
.Fl \-help
.Nm
.Fl \-version
.Sh DESCRIPTION
.Nm
writes a quiz on fall protection for people who work on roofs: a different sheet for each seat, and
for each sheet a key that is worked out by one calculation engine, with every step and with the
source of every limit.
It grades what was answered, tells how each question did, and keeps records of who was trained.
.Pp
.Nm
.Ar COMMAND
.Fl \-help
tells about one command.
.Fl \-version
prints the version of the program and the digest of the question bank that it finds, which
.Pa quiz.json
records too.
.Sh COMMANDS
)";

constexpr const char* rest = R"(.Sh FILES
.Bl -tag -width Ds
.It Pa ../share/footroom/questionbank
from the folder of the program: the question bank; another one is named by
.Fl \-bank
.It Pa ../share/footroom/templates
the page templates; others are named by
.Fl \-templates
.It Pa output/CODE
what
.Cm quiz
writes, where
.Fl \-out
names nothing else:
.Pa all\-sheets.html
and
.Pa all\-keys.html
to print, a sheet and a key a seat,
.Pa quiz.json
and
.Pa responses.csv
.El
.Pp
Folders and files are written beside their place and get their name when they are whole.
A run that fails or is interrupted leaves what was there before.
.Sh EXIT STATUS
.Bl -tag -width Ds
.It 0
done
.It 1
input faulty: a bank file, a class list, a value; the message names file and line
.It 2
wrong command line
.It 3
cannot read or write
.It 70
a fault of the program
.El
.Pp
A run that a signal ends dies of that signal, which a shell reports as 128 and the signal's number.
.Sh EXAMPLES
A quiz for a class, from a list with a column called name:
.Pp
.Dl footroom quiz \-\-roster class.csv \-\-out output/week\-48
.Pp
The same in Spanish, in metres, on A4:
.Pp
.Dl footroom quiz \-\-roster class.csv \-\-language es \-\-units si \-\-paper a4
.Pp
Grading what was typed into its form:
.Pp
.Dl footroom grade output/week\-48/quiz.json output/week\-48/responses.csv
.Pp
One calculation:
.Pp
.Dl footroom calc roof pitch=6:12 run=\(dq12 ft\(dq
.Pp
Who has to be trained by a day:
.Pp
.Dl footroom record due \-\-store crew.db \-\-on 2027\-11\-30
.Sh CAVEATS
What
.Nm
writes is a training aid, not a design.
On a real roof, follow the manufacturer\(aqs instructions, local codes, and a competent or qualified
person.
The people and the figures on the sheets are invented.
.Pp
Whoever has
.Pa quiz.json
or its seed can make the keys: keep them from students.
A store of training records names people: keep it as you keep personnel files.
)";

/// "26 Nov 2026" as mdoc writes a day.
std::string written_out(const std::string& date) {
  std::istringstream in(date);
  std::string day, month, year;
  in >> day >> month >> year;
  for (const std::string_view whole :
       {"January", "February", "March", "April", "May", "June", "July", "August", "September",
        "October", "November", "December"})
    if (whole.starts_with(month)) month = whole;
  return fmt::format("{} {}, {}", month, day, year);
}

}  // namespace

std::string manual_page(const std::vector<CommandUsage>& commands, const std::string& date) {
  std::string page = ".Dd " + written_out(date) + "\n.Dt FOOTROOM 1\n.Os\n";
  page += introduction;
  for (const auto& command : commands) page += section(command);
  return page + rest;
}

}  // namespace footroom::usage
