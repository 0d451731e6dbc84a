#include "figure/lettering.hpp"

#include <gtest/gtest.h>

#include "figure/placing.hpp"

namespace footroom::figure {
namespace {

TEST(Lettering, SetsIndicesLow) {
  for (const std::string_view written : {"d₀", "d_0"}) {
    const auto runs = symbol_runs(written);
    ASSERT_EQ(runs.size(), 2u) << written;
    EXPECT_EQ(runs[0].text, "d");
    EXPECT_TRUE(runs[0].italic);
    EXPECT_EQ(runs[1].text, "0");
    EXPECT_TRUE(runs[1].lowered);
  }
  const auto index_of_letters = symbol_runs("F_max");
  ASSERT_EQ(index_of_letters.size(), 2u);
  EXPECT_EQ(index_of_letters[1].text, "max");
  EXPECT_FALSE(symbol_runs("FF")[0].italic);
  EXPECT_TRUE(symbol_runs("θ")[0].italic);
}

TEST(Lettering, AsksWithAQuestionMark) {
  const auto runs = tag_runs({"L", ""});
  ASSERT_EQ(runs.size(), 2u);
  EXPECT_EQ(runs[1].text, " = ?");
  EXPECT_EQ(tag_runs({"", "steep"})[0].text, "steep");
}

// Advance widths of Liberation Sans 2.1 at 1000 units an em, read from the font's hmtx table.
TEST(Lettering, IsAtLeastAsWideAsTheFont) {
  EXPECT_GE(text_width("L", 1), 0.556);
  EXPECT_GE(text_width("W", 1), 0.944);
  EXPECT_GE(text_width("16\u00a0ft", 1), 2 * 0.556 + 0.278 + 0.278 + 0.278);
  EXPECT_GE(text_width("θ", 1), 0.556);
  EXPECT_GE(text_width("ñ", 1), 0.556);
  EXPECT_LE(text_width("16\u00a0ft", 1), 1.1 * (2 * 0.556 + 0.278 + 0.278 + 0.278));
}

TEST(Placing, TellsTurnedBoxesApart) {
  const Box flat{{0, 0}, 10, 1, 0};
  EXPECT_TRUE(overlap(flat, {{5, 0}, 1, 1, 0}));
  EXPECT_FALSE(overlap(flat, {{0, 2.1}, 1, 1, 0}));
  EXPECT_TRUE(overlap(flat, {{0, 2.1}, 1, 1, 0}, 0.5));
  // A square on its corner reaches sqrt(2) times as far.
  EXPECT_TRUE(overlap(flat, {{0, 2.3}, 1, 1, M_PI / 4}));
  EXPECT_FALSE(overlap(flat, {{0, 2.5}, 1, 1, M_PI / 4}));
  // Their upright bounds overlap, they do not.
  EXPECT_FALSE(overlap({{0, 0}, 10, 0.5, M_PI / 4}, {{5, -5}, 1, 1, 0}));
}

TEST(Placing, PrefersTheFreePlace) {
  Places places;
  places.add(Obstacle{{0, 0}, {20, 0}, 0.5, 8});
  places.add(Box{{5, -3}, 4, 1, 0});
  const std::vector<Candidate> candidates = {{{{5, -3}, 2, 1, 0}, 0, {}},    // taken
                                             {{{10, 0}, 2, 1, 0}, 0.1, {}},  // across the line
                                             {{{14, -3}, 2, 1, 0}, 1, {}}};
  EXPECT_EQ(places.cheapest(candidates), &candidates[2]);
  EXPECT_EQ(places.cheapest({candidates[0]}), nullptr);
}

}  // namespace
}  // namespace footroom::figure
