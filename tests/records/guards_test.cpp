// What stands in the way of changes from outside, and what shows them where they were made.

#include <gtest/gtest.h>

#include "records/stores.hpp"

namespace footroom::records {
namespace {

using namespace testing;

using Guards = EachStore;
INSTANTIATE_TEST_SUITE_P(On, Guards, ::testing::Values(Kind::file, Kind::server), kind_name);
using Verify = EachStore;
INSTANTIATE_TEST_SUITE_P(On, Verify, ::testing::Values(Kind::file, Kind::server), kind_name);

TEST_P(Guards, TriggersRefuseChanges) {
  fill(*store);
  const Head before = store->head();
  const std::string only_added = "entries are only ever added";
  const std::string or_erased = "personal data is only ever added, or erased";
  const std::string columns = "'quiz', '2026-03-02', NULL, NULL, NULL, 'X', '{}', '', ''";
  std::vector<std::pair<std::string, std::string>> attempts{
      {"UPDATE entry SET day = '2026-01-01' WHERE number = 3", only_added},
      {"DELETE FROM entry WHERE number = 11", only_added},
      {"DELETE FROM entry", only_added},
      {"INSERT INTO entry VALUES (5, " + columns + ")", "an entry takes the next number"},
      {"INSERT INTO entry VALUES (13, " + columns + ")", "an entry takes the next number"},
      {"UPDATE personal SET name = 'Zoe' WHERE entry = 4", or_erased},
      {"DELETE FROM personal WHERE entry = 4", or_erased},
  };
  if (GetParam() == Kind::file) {
    attempts.emplace_back("INSERT OR REPLACE INTO entry VALUES (5, " + columns + ")",
                          "an entry takes the next number");
    attempts.emplace_back("REPLACE INTO personal VALUES (4, 4, '', 'Zoe', '', '')", or_erased);
    attempts.emplace_back("UPDATE OR REPLACE entry SET number = 3 WHERE number = 4", only_added);
  } else {
    attempts.emplace_back("TRUNCATE entry CASCADE", only_added);
    attempts.emplace_back("TRUNCATE personal", or_erased);
    attempts.emplace_back("INSERT INTO entry VALUES (5, " + columns +
                              ") ON CONFLICT (number) DO UPDATE SET day = '2026-01-01'",
                          "an entry takes the next number");
  }
  for (const auto& attempt : attempts)
    EXPECT_NE(message([&] { place.plain(attempt.first); }).find(attempt.second), std::string::npos)
        << attempt.first;
  EXPECT_EQ(store->head(), before);
  EXPECT_EQ(store->verify(before), std::nullopt);
}

std::string found(Store& store, const std::optional<Head>& kept = {}) {
  const auto bad = store.verify(kept);
  return bad ? std::to_string(bad->number) + ": " + bad->what : "nothing";
}

constexpr auto other_digest = "the digest is not that of its content and the entry before";

TEST_P(Verify, NamesTheFirstEntryThatWasChanged) {
  // Each column, in the entry about Ana's result (11) or the first that has it.
  const std::vector<std::pair<std::string, std::string>> changes{
      {"UPDATE entry SET body = replace(body, '250', '300') WHERE number = 11", "11"},
      {"UPDATE entry SET day = '2026-03-01' WHERE number = 11", "11"},
      {"UPDATE entry SET person = 5 WHERE number = 11", "11"},
      {"UPDATE entry SET about = 1 WHERE number = 11", "11"},
      {"UPDATE entry SET corrects = 10 WHERE number = 11", "11"},
      {"UPDATE entry SET name = '7G2QL' WHERE number = 11", "11"},
      {"UPDATE entry SET kind = 'quiz' WHERE number = 11", "11"},
      {"UPDATE entry SET seal = digest WHERE number = 11", "11"},
      {"UPDATE entry SET digest = seal WHERE number = 11", "11"},
      {"UPDATE entry SET body = body || ' ' WHERE number >= 7", "7"},
      {"UPDATE entry SET name = 'Other Roofing' WHERE number = 1", "1"},
  };
  fill(*store);
  for (const auto& [change, number] : changes) {
    Place fresh(GetParam());
    auto changed = fresh.make();
    fill(*changed);
    fresh.tamper(change);
    EXPECT_EQ(found(*changed), number + ": " + other_digest) << change;
  }
}

TEST_P(Verify, SeesWhatIsMissingOrAdded) {
  fill(*store);
  const Head kept = store->head();
  place.tamper("DELETE FROM entry WHERE number = 6");
  EXPECT_EQ(found(*store), "6: is missing");

  Place second(GetParam());
  auto cut = second.make();
  fill(*cut);
  second.tamper("DELETE FROM entry WHERE number >= 10");
  EXPECT_EQ(found(*cut), "nothing");  // only a head kept elsewhere tells
  EXPECT_EQ(found(*cut, kept),
            "10: is missing, and so is all up to entry 11 of the head kept elsewhere");

  Place third(GetParam());
  auto other = third.make();
  other->write(day("2026-01-01"))->commit();
  EXPECT_EQ(found(*other, Head{0, std::string(64, '0')}), "nothing");
  const auto writing = other->write(day("2026-01-01"));
  for (int i = 0; i < 12; ++i) writing->add(Employer{"Invented " + std::to_string(i), ""});
  writing->commit();
  EXPECT_EQ(found(*other, kept), "11: its digest is not the one of the head kept elsewhere");
}

TEST_P(Verify, SeesPersonalDataThatWasChangedRemovedOrAdded) {
  const std::vector<std::pair<std::string, std::string>> changes{
      {"UPDATE personal SET name = 'Zoe' WHERE entry = 4",
       "4: the personal data is not what was recorded"},
      {"UPDATE personal SET salt = '' WHERE entry = 5",
       "5: the personal data is not what was recorded"},
      {"DELETE FROM personal WHERE entry = 5",
       "5: its personal data is missing, and nobody erased the person"},
      {"INSERT INTO personal VALUES (11, 4, '', 'Zoe', '', '')",
       "11: has personal data that it does not tell of"},
      {"UPDATE personal SET person = 5 WHERE entry = 4",
       "4: has personal data that belongs to no entry"},
  };
  for (const auto& [change, says] : changes) {
    Place fresh(GetParam());
    auto changed = fresh.make();
    fill(*changed);
    fresh.tamper(change);
    EXPECT_EQ(found(*changed), says) << change;
  }
}

TEST_P(Verify, SeesAnErasedNameThatCameBack) {
  const Example e = fill(*store);
  const auto writing = store->write(day("2026-04-01"));
  writing->erase(e.ben);
  writing->commit();
  place.tamper("INSERT INTO personal VALUES (12, 5, '', 'Ben Sample', '', '')");
  EXPECT_EQ(found(*store), "12: has personal data that it does not tell of");
}

TEST_P(Verify, SeesADueListThatDoesNotFollow) {
  const Example e = fill(*store);
  place.tamper("UPDATE standing SET due = '2031-01-01' WHERE person = " + std::to_string(e.ana));
  EXPECT_EQ(found(*store), "4: the due list does not follow from the entries about this person");
  place.tamper("DELETE FROM standing");
  EXPECT_EQ(found(*store), "4: the due list does not follow from the entries about this person");

  Place second(GetParam());
  auto more = second.make();
  fill(*more);
  second.tamper("INSERT INTO standing VALUES (900, 2, 0, '', '2026-01-01', 'never-trained')");
  EXPECT_EQ(found(*more), "0: the due list names people who have no entry");
  EXPECT_NE(message([&] {
              due_list(*more, "2026-01-01");
            }).find(": the due list names the person 900, who has no entry"),
            std::string::npos);
}

TEST_P(Verify, SeesATriggerThatIsGone) {
  fill(*store);
  place.plain(GetParam() == Kind::file ? "DROP TRIGGER entry_delete"
                                       : "ALTER TABLE entry DISABLE TRIGGER entry_delete");
  EXPECT_EQ(found(*store), "0: the trigger entry_delete that refuses changes was removed");
}

TEST_P(Verify, TakesTheHeadOfAnyEarlierTime) {
  std::vector<Head> heads{store->head()};
  for (int i = 0; i < 5; ++i) {
    const auto writing = store->write(day("2026-01-01"));
    writing->add(Employer{"Invented " + std::to_string(i), ""});
    heads.push_back(writing->commit());
  }
  for (const auto& head : heads) {
    EXPECT_EQ(read_head(head.text()), head);
    EXPECT_EQ(found(*store, head), "nothing");
  }
  for (const auto* wrong : {"", "5", "5:", ":abc", "5:zz", "x:0", "-1:00"})
    EXPECT_EQ(read_head(std::string_view(wrong)), std::nullopt) << wrong;
}

TEST(Chain, HasTheDigestThatItsDescriptionGives) {
  // By `printf` of the fields of records/row.hpp and sha256sum, outside this program.
  Place place(Kind::file);
  const auto store = place.make();
  const auto writing = store->write(day("2026-03-02"));
  writing->add(Employer{"Invented Roofing", "Sampletown"});
  EXPECT_EQ(writing->commit().digest,
            "bcf28233b3962d90b3e865fcc0b4686a716dcae9ce7618c49348f115c966fdbd");
}

}  // namespace
}  // namespace footroom::records
