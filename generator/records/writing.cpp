#include "records/writing.hpp"
#include "records/words.hpp"

#include <fmt/format.h>

#include <stdexcept>

namespace footroom::records {
namespace {

std::optional<Number> person_of(const Content& content) {
  if (const auto* c = std::get_if<Attendance>(&content)) return c->person;
  if (const auto* c = std::get_if<Result>(&content)) return c->person;
  if (const auto* c = std::get_if<Retraining>(&content)) return c->person;
  if (const auto* c = std::get_if<Certificate>(&content)) return c->person;
  return std::nullopt;
}

}  // namespace

Entry read_entry(const Database& database, const Row& row) {
  try {
    return entry_of(row);
  } catch (const std::exception& error) {
    throw Unavailable(
        fmt::format("{}: entry {} is damaged: {}", database.shown(), row.number, error.what()));
  }
}

std::string day_text(const std::optional<Date>& day) {
  return day ? date_text(*day) : "";
}

Head read_head(Database& database) {
  const auto last =
      database.table("SELECT number, digest FROM entry ORDER BY number DESC LIMIT 1", 2);
  if (last.empty()) return {0, first_digest()};
  return {std::stoll(last[0][0]), last[0][1]};
}

std::vector<Entry> history(Database& database, Number person) {
  std::vector<Entry> entries;
  for (const auto& row :
       database.rows(tail::entries + "WHERE e.person = :a ORDER BY e.number", {person}))
    entries.push_back(read_entry(database, row));
  return entries;
}

Session StandingReader::session(Number number) {
  const auto known = sessions_.find(number);
  if (known != sessions_.end()) return known->second;
  const auto rows = database_.rows(tail::effective, {number});
  Session session;
  if (!rows.empty())
    if (const auto entry = read_entry(database_, rows[0]);
        std::holds_alternative<Session>(entry.content))
      session = std::get<Session>(entry.content);
  return sessions_.emplace(number, session).first->second;
}

const std::vector<Policy>& StandingReader::policies(Number employer) {
  const auto known = policies_.find(employer);
  if (known != policies_.end()) return known->second;
  std::vector<Policy> policies;
  if (employer != 0)
    for (const auto& row :
         database_.rows(tail::entries + "WHERE e.about = :a AND e.kind = 'policy' AND " +
                            tail::is_effective + "ORDER BY e.number",
                        {employer}))
      policies.push_back(std::get<Policy>(read_entry(database_, row).content));
  return policies_.emplace(employer, std::move(policies)).first->second;
}

StandingReader::Found StandingReader::find(Number person) {
  std::vector<Entry> entries;
  for (const auto& row : database_.rows(
           tail::entries +
               "WHERE e.person = :a AND e.kind NOT IN ('result', 'erasure') ORDER BY e.number",
           {person}))
    entries.push_back(read_entry(database_, row));
  Found found;
  const auto effective = in_effect(entries);
  if (effective.empty() || effective.front().erased) return found;  // nobody is left to be trained
  Surroundings surroundings;
  for (const auto& entry : effective) {
    if (const auto* p = std::get_if<Person>(&entry.content)) {
      found.employer = p->employer.value_or(0);
    } else if (const auto* attended = std::get_if<Attendance>(&entry.content)) {
      const Session where = session(attended->session);
      if (!where.days.empty()) surroundings.sessions.emplace(attended->session, where);
    }
  }
  surroundings.policies = policies(found.employer);
  surroundings.employed_since = entries.front().recorded;
  found.standings = standings_of(person, effective, surroundings);
  return found;
}

DatabaseWriting::DatabaseWriting(Database& database, bool& in_use, Date recorded,
                                 const NewSalt& new_salt)
    : database_(database), in_use_(in_use), recorded_(date_text(recorded)), new_salt_(new_salt) {
  if (!read_date(recorded_))
    throw Refused(worded({"the day of recording: is no day of 1900 to 9999",
                          "el día de la anotación: no es un día de 1900 a 9999"}));
  if (in_use_) throw std::logic_error("a store has one Writing at a time");
  database_.begin_writing();
  open_ = in_use_ = true;
  head_ = read_head(database_);
}

DatabaseWriting::~DatabaseWriting() {
  if (!open_) return;
  database_.roll_back();
  in_use_ = false;
}

Row DatabaseWriting::need_effective(const char* what, const char* kind, Number number) {
  const auto rows = database_.rows(tail::effective, {number});
  if (rows.empty() || (rows[0].kind != kind && rows[0].kind != "withdrawal") ||
      rows[0].corrects.value_or(rows[0].number) != number)
    throw Refused(called(what) + worded({": there is no ", ": no existe "}) + called(kind) +
                  worded({" {}", " {}"}, number));
  if (rows[0].kind == "withdrawal")
    throw Refused(called(what) + worded({": the ", ": "}) + called(kind) +
                  worded({" {} was withdrawn", " {}: se anuló"}, number));
  return rows[0];
}

void DatabaseWriting::check_person(Number person) {
  if (sound_people_.count(person) > 0) return;
  const Row row = need_effective("person", "person", person);
  if (!row.personal)
    throw Refused(worded(
        {"person: the person {} was erased", "persona: los datos de la persona {} se borraron"},
        person));
  sound_people_.insert(person);
}

void DatabaseWriting::check_references(const Content& content) {
  if (const auto person = person_of(content)) check_person(*person);
  if (const auto* policy = std::get_if<Policy>(&content)) {
    need_effective("employer", "employer", policy->employer);
    need_effective("course", "course", policy->course);
  } else if (const auto* person = std::get_if<Person>(&content)) {
    if (person->employer) need_effective("employer", "employer", *person->employer);
  } else if (const auto* session = std::get_if<Session>(&content)) {
    need_effective("course", "course", session->course);
    if (session->trainer) need_effective("trainer", "person", *session->trainer);
  } else if (const auto* attendance = std::get_if<Attendance>(&content)) {
    need_effective("session", "session", attendance->session);
  } else if (const auto* retraining = std::get_if<Retraining>(&content)) {
    need_effective("course", "course", retraining->course);
  } else if (const auto* certificate = std::get_if<Certificate>(&content)) {
    need_effective("course", "course", certificate->course);
    if (certificate->session) need_effective("session", "session", *certificate->session);
    if (certificate->signed_by)
      need_effective("signed by", certificate->signer == Signer::trainer ? "person" : "employer",
                     *certificate->signed_by);
  }
}

void DatabaseWriting::check_unique(const Content& content, Number subject) {
  const auto other = [&](const std::vector<Row>& rows) -> std::optional<Row> {
    for (const auto& row : rows)
      if (row.corrects.value_or(row.number) != subject) return row;
    return std::nullopt;
  };
  if (const auto* person = std::get_if<Person>(&content)) {
    if (person->identity.empty()) return;
    for (const auto& row :
         database_.rows("personal q JOIN entry e ON e.number = q.entry "
                        "LEFT JOIN personal p ON p.entry = e.number "
                        "WHERE q.identity = :a AND q.identity <> '' AND e.kind = 'person' AND " +
                            tail::is_effective,
                        {person->identity}))
      if (row.person != subject && row.about == person->employer)
        throw Refused(worded({"identity: {} is taken by the person {} already",
                              "identidad: {} ya es de la persona {}"},
                             person->identity, row.person.value_or(0)));
    return;
  }
  if (const auto* result = std::get_if<Result>(&content)) {
    if (result->occasion == Occasion::practice) return;
    for (const auto& row : database_.rows(tail::entries +
                                              "WHERE e.person = :a AND e.kind = 'result' AND "
                                              "e.name = :b AND " +
                                              tail::is_effective,
                                          {result->person, result->quiz})) {
      const Number entry = row.corrects.value_or(row.number);
      if (entry != subject &&
          std::get<Result>(read_entry(database_, row).content).occasion == Occasion::test)
        throw Refused(worded({"quiz: {} was taken by the person {} already, entry {}",
                              "examen: {} ya está registrado para la persona {}, anotación {}"},
                             result->quiz, result->person, entry));
    }
    return;
  }
  const Row row = row_of(content);
  if (row.kind != "employer" && row.kind != "course" && row.kind != "quiz") return;
  const auto same =
      database_.rows(tail::entries + "WHERE e.name = :a AND e.name <> '' AND e.kind = :b AND " +
                         tail::is_effective + "ORDER BY e.number",
                     {row.name, row.kind});
  if (const auto taken = other(same))
    throw Refused(called(row.kind == "employer" ? "name" : "code") +
                  worded({": {} is taken by the ", ": {} ya es de: "}, row.name) +
                  called(row.kind) +
                  worded({" {} already", " {}"}, taken->corrects.value_or(taken->number)));
}

void DatabaseWriting::check_unused(const Row& row) {
  const Number subject = row.corrects.value_or(row.number);
  bool used = database_.any(
      "SELECT e.number FROM entry e WHERE (e.about = :a OR e.person = :a) AND "
      "coalesce(e.corrects, e.number) <> :a AND e.kind <> 'withdrawal' AND " +
          tail::is_effective + "LIMIT 1",
      {subject});
  if (row.kind == "course")
    for (const auto& policy :
         database_.rows(tail::entries + "WHERE e.kind = 'policy' AND " + tail::is_effective))
      used |= std::get<Policy>(read_entry(database_, policy).content).course == subject;
  if (used)
    throw Refused(worded({"entry {}: other entries name this ",
                          "anotación {}: otras anotaciones la nombran ("},
                         subject) +
                  called(row.kind) + worded({"; withdraw those first", "); anule primero esas"}));
}

Number DatabaseWriting::append(Row row) {
  row.number = head_.number + 1;
  row.day = recorded_;
  if (row.kind == "person" && !row.person) row.person = row.number;
  if (row.personal && !row.person) keep_remark_in_body(row);
  if (row.personal) {
    row.personal->salt = new_salt_();
    row.seal = seal_of(*row.personal);
  }
  row.digest = digest_of(row, head_.digest);
  database_.insert(row);
  if (row.personal) database_.insert_personal(row.number, *row.person, *row.personal);
  head_ = {row.number, row.digest};
  return row.number;
}

Number DatabaseWriting::add(const Content& content) {
  if (std::holds_alternative<Withdrawal>(content) || std::holds_alternative<Erasure>(content))
    throw std::logic_error("a withdrawal needs correct(), an erasure needs erase()");
  check_content(content);
  check_references(content);
  check_unique(content, 0);
  const Number number = append(row_of(content));
  touch(content, number);
  return number;
}

Number DatabaseWriting::correct(Number entry, const Content& content) {
  check_content(content);
  auto rows = database_.rows(tail::entries + "WHERE e.number = :a", {entry});
  if (rows.empty())
    throw Refused(worded({"entry {}: there is no such entry", "anotación {}: no existe"}, entry));
  const Number subject = rows[0].corrects.value_or(entry);
  const Row before = database_.rows(tail::effective, {subject}).at(0);
  if (before.kind == "withdrawal")
    throw Refused(
        worded({"entry {}: was withdrawn by entry {}", "anotación {}: la anuló la anotación {}"},
               subject, before.number));
  if (before.kind == "erasure")
    throw Refused(worded({"entry {}: an erasure cannot be corrected",
                          "anotación {}: un borrado no se puede corregir"},
                         subject));
  Row row = row_of(content);
  const bool withdrawal = row.kind == "withdrawal";
  if (withdrawal) {
    check_unused(before);
    row.person = before.person;
  } else if (row.kind != before.kind) {
    throw Refused(worded({"entry {}: is of kind ", "anotación {}: es de la clase "}, subject) +
                  called(before.kind) + worded({", not ", ", no "}) + called(row.kind));
  } else if (row.kind == "person") {
    row.person = before.person;
  } else if (row.person != before.person) {
    throw Refused(worded({"entry {}: is about the person {}; withdraw it and add another",
                          "anotación {}: es sobre la persona {}; anúlela y agregue otra"},
                         subject, before.person.value_or(0)));
  }
  if (row.person) check_person(*row.person);
  if (withdrawal) sound_people_.erase(before.person.value_or(0));
  check_references(content);
  if (!withdrawal) check_unique(content, subject);
  row.corrects = subject;
  const Number number = append(std::move(row));
  touch(read_entry(database_, before).content, subject);
  if (!withdrawal) touch(content, subject);
  return number;
}

Number DatabaseWriting::erase(Number person) {
  check_person(person);
  const Number number = append(row_of(Erasure{person}));
  database_.execute("DELETE FROM personal WHERE person = :a", {person});
  sound_people_.erase(person);
  touched_.insert(person);
  erased_ = true;
  return number;
}

void DatabaseWriting::touch(const Content& content, Number subject) {
  const auto touch_all = [this](const std::string& sql, Number number) {
    for (const auto& row : database_.table(sql, 1, {number})) touched_.insert(std::stoll(row[0]));
  };
  if (std::holds_alternative<Person>(content)) {
    touched_.insert(subject);
  } else if (std::holds_alternative<Session>(content)) {
    touch_all("SELECT DISTINCT person FROM entry WHERE about = :a AND kind = 'attendance'",
              subject);
  } else if (const auto* policy = std::get_if<Policy>(&content)) {
    touch_all("SELECT DISTINCT person FROM entry WHERE about = :a AND kind = 'person'",
              policy->employer);
  } else if (!std::holds_alternative<Result>(content)) {
    if (const auto person = person_of(content)) touched_.insert(*person);
  }
}

void DatabaseWriting::renew_standings() {
  StandingReader reader(database_);
  for (const Number person : touched_) {
    const auto found = reader.find(person);
    database_.execute("DELETE FROM standing WHERE person = :a", {person});
    for (const auto& standing : found.standings)
      database_.execute("INSERT INTO standing VALUES (:a, :b, :c, :d, :e, :f)",
                        {person, standing.course, found.employer, day_text(standing.trained),
                         day_text(standing.due), std::string(word(standing.reason))});
  }
  touched_.clear();
}

Head DatabaseWriting::commit() {
  if (!open_) throw std::logic_error("a Writing is committed once");
  renew_standings();
  database_.commit();
  open_ = in_use_ = false;
  if (erased_) database_.forget_removed();
  return head_;
}

}  // namespace footroom::records
