#include "tasks/person_record.hpp"

#include <fmt/format.h>

#include <map>

#include "records/missed_topics.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

using engine::Language;
using engine::Text;

/// What a report holds, in words.
class Words {
 public:
  Words(const records::PersonReport& report, Language language)
      : report_(report), language_(language) {}

  std::string say(const Text& text) const { return std::string(text.in(language_)); }
  std::string name() const {
    return name_of(report_.person.value, report_.person.erased, language_);
  }
  std::string course(records::Number number) const {
    for (const auto& course : report_.courses)
      if (course.number == number) return title_of(course.value, language_);
    return fmt::format("{}", number);
  }
  const records::Session* session(records::Number number) const {
    for (const auto& session : report_.sessions)
      if (session.number == number) return &session.value;
    return nullptr;
  }
  std::string completed(const records::Attendance& attendance) const {
    return attendance.completed ? say({"completed", "completado"})
                                : say({"not completed", "sin completar"});
  }
  std::string reason(records::Reason reason) const {
    return std::string(text_of(reason, language_));
  }
  std::string occasion(const records::Result& result) const {
    return result.occasion == records::Occasion::test ? say({"test", "examen"})
                                                      : say({"practice", "práctica"});
  }
  static std::string points(const records::Result& result) {
    return fmt::format("{}/{}", points_text(result.hundredths()),
                       points_text(result.possible_hundredths()));
  }
  std::string prior(const records::Certificate& certificate) const {
    return certificate.prior_training ? say({"earlier training found adequate",
                                             "capacitación anterior considerada adecuada"})
                                      : "";
  }

 protected:
  const records::PersonReport& report_;
  Language language_;
};

class Record : public Words {
 public:
  Record(const records::PersonReport& report, const bank::Bank& bank, Language language)
      : Words(report, language), bank_(bank) {}

  std::vector<std::pair<std::string, std::string>> facts() const {
    const auto& person = report_.person;
    std::vector<std::pair<std::string, std::string>> all{
        {say({"Number", "Número"}), fmt::format("@{}", person.number)}};
    if (!person.value.identity.empty())
      all.emplace_back(say({"Identity", "Identidad"}), person.value.identity);
    if (report_.employer)
      all.emplace_back(say({"Employer", "Empleador"}), report_.employer->value.name);
    if (person.value.left)
      all.emplace_back(say({"Left", "Salida"}), day_or_dash(person.value.left));
    return all;
  }

  std::vector<render::RecordSection> sections() const {
    const Text entry{"Entry", "Anotación"};
    const Text date{"Date", "Fecha"};
    const Text course{"Course", "Curso"};
    const Text reason{"Reason", "Motivo"};
    std::vector<render::RecordSection> all;
    const auto add = [&](const Text& title, const std::vector<Text>& columns, Rows rows) {
      if (rows.empty()) return;
      all.push_back({say(title), {}, std::move(rows)});
      for (const auto& column : columns) all.back().columns.push_back(say(column));
      all.back().by_entry = columns.front().english == entry.english;
    };
    add({"Training due", "Capacitación pendiente"}, {date, course, reason}, standings());
    add({"Training", "Capacitación"},
        {entry, {"Dates", "Fechas"}, course, {"Place", "Lugar"}, {"Completed", "Completado"}},
        trainings());
    add({"Retraining asked for", "Recapacitación solicitada"},
        {entry, {"Since", "Desde"}, course, reason, {"Remark", "Observación"}}, retrainings());
    add({"Certificates", "Certificados"},
        {entry, {"Dates of training", "Fechas de capacitación"}, course, {"Remark", "Observación"}},
        certificates());
    add({"Results", "Resultados"},
        {entry, date, {"Quiz", "Examen"}, {"Occasion", "Ocasión"}, {"Points", "Puntos"}},
        results());
    add({"Topics missed last", "Temas por repasar"}, {{"Topic", "Tema"}}, missed());
    return all;
  }

 private:
  using Rows = std::vector<std::vector<std::string>>;

  Rows standings() const {
    Rows rows;
    for (const auto& standing : report_.standings)
      if (standing.due)
        rows.push_back(
            {day_or_dash(standing.due), course(standing.course), reason(standing.reason)});
    return rows;
  }

  Rows trainings() const {
    Rows rows;
    for (const auto& attendance : report_.attendances)
      if (const auto* session = this->session(attendance.value.session))
        rows.push_back({fmt::format("{}", attendance.number), days_text(session->days),
                        course(session->course), session->place, completed(attendance.value)});
    return rows;
  }

  Rows retrainings() const {
    Rows rows;
    for (const auto& one : report_.retrainings)
      rows.push_back({fmt::format("{}", one.number), records::date_text(one.value.since),
                      course(one.value.course), reason(one.value.reason), one.value.remark});
    return rows;
  }

  Rows certificates() const {
    Rows rows;
    for (const auto& one : report_.certificates)
      rows.push_back({fmt::format("{}", one.number), days_text(one.value.days),
                      course(one.value.course), prior(one.value)});
    return rows;
  }

  Rows results() const {
    Rows rows;
    for (const auto& one : report_.results)
      rows.push_back({fmt::format("{}", one.number), records::date_text(one.value.day),
                      one.value.quiz, occasion(one.value), points(one.value)});
    return rows;
  }

  Rows missed() const {
    Rows rows;
    for (const auto& topic : records::missed_topics(report_.results))
      rows.push_back({title_of_topic(bank_, topic, language_)});
    return rows;
  }

  const bank::Bank& bank_;
};

/// An entry in one line.
class Line : public Words {
 public:
  using Words::Words;

  std::string operator()(const records::Entry& entry) const {
    if (const auto* person = std::get_if<records::Person>(&entry.content))
      return joined(say({"Person", "Persona"}),
                    {name_of(*person, entry.erased, language_), person->identity,
                     person->left ? say({"left ", "salida "}) + records::date_text(*person->left)
                                  : std::string()});
    if (const auto* attendance = std::get_if<records::Attendance>(&entry.content)) {
      const auto* where = session(attendance->session);
      return joined(
          say({"Training", "Capacitación"}),
          {fmt::format(fmt::runtime(say({"session {}", "sesión {}"})), attendance->session),
           where ? course(where->course) : "", where ? days_text(where->days) : "",
           completed(*attendance)});
    }
    if (const auto* result = std::get_if<records::Result>(&entry.content))
      return joined(say({"Result", "Resultado"}), {result->quiz, records::date_text(result->day),
                                                   occasion(*result), points(*result)});
    if (const auto* retraining = std::get_if<records::Retraining>(&entry.content))
      return joined(say({"Retraining asked for", "Recapacitación solicitada"}),
                    {course(retraining->course), records::date_text(retraining->since),
                     reason(retraining->reason), retraining->remark});
    if (const auto* certificate = std::get_if<records::Certificate>(&entry.content))
      return joined(
          say({"Certificate", "Certificado"}),
          {course(certificate->course), days_text(certificate->days), prior(*certificate)});
    if (const auto* withdrawal = std::get_if<records::Withdrawal>(&entry.content))
      return joined(say({"Made by mistake", "Se hizo por error"}), {withdrawal->remark});
    if (std::holds_alternative<records::Erasure>(entry.content))
      return say({"Personal data erased", "Datos personales borrados"});
    return std::string(records::kind_of(entry.content));
  }

 private:
  static std::string joined(std::string kind, const std::vector<std::string>& parts) {
    bool first = true;
    for (const auto& part : parts) {
      if (part.empty()) continue;
      kind += first ? ": " : ", ";
      kind += part;
      first = false;
    }
    return kind;
  }
};

}  // namespace

render::PersonRecord person_record(const records::PersonReport& report, const std::string& head,
                                   const bank::Bank& bank, Language language) {
  const Record record(report, bank, language);
  return {record.name(), record.facts(), record.sections(), head};
}

std::vector<HistoryLine> history_of(const records::PersonReport& report, Language language) {
  std::map<records::Number, const records::Entry*> last;
  for (const auto& entry : report.history) last[entry.subject()] = &entry;
  const Line line(report, language);
  std::vector<HistoryLine> lines;
  for (const auto& entry : report.history) {
    HistoryLine one{entry.number,       records::date_text(entry.recorded),
                    line(entry),        entry.corrects,
                    EntryState::counts, {}};
    if (const auto* later = last.at(entry.subject()); later->number != entry.number) {
      one.later = later->number;
      one.state = std::holds_alternative<records::Withdrawal>(later->content)
                      ? EntryState::withdrawn
                      : EntryState::corrected;
    }
    lines.push_back(std::move(one));
  }
  return lines;
}

}  // namespace footroom::tasks
