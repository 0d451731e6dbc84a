#include "tasks/text.hpp"

#include <algorithm>

namespace footroom::tasks {

std::string plain(std::string text) {
  const auto replace = [&text](std::string_view from, std::string_view to) {
    for (auto at = text.find(from); at != std::string::npos; at = text.find(from, at))
      text.replace(at, from.size(), to);
  };
  replace("\u00a0", " ");
  replace("\u2212", "-");
  return text;
}

std::size_t columns(std::string_view text) {
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xc0) != 0x80;
  }));
}

std::string padded(std::string text, std::size_t width) {
  const auto wide = columns(text);
  if (wide < width) text.append(width - wide, ' ');
  return text;
}

std::string table(const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (const auto& row : rows) {
    widths.resize(std::max(widths.size(), row.size()));
    for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns(row[i]));
  }
  std::string all;
  for (const auto& row : rows) {
    std::string line;
    for (std::size_t i = 0; i < row.size(); ++i) line += "  " + padded(row[i], widths[i]);
    line.erase(line.find_last_not_of(' ') + 1);
    all += line + "\n";
  }
  return all;
}

const std::string& in_language(const bank::Text& text, engine::Language language) {
  return language == engine::Language::english ? text.english : text.spanish;
}

}  // namespace footroom::tasks
