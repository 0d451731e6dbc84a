#pragma once
// A store of training records: a SQLite file, or a PostgreSQL database for employers with several
// sites. Both behave alike.
//
// Entries are only ever added. Each carries the SHA-256 digest of itself and of the digest before
// it (the chain), so that a change made by other means is found by verify(), and, against a head
// that was kept elsewhere, the removal of the last entries too. Personal data stands apart from the
// entry, which holds a salted digest of it: erasing a person removes data and salt, and the chain
// stays whole.
//
// A Writing is one change: all of it is kept at commit(), or nothing. Once commit() has returned,
// it has reached the disk. One Writing at a time exists in a store, other writers wait for it.

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "records/failure.hpp"
#include "records/model.hpp"

namespace footroom::records {

/// Whether a location is that of a database on a server, not of a file.
bool is_server(const std::string& location);

/// Names the state of a whole store: the last entry and its digest. An empty store's head is 0 and
/// 64 zeros.
struct Head {
  Number number = 0;
  std::string digest;  ///< 64 lower-case hexadecimal digits

  std::string text() const;  ///< "12:9f86d0..."
  friend bool operator==(const Head&, const Head&) = default;
};
std::optional<Head> read_head(std::string_view text);

/// 64 hexadecimal digits that nobody can guess, anew at each call.
using NewSalt = std::function<std::string()>;

/// Called again and again during long work with the number of the entry that was done last. What it
/// throws ends the work and takes it back.
using Told = std::function<void(Number entry)>;
inline const Told tell_nobody = [](Number) {};

/// What verify() found wrong first.
struct BadEntry {
  Number number = 0;  ///< 0: not one entry but the store
  std::string what;   ///< "the digest is not that of its content"
};

struct Due {
  Standing standing;
  Person person;
  bool erased = false;
  Course course;
};

/// Everything about a person that is in effect, each in the order of their numbers.
struct PersonReport {
  Numbered<Person> person;
  std::optional<Numbered<Employer>> employer;
  std::vector<Numbered<Attendance>> attendances;
  std::vector<Numbered<Session>> sessions;  ///< those of the attendances
  std::vector<Numbered<Course>> courses;    ///< all that are named here
  std::vector<Numbered<Result>> results;
  std::vector<Numbered<Retraining>> retrainings;
  std::vector<Numbered<Certificate>> certificates;
  std::vector<Standing> standings;
  std::vector<Entry> history;  ///< every entry, with what no longer counts
};

class Writing {
 public:
  Writing(const Writing&) = delete;
  Writing& operator=(const Writing&) = delete;
  /// Takes everything back unless it was committed.
  virtual ~Writing() = default;

  /// Adds an entry and returns its number. Throws Refused where the content is faulty, names what
  /// is not there, or repeats a code or an identity. Not for Withdrawal and Erasure.
  virtual Number add(const Content& content) = 0;

  /// Adds what stands in the place of an entry: content of the same kind and the same person.
  /// `entry` may itself be a correction. A Withdrawal takes the subject out of effect.
  virtual Number correct(Number entry, const Content& content) = 0;

  /// Removes the name, identity and remarks of a person for good.
  virtual Number erase(Number person) = 0;

  /// Keeps everything and returns the new head.
  virtual Head commit() = 0;

 protected:
  Writing() = default;
};

class Store {
 public:
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  virtual ~Store() = default;

  /// `location` is the path of a file, or postgresql://... Refuses a location that holds a store
  /// already. A file gets mode 0600.
  static void create(const std::string& location);

  /// Throws Unavailable where there is no store, or one of a newer version; an older one is
  /// migrated.
  static std::unique_ptr<Store> open(const std::string& location, NewSalt new_salt);

  /// `recorded` is the day that the entries carry.
  virtual std::unique_ptr<Writing> write(Date recorded) = 0;

  virtual Head head() = 0;
  /// Throws Refused where there is no such entry.
  virtual Entry entry(Number number) = 0;
  /// What is in effect for a subject: for an entry, the last correction of it.
  virtual Entry effective(Number subject) = 0;
  /// The entry's digest in the chain. That of an entry about a person covers its salt, so no other
  /// store has the same; it stays when the person is erased.
  virtual std::string digest(Number entry) = 0;

  /// Streams in the order of the numbers; what is in effect, erased persons included. Nothing else
  /// may be asked of the store from within `visit`.
  virtual void each_entry(const std::function<void(const Entry&)>& visit) = 0;
  virtual void each_person(const std::function<void(const Numbered<Person>&)>& visit) = 0;
  virtual void each_result(const std::function<void(const Numbered<Result>&)>& visit) = 0;
  virtual void each_session(const std::function<void(const Numbered<Session>&)>& visit) = 0;
  virtual void each_certificate(const std::function<void(const Numbered<Certificate>&)>& visit) = 0;

  virtual std::vector<Numbered<Employer>> employers() = 0;
  virtual std::vector<Numbered<Course>> courses() = 0;
  /// In the order of their numbers: of an employer and a course the last one counts.
  virtual std::vector<Numbered<Policy>> policies() = 0;
  /// The quiz with this code.
  virtual std::optional<Number> find_quiz(const std::string& code) = 0;
  /// Those of a session that are in effect.
  virtual std::vector<Numbered<Attendance>> attendances(Number session) = 0;

  /// People whose identity or, failing that, whose name is this text.
  virtual std::vector<Numbered<Person>> find_people(const std::string& text) = 0;

  virtual PersonReport report(Number person) = 0;

  /// Whoever is due on this day or was before, the longest overdue first; people who left are not.
  virtual void each_due(Date on, std::optional<Number> employer,
                        const std::function<void(const Due&)>& visit) = 0;

  /// Checks the file or database, the chain, the personal data and the table behind the due list.
  /// `kept` is a head of this store from any earlier time.
  virtual std::optional<BadEntry> verify(const std::optional<Head>& kept,
                                         const Told& told = tell_nobody) = 0;

  /// Copies this store, as it is at this moment, to a new file; others may go on writing. The copy
  /// has the same head, and appears only when whole.
  virtual Head backup(const std::string& file, const Told& told = tell_nobody) = 0;

  /// Makes a store at `location`, where none is, from a backup that verifies.
  static Head restore(const std::string& file, const std::string& location,
                      const Told& told = tell_nobody);

 protected:
  Store() = default;
};

}  // namespace footroom::records
