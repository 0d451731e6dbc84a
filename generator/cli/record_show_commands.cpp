// The due list and the report of a person, as plain text tables.

#include <fmt/format.h>

#include <algorithm>

#include "cli/failure.hpp"
#include "cli/options.hpp"
#include "cli/record.hpp"
#include "cli/surroundings.hpp"
#include "cli/text.hpp"

namespace footroom::cli {
namespace {

using engine::Language;
using engine::Text;

std::string day_or_dash(const std::optional<records::Date>& day) {
  return day ? records::date_text(*day) : "-";
}

std::string days_text(const std::vector<records::Date>& days) {
  std::string text;
  for (const auto day : days) text += (text.empty() ? "" : ", ") + records::date_text(day);
  return text;
}

class RecordDueCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--on", on_, "YYYY-MM-DD", "who is due on this day (today)");
    add_text_option(app, "--employer", employer_, "NAME", "people of this employer alone");
    record_.declare(app);
  }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto on = need_date("--on", on_.empty() ? today() : on_);
    const auto store = record_.open();
    std::optional<records::Number> employer;
    if (!employer_.empty()) employer = find_employer(*store, employer_);
    const auto say = [language](const Text& text) { return std::string(text.in(language)); };
    Rows rows(terminal.out, {say({"DUE", "VENCE"}), say({"PERSON", "PERSONA"}),
                             say({"IDENTITY", "IDENTIDAD"}), say({"COURSE", "CURSO"}),
                             say({"TRAINED", "CAPACITADO"}), say({"REASON", "MOTIVO"})});
    store->each_due(on, employer, [&](const records::Due& due) {
      rows.add({day_or_dash(due.standing.due), name_of(due.person, due.erased, language),
                for_terminal(due.person.identity), title_of(due.course, language),
                day_or_dash(due.standing.trained),
                std::string(text_of(due.standing.reason, language))});
    });
    if (rows.count() == 0)
      terminal.out << say({"Nobody is due on ", "Nadie tiene capacitación pendiente al "})
                   << records::date_text(on) << ".\n";
    return ExitCode::done;
  }

 private:
  /// A table that is printed in pieces, so that a long list takes no more memory than a short one.
  class Rows {
   public:
    Rows(std::ostream& out, std::vector<std::string> titles)
        : out_(out), titles_(std::move(titles)) {}
    Rows(const Rows&) = delete;
    Rows& operator=(const Rows&) = delete;
    ~Rows() { print(); }
    void add(std::vector<std::string> row) {
      if (rows_.empty()) rows_.push_back(titles_);
      rows_.push_back(std::move(row));
      ++count_;
      if (rows_.size() > 1000) print();
    }
    std::size_t count() const { return count_; }

   private:
    void print() {
      out_ << table(rows_);
      rows_.clear();
    }
    std::ostream& out_;
    std::vector<std::string> titles_;
    std::vector<std::vector<std::string>> rows_;
    std::size_t count_ = 0;
  };

  std::string on_;
  std::string employer_;
  RecordOptions record_;
};

class RecordReportCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("person", person_, "identity, name or @NUMBER")->type_name("PERSON");
    record_.declare(app);
    app.footer("Each line begins with the number of its entry, which record correct takes.");
  }
  ExitCode run(Terminal& terminal) override {
    language_ = record_.language();
    const auto store = record_.open();
    report_ =
        store->report(find_person(*store, need("PERSON", person_, "identity, name or @NUMBER")));
    auto& out = terminal.out;
    const auto& person = report_.person;
    std::vector<std::vector<std::string>> head{
        {say({"Person", "Persona"}), name_of(person.value, person.erased, language_)},
        {say({"Number", "Número"}), fmt::format("@{}", person.number)}};
    if (!person.value.identity.empty())
      head.push_back({say({"Identity", "Identidad"}), for_terminal(person.value.identity)});
    if (report_.employer)
      head.push_back({say({"Employer", "Empleador"}), for_terminal(report_.employer->value.name)});
    if (person.value.left)
      head.push_back({say({"Left", "Salida"}), day_or_dash(person.value.left)});
    out << table(head);
    show(out, {"Training due", "Capacitación pendiente"}, standings());
    show(out, {"Training", "Capacitación"}, trainings());
    show(out, {"Retraining asked for", "Recapacitación solicitada"}, retrainings());
    show(out, {"Certificates", "Certificados"}, certificates());
    show(out, {"Results", "Resultados"}, results());
    return ExitCode::done;
  }

 private:
  using Table = std::vector<std::vector<std::string>>;

  std::string say(const Text& text) const { return std::string(text.in(language_)); }

  void show(std::ostream& out, const Text& title, const Table& rows) const {
    if (!rows.empty()) out << '\n' << say(title) << '\n' << table(rows);
  }

  std::string course(records::Number number) const {
    for (const auto& course : report_.courses)
      if (course.number == number) return title_of(course.value, language_);
    return fmt::format("{}", number);
  }

  Table standings() const {
    Table rows;
    for (const auto& standing : report_.standings)
      if (standing.due)
        rows.push_back({day_or_dash(standing.due), course(standing.course),
                        std::string(text_of(standing.reason, language_))});
    return rows;
  }

  Table trainings() const {
    Table rows;
    for (const auto& attendance : report_.attendances)
      for (const auto& session : report_.sessions)
        if (session.number == attendance.value.session)
          rows.push_back({fmt::format("{}", attendance.number), days_text(session.value.days),
                          course(session.value.course), for_terminal(session.value.place),
                          attendance.value.completed ? say({"completed", "completado"})
                                                     : say({"not completed", "sin completar"})});
    return rows;
  }

  Table retrainings() const {
    Table rows;
    for (const auto& one : report_.retrainings)
      rows.push_back({fmt::format("{}", one.number), records::date_text(one.value.since),
                      course(one.value.course), std::string(text_of(one.value.reason, language_)),
                      for_terminal(one.value.remark)});
    return rows;
  }

  Table certificates() const {
    Table rows;
    for (const auto& one : report_.certificates)
      rows.push_back({fmt::format("{}", one.number), days_text(one.value.days),
                      course(one.value.course),
                      one.value.prior_training ? say({"earlier training found adequate",
                                                      "capacitación anterior considerada adecuada"})
                                               : ""});
    return rows;
  }

  Table results() const {
    Table rows;
    for (const auto& one : report_.results)
      rows.push_back({fmt::format("{}", one.number), records::date_text(one.value.day),
                      for_terminal(one.value.quiz),
                      one.value.occasion == records::Occasion::test ? say({"test", "examen"})
                                                                    : say({"practice", "práctica"}),
                      fmt::format("{}/{}", points_text(one.value.hundredths()),
                                  points_text(one.value.possible_hundredths()))});
    return rows;
  }

  std::string person_;
  RecordOptions record_;
  Language language_ = Language::english;
  records::PersonReport report_;
};

}  // namespace

std::unique_ptr<Command> make_record_due_command() {
  return std::make_unique<RecordDueCommand>();
}
std::unique_ptr<Command> make_record_report_command() {
  return std::make_unique<RecordReportCommand>();
}

}  // namespace footroom::cli
