// Every item of the project's bank over many draws.

#include <gtest/gtest.h>

#include <filesystem>

#include "bank/read.hpp"
#include "quiz/check.hpp"

namespace footroom::quiz {
namespace {

TEST(QuestionBank, AsksNothingFaultyInAHundredDraws) {
  const bank::ReadBank read =
      bank::read_bank(std::filesystem::path(FOOTROOM_SOURCE_DIR) / "questionbank");
  ASSERT_FALSE(read.bank.items.empty());
  CheckSettings how;
  how.draws = 101;  // two of them with drawings and measured stems
  for (const bank::Item& item : read.bank.items) {
    const ItemReport report = check_item(read.bank, item, how);
    for (const bank::Defect& defect : report.defects) ADD_FAILURE() << defect.text();
    EXPECT_TRUE(!report.defects.empty() || report.draws == 2 * how.draws) << item.id;
  }
}

}  // namespace
}  // namespace footroom::quiz
