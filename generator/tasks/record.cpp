#include "tasks/record.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <boost/locale/utf.hpp>

#include "tasks/choices.hpp"
#include "tasks/text.hpp"

namespace footroom::tasks {
namespace {

using engine::Text;

/// In the order of records::Reason. The first three in the words of 29 CFR 1926.503(c).
constexpr std::array<Text, 5> reasons{{
    {"workplace changed", "cambió el lugar de trabajo"},
    {"equipment changed", "cambió el equipo"},
    {"knowledge inadequate", "conocimiento insuficiente"},
    {"refresher interval passed", "se cumplió el plazo de repaso"},
    {"never trained", "nunca capacitado"},
}};

template <class T, class Key>
records::Number find_named(const std::vector<records::Numbered<T>>& all, std::string_view option,
                           const std::string& name, std::string_view what, Key key) {
  std::vector<std::string> names;
  for (const auto& one : all) {
    if (key(one.value) == name) return one.number;
    names.push_back(key(one.value));
  }
  throw Failure(ExitCode::input_faulty,
                fmt::format("{}: the store has no {} named {}{}", option, what, for_terminal(name),
                            did_you_mean(name, names)));
}

}  // namespace

records::Date need_date(std::string_view option, const std::string& text) {
  const auto date = records::read_date(text);
  if (!date)
    throw Failure(
        ExitCode::wrong_command_line,
        fmt::format("{}: is {}, expected a day of the calendar as YYYY-MM-DD", option, text));
  return *date;
}

const std::string& need(std::string_view option, const std::string& text,
                        std::string_view placeholder) {
  if (text.empty())
    throw Failure(ExitCode::wrong_command_line,
                  fmt::format("{}: is missing, expected {}", option, placeholder));
  return text;
}

records::Number find_person(records::Store& store, const std::string& text) {
  if (text.size() > 1 && text.size() < 19 && text[0] == '@' &&
      std::all_of(text.begin() + 1, text.end(), [](char c) { return c >= '0' && c <= '9'; }))
    return std::stoll(text.substr(1));
  const auto found = store.find_people(text);
  if (found.size() == 1) return found[0].number;
  if (found.empty())
    throw Failure(ExitCode::input_faulty,
                  for_terminal(text) + ": nobody in the store has this identity or name");
  std::string all;
  for (const auto& one : found) all += fmt::format("{}@{}", all.empty() ? "" : ", ", one.number);
  throw Failure(
      ExitCode::input_faulty,
      for_terminal(text) + ": is the identity or name of several people, name one of: " + all);
}

records::Number find_employer(records::Store& store, const std::string& name) {
  return find_named(store.employers(), "--employer", name, "employer",
                    [](const records::Employer& e) { return e.name; });
}

records::Number find_course(records::Store& store, const std::string& code) {
  return find_named(store.courses(), "--course", code, "course",
                    [](const records::Course& c) { return c.code; });
}

std::vector<std::string> parts_of(const std::string& list) {
  std::vector<std::string> parts;
  for (std::size_t at = 0; at <= list.size();) {
    const auto end = std::min(list.find(',', at), list.size());
    std::string part = list.substr(at, end - at);
    part.erase(0, part.find_first_not_of(' '));
    part.erase(part.find_last_not_of(' ') + 1);
    if (!part.empty()) parts.push_back(part);
    at = end + 1;
  }
  return parts;
}

std::string day_or_dash(const std::optional<records::Date>& day) {
  return day ? records::date_text(*day) : "-";
}

std::string days_text(const std::vector<records::Date>& days) {
  std::string text;
  for (const auto day : days) text += (text.empty() ? "" : ", ") + records::date_text(day);
  return text;
}

std::string points_text(std::int64_t hundredths) {
  std::string text = fmt::format("{}.{:02}", hundredths / 100, hundredths % 100);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::optional<std::int64_t> read_points(std::string_view text) {
  const auto point = std::min(text.find('.'), text.size());
  std::string digits(text.substr(0, point));
  std::string decimals(point < text.size() ? text.substr(point + 1) : "");
  if (digits.empty() || digits.size() > 9 || decimals.size() > 2 ||
      (point < text.size() && decimals.empty()))
    return std::nullopt;
  digits += decimals + std::string(2 - decimals.size(), '0');
  if (digits.find_first_not_of("0123456789") != std::string::npos) return std::nullopt;
  return std::stoll(digits);
}

std::string for_terminal(std::string_view text) {
  using Decoder = boost::locale::utf::utf_traits<char>;
  std::string out;
  for (auto at = text.begin(); at != text.end();) {
    const auto begin = at;
    const auto point = Decoder::decode(at, text.end());
    // Unicode 15, tables of Bidi_Control and of the categories Cc, Zl and Zp.
    const bool turns = point == 0x061c || point == 0x200e || point == 0x200f ||
                       (point >= 0x202a && point <= 0x202e) || (point >= 0x2066 && point <= 0x2069);
    const bool control = point < 0x20 || (point >= 0x7f && point < 0xa0) || point == 0x2028 ||
                         point == 0x2029 || point == 0xfeff;
    if (!boost::locale::utf::is_valid_codepoint(point))
      out += "\uFFFD";
    else if (turns || control)
      out += fmt::format("<U+{:04X}>", static_cast<unsigned>(point));
    else
      out.append(begin, at);
  }
  return out;
}

std::string title_of_topic(const bank::Bank& bank, const std::string& id,
                           engine::Language language) {
  for (const auto& topic : bank.topics)
    if (topic.id == id) return in_language(topic.title, language);
  return id;
}

std::string name_of(const records::Person& person, bool erased, engine::Language language) {
  if (erased) return std::string(Text{"(erased)", "(borrado)"}.in(language));
  return person.name;
}

std::string title_of(const records::Course& course, engine::Language language) {
  const bool spanish = language == engine::Language::spanish;
  const auto& title = spanish ? course.spanish : course.english;
  return !title.empty() ? title : spanish ? course.english : course.spanish;
}

std::string_view text_of(records::Reason reason, engine::Language language) {
  return reasons.at(static_cast<std::size_t>(reason)).in(language);
}

}  // namespace footroom::tasks
