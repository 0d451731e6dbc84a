// The header says of each input from where to where it may go, for who calls the function; the
// catalogue says it for everyone else. Both have to say the same.

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
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

/// What one of the unit is in SI.
double unit_in_si(const std::string& unit) {
  static const std::map<std::string, double> units{
      {"", 1},      {"m", 1},       {"kg", 1},           {"s", 1},
      {"N", 1},     {"kN", 1e3},    {"MN", 1e6},         {"J", 1},
      {"mm", 1e-3}, {"in", 0.0254}, {"deg", M_PI / 180}, {"degrees", M_PI / 180},
      {"N/m", 1},   {"kN/m", 1e3},  {"MN/m", 1e6},       {"MPa", 1e6},
      {"N s/m", 1}, {"m/s", 1},     {"kNs/m", 1e3}};
  return units.at(unit);
}

struct Documented {
  Domain domain;
  bool lowest_is_told = true;
};

/// Of "0.3 m to 60 m", "0 (excluded) to 5 m", "more than 0, up to 1 MN", "up to 100 m", wherever it
/// stands in a comment; empty where nothing of the kind does.
std::optional<Documented> domain_in(const std::string& comment) {
  const std::string number = R"((-?[0-9][0-9.,]*[0-9]|-?[0-9]))";
  const std::string unit =
      R"((?: (kNs/m|N s/m|kN/m|MN/m|N/m|m/s|MPa|MN|kN|kg|mm|in|degrees|deg|N|J|m|s)\b)?)";
  static const std::regex words("(?:(more than|above|at least) (?:" + number + unit +
                                "|the weight|[0-9] diameters), (?:up )?to|" + number + unit +
                                R"(( \(excluded\))? to|(?:^|; )up to) )" + number + unit);
  std::smatch found;
  if (!std::regex_search(comment, found, words)) return std::nullopt;
  const double highest_unit = unit_in_si(found[8]);
  Documented made{{0, number_in(found[7]) * highest_unit}};
  const std::size_t lowest = found[2].matched ? 2 : 4;
  made.lowest_is_told = found[lowest].matched;
  if (made.lowest_is_told) {
    const std::ssub_match of = found[lowest + 1];
    made.domain.lowest = number_in(found[lowest]) * (of.matched ? unit_in_si(of) : highest_unit);
  }
  made.domain.includes_lowest = !(found[6].matched || (found[1].matched && found[1] != "at least"));
  return made;
}

/// What a header says otherwise, and the function too: beyond it, it refuses in words of its own.
const std::map<std::string, Domain>& told_otherwise() {
  static const std::map<std::string, Domain> all{
      {"absorber.force", {0, 1e5, false}},            // more than the weight
      {"line-then-absorber.force", {0, 1e5, false}},  // above the weight
      {"anchor-reach.line-length", {0.3, 100}},       // up to 100 m
      {"clearance.d-ring-height", {0, 2}},            // 0, or 0.5 m to 2 m
      {"nail-lateral.penetration", {0.001, 0.3}},     // at least 6 diameters
      {"nail-lateral.load-duration", {0.9, 2}},       // 0.9 to 1.6
      {"nail-withdrawal.load-duration", {0.9, 2}},    // 0.9 to 1.6
  };
  return all;
}

TEST(DomainWords, OfTheHeadersAgreeWithTheCatalogue) {
  const std::regex field(R"(^  [\w:<>]+ (\w+)(?: = [^;]+)?; +///< (.*)$)");
  for (const Calculation* calculation : catalogue()) {
    std::string stem(calculation->id);
    for (char& one : stem)
      if (one == '-') one = '_';
    std::map<std::string, Documented> documented;
    std::ifstream in(std::filesystem::path(FOOTROOM_SOURCE_DIR) / "generator/engine" /
                     (stem + ".hpp"));
    bool in_case = false;
    for (std::string line; std::getline(in, line);) {
      if (line.starts_with("struct ")) in_case = line.find("Case {") != std::string::npos;
      std::smatch found;
      if (!in_case || !std::regex_match(line, found, field)) continue;
      if (const auto domain = domain_in(found[2])) documented[hyphened(found[1])] = *domain;
    }
    for (const Input& input : calculation->inputs) {
      if (!input.choices.empty() || !input.word_example.empty()) continue;
      const std::string name = std::string(calculation->id) + "." + std::string(input.id);
      const auto otherwise = told_otherwise().find(name);
      const auto told = documented.find(std::string(input.id));
      const bool is_otherwise = otherwise != told_otherwise().end();
      if (!is_otherwise && told == documented.end()) {
        ADD_FAILURE() << name << ": the header does not say from where to where it goes";
        continue;
      }
      EXPECT_TRUE(is_otherwise || told->second.lowest_is_told) << name;
      const Domain& expected = is_otherwise ? otherwise->second : told->second.domain;
      EXPECT_NEAR(input.domain.lowest, expected.lowest, 1e-9 * std::abs(expected.lowest)) << name;
      EXPECT_NEAR(input.domain.highest, expected.highest, 1e-9 * std::abs(expected.highest))
          << name;
      EXPECT_EQ(input.domain.includes_lowest, expected.includes_lowest) << name;
      EXPECT_TRUE(input.domain.includes_highest) << name;
    }
  }
}

// What is printed where an input is declined, and that its ends are taken or not as it says.
TEST(DomainWords, OfARefusalSayWhichEndsAreAllowed) {
  const auto refusal = [](Domain domain, double value) {
    EXPECT_FALSE(domain.contains(value));
    return OutOfDomain("capstan", "force", {dimension::force, value}, domain).reason;
  };
  EXPECT_EQ(refusal({1, 2}, 3), "is 3, expected at least 1 and at most 2 (SI units)");
  EXPECT_EQ(refusal({1, 2, false, false}, 2),
            "is 2, expected more than 1 and less than 2 (SI units)");
  EXPECT_FALSE((Domain{1, 2, false}.contains(1)));
  EXPECT_FALSE((Domain{1, 2, true, false}.contains(2)));
  EXPECT_TRUE((Domain{1, 2}.contains(1)));
  EXPECT_TRUE((Domain{1, 2}.contains(2)));
}

}  // namespace
}  // namespace footroom::engine
