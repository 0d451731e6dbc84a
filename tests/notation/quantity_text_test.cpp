#include "notation/quantity_text.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <random>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace {

using namespace footroom;
using namespace footroom::notation;
using engine::Language;
namespace dimension = engine::dimension;

const Style point{Language::english, '.'};
const Style comma{Language::spanish, ','};

/// A no-break space is written _ here, the minus sign -.
std::string plain(std::string text) {
  for (const auto& [from, to] : {std::pair<std::string, std::string>{"\u00a0", "_"},
                                 std::pair<std::string, std::string>{"\u2212", "-"}})
    for (std::size_t at; (at = text.find(from)) != text.npos;) text.replace(at, from.size(), to);
  return text;
}
std::string number(double n, int places, Style style = point) {
  return plain(write_number(n, places, style));
}
std::string shortest(double n, Style style = point) {
  return plain(write_shortest(n, style));
}
std::string written(double n, std::string_view unit, int places, Style style = point) {
  return plain(write_quantity(n, *find_unit(unit), places, style));
}
std::string written_shortest(double n, std::string_view unit, Style style = point) {
  return plain(write_quantity_shortest(n, *find_unit(unit), style));
}

// ---- Writing

TEST(WriteNumber, GroupsThousandsAndKeepsPlaces) {
  EXPECT_EQ(number(1800, 1), "1,800.0");
  EXPECT_EQ(number(1800, 1, comma), "1_800,0");
  EXPECT_EQ(number(999, 0), "999");
  EXPECT_EQ(number(1234567.891, 2), "1,234,567.89");
  EXPECT_EQ(number(-22200, 0), "-22,200");
  EXPECT_EQ(number(0.05, 2), "0.05");
}

TEST(WriteNumber, HasNoSignWhereItRoundsToZero) {
  EXPECT_EQ(number(-0.04, 1), "0.0");
  EXPECT_EQ(number(-0.0, 0), "0");
  EXPECT_EQ(number(-0.06, 1), "-0.1");
}

TEST(WriteNumber, PrintsARealMinusSign) {
  EXPECT_EQ(write_number(-2.5, 1, point), "\u22122.5");
}

// 1.005 lies below its decimal, 2.675 too: both are rounded as what they are.
TEST(WriteNumber, RoundsTheBinaryNumberCorrectly) {
  EXPECT_EQ(number(1.005, 2), "1.00");
  EXPECT_EQ(number(2.675, 2), "2.67");
  EXPECT_EQ(number(0.15, 1), "0.1");
  EXPECT_EQ(number(0.25, 1), "0.2");  // a tie: to the even digit
  EXPECT_EQ(number(0.35, 1), "0.3");
  EXPECT_EQ(number(2.5, 0), "2");
  EXPECT_EQ(number(3.5, 0), "4");
}

// A second route: the C library's printf, which rounds correctly here.
TEST(WriteNumber, AgreesWithTheCLibrary) {
  std::mt19937_64 random(1);
  for (int i = 0; i < 20000; ++i) {
    const double n = static_cast<double>(random() >> 11) / std::exp2(random() % 60);
    const int places = static_cast<int>(random() % 7);
    char expected[400];
    std::snprintf(expected, sizeof expected, "%.*f", places, n);
    std::string got = write_number(n, places, point);
    got.erase(std::remove(got.begin(), got.end(), ','), got.end());
    ASSERT_EQ(got, expected);
  }
}

TEST(WriteNumber, RefusesWhatIsNoNumber) {
  EXPECT_THROW(write_number(NAN, 1, point), std::domain_error);
  EXPECT_THROW(write_shortest(INFINITY, point), std::domain_error);
  EXPECT_THROW(write_quantity(-INFINITY, *find_unit("ft"), 1, point), std::domain_error);
  EXPECT_THROW(write_quantity_shortest(NAN, *find_unit("ft-in"), point), std::domain_error);
}

TEST(WriteShortest, IsTheNumberAsItWasWritten) {
  EXPECT_EQ(shortest(4.5), "4.5");
  EXPECT_EQ(shortest(16), "16");
  EXPECT_EQ(shortest(0), "0");
  EXPECT_EQ(shortest(-0.0), "0");
  EXPECT_EQ(shortest(0.1 + 0.2), "0.3");
  EXPECT_EQ(shortest(1800), "1,800");
  EXPECT_EQ(shortest(-3.25, comma), "-3,25");
  EXPECT_EQ(shortest(1e15), "1,000,000,000,000,000");
  EXPECT_EQ(shortest(1.25e-9), "0.00000000125");
  EXPECT_EQ(shortest(0.0000123456789012345), "0.0000123456789012");
  EXPECT_EQ(shortest(999999999999.9), "1,000,000,000,000");
  EXPECT_EQ(shortest(1.0 / 3), "0.333333333333");
}

TEST(WriteShortest, ReadsBackAsTheSameNumber) {
  std::mt19937_64 random(2);
  for (int i = 0; i < 5000; ++i) {
    double n = static_cast<double>(random() % 1000000000);
    for (auto divisions = random() % 8; divisions > 0; --divisions) n /= 10;
    char digits[60];
    std::snprintf(digits, sizeof digits, "%.9g", n);
    n = std::strtod(digits, nullptr);
    const auto read = read_quantity(write_shortest(n, point), dimension::ratio);
    ASSERT_TRUE(std::holds_alternative<ReadQuantity>(read)) << digits;
    EXPECT_EQ(std::get<ReadQuantity>(read).number, n);
  }
}

TEST(WriteQuantity, PutsTheUnitBehindANoBreakSpace) {
  EXPECT_EQ(written(16, "ft", 0), "16_ft");
  EXPECT_EQ(written(26.565, "deg", 1), "26.6°");
  EXPECT_EQ(written(6, "pitch", 0), "6:12");
  EXPECT_EQ(written(1800, "lbf", 0), "1,800_lbf");
  EXPECT_EQ(written(1800, "lbf", 0, comma), "1_800_lbf");
  EXPECT_EQ(written(96, "ft2", 0), "96_ft²");
  EXPECT_EQ(written(50, "percent", 0), "50%");
  EXPECT_EQ(written(19.6, "ft/s", 1), "19.6_ft/s");
  EXPECT_EQ(written(1234.5, "ft-lbf", 1), "1,234.5_ft·lbf");
  EXPECT_EQ(written(0.5, "", 2), "0.50");
  EXPECT_EQ(written_shortest(4.25, "ft"), "4.25_ft");
}

TEST(FeetAndInches, AreRoundedToTheInchOrItsEighth) {
  EXPECT_EQ(written(4.5, "ft-in", 0), "4_ft_6_in");
  EXPECT_EQ(written(4.5 + 0.375 / 12, "ft-in", 0), "4_ft_6_in");
  EXPECT_EQ(written(4.5 + 0.375 / 12, "ft-in", 1), "4_ft_6-3/8_in");
  EXPECT_EQ(written(4.5 + 0.5 / 12, "ft-in", 1), "4_ft_6-1/2_in");
  EXPECT_EQ(written(4.0 + 0.25 / 12, "ft-in", 1), "4_ft_1/4_in");
  EXPECT_EQ(written(4.99, "ft-in", 0), "5_ft");
  EXPECT_EQ(written(0.5, "ft-in", 0), "6_in");
  EXPECT_EQ(written(0, "ft-in", 1), "0_ft");
  EXPECT_EQ(written(-4.5, "ft-in", 0), "-4_ft_6_in");
  EXPECT_EQ(written(-0.001, "ft-in", 0), "0_ft");
  EXPECT_EQ(written(1200.25, "ft-in", 0), "1,200_ft_3_in");
  EXPECT_EQ(written(-1e18, "ft-in", 1), "-1,000,000,000,000,000,000_ft");  // no count of parts
}

// 111-1/8 in: US Navy NAVEDTRA 14044, the rafter of a 7-in rise over a run of 8 ft
TEST(FeetAndInches, PrintARafterAsItIsPublished) {
  const double rafter_in = 8 * std::hypot(12.0, 7.0);
  EXPECT_EQ(written(rafter_in / 12, "ft-in", 1), "9_ft_3-1/8_in");
}

TEST(FeetAndInches, AreNotCoarsenedWhereTheyAreGiven) {
  EXPECT_EQ(written_shortest(4.5, "ft-in"), "4_ft_6_in");
  EXPECT_EQ(written_shortest(4 + 6.0625 / 12, "ft-in"), "4_ft_6-1/16_in");
  EXPECT_EQ(written_shortest(4.1, "ft-in"), "4_ft_1.2_in");
  EXPECT_EQ(written_shortest(1e18, "ft-in"), "1,000,000,000,000,000,000_ft");
  EXPECT_EQ(written_shortest(0.01, "ft-in", comma), "0,12_in");
  EXPECT_EQ(written_shortest(-4.1, "ft-in"), "-4_ft_1.2_in");
}

// ---- Boundaries

TEST(FeetAndInches, BesideTheTapeHaveTheFirstFootToo) {
  const Unit& unit = *find_unit("ft-in");
  EXPECT_TRUE(write_quantity_shortest(1.03, unit, point).starts_with("1\u00a0ft\u00a00.36"));
  EXPECT_TRUE(write_quantity_shortest(0.03, unit, point).starts_with("0.36"));
}

TEST(RoundingBoundary, IsNearAtATieAndOneBillionthBesideIt) {
  EXPECT_TRUE(near_rounding_boundary(2.5, 0));
  EXPECT_TRUE(near_rounding_boundary(-2.5, 0));
  EXPECT_TRUE(near_rounding_boundary(2.5 * (1 + 0.9e-9), 0));
  EXPECT_TRUE(near_rounding_boundary(2.5 * (1 - 0.9e-9), 0));
  EXPECT_FALSE(near_rounding_boundary(2.5 * (1 + 1.1e-9), 0));
  EXPECT_FALSE(near_rounding_boundary(2.5 * (1 - 1.1e-9), 0));
  EXPECT_TRUE(near_rounding_boundary(14.45, 1));
  EXPECT_TRUE(near_rounding_boundary(0.05, 1));
  EXPECT_FALSE(near_rounding_boundary(14.451, 1));
}

TEST(RoundingBoundary, BelowOneCountsInTheLastPlace) {
  EXPECT_TRUE(near_rounding_boundary(0.0005 + 0.9e-12, 3));
  EXPECT_FALSE(near_rounding_boundary(0.0005 + 1.2e-12, 3));
  EXPECT_FALSE(near_rounding_boundary(0.5 + 1.05e-9, 0));
  EXPECT_TRUE(near_rounding_boundary(0.5 + 0.95e-9, 0));
}

TEST(RoundingBoundary, IsFarFromTheGridItself) {
  for (int i = 0; i < 1000; ++i) EXPECT_FALSE(near_rounding_boundary(i / 10.0, 1)) << i;
  EXPECT_FALSE(near_rounding_boundary(0, 2));
  EXPECT_FALSE(near_rounding_boundary(1234567890, 0));  // its billionth is more than half
  EXPECT_TRUE(near_rounding_boundary(1234567890.25, 0));
}

TEST(RoundingBoundary, TakesWhatIsNoNumberAsNear) {
  EXPECT_TRUE(near_rounding_boundary(NAN, 1));
  EXPECT_TRUE(near_rounding_boundary(INFINITY, 1));
}

TEST(RoundingBoundary, OfFeetAndInchesIsThatOfTheInchOrItsEighth) {
  const Unit& unit = *find_unit("ft-in");
  EXPECT_TRUE(near_rounding_boundary(4 + 6.5 / 12, unit, 0));
  EXPECT_FALSE(near_rounding_boundary(4 + 6.5 / 12, unit, 1));
  EXPECT_TRUE(near_rounding_boundary(4 + 6.0625 / 12, unit, 1));
  EXPECT_FALSE(near_rounding_boundary(4.5, unit, 0));
  EXPECT_TRUE(near_rounding_boundary(2.5, *find_unit("ft"), 0));
}

// What it promises: away from a boundary a relative change of 1e-9 prints the same.
TEST(RoundingBoundary, GuardsAgainstEveryChangeOfABillionth) {
  std::mt19937_64 random(3);
  int near = 0;
  for (int i = 0; i < 20000; ++i) {
    const int places = static_cast<int>(random() % 4);
    const double tie = (static_cast<double>(random() % 20000) + 0.5) / std::pow(10.0, places);
    const double n = tie * (1 + (static_cast<double>(random() % 400) - 200) * 2e-11);
    if (near_rounding_boundary(n, places)) {
      ++near;
      continue;
    }
    ASSERT_EQ(write_number(n * (1 - 0.99e-9), places, point), write_number(n, places, point)) << n;
    ASSERT_EQ(write_number(n * (1 + 0.99e-9), places, point), write_number(n, places, point)) << n;
  }
  EXPECT_GT(near, 1000);
}

// ---- Reading

struct Readable {
  const char* text;
  engine::Dimension expected;
  const char* unit;
  double number;
};

class Reads : public testing::TestWithParam<Readable> {};

TEST_P(Reads, AsPeopleTypeIt) {
  const auto& row = GetParam();
  const auto read = read_quantity(row.text, row.expected);
  if (const auto* error = std::get_if<ReadError>(&read)) FAIL() << error->message;
  const auto& got = std::get<ReadQuantity>(read);
  EXPECT_EQ(got.unit->name, row.unit);
  EXPECT_NEAR(got.number, row.number, 1e-12 * std::fabs(row.number));
  EXPECT_EQ(got.quantity.dimension, row.expected);
  EXPECT_EQ(got.quantity.si, got.unit->to_si(got.number));
}

constexpr auto length = dimension::length;
INSTANTIATE_TEST_SUITE_P(
    Quantities, Reads,
    testing::Values(
        Readable{"16 ft", length, "ft", 16}, Readable{"16ft", length, "ft", 16},
        Readable{"  16   ft  ", length, "ft", 16}, Readable{"16\u00a0ft", length, "ft", 16},
        Readable{"16 feet", length, "ft", 16}, Readable{"1 foot", length, "ft", 1},
        Readable{"16 FT", length, "ft", 16}, Readable{"16 ft.", length, "ft", 16},
        Readable{"16 pies", length, "ft", 16}, Readable{"16'", length, "ft", 16},
        Readable{"16′", length, "ft", 16}, Readable{"16’", length, "ft", 16},
        Readable{"7 in", length, "in", 7}, Readable{"7\"", length, "in", 7},
        Readable{"7”", length, "in", 7}, Readable{"7 inches", length, "in", 7},
        Readable{"1/2 in", length, "in", 0.5}, Readable{"1/0.5 in", length, "in", 2},
        Readable{"½ in", length, "in", 0.5}, Readable{"6½\"", length, "in", 6.5},
        Readable{"6-1/2 in", length, "in", 6.5}, Readable{"111-1/8 in", length, "in", 111.125},
        Readable{"12 1/2 ft", length, "ft", 12.5}, Readable{"4 ft 6 in", length, "ft", 4.5},
        Readable{"4' 6\"", length, "ft", 4.5}, Readable{"4'6\"", length, "ft", 4.5},
        Readable{"4'-6\"", length, "ft", 4.5},
        Readable{"4 ft 6-1/2 in", length, "ft", 4 + 6.5 / 12},
        Readable{"4 ft 6 1/2 in", length, "ft", 4 + 6.5 / 12},
        Readable{"4ft 6in", length, "ft", 4.5}, Readable{"4 feet 6 inches", length, "ft", 4.5},
        Readable{"-4 ft 6 in", length, "ft", -4.5}, Readable{"-2 ft", length, "ft", -2},
        Readable{"\u22122 ft", length, "ft", -2}, Readable{"+2 ft", length, "ft", 2},
        Readable{".5 ft", length, "ft", 0.5}, Readable{"12.5 ft", length, "ft", 12.5},
        Readable{"12,5 ft", length, "ft", 12.5}, Readable{"0,125 in", length, "in", 0.125},
        Readable{"12,25 ft", length, "ft", 12.25}, Readable{"1,8000 m", length, "m", 1.8},
        Readable{"1800,500 m", length, "m", 1800.5}, Readable{"3 m", length, "m", 3},
        Readable{"3 metros", length, "m", 3}, Readable{"30 cm", length, "cm", 30},
        Readable{"450 mm", length, "mm", 450}, Readable{"1,800 lbf", dimension::force, "lbf", 1800},
        Readable{"1,234,567.5 lbf", dimension::force, "lbf", 1234567.5},
        Readable{"1 800 lbf", dimension::force, "lbf", 1800},
        Readable{"1\u00a0800,5\u00a0lbf", dimension::force, "lbf", 1800.5},
        Readable{"220lbf", dimension::force, "lbf", 220},
        Readable{"6 kN", dimension::force, "kN", 6}, Readable{"6 kn", dimension::force, "kN", 6},
        Readable{"900 N", dimension::force, "N", 900},
        Readable{"5,000 pounds-force", dimension::force, "lbf", 5000},
        Readable{"6:12", dimension::angle, "pitch", 6},
        Readable{"6 : 12", dimension::angle, "pitch", 6},
        Readable{"4.5:12", dimension::angle, "pitch", 4.5},
        Readable{"3:4", dimension::angle, "pitch", 9},
        Readable{"6/12", dimension::angle, "pitch", 6},
        Readable{"6/12 pitch", dimension::angle, "pitch", 6},
        Readable{"6:12 pitch", dimension::angle, "pitch", 6},
        Readable{"6 in 12", dimension::angle, "pitch", 6},
        Readable{"6 pitch", dimension::angle, "pitch", 6},
        Readable{"26.57 deg", dimension::angle, "deg", 26.57},
        Readable{"26.57°", dimension::angle, "deg", 26.57},
        Readable{"20 grados", dimension::angle, "deg", 20},
        Readable{"20 degrees", dimension::angle, "deg", 20},
        Readable{"0.3 rad", dimension::angle, "rad", 0.3},
        Readable{"220 lb", dimension::mass, "lb", 220},
        Readable{"220 lbs", dimension::mass, "lb", 220},
        Readable{"220 pounds", dimension::mass, "lb", 220},
        Readable{"100 kg", dimension::mass, "kg", 100},
        Readable{"100 kilos", dimension::mass, "kg", 100},
        Readable{"96 sq ft", dimension::area, "ft2", 96},
        Readable{"96 ft²", dimension::area, "ft2", 96},
        Readable{"96 square feet", dimension::area, "ft2", 96},
        Readable{"9 m²", dimension::area, "m2", 9}, Readable{"9 m^2", dimension::area, "m2", 9},
        Readable{"1.5 s", dimension::time, "s", 1.5},
        Readable{"16 ft/s", dimension::speed, "ft/s", 16},
        Readable{"16 feet per second", dimension::speed, "ft/s", 16},
        Readable{"9.8 m/s²", dimension::acceleration, "m/s2", 9.8},
        Readable{"1,200 ft-lb", dimension::energy, "ft-lbf", 1200},
        Readable{"1,200 ft lbf", dimension::energy, "ft-lbf", 1200},
        Readable{"2 kJ", dimension::energy, "kJ", 2},
        Readable{"300 lb/ft", dimension::stiffness, "lbf/ft", 300},
        Readable{"90 psi", dimension::pressure, "psi", 90}, Readable{"3", dimension::ratio, "", 3},
        Readable{"1/4", dimension::ratio, "", 0.25}, Readable{"-0.5", dimension::ratio, "", -0.5},
        Readable{"0,6", dimension::ratio, "", 0.6},
        Readable{"10%", dimension::ratio, "percent", 10},
        Readable{"10 percent", dimension::ratio, "percent", 10}));

TEST(ReadQuantity, TakesAMassForTheWeightOfThatMass) {
  const auto kilograms = std::get<ReadQuantity>(read_quantity("100 kg", dimension::force));
  EXPECT_DOUBLE_EQ(kilograms.quantity.si, 980.665);
  EXPECT_EQ(kilograms.unit->name, "kg");
  EXPECT_EQ(kilograms.number, 100);
  const auto pounds = std::get<ReadQuantity>(read_quantity("220 lb", dimension::force));
  EXPECT_DOUBLE_EQ(pounds.quantity.si, 220 * 4.4482216152605);
}

struct Refused {
  const char* text;
  engine::Dimension expected;
  const char* message;
};

class Refuses : public testing::TestWithParam<Refused> {};

TEST_P(Refuses, AndSaysWhatWasExpected) {
  const auto& row = GetParam();
  const auto read = read_quantity(row.text, row.expected);
  ASSERT_TRUE(std::holds_alternative<ReadError>(read)) << std::get<ReadQuantity>(read).number;
  EXPECT_EQ(std::get<ReadError>(read).message, row.message);
}

INSTANTIATE_TEST_SUITE_P(
    Texts, Refuses,
    testing::Values(
        Refused{"", length, "'' is not a quantity, expected a length (ft, in, m, cm, mm)"},
        Refused{"abc", length, "'abc' is not a quantity, expected a length (ft, in, m, cm, mm)"},
        Refused{"nan ft", dimension::force,
                "'nan ft' is not a quantity, expected a force (lbf, N, kN)"},
        Refused{"inf", dimension::ratio,
                "'inf' is not a quantity, expected a plain number (percent)"},
        Refused{"16", length, "'16' has no unit, expected a length (ft, in, m, cm, mm)"},
        Refused{"16 feets", length, "unknown unit 'feets', did you mean 'ft'?"},
        Refused{"16 furlong", length,
                "unknown unit 'furlong', expected a length (ft, in, m, cm, mm)"},
        Refused{"6 mPa", dimension::pressure, "unknown unit 'mPa', did you mean 'MPa'?"},
        Refused{"16 lb", length, "'16 lb' is a mass, expected a length (ft, in, m, cm, mm)"},
        Refused{"220 lbf", dimension::mass, "'220 lbf' is a force, expected a mass (lb, kg)"},
        Refused{"6:12", length, "'6:12' is an angle, expected a length (ft, in, m, cm, mm)"},
        Refused{"6:0", dimension::angle, "'6:0' is no pitch, expected rise and run, as 6:12"},
        Refused{"6:12 ft", dimension::angle,
                "'6:12 ft' is no pitch, expected rise and run, as 6:12"},
        Refused{"1/0 in", length,
                "'1/0 in' is not a quantity, expected a length (ft, in, m, cm, mm)"},
        Refused{"3 ft", dimension::ratio, "'3 ft' is a length, expected a plain number (percent)"},
        Refused{"16 ft of rope", length,
                "'16 ft of rope' cannot be read, expected feet and inches, as 4 ft 6 in"},
        Refused{"16 m of rope", length,
                "'16 m of rope' goes on with 'of rope' after the quantity, expected its end"},
        Refused{"4' 6", length, "'4' 6' cannot be read, expected feet and inches, as 4 ft 6 in"},
        Refused{"4 ft 12 in", length,
                "'4 ft 12 in' cannot be read, expected feet and inches, as 4 ft 6 in"},
        Refused{"4.5 ft 6 in", length,
                "'4.5 ft 6 in' cannot be read, expected feet and inches, as 4 ft 6 in"},
        Refused{"4 ft -6 in", length,
                "'4 ft -6 in' cannot be read, expected feet and inches, as 4 ft 6 in"},
        Refused{"4 m 20 cm", length,
                "'4 m 20 cm' goes on with '20 cm' after the quantity, expected its end"},
        Refused{"1.800,5 m", length, "unknown unit ',5', expected a length (ft, in, m, cm, mm)"},
        Refused{"1,800,5 m", length, "unknown unit ',5', expected a length (ft, in, m, cm, mm)"},
        Refused{"1e3 m", length, "unknown unit 'e3', expected a length (ft, in, m, cm, mm)"},
        Refused{"--2 ft", length,
                "'--2 ft' is not a quantity, expected a length (ft, in, m, cm, mm)"},
        Refused{"2", {1, 2, 0, 0}, "'2' has no unit, expected m kg2"}));

// A fraction behind a whole number is a part of one.
TEST(ReadQuantity, TakesNoWholeFractionBehindANumber) {
  const auto is_read = [](const char* text) {
    return std::holds_alternative<ReadQuantity>(read_quantity(text, length));
  };
  EXPECT_TRUE(is_read("6 3/4 in"));
  EXPECT_FALSE(is_read("6 4/4 in"));
  EXPECT_FALSE(is_read("6 5/4 in"));
  EXPECT_TRUE(is_read("5/4 in"));
}

TEST(ReadQuantity, RefusesANumberThatIsTooLarge) {
  const auto read = read_quantity(std::string(150, '9') + "," + std::string(40, '9'), {});
  EXPECT_TRUE(std::holds_alternative<ReadQuantity>(read));  // 1e150 is a number
  const auto longer = read_quantity(std::string(201, '9'), length);
  ASSERT_TRUE(std::holds_alternative<ReadError>(longer));
  EXPECT_EQ(std::get<ReadError>(longer).message,
            "longer than 200 characters, expected a length (ft, in, m, cm, mm)");
}

TEST(ReadQuantity, ReadsBackWhatIsWrittenInEveryUnit) {
  std::mt19937_64 random(4);
  for (const Unit& unit : all_units())
    for (int i = 0; i < 200; ++i) {
      const int places = static_cast<int>(random() % 3);
      double n = static_cast<double>(random() % 2000000) / 100 - 5000;
      if (unit.name == "ft-in") n = std::round(n * 96) / 96;
      const std::string text = write_quantity(n, unit, places, point);
      const auto read = read_quantity(text, unit.dimension);
      ASSERT_TRUE(std::holds_alternative<ReadQuantity>(read)) << std::get<ReadError>(read).message;
      const double last_place = unit.name == "ft-in" ? 1.0 / 24 : 0.5001 * std::pow(10.0, -places);
      EXPECT_NEAR(unit.from_si(std::get<ReadQuantity>(read).quantity.si), n,
                  last_place + 1e-9 * std::fabs(n))
          << text;
    }
}

TEST(ReadQuantity, ReadsBackADecimalCommaUnlessItLooksLikeThousands) {
  for (const double n : {1234567.25, 1800.5, 12.5, 0.125, 999.9, 20000.0}) {
    const std::string text = write_quantity_shortest(n, *find_unit("m"), comma);
    const auto read = read_quantity(text, length);
    ASSERT_TRUE(std::holds_alternative<ReadQuantity>(read)) << text;
    EXPECT_EQ(std::get<ReadQuantity>(read).number, n) << text;
  }
}

TEST(ReadQuantity, TakesAnyTextWithoutHarm) {
  const std::vector<std::string> pieces = {
      "1",  "12",   "800",      ",",      ".",  "-",   "/",   ":", " ", "ft", "in", "'",
      "\"", "lb",   "°",        "½",      "kN", "%",   "e",   "+", "2", "²",  "m",  "/12",
      "s",  "\xc2", "\xe2\x80", "\u00a0", "12", "sq ", "nan", "x", "0", "N"};
  std::mt19937_64 random(5);
  int read_well = 0;
  for (int i = 0; i < 10000; ++i) {
    std::string text;
    for (auto count = random() % 9; count > 0; --count) text += pieces[random() % pieces.size()];
    for (const auto expected : {length, dimension::angle, dimension::ratio, dimension::force}) {
      const auto read = read_quantity(text, expected);
      if (const auto* q = std::get_if<ReadQuantity>(&read)) {
        ++read_well;
        ASSERT_TRUE(std::isfinite(q->quantity.si)) << text;
        ASSERT_EQ(q->quantity.dimension, expected) << text;
      } else {
        ASSERT_FALSE(std::get<ReadError>(read).message.empty());
      }
    }
  }
  EXPECT_GT(read_well, 300);
  for (int i = 0; i < 10000; ++i) {
    std::string text(random() % 24, ' ');
    for (char& c : text) c = static_cast<char>(random() % 256);
    read_quantity(text, length);
  }
}

TEST(DimensionInWords, NamesTheCommonOnes) {
  EXPECT_EQ(dimension_in_words(dimension::length), "a length");
  EXPECT_EQ(dimension_in_words(dimension::area), "an area");
  EXPECT_EQ(dimension_in_words(dimension::force), "a force");
  EXPECT_EQ(dimension_in_words(dimension::ratio), "a plain number");
  EXPECT_EQ(dimension_in_words({2, 1, -1, 0}), "m2 kg s-1");
  EXPECT_EQ(dimension_in_words({1, 0, 0, 1}), "m rad");
}

}  // namespace
