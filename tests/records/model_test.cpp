#include "records/model.hpp"

#include <gtest/gtest.h>

#include "records/store.hpp"

namespace footroom::records {
namespace {

TEST(Date, ReadsADayOfTheCalendarAndNothingElse) {
  const auto date = read_date("2028-02-29");
  ASSERT_TRUE(date);
  EXPECT_EQ(date_text(*date), "2028-02-29");
  for (const auto* wrong : {"2026-02-29", "2026-13-01", "2026-00-10", "2026-1-10", "26-01-10",
                            "2026/01/10", "2026-01-1x", "1899-12-31", "", "2026-01-10 "})
    EXPECT_FALSE(read_date(wrong)) << wrong;
}

TEST(Date, MonthsLaterEndsWithTheMonth) {
  EXPECT_EQ(date_text(months_later(*read_date("2026-08-31"), 6)), "2027-02-28");
  EXPECT_EQ(date_text(months_later(*read_date("2026-11-15"), 12)), "2027-11-15");
  EXPECT_EQ(date_text(months_later(*read_date("2024-02-29"), 12)), "2025-02-28");
}

TEST(InEffect, TheLastCorrectionStandsAndWithdrawnEntriesDoNot) {
  const Date day = *read_date("2026-03-02");
  const std::vector<Entry> entries{
      {1, day, {}, Employer{"Invented Roofing"}},  {2, day, {}, Employer{"Second"}},
      {3, day, 1, Employer{"Invented Roofing 2"}}, {4, day, 2, Withdrawal{}},
      {5, day, 1, Employer{"Invented Roofing 3"}}, {6, day, {}, Course{"basics", "Basics"}}};
  const auto effective = in_effect(entries);
  ASSERT_EQ(effective.size(), 2U);
  EXPECT_EQ(effective[0].number, 5);
  EXPECT_EQ(effective[0].subject(), 1);
  EXPECT_EQ(std::get<Employer>(effective[0].content).name, "Invented Roofing 3");
  EXPECT_EQ(kind_of(effective[1].content), "course");
}

TEST(Words, GoThereAndBack) {
  for (const auto reason : {Reason::workplace_changed, Reason::equipment_changed,
                            Reason::knowledge_inadequate, Reason::interval_passed})
    EXPECT_EQ(read_reason(word(reason)), reason);
  EXPECT_EQ(read_occasion(word(Occasion::practice)), Occasion::practice);
  EXPECT_EQ(read_signer(word(Signer::employer)), Signer::employer);
  EXPECT_FALSE(read_reason("tired"));
}

}  // namespace
}  // namespace footroom::records
