#include "records/verify.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "records/writing.hpp"

namespace footroom::records {
namespace {

std::optional<BadEntry> check_database(Database& database) {
  if (database.is_file()) {
    const auto found = database.table("PRAGMA integrity_check(1)", 1).at(0).at(0);
    if (found != "ok") return BadEntry{0, "the file is damaged: " + found};
  }
  std::set<std::string> there;
  for (const auto& row :
       database.table(database.is_file() ? "SELECT name FROM sqlite_master WHERE type = 'trigger'"
                                         : "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal "
                                           "AND tgenabled = 'O' AND tgrelid IN "
                                           "(to_regclass('entry'), to_regclass('personal'))",
                      1))
    there.insert(row[0]);
  for (const auto& name : trigger_names(database.is_file()))
    if (there.count(name) == 0)
      return BadEntry{0, "the trigger " + name + " that refuses changes was removed"};
  return std::nullopt;
}

std::optional<BadEntry> check_entries(Database& database, const std::optional<Head>& kept,
                                      const Told& told) {
  Head head{0, first_digest()};
  if (kept && kept->number == 0 && kept->digest != head.digest)
    return BadEntry{0, "an empty store has another head than the one kept"};
  for (auto rows = database.rows(tail::page, {Number{0}}); !rows.empty();
       rows = database.rows(tail::page, {head.number})) {
    for (const auto& row : rows) {
      const bool next = row.number == head.number + 1;
      const std::string fault = fault_of(row, head);
      if (!fault.empty()) return BadEntry{next ? row.number : head.number + 1, fault};
      if (!row.seal.empty() && !row.personal &&
          !database.any("SELECT number FROM entry WHERE person = :a AND kind = 'erasure' AND "
                        "number > :b",
                        {row.person.value_or(0), row.number}))
        return BadEntry{row.number, "its personal data is missing, and nobody erased the person"};
      if (row.kind == "erasure" &&
          database.any("SELECT entry FROM personal WHERE person = :a", {row.person.value_or(0)}))
        return BadEntry{row.number, "personal data of the person is there all the same"};
      head = {row.number, row.digest};
      told(head.number);
      if (kept && kept->number == head.number && kept->digest != head.digest)
        return BadEntry{head.number, "its digest is not the one of the head kept elsewhere"};
    }
  }
  if (kept && kept->number > head.number)
    return BadEntry{head.number + 1, fmt::format("is missing, and so is all up to entry {} of the "
                                                 "head kept elsewhere",
                                                 kept->number)};
  const auto strange = database.table(
      "SELECT p.entry FROM personal p LEFT JOIN entry e ON e.number = p.entry "
      "WHERE e.number IS NULL OR e.person IS NULL OR e.person <> p.person ORDER BY p.entry LIMIT 1",
      1);
  if (!strange.empty())
    return BadEntry{std::stoll(strange[0][0]), "has personal data that belongs to no entry"};
  return std::nullopt;
}

std::optional<BadEntry> check_standings(Database& database, const Told& told) {
  constexpr auto page =
      "SELECT number FROM entry WHERE number > :a AND kind = 'person' AND corrects IS NULL "
      "ORDER BY number LIMIT 500";
  StandingReader reader(database);
  std::size_t counted = 0;
  Number last = 0;
  for (auto people = database.table(page, 1, {last}); !people.empty();
       people = database.table(page, 1, {last})) {
    for (const auto& row : people) {
      last = std::stoll(row[0]);
      const auto found = reader.find(last);
      std::vector<std::vector<std::string>> expected;
      for (const auto& s : found.standings)
        expected.push_back({std::to_string(s.course), std::to_string(found.employer),
                            day_text(s.trained), day_text(s.due), std::string(word(s.reason))});
      if (database.table("SELECT course, employer, trained, due, reason FROM standing "
                         "WHERE person = :a ORDER BY course",
                         5, {last}) != expected)
        return BadEntry{last, "the due list does not follow from the entries about this person"};
      counted += expected.size();
      told(last);
    }
  }
  if (database.table("SELECT count(*) FROM standing", 1).at(0).at(0) != std::to_string(counted))
    return BadEntry{0, "the due list names people who have no entry"};
  return std::nullopt;
}

}  // namespace

std::string fault_of(const Row& row, const Head& previous) {
  if (row.number != previous.number + 1) return "is missing";
  if (digest_of(row, previous.digest) != row.digest)
    return "the digest is not that of its content and the entry before";
  if (row.personal && row.seal.empty()) return "has personal data that it does not tell of";
  if (row.personal && seal_of(*row.personal) != row.seal)
    return "the personal data is not what was recorded";
  try {
    entry_of(row);
  } catch (const std::exception& error) {
    return std::string("cannot be read: ") + error.what();
  }
  return "";
}

std::optional<BadEntry> verify(Database& database, const std::optional<Head>& kept,
                               const Told& told) {
  if (auto bad = check_database(database)) return bad;
  if (auto bad = check_entries(database, kept, told)) return bad;
  return check_standings(database, told);
}

}  // namespace footroom::records
