// The due list as iCalendar, read by a strict reader of ours and by python3-icalendar.

#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <nlohmann/json.hpp>
#include <set>

#include "cli/invented_crew.hpp"
#include "records/store.hpp"
#include "render/strict_calendar.hpp"

namespace footroom::cli {
namespace {

using testing::contents;
using testing::InventedCrew;
using testing::fs::exists;
using testing_calendar::read_strictly;
using testing_calendar::unescaped;
using Json = nlohmann::json;

/// The events as python3-icalendar reads them.
Json read_by_icalendar(const std::string& file) {
  const std::string command =
      "/usr/bin/python3 -B " FOOTROOM_SOURCE_DIR "/tests/cli/read-calendar '" + file + "'";
  FILE* pipe = ::popen(command.c_str(), "r");
  if (!pipe) throw std::runtime_error("cannot run " + command);
  std::string out;
  std::array<char, 4096> buffer{};
  while (const auto size = std::fread(buffer.data(), 1, buffer.size(), pipe))
    out.append(buffer.data(), size);
  EXPECT_EQ(::pclose(pipe), 0);
  return Json::parse(out);
}

/// Those of ours, in the same form.
Json read_by_us(const std::string& bytes) {
  Json events = Json::array();
  for (const auto& line : read_strictly(bytes)) {
    if (line.name == "BEGIN" && line.value == "VEVENT") events.push_back(Json::object());
    if (events.empty()) continue;
    for (const auto* name : {"UID", "SUMMARY", "DESCRIPTION"})
      if (line.name == name) events.back()[name] = unescaped(line.value);
    if (line.name == "DTSTAMP" || line.name == "DTSTART;VALUE=DATE")
      events.back()[line.name.substr(0, 7)] = line.value;
  }
  return events;
}

class Calendar : public InventedCrew {
 protected:
  Json due(const std::string& on, const std::string& file = "due.ics") const {
    record({"due", "--on", on, "--calendar", file});
    const auto events = read_by_us(contents(scratch.path / file));
    EXPECT_EQ(read_by_icalendar((scratch.path / file).string()), events);
    return events;
  }
  void add_people(const std::vector<std::string>& names) const {
    const auto store = records::Store::open((scratch.path / "records.db").string(),
                                            [] { return std::string(64, '5'); });
    const auto writing = store->write(records::read_date("2026-03-04").value());
    for (const auto& name : names) writing->add(records::Person{name, {}, 1, {}});
    writing->commit();
  }
};

TEST_F(Calendar, HasADayForEachWhoIsDue) {
  add({"add-session", "--course", "fall-protection", "--days", "2026-03-02,2026-03-03", "--people",
       "A-1"});
  const auto events = due("2027-12-01");
  ASSERT_EQ(events.size(), 2U);
  EXPECT_EQ(events[0]["SUMMARY"], "Training due: Ben Sample, Fall protection");
  EXPECT_EQ(events[0]["DTSTART"], "20260304");
  EXPECT_EQ(events[0]["DTSTAMP"], "20271201T000000Z");
  EXPECT_EQ(events[0]["DESCRIPTION"], "never trained\nIdentity: A-2");
  EXPECT_EQ(events[1]["SUMMARY"], "Training due: Ana Ejemplo, Fall protection");
  EXPECT_EQ(events[1]["DTSTART"], "20270303");
  EXPECT_EQ(events[1]["DESCRIPTION"],
            "refresher interval passed\nLast trained: 2026-03-03\nIdentity: A-1");
  record({"due", "--on", "2027-12-01", "--calendar", "es.ics", "--language", "es"});
  EXPECT_EQ(read_by_us(contents(scratch.path / "es.ics"))[1]["SUMMARY"],
            "Capacitación pendiente: Ana Ejemplo, Protección contra caídas");
}

TEST_F(Calendar, AnEventKeepsItsUidWhileTheDayStays) {
  const auto uids = [](const Json& events) {
    std::set<std::string> all;
    for (const auto& event : events) all.insert(event["UID"]);
    return all;
  };
  const auto first = uids(due("2026-06-01"));
  EXPECT_EQ(first.size(), 2U);
  add({"correct", "4", "--name", "Ana M. Ejemplo"});
  EXPECT_EQ(uids(due("2026-09-01", "later.ics")), first);
  add({"add-session", "--course", "fall-protection", "--days", "2026-03-02", "--people", "A-1"});
  const auto trained = uids(due("2027-06-01"));
  EXPECT_EQ(trained.size(), 2U);
  std::size_t kept = 0;
  for (const auto& uid : trained) kept += first.count(uid);
  EXPECT_EQ(kept, 1U);
}

TEST_F(Calendar, AnotherStoreWithTheSameNamesAndNumbersHasOtherUids) {
  const auto here = due("2026-06-01");
  class Other : public InventedCrew {
   public:
    void TestBody() override {}
    using InventedCrew::record;
    using InventedCrew::scratch;
  };
  const Other other;
  other.record({"due", "--on", "2026-06-01", "--calendar", "due.ics"});
  const auto there = read_by_us(contents(other.scratch.path / "due.ics"));
  ASSERT_EQ(there.size(), here.size());
  for (std::size_t i = 0; i < here.size(); ++i) {
    EXPECT_EQ(there[i]["SUMMARY"], here[i]["SUMMARY"]);
    EXPECT_NE(there[i]["UID"], here[i]["UID"]);
  }
}

TEST_F(Calendar, HostileNamesStayNames) {
  const std::vector<std::string> names{
      "END:VEVENT BEGIN:VEVENT UID:1",
      "a;b,c:d\"e\"",
      "\u202Eright to left",
      std::string(300, 'x') + ",",
      "ñandú 屋根 🏠 ñandú 屋根 🏠 ñandú 屋根 🏠 ñandú 屋根 🏠 ñandú 屋根 🏠 ñandú 屋根 🏠 ñandú",
  };
  add_people(names);
  const auto events = due("2026-06-01");
  ASSERT_EQ(events.size(), names.size() + 2);
  for (std::size_t i = 0; i < names.size(); ++i)
    EXPECT_EQ(events[i + 2]["SUMMARY"], "Training due: " + names[i] + ", Fall protection");
}

// Without python3-icalendar: its version 4.0 unescapes backslashes twice.
TEST_F(Calendar, BackslashesInNamesStay) {
  const std::vector<std::string> names{"END:VEVENT\\r\\nBEGIN:VEVENT", "\\n\\N\\;\\,\\\\",
                                       "trailing\\"};
  add_people(names);
  record({"due", "--on", "2026-06-01", "--calendar", "due.ics"});
  const auto events = read_by_us(contents(scratch.path / "due.ics"));
  ASSERT_EQ(events.size(), names.size() + 2);
  for (std::size_t i = 0; i < names.size(); ++i)
    EXPECT_EQ(events[i + 2]["SUMMARY"], "Training due: " + names[i] + ", Fall protection");
}

TEST_F(Calendar, IsNotWrittenWhereNobodyIsDue) {
  EXPECT_EQ(record({"due", "--on", "2026-03-01", "--calendar", "due.ics"}),
            "Nobody is due on 2026-03-01.\ndue.ics was not written: a calendar needs an event.\n");
  EXPECT_FALSE(exists(scratch.path / "due.ics"));
  const auto ran =
      run(of_record({"due", "--on", "2026-06-01", "--calendar", "records.db/due.ics"}));
  EXPECT_EQ(ran.code, 3);
}

}  // namespace
}  // namespace footroom::cli
