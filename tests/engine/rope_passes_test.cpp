#include "engine/rope_passes.hpp"

#include <gtest/gtest.h>

#include <map>
#include <set>
#include <vector>

namespace footroom::engine {
namespace {

// The independent route: Artin's action on the free group. s_i sends x_i to x_i x_{i+1} x_i^-1 and
// x_{i+1} to x_i; it is faithful, so a word is trivial exactly if it fixes every x_i. A letter of
// the free group is +k or -k.
using FreeWord = std::vector<int>;

void push(FreeWord& word, int letter) {
  if (!word.empty() && word.back() == -letter)
    word.pop_back();
  else
    word.push_back(letter);
}

FreeWord substituted(const FreeWord& word, const std::map<int, FreeWord>& images) {
  FreeWord all;
  for (const int letter : word) {
    const FreeWord& image = images.at(std::abs(letter));
    if (letter > 0)
      for (const int l : image) push(all, l);
    else
      for (std::size_t i = image.size(); i-- > 0;) push(all, -image[i]);
  }
  return all;
}

std::vector<FreeWord> action(int n, const RopePasses& passes) {
  std::vector<FreeWord> words;
  for (int k = 1; k <= n; ++k) words.push_back({k});
  for (const RopePass& pass : passes) {
    std::map<int, FreeWord> images;
    for (int k = 1; k <= n; ++k) images[k] = {k};
    const int i = pass.place;
    if (pass.over) {
      images[i] = {i, i + 1, -i};
      images[i + 1] = {i};
    } else {
      images[i] = {i + 1};
      images[i + 1] = {-(i + 1), i, i + 1};
    }
    for (FreeWord& word : words) word = substituted(word, images);
  }
  return words;
}

bool trivial_by_action(int n, const RopePasses& passes) {
  return action(n, passes) == action(n, {});
}

std::vector<RopePasses> all_words(int n, int length) {
  std::vector<RopePasses> words = {{}};
  for (int l = 0; l < length; ++l) {
    std::vector<RopePasses> longer;
    for (const RopePasses& word : words)
      for (int place = 1; place < n; ++place)
        for (const bool over : {true, false}) {
          longer.push_back(word);
          longer.back().push_back({place, over});
        }
    words = std::move(longer);
  }
  return words;
}

RopePasses passes(const std::string& text) {
  Words words;
  std::string word;
  for (const char c : text + " ") {
    if (c != ' ') {
      word += c;
    } else if (!word.empty()) {
      words.push_back({word});
      word.clear();
    }
  }
  return read_passes(words);
}

RopePasses joined(RopePasses a, const RopePasses& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

RopePasses repeated(const RopePasses& word, int times) {
  RopePasses all;
  for (int i = 0; i < times; ++i) all = joined(all, word);
  return all;
}

bool is_free(int workers, const RopePasses& word) {
  return rope_passes({workers, word}).state == RopeState::free;
}

TEST(RopePasses, EveryShortWordIsDecidedAsTheFreeGroupDecidesIt) {
  for (const auto& [n, length] : std::map<int, int>{{2, 10}, {3, 7}, {4, 5}, {5, 4}})
    for (int l = 0; l <= length; ++l)
      for (const RopePasses& word : all_words(n, l))
        ASSERT_EQ(is_free(n, word), trivial_by_action(n, word)) << n << " ropes, length " << l;
}

TEST(RopePasses, FarPassesCommute) {
  EXPECT_TRUE(is_free(4, passes("1-over 3-over 1-under 3-under")));
  EXPECT_TRUE(is_free(8, passes("2-under 6-over 2-over 6-under")));
  EXPECT_FALSE(is_free(3, passes("1-over 2-over 1-under 2-under")));
}

TEST(RopePasses, TheThreeStrandRelationHolds) {
  EXPECT_TRUE(is_free(3, passes("1-over 2-over 1-over 2-under 1-under 2-under")));
  EXPECT_FALSE(is_free(3, passes("1-over 2-over 1-over 2-under 1-under 2-over")));
}

TEST(RopePasses, AFullTwistBringsEveryoneHomeAndStillTangles) {
  for (int n = 2; n <= 8; ++n) {
    RopePasses once;
    for (int place = 1; place < n; ++place) once.push_back({place, true});
    const auto r = rope_passes({n, repeated(once, n)});  // (s_1 ... s_{n-1})^n
    EXPECT_EQ(r.home, RopeHome::all_home);
    EXPECT_EQ(r.state, RopeState::tangled);
    EXPECT_EQ(r.undoing.size(), once.size() * static_cast<std::size_t>(n));
    EXPECT_EQ(r.length, UndoingLength::shortest);  // its sum of signs cannot be met by fewer
  }
}

TEST(RopePasses, TheFullTwistCommutesWithEveryPass) {
  const RopePasses twist = repeated(passes("1-over 2-over 3-over 4-over"), 5);
  RopePasses back;
  for (std::size_t i = twist.size(); i-- > 0;) back.push_back({twist[i].place, !twist[i].over});
  for (int place = 1; place <= 4; ++place)
    EXPECT_TRUE(is_free(5, joined(joined(joined(twist, {{place, true}}), back), {{place, false}})));
}

TEST(RopePasses, TheUndoingUndoes) {
  std::uint32_t state = 12345;  // any fixed sequence of words will do
  const auto next = [&] { return state = state * 1664525u + 1013904223u; };
  for (int round = 0; round < 40; ++round) {
    const int n = 2 + static_cast<int>((next() >> 16) % 7);
    const std::size_t length = (next() >> 16) % 65;
    RopePasses word;
    for (std::size_t i = 0; i < length; ++i)
      word.push_back({1 + static_cast<int>((next() >> 16) % (n - 1)), (next() >> 20) % 2 == 0});
    const auto r = rope_passes({n, word});
    EXPECT_LE(r.undoing.size(), word.size());
    EXPECT_TRUE(lie_alike(n, joined(word, r.undoing), {}));
    if (length <= 12) {
      EXPECT_TRUE(trivial_by_action(n, joined(word, r.undoing)));
    }
  }
}

TEST(RopePasses, TheUndoingIsTheShortest) {
  // Breadth-first over the free-group images gives the true distance of every braid from straight.
  for (const auto& [n, radius] : std::map<int, int>{{3, 6}, {4, 4}}) {
    std::map<std::vector<FreeWord>, int> distance;
    for (int l = 0; l <= radius; ++l)
      for (const RopePasses& word : all_words(n, l)) distance.try_emplace(action(n, word), l);
    for (const RopePasses& word : all_words(n, radius)) {
      const auto r = rope_passes({n, word});
      ASSERT_EQ(r.length, UndoingLength::shortest);
      ASSERT_EQ(static_cast<int>(r.undoing.size()), distance.at(action(n, word)));
    }
  }
}

TEST(RopePasses, PlacesFollowThePasses) {
  EXPECT_EQ(rope_passes({3, passes("1-over 2-under")}).places, (std::vector<int>{2, 3, 1}));
  EXPECT_EQ(rope_passes({3, passes("1-over 2-under")}).home, RopeHome::not_home);
}

std::string refusal(const RopePassesCase& c) {
  try {
    rope_passes(c);
  } catch (const Refusal& r) {
    return r.what();
  }
  return "not refused";
}

TEST(RopePasses, RefusesWhatIsNoPass) {
  EXPECT_EQ(refusal({9, {}}), "rope-passes: workers: is 9, expected a whole number from 2 to 8");
  EXPECT_EQ(refusal({3, {{3, true}}}),
            "rope-passes: passes: names place 3, expected 1 to 2 for 3 workers");
  EXPECT_EQ(refusal({2, RopePasses(65, RopePass{1, true})}),
            "rope-passes: passes: has 65 passes, expected at most 64");
  EXPECT_EQ(refusal({1, {}}), "rope-passes: workers: is 1, expected a whole number from 2 to 8");
  EXPECT_EQ(refusal({2, {}}), "not refused");
  EXPECT_EQ(refusal({8, {{7, false}}}), "not refused");
  EXPECT_EQ(refusal({3, {{0, true}}}),
            "rope-passes: passes: names place 0, expected 1 to 2 for 3 workers");
  EXPECT_EQ(refusal({2, RopePasses(64, RopePass{1, true})}), "not refused");
  for (const char* word : {"2-ove", "2-overs", "1xover", "1-unde", "1xunder", ":-over", "/-under",
                           "over", "1-", "", "12-over"})
    EXPECT_THROW(read_passes({{word}}), Refusal) << word;
  EXPECT_EQ(read_passes({{"9-over"}}).at(0).place, 9);
  EXPECT_THROW(read_passes({{"2-ove"}}), Refusal);
  EXPECT_THROW(read_passes({{"0-over"}}), Refusal);
  EXPECT_EQ(write_passes(read_passes({{"2-over"}, {"1-under"}})), (Words{{"2-over"}, {"1-under"}}));
}

TEST(RopePasses, TheCatalogueTakesAndGivesWords) {
  const Values out = find_calculation("rope-passes")
                         ->run({{"workers", Quantity{dimension::ratio, 3}},
                                {"passes", Words{{"1-over"}, {"1-over"}}}});
  EXPECT_EQ(out.at("state"), Value(Word{"tangled"}));
  EXPECT_EQ(out.at("undoing"), Value(Words{{"1-under"}, {"1-under"}}));
}

}  // namespace
}  // namespace footroom::engine
