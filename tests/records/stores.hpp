#pragma once
// Stores to try things on: a file in a fresh folder, or a schema of its own on the server that the
// fixture postgres started. Invented people throughout.

#include <gtest/gtest.h>
#include <soci/postgresql/soci-postgresql.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <stdexcept>
#include <string>

#include "records/store.hpp"

namespace footroom::records::testing {

namespace fs = std::filesystem;

inline Date day(const std::string& text) {
  return read_date(text).value();
}

/// Different at each call, and the same in each run.
inline NewSalt counted_salts() {
  return [count = 0]() mutable {
    std::string salt = std::to_string(++count);
    return std::string(64 - salt.size(), '0') + salt;
  };
}

class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "footroom-records-XXXXXX").string();
    if (!::mkdtemp(name.data())) throw std::runtime_error("cannot make " + name);
    path = name;
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(path); }
  fs::path path;
};

inline std::string contents(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline void put(const fs::path& file, const std::string& bytes) {
  std::ofstream(file, std::ios::binary) << bytes;
}

enum class Kind { file, server };

inline void PrintTo(Kind kind, std::ostream* out) {
  *out << (kind == Kind::file ? "a file" : "a server");
}

inline std::string server_address() {
  std::ifstream named(FOOTROOM_POSTGRES_FOLDER);
  std::string folder;
  if (!std::getline(named, folder))
    throw std::runtime_error(
        "no server: run tests/records/postgres start " FOOTROOM_POSTGRES_FOLDER);
  return "postgresql:///postgres?user=footroom&host=" + folder;
}

/// A place for one store.
class Place {
 public:
  explicit Place(Kind kind) : kind_(kind) {
    if (kind == Kind::file) {
      location = (folder.path / "records.db").string();
      return;
    }
    static int count = 0;
    schema_ = "test_" + std::to_string(::getpid()) + "_" + std::to_string(++count);
    soci::session sql(soci::postgresql, server_address());
    sql << "CREATE SCHEMA " + schema_;
    location = server_address() + "&options=-csearch_path%3D" + schema_;
  }
  Place(const Place&) = delete;
  Place& operator=(const Place&) = delete;
  ~Place() {
    if (kind_ == Kind::file) return;
    soci::session sql(soci::postgresql, server_address());
    sql << "SET client_min_messages = warning";
    sql << "DROP SCHEMA " + schema_ + " CASCADE";
  }

  std::unique_ptr<Store> make() const {
    Store::create(location);
    return open();
  }
  std::unique_ptr<Store> open() const { return Store::open(location, counted_salts()); }

  /// What someone may do who has the database but not the program.
  void tamper(const std::string& statement) const {
    soci::session sql(kind_ == Kind::file ? soci::session(soci::sqlite3, location)
                                          : soci::session(soci::postgresql, location));
    run(sql, statement);
  }
  void run(soci::session& sql, const std::string& statement) const {
    if (kind_ == Kind::server) {
      sql << "SET session_replication_role = replica";  // no triggers, no foreign keys
      sql << statement;
      return;
    }
    const soci::rowset<std::string> made =
        (sql.prepare << "SELECT sql FROM sqlite_master WHERE type = 'trigger'");
    const std::vector<std::string> triggers(made.begin(), made.end());
    const soci::rowset<std::string> names =
        (sql.prepare << "SELECT name FROM sqlite_master WHERE type = 'trigger'");
    for (const auto& name : std::vector<std::string>(names.begin(), names.end()))
      sql << "DROP TRIGGER " + name;
    sql << statement;
    for (const auto& trigger : triggers) sql << trigger;
  }

  /// The statement as the guards meet it.
  void plain(const std::string& statement) const {
    if (kind_ == Kind::file) {
      soci::session sql(soci::sqlite3, location);
      sql << "PRAGMA recursive_triggers = ON";
      sql << statement;
    } else {
      soci::session sql(soci::postgresql, location);
      sql << statement;
    }
  }

  Folder folder;
  std::string location;

 private:
  Kind kind_;
  std::string schema_;
};

/// One employer with two people, a course, a session that both attended, a quiz and results.
struct Example {
  Number employer = 0, course = 0, policy = 0, ana = 0, ben = 0, trainer = 0, session = 0,
         ana_attended = 0, ben_attended = 0, quiz = 0, result = 0;
};

inline Example fill(Store& store) {
  Example e;
  const auto writing = store.write(day("2026-03-02"));
  e.employer = writing->add(Employer{"Invented Roofing", "Sampletown"});
  e.course = writing->add(Course{"fall-protection", "Fall protection", "Protección contra caídas"});
  e.policy = writing->add(Policy{e.employer, e.course, 12});
  e.ana = writing->add(Person{"Ana Ejemplo", "A-1", e.employer, {}});
  e.ben = writing->add(Person{"Ben Sample", "A-2", e.employer, {}});
  e.trainer = writing->add(Person{"Tess Trainer", "", {}, {}});
  e.session =
      writing->add(Session{e.course, {day("2026-03-02"), day("2026-03-03")}, e.trainer, "Yard"});
  e.ana_attended = writing->add(Attendance{e.session, e.ana, true});
  e.ben_attended = writing->add(Attendance{e.session, e.ben, false});
  e.quiz = writing->add(Quiz{"7G2QK", day("2026-03-03"), "weekly"});
  Result result;
  result.person = e.ana;
  result.quiz = "7G2QK";
  result.day = day("2026-03-03");
  result.topics = {{"clearance", 250, 300}, {"swing", 100, 100}};
  result.missed = {"clearance-below-d-ring"};
  e.result = writing->add(result);
  writing->commit();
  return e;
}

/// "2027-03-03 4 1 interval-passed" for each one due.
inline std::vector<std::string> due_list(Store& store, const std::string& on,
                                         std::optional<Number> employer = {}) {
  std::vector<std::string> lines;
  store.each_due(day(on), employer, [&lines](const Due& due) {
    lines.push_back(date_text(due.standing.due.value()) + " " + due.person.name + " " +
                    due.course.code + " " + std::string(word(due.standing.reason)));
  });
  return lines;
}

template <class Act>
std::string message(Act&& act) {
  try {
    act();
  } catch (const std::exception& error) {
    return error.what();
  }
  return "nothing was thrown";
}

class EachStore : public ::testing::TestWithParam<Kind> {
 protected:
  EachStore() : place(GetParam()), store(place.make()) {}
  Place place;
  std::unique_ptr<Store> store;
};

inline std::string kind_name(const ::testing::TestParamInfo<Kind>& kind) {
  return kind.param == Kind::file ? "SQLite" : "PostgreSQL";
}

}  // namespace footroom::records::testing
