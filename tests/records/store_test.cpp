#include "records/store.hpp"

#include <gtest/gtest.h>

#include "records/stores.hpp"

namespace footroom::records {
namespace {

using namespace testing;

using StoreTest = EachStore;
INSTANTIATE_TEST_SUITE_P(On, StoreTest, ::testing::Values(Kind::file, Kind::server), kind_name);

TEST_P(StoreTest, GivesBackWhatWasAdded) {
  const Example e = fill(*store);
  store = place.open();
  const PersonReport report = store->report(e.ana);
  EXPECT_EQ(report.person.value.name, "Ana Ejemplo");
  EXPECT_EQ(report.person.value.identity, "A-1");
  EXPECT_EQ(report.employer.value().value.place, "Sampletown");
  ASSERT_EQ(report.sessions.size(), 1U);
  EXPECT_EQ(report.sessions[0].value.days,
            (std::vector<Date>{day("2026-03-02"), day("2026-03-03")}));
  EXPECT_EQ(report.sessions[0].value.trainer, e.trainer);
  EXPECT_EQ(report.sessions[0].value.place, "Yard");
  ASSERT_EQ(report.courses.size(), 1U);
  EXPECT_EQ(report.courses[0].value.spanish, "Protección contra caídas");
  ASSERT_EQ(report.results.size(), 1U);
  const Result& result = report.results[0].value;
  EXPECT_EQ(result.quiz, "7G2QK");
  EXPECT_EQ(date_text(result.day), "2026-03-03");
  EXPECT_EQ(result.occasion, Occasion::test);
  EXPECT_EQ(result.hundredths(), 350);
  EXPECT_EQ(result.possible_hundredths(), 400);
  EXPECT_EQ(result.topics.at(1).topic, "swing");
  EXPECT_EQ(result.missed, std::vector<std::string>{"clearance-below-d-ring"});
  ASSERT_EQ(report.standings.size(), 1U);
  EXPECT_EQ(report.standings[0].trained, day("2026-03-03"));
  EXPECT_EQ(report.standings[0].due, day("2027-03-03"));
  EXPECT_EQ(date_text(store->entry(e.quiz).recorded), "2026-03-02");
  EXPECT_EQ(std::get<Quiz>(store->entry(e.quiz).content).blueprint, "weekly");
  EXPECT_EQ(store->employers().size(), 1U);
  EXPECT_EQ(store->courses().at(0).value.english, "Fall protection");
  ASSERT_EQ(store->attendances(e.session).size(), 2U);
  EXPECT_FALSE(store->attendances(e.session)[1].value.completed);
  EXPECT_EQ(store->verify({}), std::nullopt);
}

TEST_P(StoreTest, KeepsACertificateAndARetraining) {
  const Example e = fill(*store);
  auto writing = store->write(day("2026-03-04"));
  writing->add(Certificate{
      e.ana, e.course, e.session, {day("2026-03-02")}, Signer::trainer, e.trainer, false});
  writing->add(Retraining{e.ana, e.course, day("2026-05-01"), Reason::equipment_changed,
                          "new rope grabs\nfor everyone"});
  writing->commit();
  const auto report = store->report(e.ana);
  ASSERT_EQ(report.certificates.size(), 1U);
  EXPECT_EQ(report.certificates[0].value.session, e.session);
  EXPECT_EQ(report.certificates[0].value.signed_by, e.trainer);
  ASSERT_EQ(report.retrainings.size(), 1U);
  EXPECT_EQ(report.retrainings[0].value.remark, "new rope grabs\nfor everyone");
  EXPECT_EQ(report.retrainings[0].value.reason, Reason::equipment_changed);
  EXPECT_EQ(store->verify({}), std::nullopt);
}

TEST_P(StoreTest, TheDueListFollowsPolicyTrainingAndRetraining) {
  const Example e = fill(*store);
  // Ben came and did not complete it: he was never trained, since the day he was recorded.
  EXPECT_EQ(due_list(*store, "2026-03-02"),
            std::vector<std::string>{"2026-03-02 Ben Sample fall-protection never-trained"});
  EXPECT_EQ(due_list(*store, "2026-03-01"), std::vector<std::string>{});
  EXPECT_EQ(due_list(*store, "2027-03-03").back(),
            "2027-03-03 Ana Ejemplo fall-protection interval-passed");
  auto writing = store->write(day("2026-06-01"));
  writing->add(Retraining{e.ana, e.course, day("2026-06-01"), Reason::workplace_changed, ""});
  const Number again = writing->add(Session{e.course, {day("2026-05-31")}, {}, ""});
  writing->add(Attendance{again, e.ben, true});
  writing->add(Attendance{again, e.ana, true});  // a day too early for the new workplace
  writing->commit();
  EXPECT_EQ(due_list(*store, "2027-05-31"),
            (std::vector<std::string>{"2026-06-01 Ana Ejemplo fall-protection workplace-changed",
                                      "2027-05-31 Ben Sample fall-protection interval-passed"}));
  writing = store->write(day("2026-06-02"));
  writing->correct(again, Session{e.course, {day("2026-06-01")}, {}, ""});
  writing->add(Policy{e.employer, e.course, 6});
  writing->commit();
  EXPECT_EQ(due_list(*store, "2026-12-01"),
            (std::vector<std::string>{"2026-12-01 Ana Ejemplo fall-protection interval-passed",
                                      "2026-12-01 Ben Sample fall-protection interval-passed"}));
  EXPECT_EQ(due_list(*store, "2026-12-01", e.employer).size(), 2U);
  EXPECT_EQ(due_list(*store, "2026-12-01", e.employer + 1000).size(), 0U);
  writing = store->write(day("2026-06-03"));
  writing->correct(e.ana, Person{"Ana Ejemplo", "A-1", e.employer, day("2026-06-03")});
  writing->commit();
  EXPECT_EQ(due_list(*store, "2026-12-01").size(), 1U);
  EXPECT_EQ(store->verify({}), std::nullopt);
}

TEST_P(StoreTest, ALongDueListComesOnceEachInOrder) {
  auto writing = store->write(day("2026-01-01"));
  const Number employer = writing->add(Employer{"Invented Roofing", ""});
  const Number course = writing->add(Course{"basics", "Basics", ""});
  writing->add(Policy{employer, course, 12});
  for (int i = 0; i < 1203; ++i)
    writing->add(Person{"Sample " + std::to_string(i), "", employer, {}});
  writing->commit();
  Number last = 0;
  int count = 0;
  store->each_due(day("2026-01-01"), {}, [&](const Due& due) {
    EXPECT_GT(due.standing.person, last);
    last = due.standing.person;
    ++count;
  });
  EXPECT_EQ(count, 1203);
  count = 0;
  store->each_person([&count](const auto&) { ++count; });
  EXPECT_EQ(count, 1203);
  EXPECT_EQ(store->verify({}), std::nullopt);
}

TEST_P(StoreTest, ACorrectionStandsInThePlaceAndTheFirstEntryStays) {
  const Example e = fill(*store);
  auto writing = store->write(day("2026-04-01"));
  const Number first = writing->correct(e.ana, Person{"Ana María Ejemplo", "A-1", e.employer, {}});
  writing->correct(first, Person{"Ana M. Ejemplo", "A-7", e.employer, {}});
  writing->correct(e.result, Withdrawal{"typed for the wrong person"});
  writing->commit();
  const auto report = store->report(e.ana);
  EXPECT_EQ(report.person.value.name, "Ana M. Ejemplo");
  EXPECT_EQ(report.person.number, e.ana);
  EXPECT_TRUE(report.results.empty());
  EXPECT_EQ(std::get<Person>(store->entry(e.ana).content).name, "Ana Ejemplo");
  EXPECT_EQ(std::get<Person>(store->effective(e.ana).content).identity, "A-7");
  EXPECT_EQ(report.history.size(), 6U);
  EXPECT_EQ(store->find_people("A-7").size(), 1U);
  EXPECT_EQ(store->find_people("A-1").size(), 0U);
  EXPECT_EQ(store->find_people("Ben Sample").at(0).number, e.ben);
  EXPECT_EQ(message([&] { store->write(day("2026-04-02"))->correct(e.result, Withdrawal{}); }),
            "entry 11: was withdrawn by entry 14");
  int results = 0;
  store->each_result([&results](const auto&) { ++results; });
  EXPECT_EQ(results, 0);
  EXPECT_EQ(store->verify({}), std::nullopt);
}

TEST_P(StoreTest, RefusesWhatMakesNoSense) {
  const Example e = fill(*store);
  const Head before = store->head();
  const auto refusal = [&](const Content& content) {
    return message([&] { store->write(day("2026-04-01"))->add(content); });
  };
  const auto on_correcting = [&](Number entry, const Content& content) {
    return message([&] { store->write(day("2026-04-01"))->correct(entry, content); });
  };
  EXPECT_EQ(refusal(Person{"", "A-3", e.employer, {}}), "name: is empty, expected a text");
  EXPECT_EQ(refusal(Person{"Cy Sample", "A-1", e.employer, {}}),
            "identity: A-1 is taken by the person 4 already");
  EXPECT_EQ(refusal(Person{"Cy Sample", "A-1", {}, {}}), "nothing was thrown");
  EXPECT_EQ(refusal(Person{"Cy Sample", "", e.course, {}}), "employer: there is no employer 2");
  EXPECT_EQ(refusal(Person{"Cy\nSample", "", {}, {}}),
            "name: holds a line break or another control character (byte 3)");
  EXPECT_EQ(refusal(Person{std::string("Cy\0Sample", 9), "", {}, {}}),
            "name: holds a line break or another control character (byte 3)");
  EXPECT_EQ(refusal(Person{"Cy \xff", "", {}, {}}), "name: is not in UTF-8 (byte 4)");
  EXPECT_EQ(refusal(Person{std::string(1001, 'x'), "", {}, {}}),
            "name: has 1001 bytes, expected at most 1000");
  EXPECT_EQ(refusal(Employer{"Invented Roofing", ""}),
            "name: Invented Roofing is taken by the employer 1 already");
  EXPECT_EQ(refusal(Course{"fall-protection", "Again", ""}),
            "code: fall-protection is taken by the course 2 already");
  EXPECT_EQ(refusal(Quiz{"7G2QK", day("2026-05-01"), ""}),
            "code: 7G2QK is taken by the quiz 10 already");
  EXPECT_EQ(refusal(Policy{e.employer, e.course, 601}),
            "refresher months: is 601, expected 0 to 600");
  EXPECT_EQ(refusal(Session{e.course, {}, {}, ""}),
            "days: is empty, expected at least one day of training");
  EXPECT_EQ(refusal(Session{e.course, {day("2026-03-02"), day("2026-03-02")}, {}, ""}),
            "days: 2026-03-02 stands after 2026-03-02, expected ascending days");
  EXPECT_EQ(refusal(Attendance{99, e.ana, true}), "session: there is no session 99");
  EXPECT_EQ(refusal(Attendance{e.session, e.session, true}), "person: there is no person 7");
  EXPECT_EQ(
      refusal(Result{e.ana, "7G2QK", day("2026-03-03"), Occasion::test, {{"swing", 101, 100}}, {}}),
      "topics: has more points than possible in swing");
  EXPECT_EQ(refusal(Retraining{e.ana, e.course, day("2026-03-03"), Reason::never_trained, ""}),
            "reason: never-trained is no reason to train again");
  EXPECT_EQ(on_correcting(99, Withdrawal{}), "entry 99: there is no such entry");
  EXPECT_EQ(on_correcting(e.ana, Employer{"Ana", ""}), "entry 4: is of kind person, not employer");
  EXPECT_EQ(on_correcting(e.ana_attended, Attendance{e.session, e.ben, true}),
            "entry 8: is about the person 4; withdraw it and add another");
  EXPECT_EQ(on_correcting(e.course, Withdrawal{}),
            "entry 2: other entries name this course; withdraw those first");
  EXPECT_EQ(on_correcting(e.ana, Withdrawal{}),
            "entry 4: other entries name this person; withdraw those first");
  EXPECT_EQ(message([&] { store->report(e.course); }), "person 2: there is no such person");
  EXPECT_EQ(store->head(), before);
  EXPECT_EQ(store->verify({}), std::nullopt);
}

TEST_P(StoreTest, NothingIsKeptWithoutCommit) {
  const Example e = fill(*store);
  const Head before = store->head();
  {
    const auto writing = store->write(day("2026-04-01"));
    writing->add(Person{"Cy Sample", "", e.employer, {}});
    writing->erase(e.ana);
  }
  EXPECT_EQ(store->head(), before);
  EXPECT_EQ(store->report(e.ana).person.value.name, "Ana Ejemplo");
  EXPECT_EQ(store->verify({}), std::nullopt);
}

TEST_P(StoreTest, AnErasedPersonHasNoNameAndTheChainHolds) {
  const Example e = fill(*store);
  auto writing = store->write(day("2026-04-01"));
  writing->add(Retraining{e.ana, e.course, day("2026-04-01"), Reason::knowledge_inadequate,
                          "Ana could not tell free fall from clearance"});
  const Head before = writing->commit();
  writing = store->write(day("2026-04-02"));
  writing->erase(e.ana);
  const Head after = writing->commit();
  store = place.open();
  EXPECT_EQ(after.number, before.number + 1);
  const auto report = store->report(e.ana);
  EXPECT_TRUE(report.person.erased);
  EXPECT_EQ(report.person.value.name, "");
  EXPECT_EQ(report.retrainings.at(0).value.remark, "");
  EXPECT_EQ(report.results.size(), 1U);
  EXPECT_TRUE(store->find_people("Ana Ejemplo").empty());
  EXPECT_EQ(due_list(*store, "2030-01-01").size(), 1U);  // Ben
  EXPECT_EQ(store->verify(before), std::nullopt);
  EXPECT_EQ(store->verify(after), std::nullopt);
  writing = store->write(day("2026-04-03"));
  EXPECT_EQ(message([&] { writing->erase(e.ana); }), "person: the person 4 was erased");
  EXPECT_EQ(message([&] {
              writing->add(Attendance{e.session, e.ana, true});
            }),
            "person: the person 4 was erased");
  EXPECT_EQ(message([&] {
              writing->correct(e.ana, Person{"Ana", "", e.employer, {}});
            }),
            "person: the person 4 was erased");
}

TEST_P(StoreTest, RefusesToBeMadeTwice) {
  EXPECT_NE(message([&] { Store::create(place.location); }).find("; it was left as it is"),
            std::string::npos);
}

}  // namespace
}  // namespace footroom::records
