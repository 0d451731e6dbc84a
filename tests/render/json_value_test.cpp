#include "render/json_value.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace footroom::render {
namespace {

using engine::Quantities;
using engine::Quantity;
using engine::Word;
using engine::Words;
namespace dimension = engine::dimension;

TEST(JsonValue, GivesAQuantityInSiWithTheNameOfItsBaseUnit) {
  EXPECT_EQ(json_value(Quantity{dimension::length, 4 * 0.3048}, "4 ft").dump(),
            R"({"si":1.2192,"unit":"m","text":"4 ft"})");
  EXPECT_EQ(json_value(Quantity{dimension::ratio, 0.25}, "0.25").dump(),
            R"({"si":0.25,"unit":"","text":"0.25"})");
}

TEST(JsonValue, GivesWordsAndLists) {
  EXPECT_EQ(json_value(Word{"below-edge"}, "below the edge").dump(),
            R"({"word":"below-edge","text":"below the edge"})");
  EXPECT_EQ(json_value(Words{{"1-over-2"}, {"2-under-3"}}, "over, under").dump(),
            R"({"words":["1-over-2","2-under-3"],"text":"over, under"})");
  EXPECT_EQ(
      json_value(Quantities{{dimension::length, 0.1}, {dimension::length, 0.3}}, "10 cm, 30 cm")
          .dump(),
      R"({"si":[0.1,0.3],"unit":"m","text":"10 cm, 30 cm"})");
}

TEST(JsonValue, WritesTwelveSignificantDigits) {
  EXPECT_EQ(nlohmann::json(twelve_digits(0.1 + 0.2)).dump(), "0.3");
  EXPECT_EQ(nlohmann::json(twelve_digits(4448.2216152605)).dump(), "4448.22161526");
  EXPECT_EQ(nlohmann::json(twelve_digits(-1.0 / 3)).dump(), "-0.333333333333");
  EXPECT_FALSE(std::signbit(twelve_digits(-0.0)));
}

TEST(JsonValue, WritesNineWhereProcessorsDiffer) {
  EXPECT_EQ(nlohmann::json(nine_digits(0.0666749487507)).dump(), "0.0666749488");
  EXPECT_EQ(nine_digits(0.06667494875075), nine_digits(0.06667494875074));
  EXPECT_EQ(nine_digits(1234567890), 1234567890);
  const double half = 1968.147025;
  EXPECT_EQ(nlohmann::json(nine_digits(std::nextafter(half, 0))).dump(), "1968.14703");
  EXPECT_EQ(nlohmann::json(nine_digits(std::nextafter(half, 2000))).dump(), "1968.14703");
  EXPECT_FALSE(std::signbit(nine_digits(-0.0)));
}

TEST(JsonValue, NamesBaseUnits) {
  EXPECT_EQ(base_unit_name(dimension::force), "N");
  EXPECT_EQ(base_unit_name(dimension::mass), "kg");
  EXPECT_EQ(base_unit_name(dimension::angle), "rad");
  EXPECT_EQ(base_unit_name(dimension::energy), "J");
  EXPECT_EQ(base_unit_name(dimension::stiffness), "N/m");
  EXPECT_EQ(base_unit_name(dimension::force + dimension::area), "kg m3 s-2");
}

}  // namespace
}  // namespace footroom::render
