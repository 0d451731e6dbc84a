#pragma once
#include <map>
#include <set>

#include "records/database.hpp"
#include "records/standing.hpp"
#include "records/store.hpp"

namespace footroom::records {

/// Rows that a query takes from the tables.
namespace tail {

inline const std::string entries = "entry e LEFT JOIN personal p ON p.entry = e.number ";
/// The latest entry about subject :a.
inline const std::string effective =
    entries +
    "WHERE e.number = coalesce((SELECT max(c.number) FROM entry c WHERE c.corrects = :a), :a)";
/// A condition: no later entry stands in the place of e.
inline const std::string is_effective =
    "e.number = coalesce((SELECT max(c.number) FROM entry c "
    "WHERE c.corrects = coalesce(e.corrects, e.number)), e.number) ";
/// A page of the entries after :a, in order.
inline const std::string page = entries + "WHERE e.number > :a ORDER BY e.number LIMIT 500";
/// A page of what is in effect of kind :b, after subject :a.
inline const std::string effective_page =
    "entry r JOIN entry e ON e.number = "
    "coalesce((SELECT max(c.number) FROM entry c WHERE c.corrects = r.number), r.number) "
    "LEFT JOIN personal p ON p.entry = e.number "
    "WHERE r.number > :a AND r.kind = :b AND r.corrects IS NULL ORDER BY r.number LIMIT 500";

}  // namespace tail

/// As records::entry_of(), where a row that is none is damage of the database.
Entry read_entry(const Database& database, const Row& row);
Head read_head(Database& database);
/// Nothing for no day, as the table of standings has it.
std::string day_text(const std::optional<Date>& day);
/// Of a person; every one.
std::vector<Entry> history(Database& database, Number person);

/// Works out where people stand. Remembers sessions and policies, so it lives no longer than they
/// stay as they are.
class StandingReader {
 public:
  explicit StandingReader(Database& database) : database_(database) {}
  struct Found {
    std::vector<Standing> standings;
    Number employer = 0;  ///< 0: none
  };
  Found find(Number person);

 private:
  Session session(Number number);
  const std::vector<Policy>& policies(Number employer);

  Database& database_;
  std::map<Number, Session> sessions_;
  std::map<Number, std::vector<Policy>> policies_;
};

class DatabaseWriting : public Writing {
 public:
  DatabaseWriting(Database& database, bool& in_use, Date recorded, const NewSalt& new_salt);
  ~DatabaseWriting() override;
  Number add(const Content& content) override;
  Number correct(Number entry, const Content& content) override;
  Number erase(Number person) override;
  Head commit() override;

 private:
  Row need_effective(const char* what, const char* kind, Number number);
  void check_person(Number person);
  void check_references(const Content& content);
  void check_unique(const Content& content, Number subject);
  void check_unused(const Row& row);
  Number append(Row row);
  /// Whose standing may be another one now.
  void touch(const Content& content, Number subject);
  void renew_standings();

  Database& database_;
  bool& in_use_;
  bool open_ = false;
  bool erased_ = false;
  std::string recorded_;
  const NewSalt& new_salt_;
  Head head_;
  std::set<Number> touched_;
  std::set<Number> sound_people_;  ///< known to be there and not erased
};

}  // namespace footroom::records
