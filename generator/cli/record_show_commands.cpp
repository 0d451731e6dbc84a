// The due list, as a table and a calendar, and the report of a person, as tables and a page.

#include <fmt/format.h>

#include "bank/digest.hpp"
#include "cli/options.hpp"
#include "cli/record.hpp"
#include "cli/surroundings.hpp"
#include "records/missed_topics.hpp"
#include "render/calendar.hpp"
#include "render/record_pages.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/text.hpp"

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
    add_text_option(app, "--calendar", calendar_, "FILE.ics",
                    "also write the days for calendar programs (iCalendar)");
    record_.declare(app);
    app.footer(
        "An event of the calendar stays the same in every file as long as the day stays, so that\n"
        "importing a newer file adds no second one. The file names people: share it with care.");
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
    std::vector<std::pair<records::Standing, render::CalendarEvent>> events;
    store->each_due(on, employer, [&](const records::Due& due) {
      if (!calendar_.empty()) events.emplace_back(due.standing, event_of(due, language));
      rows.add({day_or_dash(due.standing.due), name_of(due.person, due.erased, language),
                due.person.identity, title_of(due.course, language),
                day_or_dash(due.standing.trained),
                std::string(text_of(due.standing.reason, language))});
    });
    if (rows.count() == 0)
      terminal.out << say({"Nobody is due on ", "Nadie tiene capacitación pendiente al "})
                   << records::date_text(on) << ".\n";
    if (!calendar_.empty()) write_calendar(*store, std::move(events), on, terminal, language);
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
      for (auto& cell : row) cell = for_terminal(cell);
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

  static render::CalendarEvent event_of(const records::Due& due, Language language) {
    const std::string course = title_of(due.course, language);
    std::string description(text_of(due.standing.reason, language));
    if (due.standing.trained)
      description += '\n' +
                     std::string(Text{"Last trained: ", "Última capacitación: "}.in(language)) +
                     records::date_text(*due.standing.trained);
    if (!due.person.identity.empty())
      description +=
          '\n' + std::string(Text{"Identity: ", "Identidad: "}.in(language)) + due.person.identity;
    return {
        {},
        day_or_dash(due.standing.due),
        fmt::format(fmt::runtime(Text{"Training due: {}, {}", "Capacitación pendiente: {}, {}"}.in(
                        language)),
                    name_of(due.person, due.erased, language), course),
        description};
  }

  /// Numbers differ from store to store only by chance, so the person's digest stands in for them.
  static std::string uid_of(records::Store& store, const records::Standing& standing) {
    return bank::sha256(fmt::format("training due {} {} {}", store.digest(standing.person),
                                    standing.course, day_or_dash(standing.due)));
  }

  void write_calendar(records::Store& store,
                      std::vector<std::pair<records::Standing, render::CalendarEvent>> events,
                      records::Date on, Terminal& terminal, Language language) const {
    if (events.empty()) {
      terminal.out << fmt::format(
          fmt::runtime(Text{"{} was not written: a calendar needs an event.\n",
                            "{} no se escribió: un calendario necesita un evento.\n"}
                           .in(language)),
          calendar_);
      return;
    }
    std::vector<render::CalendarEvent> all;
    for (auto& [standing, event] : events) {
      event.uid = uid_of(store, standing);
      all.push_back(std::move(event));
    }
    write_whole_file(calendar_, render::calendar(all, program_name(), records::date_text(on)));
  }

  std::string on_;
  std::string employer_;
  std::string calendar_;
  RecordOptions record_;
};

class RecordReportCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("person", person_, "identity, name or @NUMBER")->type_name("PERSON");
    add_text_option(app, "--out", out_, "DIR", "write a page to print instead, HTML and Markdown");
    add_text_option(app, "--paper", paper_, "letter|a4", "paper to print on (letter)");
    record_.declare(app);
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer("Each line begins with the number of its entry, which record correct takes.");
  }
  ExitCode run(Terminal& terminal) override {
    language_ = record_.language();
    const auto paper = choose_paper(paper_);
    const auto store = record_.open();
    report_ =
        store->report(find_person(*store, need("PERSON", person_, "identity, name or @NUMBER")));
    if (out_.empty()) {
      print(terminal.out);
      return ExitCode::done;
    }
    bank_ = read_bank_reporting(folders_.bank(), terminal.err).bank;
    terminal.out << fmt::format(
        fmt::runtime(Text{"To print: {}\n", "Para imprimir: {}\n"}.in(language_)),
        write({language_, paper}, store->head()).string());
    return ExitCode::done;
  }

 private:
  using Rows = std::vector<std::vector<std::string>>;
  using Columns = std::vector<Text>;

  std::string say(const Text& text) const { return std::string(text.in(language_)); }
  std::string name() const {
    return name_of(report_.person.value, report_.person.erased, language_);
  }

  void print(std::ostream& out) const {
    Rows head{{say({"Person", "Persona"}), name()}};
    for (const auto& [what, text] : facts()) head.push_back({what, text});
    out << table(shown(head));
    for (const auto& section : sections())
      out << '\n' << section.title << '\n' << table(shown(section.rows));
  }

  static Rows shown(Rows rows) {
    for (auto& row : rows)
      for (auto& cell : row) cell = for_terminal(cell);
    return rows;
  }

  std::filesystem::path write(const render::RecordPage& page, const records::Head& head) const {
    const auto templates = read_templates(folders_.templates());
    const render::PersonRecord record{name(), facts(), sections(), head.text()};
    const std::string file = fmt::format("person-{}", report_.person.number);
    OutputFolder out(out_, [&file](const std::string& path) {
      return path == file + ".html" || path == file + ".md";
    });
    out.write(file + ".html", render::person_record_html(templates, page, record));
    out.write(file + ".md", render::person_record_markdown(templates, page, record));
    out.publish();
    return std::filesystem::path(out_) / (file + ".html");
  }

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
    const auto add = [&](const Text& title, const Columns& columns, Rows rows) {
      if (rows.empty()) return;
      all.push_back({say(title), {}, std::move(rows)});
      for (const auto& column : columns) all.back().columns.push_back(say(column));
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

  std::string course(records::Number number) const {
    for (const auto& course : report_.courses)
      if (course.number == number) return title_of(course.value, language_);
    return fmt::format("{}", number);
  }

  Rows standings() const {
    Rows rows;
    for (const auto& standing : report_.standings)
      if (standing.due)
        rows.push_back({day_or_dash(standing.due), course(standing.course),
                        std::string(text_of(standing.reason, language_))});
    return rows;
  }

  Rows trainings() const {
    Rows rows;
    for (const auto& attendance : report_.attendances)
      for (const auto& session : report_.sessions)
        if (session.number == attendance.value.session)
          rows.push_back({fmt::format("{}", attendance.number), days_text(session.value.days),
                          course(session.value.course), session.value.place,
                          attendance.value.completed ? say({"completed", "completado"})
                                                     : say({"not completed", "sin completar"})});
    return rows;
  }

  Rows retrainings() const {
    Rows rows;
    for (const auto& one : report_.retrainings)
      rows.push_back({fmt::format("{}", one.number), records::date_text(one.value.since),
                      course(one.value.course), std::string(text_of(one.value.reason, language_)),
                      one.value.remark});
    return rows;
  }

  Rows certificates() const {
    Rows rows;
    for (const auto& one : report_.certificates)
      rows.push_back({fmt::format("{}", one.number), days_text(one.value.days),
                      course(one.value.course),
                      one.value.prior_training ? say({"earlier training found adequate",
                                                      "capacitación anterior considerada adecuada"})
                                               : ""});
    return rows;
  }

  Rows results() const {
    Rows rows;
    for (const auto& one : report_.results)
      rows.push_back({fmt::format("{}", one.number), records::date_text(one.value.day),
                      one.value.quiz,
                      one.value.occasion == records::Occasion::test ? say({"test", "examen"})
                                                                    : say({"practice", "práctica"}),
                      fmt::format("{}/{}", points_text(one.value.hundredths()),
                                  points_text(one.value.possible_hundredths()))});
    return rows;
  }

  Rows missed() const {
    Rows rows;
    for (const auto& topic : records::missed_topics(report_.results))
      rows.push_back({title_of_topic(bank_, topic, language_)});
    return rows;
  }

  std::string person_;
  std::string out_;
  std::string paper_ = "letter";
  RecordOptions record_;
  FolderOptions folders_;
  Language language_ = Language::english;
  records::PersonReport report_;
  bank::Bank bank_;  ///< read for the page alone; without it topics go by their ids
};

}  // namespace

std::unique_ptr<Command> make_record_due_command() {
  return std::make_unique<RecordDueCommand>();
}
std::unique_ptr<Command> make_record_report_command() {
  return std::make_unique<RecordReportCommand>();
}

}  // namespace footroom::cli
