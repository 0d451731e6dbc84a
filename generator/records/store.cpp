#include "records/store.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "records/partial_file.hpp"
#include "records/verify.hpp"
#include "records/words.hpp"
#include "records/writing.hpp"

namespace footroom::records {
namespace {

/// What is read between begin and end is one state of the store, whatever others write.
class Reading {
 public:
  Reading(Database& database, bool within_writing)
      : database_(within_writing ? nullptr : &database) {
    if (database_) database_->begin_reading();
  }
  Reading(const Reading&) = delete;
  Reading& operator=(const Reading&) = delete;
  ~Reading() {
    if (database_) database_->roll_back();
  }

 private:
  Database* database_;
};

template <class T>
Numbered<T> numbered(const Entry& entry) {
  return {entry.subject(), std::get<T>(entry.content), entry.erased};
}

/// Copies every row; throws Unavailable at the first entry that does not follow from the one
/// before.
Head copy(Database& from, Database& to, const Told& told) {
  Head head{0, first_digest()};
  for (auto rows = from.rows(tail::page, {Number{0}}); !rows.empty();
       rows = from.rows(tail::page, {head.number})) {
    for (const auto& row : rows) {
      if (const auto fault = fault_of(row, head); !fault.empty())
        throw Unavailable(fmt::format("{}: entry {} is damaged: {}; nothing was copied",
                                      from.shown(), head.number + 1, fault));
      to.insert(row);
      if (row.personal) to.insert_personal(row.number, row.person.value_or(0), *row.personal);
      head = {row.number, row.digest};
      told(head.number);
    }
  }
  constexpr auto page =
      "SELECT person, course, employer, trained, due, reason FROM standing "
      "WHERE (person, course) > (:a, :b) ORDER BY person, course LIMIT 500";
  Database::Arguments last{Number{0}, Number{0}};
  for (auto rows = from.table(page, 6, last); !rows.empty(); rows = from.table(page, 6, last)) {
    for (const auto& row : rows) {
      last = {std::stoll(row[0]), std::stoll(row[1])};
      to.execute("INSERT INTO standing VALUES (:a, :b, :c, :d, :e, :f)",
                 {last[0], last[1], Number{std::stoll(row[2])}, row[3], row[4], row[5]});
      told(head.number);
    }
  }
  return head;
}

std::unique_ptr<Database> open_empty_server(const std::string& location) {
  auto database = Database::open_server(location);
  if (database->table("SHOW server_encoding", 1).at(0).at(0) != "UTF8")
    throw Unavailable(database->shown() + ": the database is not in UTF8, which names need");
  if (database->version() == 0) {
    database->migrate(schema_steps());
    return database;
  }
  if (read_head(*database).number > 0)
    throw Refused(database->shown() + worded({": holds a store already; it was left as it is",
                                              ": ya contiene un registro; quedó como estaba"}));
  return database;
}

/// Makes a store of nothing but what `fill` puts into it.
Head make_file(const std::string& file, const std::function<Head(Database&)>& fill) {
  PartialFile partial(file);
  const auto database = Database::open_file(partial.path(), Database::Use::fill, file);
  database->migrate(schema_steps());
  database->begin_writing();
  const Head head = fill(*database);
  database->commit();
  database->finish_filling();
  partial.publish();
  return head;
}

class DatabaseStore : public Store {
 public:
  DatabaseStore(std::unique_ptr<Database> database, NewSalt new_salt)
      : database_(std::move(database)), new_salt_(std::move(new_salt)) {}

  std::unique_ptr<Writing> write(Date recorded) override {
    return std::make_unique<DatabaseWriting>(*database_, writing_, recorded, new_salt_);
  }

  Head head() override { return read_head(*database_); }

  Entry entry(Number number) override { return one(tail::entries + "WHERE e.number = :a", number); }
  Entry effective(Number subject) override { return one(tail::effective, subject); }
  std::string digest(Number entry) override {
    return row_of(tail::entries + "WHERE e.number = :a", entry).digest;
  }

  void each_entry(const std::function<void(const Entry&)>& visit) override {
    const Reading reading(*database_, writing_);
    Number last = 0;
    for (auto rows = database_->rows(tail::page, {last}); !rows.empty();
         rows = database_->rows(tail::page, {last}))
      for (const auto& row : rows) {
        last = row.number;
        visit(read_entry(*database_, row));
      }
  }
  void each_person(const std::function<void(const Numbered<Person>&)>& visit) override {
    each_effective<Person>("person", visit);
  }
  void each_result(const std::function<void(const Numbered<Result>&)>& visit) override {
    each_effective<Result>("result", visit);
  }
  void each_session(const std::function<void(const Numbered<Session>&)>& visit) override {
    each_effective<Session>("session", visit);
  }
  void each_certificate(const std::function<void(const Numbered<Certificate>&)>& visit) override {
    each_effective<Certificate>("certificate", visit);
  }

  std::vector<Numbered<Employer>> employers() override { return named<Employer>("employer"); }
  std::vector<Numbered<Course>> courses() override { return named<Course>("course"); }

  std::vector<Numbered<Policy>> policies() override {
    std::vector<Numbered<Policy>> all;
    each_effective<Policy>("policy", [&](const Numbered<Policy>& one) { all.push_back(one); });
    return all;
  }

  std::optional<Number> find_quiz(const std::string& code) override {
    for (const auto& row : database_->rows(
             tail::entries + "WHERE e.kind = 'quiz' AND e.name = :a AND e.name <> '' AND " +
                 tail::is_effective,
             {code}))
      return row.corrects.value_or(row.number);
    return std::nullopt;
  }

  std::vector<Numbered<Attendance>> attendances(Number session) override {
    std::vector<Numbered<Attendance>> all;
    for (const auto& row :
         database_->rows(tail::entries + "WHERE e.about = :a AND e.kind = 'attendance' AND " +
                             tail::is_effective + "ORDER BY e.number",
                         {session}))
      all.push_back(numbered<Attendance>(read_entry(*database_, row)));
    return all;
  }

  std::vector<Numbered<Person>> find_people(const std::string& text) override {
    std::vector<Numbered<Person>> found;
    for (const auto* column : {"identity", "name"}) {
      if (!found.empty() || text.empty()) break;
      for (const auto& row : database_->rows(
               fmt::format("personal q JOIN entry e ON e.number = q.entry "
                           "LEFT JOIN personal p ON p.entry = e.number WHERE q.{0} = :a "
                           "AND q.{0} <> '' AND e.kind = 'person' AND {1} ORDER BY e.person",
                           column, tail::is_effective),
               {text}))
        found.push_back(numbered<Person>(read_entry(*database_, row)));
    }
    return found;
  }

  PersonReport report(Number person) override {
    const Reading reading(*database_, writing_);
    PersonReport report;
    report.history = history(*database_, person);
    const auto effective = in_effect(report.history);
    if (effective.empty() || !std::holds_alternative<Person>(effective.front().content) ||
        effective.front().subject() != person)
      throw Refused(
          worded({"person {}: there is no such person", "persona {}: no existe"}, person));
    std::map<Number, Numbered<Session>> sessions;
    std::map<Number, Numbered<Course>> courses;
    const auto name_course = [&](Number number) {
      if (courses.count(number) == 0)
        courses[number] = numbered<Course>(one(tail::effective, number));
    };
    for (const auto& entry : effective) {
      if (std::holds_alternative<Person>(entry.content)) {
        report.person = numbered<Person>(entry);
      } else if (const auto* attendance = std::get_if<Attendance>(&entry.content)) {
        report.attendances.push_back(numbered<Attendance>(entry));
        if (sessions.count(attendance->session) == 0) {
          const auto& session = sessions[attendance->session] =
              numbered<Session>(one(tail::effective, attendance->session));
          name_course(session.value.course);
        }
      } else if (std::holds_alternative<Result>(entry.content)) {
        report.results.push_back(numbered<Result>(entry));
      } else if (const auto* retraining = std::get_if<Retraining>(&entry.content)) {
        report.retrainings.push_back(numbered<Retraining>(entry));
        name_course(retraining->course);
      } else if (const auto* certificate = std::get_if<Certificate>(&entry.content)) {
        report.certificates.push_back(numbered<Certificate>(entry));
        name_course(certificate->course);
      }
    }
    if (const auto employer = report.person.value.employer)
      report.employer = numbered<Employer>(one(tail::effective, *employer));
    report.standings = StandingReader(*database_).find(person).standings;
    for (const auto& standing : report.standings) name_course(standing.course);
    for (const auto& [number, session] : sessions) report.sessions.push_back(session);
    for (const auto& [number, course] : courses) report.courses.push_back(course);
    return report;
  }

  void each_due(Date on, std::optional<Number> employer,
                const std::function<void(const Due&)>& visit) override {
    const Reading reading(*database_, writing_);
    const std::string condition =
        std::string(
            "WHERE s.due <> '' AND s.due <= :a AND (s.due, s.person, s.course) > "
            "(:b, :c, :d) ") +
        (employer ? "AND s.employer = :e " : "") + "ORDER BY s.due, s.person, s.course LIMIT 500";
    const std::string standings =
        "SELECT s.due, s.person, s.course, s.trained, s.reason FROM standing s " + condition;
    // The same rows in the same order, each with the latest entry about the person.
    const std::string people =
        "standing s JOIN entry e ON e.number = coalesce((SELECT max(c.number) FROM entry c "
        "WHERE c.corrects = s.person), s.person) LEFT JOIN personal p ON p.entry = e.number " +
        condition;
    std::map<Number, Course> courses;
    Database::Arguments arguments{date_text(on), std::string(), Number{0}, Number{0}};
    if (employer) arguments.emplace_back(*employer);
    for (auto rows = database_->table(standings, 5, arguments); !rows.empty();
         rows = database_->table(standings, 5, arguments)) {
      const auto entries = database_->rows(people, arguments);
      for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto& row = rows[i];
        Due due;
        due.standing = {std::stoll(row[1]), std::stoll(row[2]), read_date(row[3]),
                        read_date(row[0]), read_reason(row[4]).value_or(Reason::interval_passed)};
        if (i >= entries.size() || entries[i].person != due.standing.person)
          throw Unavailable(fmt::format("{}: the due list names the person {}, who has no entry",
                                        database_->shown(), due.standing.person));
        const Entry person = read_entry(*database_, entries[i]);
        due.person = std::get<Person>(person.content);
        due.erased = person.erased;
        const Number course = due.standing.course;
        if (courses.count(course) == 0)
          courses[course] = std::get<Course>(one(tail::effective, course).content);
        due.course = courses[course];
        arguments[1] = row[0];
        arguments[2] = due.standing.person;
        arguments[3] = course;
        visit(due);
      }
    }
  }

  std::optional<BadEntry> verify(const std::optional<Head>& kept, const Told& told) override {
    const Reading reading(*database_, writing_);
    return records::verify(*database_, kept, told);
  }

  Head backup(const std::string& file, const Told& told) override {
    const Reading reading(*database_, writing_);
    return make_file(file, [&](Database& to) { return copy(*database_, to, told); });
  }

 private:
  Row row_of(const std::string& query, Number number) {
    auto rows = database_->rows(query, {number});
    if (rows.empty())
      throw Refused(
          worded({"entry {}: there is no such entry", "anotación {}: no existe"}, number));
    return std::move(rows[0]);
  }
  Entry one(const std::string& query, Number number) {
    return read_entry(*database_, row_of(query, number));
  }

  template <class T>
  void each_effective(const std::string& kind,
                      const std::function<void(const Numbered<T>&)>& visit) {
    const Reading reading(*database_, writing_);
    Number last = 0;
    for (auto rows = database_->rows(tail::effective_page, {last, kind}); !rows.empty();
         rows = database_->rows(tail::effective_page, {last, kind}))
      for (const auto& row : rows) {
        last = row.corrects.value_or(row.number);
        if (row.kind == kind) visit(numbered<T>(read_entry(*database_, row)));
      }
  }

  template <class T>
  std::vector<Numbered<T>> named(const std::string& kind) {
    std::vector<Numbered<T>> all;
    for (const auto& row : database_->rows(
             tail::entries + "WHERE e.kind = :a AND e.name <> '' AND " + tail::is_effective,
             {kind}))
      all.push_back(numbered<T>(read_entry(*database_, row)));
    std::sort(all.begin(), all.end(),
              [](const auto& a, const auto& b) { return a.number < b.number; });
    return all;
  }

  std::unique_ptr<Database> database_;
  NewSalt new_salt_;
  bool writing_ = false;
};

}  // namespace

bool is_server(const std::string& location) {
  return location.rfind("postgresql://", 0) == 0 || location.rfind("postgres://", 0) == 0;
}

std::string Head::text() const {
  return fmt::format("{}:{}", number, digest);
}

std::optional<Head> read_head(std::string_view text) {
  const auto colon = text.find(':');
  if (colon == std::string_view::npos || colon == 0 || colon > 18) return std::nullopt;
  Head head{0, std::string(text.substr(colon + 1))};
  for (const char c : text.substr(0, colon)) {
    if (c < '0' || c > '9') return std::nullopt;
    head.number = head.number * 10 + (c - '0');
  }
  if (head.digest.size() != 64 ||
      head.digest.find_first_not_of("0123456789abcdef") != std::string::npos)
    return std::nullopt;
  return head;
}

void Store::create(const std::string& location) {
  if (is_server(location)) {
    auto database = Database::open_server(location);
    if (database->version() > 0)
      throw Refused(database->shown() + worded({": holds a store already; it was left as it is",
                                                ": ya contiene un registro; quedó como estaba"}));
    open_empty_server(location);
  } else {
    make_file(location, [](Database&) { return Head{}; });
  }
}

std::unique_ptr<Store> Store::open(const std::string& location, NewSalt new_salt) {
  auto database = is_server(location) ? Database::open_server(location)
                                      : Database::open_file(location, Database::Use::open);
  if (database->version() == 0)
    throw Unavailable(database->shown() + ": holds no store; record init makes one");
  database->migrate(schema_steps());
  return std::make_unique<DatabaseStore>(std::move(database), std::move(new_salt));
}

Head Store::restore(const std::string& file, const std::string& location, const Told& told) {
  const auto from = Database::open_file(file, Database::Use::open);
  from->migrate(schema_steps());
  const Reading reading(*from, false);
  if (const auto bad = records::verify(*from, {}, told))
    throw Unavailable(
        fmt::format("{}: entry {}: {}; nothing was restored", file, bad->number, bad->what));
  if (!is_server(location))
    return make_file(location, [&](Database& to) { return copy(*from, to, told); });
  const auto to = open_empty_server(location);
  to->begin_writing();
  const Head head = copy(*from, *to, told);
  to->commit();
  return head;
}

}  // namespace footroom::records
