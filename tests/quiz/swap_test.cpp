#include "quiz/swap.hpp"

#include <gtest/gtest.h>

#include "quiz/fixture.hpp"

namespace footroom::quiz {
namespace {

using namespace tests;

/// roof: sum-0 ... sum-3, limited, whose limit has no SI value, and foreign, which belongs to other
/// rules; swing: swings.
bank::Bank bank_to_swap_in() {
  bank::Bank bank = small_bank();
  const std::string rest = stem_xml("{part}") + answer_xml("part");
  for (int i = 0; i < 4; ++i)
    bank.items.push_back(
        item_of(item_xml("number", draw_xml("part", 1, 90000) + rest, "sum-" + std::to_string(i))));
  bank.items.push_back(item_of(item_xml(
      "number", draw_xml("part", 1, 90) + "<limit name=\"us-only\"/>\n" + rest, "limited", 2)));
  bank.items.push_back(item_of(item_xml("number", draw_xml("part", 1, 90) + rest, "foreign", 2)));
  bank.items.back().rules = {"other"};
  bank.items.push_back(item_of(item_xml("number", draw_xml("part", 1, 90) + rest, "swings")));
  bank.items.back().topic = "swing";
  return bank;
}

/// Two questions of the roof, one of swings.
bank::Blueprint blueprint_to_swap_in() {
  bank::Blueprint blueprint;
  blueprint.id = "short";
  blueprint.minutes = 20;
  blueprint.sections = {{"roof", 2, {1}, {"blueprint.xml", 7}},
                        {"swing", 1, {}, {"blueprint.xml", 8}}};
  return blueprint;
}

struct Asked {
  std::string item;
  std::string stem;
  bool operator==(const Asked&) const = default;
};

std::vector<Asked> sheet_of(const Settings& settings, int seat = 0,
                            const bank::Blueprint& blueprint = blueprint_to_swap_in()) {
  const bank::Bank bank = bank_to_swap_in();
  std::vector<Asked> questions;
  for (const Question& question : Maker(bank, blueprint, settings).sheet(seat).questions)
    questions.push_back({question.item, question.stem});
  return questions;
}

std::string refusal_of(const std::vector<Swap>& swaps,
                       notation::System system = notation::System::us) {
  Settings settings = settings_of(system);
  settings.swaps = swaps;
  try {
    sheet_of(settings);
  } catch (const CannotSwap& refusal) {
    return refusal.what();
  }
  return "none";
}

/// The items of level 1 that the quiz does not ask.
std::vector<std::string> left_over(const std::vector<Asked>& asked) {
  std::vector<std::string> ids;
  for (const char* id : {"sum-0", "sum-1", "sum-2", "sum-3"})
    if (id != asked[0].item && id != asked[1].item) ids.emplace_back(id);
  return ids;
}

TEST(Swap, AnItemStandsInAndTheOthersStay) {
  const auto before = sheet_of(settings_of());
  const std::string other = left_over(before).front();
  Settings settings = settings_of();
  settings.swaps = {{1, other}};
  for (const int seat : {0, 5}) {
    const auto was = sheet_of(settings_of(), seat);
    const auto is = sheet_of(settings, seat);
    ASSERT_EQ(is.size(), 3u);
    EXPECT_EQ(is[0].item, other);
    EXPECT_EQ(is[1], was[1]);
    EXPECT_EQ(is[2], was[2]);
  }
}

TEST(Swap, GivesOtherValuesAndOthersAgain) {
  const auto first = sheet_of(settings_of());
  Settings settings = settings_of();
  settings.swaps = {{2, ""}};
  const auto second = sheet_of(settings);
  settings.swaps = {{2, ""}, {2, ""}};
  const auto third = sheet_of(settings);
  for (const auto& swapped : {second, third}) {
    EXPECT_EQ(swapped[0], first[0]);
    EXPECT_EQ(swapped[1].item, first[1].item);
    EXPECT_NE(swapped[1].stem, first[1].stem);
    EXPECT_EQ(swapped[2], first[2]);
  }
  EXPECT_NE(second[1].stem, third[1].stem);
}

TEST(Swap, TakeEffectInTurn) {
  const auto asked = sheet_of(settings_of());
  const auto rest = left_over(asked);
  Settings settings = settings_of();
  settings.swaps = {{1, rest[0]}, {2, asked[0].item}, {1, ""}};
  const auto swapped = sheet_of(settings);
  EXPECT_EQ(swapped[0].item, rest[0]);
  EXPECT_EQ(swapped[1].item, asked[0].item);
  settings.swaps = {{1, rest[0]}};
  EXPECT_NE(sheet_of(settings)[0].stem, swapped[0].stem);

  const auto outcome = outcome_of({{1, ""}, {1, "x"}, {1, ""}, {1, ""}, {7, ""}});
  ASSERT_EQ(outcome.size(), 2u);
  EXPECT_EQ(outcome.at(1).item, "x");
  EXPECT_EQ(outcome.at(1).draw, 2u);
  EXPECT_EQ(outcome.at(7).item, "");
  EXPECT_EQ(outcome.at(7).draw, 1u);
}

TEST(Swap, ChangesTheCodeAndStandsInTheHeader) {
  const bank::Bank bank = bank_to_swap_in();
  const bank::Blueprint blueprint = blueprint_to_swap_in();
  Settings settings = settings_of();
  const std::string before = Maker(bank, blueprint, settings).header().code;
  settings.swaps = {{2, ""}};
  const Maker swapped(bank, blueprint, settings);
  EXPECT_NE(swapped.header().code, before);
  EXPECT_EQ(swapped.header().swaps.at(2).draw, 1u);
  settings.swaps = {{1, ""}};
  EXPECT_NE(Maker(bank, blueprint, settings).header().code, swapped.header().code);
}

TEST(Swap, WhereSeatsHaveFamiliesOfTheirOwnOnlyValuesCanBeSwapped) {
  bank::Blueprint blueprint = blueprint_to_swap_in();
  blueprint.same_items = false;
  Settings settings = settings_of();
  settings.swaps = {{1, ""}};
  for (const int seat : {0, 1, 2}) {
    const auto was = sheet_of(settings_of(), seat, blueprint);
    const auto is = sheet_of(settings, seat, blueprint);
    EXPECT_EQ(is[0].item, was[0].item);
    EXPECT_NE(is[0].stem, was[0].stem);
    EXPECT_EQ(is[1], was[1]);
  }
  settings.swaps = {{1, "sum-0"}};
  try {
    sheet_of(settings, 0, blueprint);
    ADD_FAILURE() << "was not refused";
  } catch (const CannotSwap& refusal) {
    EXPECT_STREQ(refusal.what(),
                 "question 1: differs from seat to seat in this quiz, so no item can stand in for "
                 "all; leave the item out for other values");
  }
}

TEST(SwapFault, IsNamedWithWhatCouldStandIn) {
  const auto asked = sheet_of(settings_of());
  const auto rest = left_over(asked);
  const std::string expected =
      ", expected one of \"roof\" that is not in the quiz yet: " + rest[0] + ", " + rest[1];
  EXPECT_EQ(refusal_of({{0, ""}}), "question 0: is not in the quiz, expected 1 to 3");
  EXPECT_EQ(refusal_of({{4, "sum-0"}}), "question 4: is not in the quiz, expected 1 to 3");
  EXPECT_EQ(refusal_of({{1, "sum0"}}),
            "question 1: \"sum0\" is no item of the bank; did you mean \"sum-0\"?");
  EXPECT_EQ(refusal_of({{1, "nothing-like-it"}}),
            "question 1: \"nothing-like-it\" is no item of the bank" + expected + ", limited");
  EXPECT_EQ(refusal_of({{1, "swings"}}),
            "question 1: \"swings\" is of the topic \"swing\"" + expected + ", limited");
  EXPECT_EQ(refusal_of({{1, asked[1].item}}), "question 1: \"" + asked[1].item +
                                                  "\" is question 2 of the quiz already" +
                                                  expected + ", limited");
  EXPECT_EQ(refusal_of({{1, "foreign"}}),
            "question 1: \"foreign\" is about other rules than \"test\"" + expected + ", limited");
  EXPECT_EQ(refusal_of({{3, "swings"}}),
            "question 3: \"swings\" is question 3 of the quiz already; no other item of \"swing\" "
            "is left");
  EXPECT_EQ(
      refusal_of({{1, "limited"}}, notation::System::si),
      "question 1: \"limited\" needs a limit that the rule set \"test\" does not give in SI "
      "units, expected one of \"roof\" that is not in the quiz yet: " +
          [] {
            const auto left = left_over(sheet_of(settings_of(notation::System::si)));
            return left[0] + ", " + left[1];
          }());
  EXPECT_EQ(refusal_of(std::vector<Swap>(1001, {1, ""})),
            "question 1: is drawn anew 1001 times, expected at most 1000");
}

}  // namespace
}  // namespace footroom::quiz
