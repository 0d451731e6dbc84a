#include "practice/packed_bank.hpp"

#include <gtest/gtest.h>

#include "practice/the_bank.hpp"
#include "quiz/compiled_item.hpp"

namespace footroom::practice {
namespace {

TEST(PackedBank, UnpacksToWhatWasPacked) {
  for (const auto& [id, rules] : the_bank().rules) {
    const auto once = packed(the_bank(), id);
    const bank::Bank again = unpacked(once);
    EXPECT_EQ(once.dump(), packed(again, id).dump());
    EXPECT_EQ(again.digest, the_bank().digest);
    EXPECT_EQ(again.items.size(), the_bank().items.size());
    EXPECT_EQ(again.rules.at(id).limits.size(), rules.limits.size());
    EXPECT_EQ(again.rules.size(), 1u);
  }
}

TEST(PackedBank, TravelsAsText) {
  const auto json = packed(the_bank(), "us-construction");
  const bank::Bank again = unpacked(nlohmann::ordered_json::parse(json.dump()));
  EXPECT_EQ(json.dump(), packed(again, "us-construction").dump());
}

TEST(PackedBank, AsksTheSame) {
  const bank::Bank again = unpacked(packed(the_bank(), "us-construction"));
  quiz::Settings settings;
  settings.rules = "us-construction";
  const draw::Key key{7, 0, 3};
  for (std::size_t i = 0; i < the_bank().items.size(); ++i) {
    const auto one = quiz::CompiledItem(the_bank(), the_bank().items[i], settings)
                         .make(key, nullptr, quiz::Figures::left_out);
    const auto other = quiz::CompiledItem(again, again.items[i], settings)
                           .make(key, nullptr, quiz::Figures::left_out);
    EXPECT_EQ(one.question.stem, other.question.stem) << one.question.item;
    EXPECT_EQ(one.question.steps.size(), other.question.steps.size());
    EXPECT_EQ(one.question.mistakes.size(), other.question.mistakes.size());
    ASSERT_EQ(one.question.options.size(), other.question.options.size());
    for (std::size_t k = 0; k < one.question.options.size(); ++k)
      EXPECT_EQ(one.question.options[k].text, other.question.options[k].text);
  }
}

TEST(PackedBank, RefusesOtherJson) {
  EXPECT_THROW(unpacked(nlohmann::ordered_json::parse(R"({"items": 3, "digest": []})")),
               nlohmann::json::exception);
  EXPECT_THROW(packed(the_bank(), "no-such-rules"), std::out_of_range);
}

}  // namespace
}  // namespace footroom::practice
