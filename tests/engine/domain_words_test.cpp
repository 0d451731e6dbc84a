// The header says of each input from where to where it may go, for who calls the function; the
// catalogue says it for everyone else. Both have to say the same.

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <sstream>

#include "engine/catalogue.hpp"

namespace footroom::engine {
namespace {

std::string hyphened(std::string name) {
  for (char& one : name)
    if (one == '_') one = '-';
  return name;
}

double number_in(std::string text) {
  std::erase(text, ',');
  return std::stod(text);
}

/// What one of the unit is in SI; 0: no unit that a header names.
double unit_in_si(const std::string& unit) {
  static const std::map<std::string, double> units{{"", 1},
                                                   {"m", 1},
                                                   {"kg", 1},
                                                   {"s", 1},
                                                   {"N", 1},
                                                   {"kN", 1e3},
                                                   {"MN", 1e6},
                                                   {"J", 1},
                                                   {"mm", 1e-3},
                                                   {"deg", M_PI / 180},
                                                   {"degrees", M_PI / 180},
                                                   {"N/m", 1},
                                                   {"kN/m", 1e3},
                                                   {"MN/m", 1e6},
                                                   {"MPa", 1e6},
                                                   {"N s/m", 1},
                                                   {"m/s", 1},
                                                   {"kNs/m", 1e3}};
  const auto found = units.find(unit);
  return found == units.end() ? 0 : found->second;
}

TEST(DomainWords, OfTheHeadersAgreeWithTheCatalogue) {
  const std::regex documented(
      R"(^  \w+ (\w+)(?: = [^;]+)?; +///<.*?(-?[0-9][0-9.,]*) to (-?[0-9][0-9.,]*[0-9]|[0-9])(?: ([A-Za-z/]+(?: s/m)?))?\s*$)");
  int compared = 0;
  for (const Calculation* calculation : catalogue()) {
    std::string stem(calculation->id);
    for (char& one : stem)
      if (one == '-') one = '_';
    std::ifstream in(std::filesystem::path(FOOTROOM_SOURCE_DIR) / "generator/engine" /
                     (stem + ".hpp"));
    for (std::string line; std::getline(in, line);) {
      std::smatch found;
      if (!std::regex_match(line, found, documented)) continue;
      const Input* input = calculation->find_input(hyphened(found[1]));
      const double si = unit_in_si(found[4]);
      // Above 1.6 a load duration is refused in words of its own.
      if (!input || si == 0 || input->id == "load-duration") continue;
      EXPECT_NEAR(input->domain.lowest, number_in(found[2]) * si, 1e-9 * si) << line;
      EXPECT_NEAR(input->domain.highest, number_in(found[3]) * si, 1e-9 * si) << line;
      ++compared;
    }
  }
  EXPECT_GE(compared, 80);
}

}  // namespace
}  // namespace footroom::engine
