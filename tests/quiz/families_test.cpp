// Choosing families: shares, the level mix, minutes, and what was asked before. The banks here have
// bare items: a choice looks at topic, level and minutes alone.

#include "quiz/families.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "quiz/blueprint.hpp"
#include "quiz/fixture.hpp"

namespace footroom::quiz {
namespace {

using namespace tests;

constexpr std::uint64_t many_seeds = 300;

/// Topics "roof" and "swing" with `each` items of each level; minutes are the level's number.
bank::Bank bank_of(int each) {
  bank::Bank bank = small_bank();
  for (const char* topic : {"roof", "swing"})
    for (int level = 1; level <= 4; ++level)
      for (int i = 0; i < each; ++i) {
        bank::Item item;
        item.id = std::string(topic) + "-" + std::to_string(level) + "-" + std::to_string(i);
        item.topic = topic;
        item.level = level;
        item.minutes = level;
        item.points = level;
        bank.items.push_back(std::move(item));
      }
  return bank;
}

bank::Section numbered(const std::string& topic, int questions, std::vector<int> levels = {}) {
  return {topic, questions, std::move(levels), {"b.xml", topic == "roof" ? 7 : 8}};
}

bank::Section shared(const std::string& topic, int share) {
  bank::Section section = numbered(topic, 0);
  section.share = share;
  return section;
}

bank::LevelRule level_share(int level, int share) {
  return {level, share, 0, std::nullopt, {"b.xml", 2 + level}};
}

bank::LevelRule level_bounds(int level, int at_least, std::optional<int> at_most = {}) {
  return {level, std::nullopt, at_least, at_most, {"b.xml", 2 + level}};
}

bank::Blueprint blueprint_of(std::vector<bank::Section> sections, int questions = 0,
                             std::vector<bank::LevelRule> levels = {}) {
  bank::Blueprint blueprint;
  blueprint.id = "b";
  blueprint.minutes = 100;
  blueprint.at = {"b.xml", 1};
  blueprint.sections = std::move(sections);
  blueprint.questions = questions;
  blueprint.levels = std::move(levels);
  return blueprint;
}

std::vector<ChosenFamily> choose(const bank::Bank& bank, const bank::Blueprint& blueprint,
                                 std::uint64_t seed = 1, Settings settings = settings_of()) {
  return choose_families(bank, blueprint, settings, {seed, 3, 5, 0});
}

std::set<std::string, std::less<>> ids_of(const std::vector<ChosenFamily>& chosen) {
  std::set<std::string, std::less<>> ids;
  for (const ChosenFamily& one : chosen) ids.insert(one.item->id);
  EXPECT_EQ(ids.size(), chosen.size()) << "a family was chosen twice";
  return ids;
}

std::array<int, most_level> levels_of(const std::vector<ChosenFamily>& chosen) {
  std::array<int, most_level> levels{};
  for (const ChosenFamily& one : chosen) ++levels[static_cast<std::size_t>(one.item->level - 1)];
  return levels;
}

std::string refusal_of(const bank::Bank& bank, const bank::Blueprint& blueprint,
                       const Settings& settings = settings_of()) {
  try {
    choose(bank, blueprint, 1, settings);
  } catch (const CannotMake& refusal) {
    return refusal.what();
  }
  return "none";
}

TEST(Families, HoldSharesAndTheLevelMixExactly) {
  const bank::Bank bank = bank_of(5);
  const auto blueprint =
      blueprint_of({shared("roof", 2), shared("swing", 1)}, 16,
                   {level_share(1, 1), level_share(2, 3), level_share(3, 0), level_share(4, 2)});
  std::set<std::set<std::string, std::less<>>> different;
  for (std::uint64_t seed = 0; seed < many_seeds; ++seed) {
    const auto chosen = choose(bank, blueprint, seed);
    different.insert(ids_of(chosen));
    EXPECT_EQ(std::count_if(chosen.begin(), chosen.end(),
                            [](const auto& one) { return one.item->topic == "roof"; }),
              11);
    EXPECT_EQ(chosen.size(), 16u);
    EXPECT_EQ(levels_of(chosen), (std::array<int, 4>{3, 8, 0, 5}));
    for (const auto& one : chosen)
      EXPECT_EQ(blueprint.sections[one.section].topic, one.item->topic);
  }
  EXPECT_GT(different.size(), many_seeds * 9 / 10);
}

TEST(Families, HoldBoundsOnLevels) {
  const bank::Bank bank = bank_of(5);
  const auto blueprint = blueprint_of({numbered("roof", 4), numbered("swing", 4, {1, 2, 4})}, 0,
                                      {level_bounds(4, 3), level_bounds(1, 1, 2)});
  std::map<std::string, int> of_level_4;
  for (std::uint64_t seed = 0; seed < many_seeds; ++seed) {
    const auto chosen = choose(bank, blueprint, seed);
    const auto levels = levels_of(chosen);
    EXPECT_EQ(chosen.size(), 8u);
    EXPECT_GE(levels[3], 3);
    EXPECT_GE(levels[0], 1);
    EXPECT_LE(levels[0], 2);
    for (const auto& one : chosen) {
      EXPECT_FALSE(one.item->topic == "swing" && one.item->level == 3);
      if (one.item->level == 4) ++of_level_4[one.item->topic];
    }
  }
  // No section has the first choice.
  EXPECT_GT(of_level_4["roof"], 300);
  EXPECT_GT(of_level_4["swing"], 300);
}

TEST(Families, FindAMixThatOnlyMovingEarlierChoicesAllows) {
  // One item a topic and level: with two of each level, all eight must be found.
  const bank::Bank bank = bank_of(1);
  const auto blueprint =
      blueprint_of({numbered("roof", 2, {1, 2}), numbered("roof", 2), numbered("swing", 4)}, 0,
                   {level_share(1, 1), level_share(2, 1), level_share(3, 1), level_share(4, 1)});
  for (std::uint64_t seed = 0; seed < many_seeds; ++seed)
    EXPECT_EQ(ids_of(choose(bank, blueprint, seed)).size(), 8u);
}

/// By trying every subset: whether some set of items fills the sections and the level mix.
bool can_be_met(const bank::Bank& bank, const bank::Blueprint& blueprint) {
  const auto wanted = questions_by_section(blueprint);
  const int questions = wanted[0] + wanted[1];
  const auto bounds = questions_by_level(blueprint, questions);
  for (unsigned subset = 0; subset < 1u << bank.items.size(); ++subset) {
    std::array<int, 2> of_topic{};
    std::array<int, most_level> of_level{};
    bool fits = true;
    for (std::size_t i = 0; i < bank.items.size(); ++i) {
      if (!(subset >> i & 1u)) continue;
      const std::size_t section = bank.items[i].topic == "roof" ? 0 : 1;
      const auto& levels = blueprint.sections[section].levels;
      fits = fits &&
             (levels.empty() || std::count(levels.begin(), levels.end(), bank.items[i].level) > 0);
      ++of_topic[section];
      ++of_level[static_cast<std::size_t>(bank.items[i].level - 1)];
    }
    fits = fits && of_topic[0] == wanted[0] && of_topic[1] == wanted[1];
    for (std::size_t level = 0; level < bounds.size(); ++level)
      fits =
          fits && of_level[level] >= bounds[level].least && of_level[level] <= bounds[level].most;
    if (fits) return true;
  }
  return false;
}

TEST(Families, AreRefusedExactlyWhereNoChoiceCanMeetTheBlueprint) {
  draw::Stream stream({11});
  int met = 0;
  int refused = 0;
  for (int round = 0; round < 400; ++round) {
    bank::Bank bank = small_bank();
    for (int i = 0; i < 9; ++i) {
      bank::Item item;
      item.id = "item-" + std::to_string(i);
      item.topic = stream.below(2) == 0 ? "roof" : "swing";
      item.level = 1 + static_cast<int>(stream.below(4));
      bank.items.push_back(std::move(item));
    }
    auto blueprint = blueprint_of({numbered("roof", 1 + static_cast<int>(stream.below(4)), {}),
                                   numbered("swing", 1 + static_cast<int>(stream.below(4)))});
    if (stream.below(2) == 0) blueprint.sections[0].levels = {1, 2, 4};
    for (int level = 1; level <= 3; ++level) {
      const int least = static_cast<int>(stream.below(3));
      blueprint.levels.push_back(
          level_bounds(level, least, least + static_cast<int>(stream.below(3))));
    }
    const bool possible = can_be_met(bank, blueprint);
    EXPECT_EQ(refusal_of(bank, blueprint) == "none", possible) << "round " << round;
    ++(possible ? met : refused);
  }
  EXPECT_GT(met, 50);
  EXPECT_GT(refused, 50);
}

TEST(Families, RefuseALevelMixThatCannotBeMet) {
  EXPECT_EQ(refusal_of(bank_of(1), blueprint_of({numbered("roof", 3), numbered("swing", 2)}, 0,
                                                {level_bounds(4, 3)})),
            "b.xml:6: the level mix asks for 3 questions of level 4, but beside those of the other "
            "levels the sections have room for 2");
  EXPECT_EQ(refusal_of(bank_of(1), blueprint_of({numbered("roof", 3), numbered("swing", 2)}, 0,
                                                {level_bounds(1, 0, 0), level_bounds(2, 0, 1),
                                                 level_bounds(3, 0, 1)})),
            "b.xml:7: the section \"roof\" asks for 3 questions, but the level mix has no room for "
            "so many of those that fit");
  // A section that the bank cannot fill is named as such, whatever the mix.
  EXPECT_EQ(refusal_of(bank_of(1), blueprint_of({numbered("roof", 5)}, 0, {level_bounds(4, 2)})),
            "b.xml:7: the section \"roof\" asks for 5 questions, but the bank has 4 that fit");
}

TEST(Families, NameWhatCanBeAskedWhereTheRuleSetLacksLimits) {
  bank::Bank bank = bank_of(1);
  for (bank::Item& item : bank.items)
    if (item.topic == "swing") item.limits = {"us-only"};
  bank.blueprints["roofs"] = blueprint_of({numbered("roof", 2)});
  bank.blueprints["swings"] = blueprint_of({numbered("swing", 2)});
  const auto blueprint = blueprint_of({numbered("roof", 1), numbered("swing", 1)});
  const std::string refused =
      "b.xml:8: the section \"swing\" asks for 1 question, but the bank has 0 that fit (4 more "
      "need a limit that the rule set \"test\" does not give in SI units)";
  Settings settings = settings_of(notation::System::si);
  EXPECT_EQ(refusal_of(bank, blueprint, settings),
            refused +
                "; topics that can be asked: roof (--topics); another blueprint that fits: "
                "roofs (--blueprint)");
  settings.course_plan = "course";  // whose weeks say what is asked
  EXPECT_EQ(refusal_of(bank, blueprint, settings), refused);
}

TEST(Families, BelongToTheRuleSetWhereTheyNameOne) {
  bank::Bank bank = bank_of(1);
  for (bank::Item& item : bank.items) {
    if (item.id == "roof-1-0") item.rules = {"other", "test"};
    if (item.id == "roof-2-0") item.rules = {"other"};
  }
  EXPECT_EQ(ids_of(choose(bank, blueprint_of({numbered("roof", 3)}))),
            (std::set<std::string, std::less<>>{"roof-1-0", "roof-3-0", "roof-4-0"}));
  EXPECT_EQ(
      refusal_of(bank, blueprint_of({numbered("roof", 4), numbered("swing", 4)})),
      "b.xml:7: the section \"roof\" asks for 4 questions, but the bank has 3 that fit (1 more "
      "are about other rules than \"test\"); topics that can be asked: swing (--topics)");
}

TEST(Families, AreDrawnAgainUntilTheyKeepWithinTheMinutes) {
  const bank::Bank bank = bank_of(5);
  auto blueprint = blueprint_of({numbered("roof", 4)});
  blueprint.minutes = 10;
  const auto minutes = [](const std::vector<ChosenFamily>& chosen) {
    int sum = 0;
    for (const auto& one : chosen) sum += one.item->minutes;
    return sum;
  };
  int longest = 0;
  int kept = 0;
  for (std::uint64_t seed = 0; seed < many_seeds; ++seed) {
    blueprint.minutes_over = std::nullopt;
    const auto any = choose(bank, blueprint, seed);
    longest = std::max(longest, minutes(any));
    blueprint.minutes_over = 10;
    const auto fitting = choose(bank, blueprint, seed);
    EXPECT_LE(minutes(fitting), 11);
    if (minutes(any) > 11) continue;
    EXPECT_EQ(ids_of(any), ids_of(fitting));
    ++kept;
  }
  EXPECT_GT(longest, 11);
  EXPECT_GT(kept, 50);
}

TEST(Families, RefuseMinutesThatCannotHoldThem) {
  auto blueprint = blueprint_of({numbered("roof", 4, {4})});
  blueprint.minutes = 14;
  blueprint.minutes_over = 10;
  EXPECT_EQ(refusal_of(bank_of(5), blueprint),
            "b.xml:1: the questions take 16 minutes in the shortest of 100 choices, but "
            "minutes=\"14\" and 10 percent over it allow 15");
  blueprint.minutes_over = 15;
  EXPECT_EQ(refusal_of(bank_of(5), blueprint), "none");
}

TEST(Families, RemarkOnMoreMinutesThanTheQuizGives) {
  const bank::Bank bank = bank_of(5);
  auto blueprint = blueprint_of({numbered("roof", 4, {4})});
  blueprint.minutes = 14;
  EXPECT_EQ(
      remarks_on(choose(bank, blueprint), bank, blueprint, settings_of()),
      std::vector<std::string>{"b.xml:1: note: the questions take 16 minutes, the quiz gives 14"});
  blueprint.minutes = 15;  // 16 is within 10 percent
  EXPECT_TRUE(remarks_on(choose(bank, blueprint), bank, blueprint, settings_of()).empty());
}

// ---- What was asked before ---------------------------------------------------------------------

EarlierQuiz earlier(std::set<std::string, std::less<>> items) {
  return {"CODE", "2026-03-02", std::move(items)};
}

TEST(Families, OfTheLastQuizDoNotReappearAndIntervalsGrow) {
  const bank::Bank bank = bank_of(10);
  const auto blueprint = blueprint_of({numbered("roof", 4), numbered("swing", 4)}, 0,
                                      {level_bounds(3, 2), level_bounds(4, 1, 3)});
  for (std::uint64_t seed = 0; seed < 60; ++seed) {
    Settings settings = settings_of();
    std::map<std::string, std::vector<int>> asked;
    for (int week = 1; week <= 12; ++week) {
      const auto chosen = choose(bank, blueprint, seed * 100 + week, settings);
      EXPECT_TRUE(remarks_on(chosen, bank, blueprint, settings).empty());
      for (const std::string& id : ids_of(chosen)) asked[id].push_back(week);
      settings.before.insert(settings.before.begin(), earlier(ids_of(chosen)));
    }
    for (const auto& [id, weeks] : asked)
      for (std::size_t i = 1; i < weeks.size(); ++i)
        EXPECT_GE(weeks[i] - weeks[i - 1], 1 << i) << id << ", seed " << seed;
  }
}

TEST(Families, OfTheLastQuizReappearOnlyWhereNothingElseIsLeft) {
  // Four items a topic; the last quiz asked three of "roof", so of three asked now two return.
  const bank::Bank bank = bank_of(1);
  const auto blueprint = blueprint_of({numbered("roof", 3), numbered("swing", 2)});
  Settings settings = settings_of();
  settings.before = {earlier({"roof-1-0", "roof-2-0", "roof-3-0", "swing-1-0"})};
  for (std::uint64_t seed = 0; seed < many_seeds; ++seed) {
    const auto ids = ids_of(choose(bank, blueprint, seed, settings));
    EXPECT_TRUE(ids.contains("roof-4-0"));
    EXPECT_FALSE(ids.contains("swing-1-0"));
  }
  const auto remarks = remarks_on(choose(bank, blueprint, 1, settings), bank, blueprint, settings);
  ASSERT_EQ(remarks.size(), 1u);
  const std::string start =
      "b.xml:7: note: the section \"roof\" asks for 3 of 4 questions that fit, and 3 of them were "
      "in the last quiz; asked again: roof-";
  EXPECT_EQ(remarks[0].substr(0, start.size()), start);
}

TEST(Families, ComeSoonerOnlyWhereTooFewHaveWaitedAndThoseThatLackLeastFirst) {
  const bank::Bank bank = bank_of(1);
  const auto blueprint = blueprint_of({numbered("roof", 2)});
  Settings settings = settings_of();
  // roof-1 was in the last quiz; roof-2 and roof-3 were asked twice, 2 and 3 quizzes ago, and wait
  // until 4; roof-4 once, 2 quizzes ago, and may return.
  settings.before = {earlier({"roof-1-0"}), earlier({"roof-2-0", "roof-4-0"}),
                     earlier({"roof-3-0"}), earlier({"roof-2-0", "roof-3-0"})};
  for (std::uint64_t seed = 0; seed < many_seeds; ++seed)
    EXPECT_EQ(ids_of(choose(bank, blueprint, seed, settings)),
              (std::set<std::string, std::less<>>{"roof-3-0", "roof-4-0"}));
  EXPECT_EQ(remarks_on(choose(bank, blueprint, 1, settings), bank, blueprint, settings),
            std::vector<std::string>{
                "b.xml:7: note: the section \"roof\" has too few questions that have waited long "
                "enough; asked sooner: roof-3-0 (3 quizzes ago, not 4)"});
}

// ---- Topics alone ------------------------------------------------------------------------------

TEST(RestrictedTo, DividesATotalAnewAndKeepsNumbersWithTheirTimeAndPoints) {
  auto shares = blueprint_of({shared("roof", 1), shared("swing", 1)}, 6);
  EXPECT_EQ(questions_by_section(restricted_to(shares, {"swing"})), std::vector<int>{6});
  EXPECT_EQ(restricted_to(shares, {"swing"}).minutes, 100);
  shares.topic_at_most = 4;
  EXPECT_EQ(questions_by_section(restricted_to(shares, {"swing"})), std::vector<int>{4});
  EXPECT_EQ(restricted_to(shares, {"swing"}).minutes, 66);
  EXPECT_EQ(questions_by_section(restricted_to(shares, {"swing", "roof"})),
            (std::vector<int>{3, 3}));

  auto numbers = blueprint_of({numbered("roof", 3), numbered("swing", 1)});
  numbers.points = 20;
  const auto restricted = restricted_to(numbers, {"roof"});
  EXPECT_EQ(questions_by_section(restricted), std::vector<int>{3});
  EXPECT_EQ(restricted.minutes, 75);
  EXPECT_EQ(restricted.points, 15);
}

}  // namespace
}  // namespace footroom::quiz
