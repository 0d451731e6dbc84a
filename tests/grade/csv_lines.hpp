#pragma once
// Rows of a small CSV table of a test: one line a row, fields may be quoted.

#include <fstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace footroom::grade::testing {

inline std::vector<std::vector<std::string>> csv_lines(const std::string& file) {
  std::ifstream in(file);
  if (!in) throw std::runtime_error("cannot read " + file);
  std::vector<std::vector<std::string>> rows;
  for (std::string line; std::getline(in, line);) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"') {
        fields.back() += '"';
        ++i;
      } else if (line[i] == '"') {
        quoted = !quoted;
      } else if (line[i] == ',' && !quoted) {
        fields.emplace_back();
      } else {
        fields.back() += line[i];
      }
    }
    rows.push_back(fields);
  }
  return rows;
}

}  // namespace footroom::grade::testing
