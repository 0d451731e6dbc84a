// The due list, as a table and a calendar, and the report of a person, as tables and a page.

#include <fmt/format.h>

#include "cli/options.hpp"
#include "cli/record.hpp"
#include "cli/surroundings.hpp"
#include "render/record_pages.hpp"
#include "tasks/due_list.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/person_record.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {
namespace {

using engine::Language;
using engine::Text;

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
    DueCalendar calendar(language);
    store->each_due(on, employer, [&](const records::Due& due) {
      if (!calendar_.empty()) calendar.add(due);
      const DueLine line = due_line(due, language);
      rows.add({line.due, line.person, line.identity, line.course, line.trained, line.reason});
    });
    if (rows.count() == 0)
      terminal.out << say({"Nobody is due on ", "Nadie tiene capacitación pendiente al "})
                   << records::date_text(on) << ".\n";
    if (calendar_.empty()) return ExitCode::done;
    if (calendar.empty())
      terminal.out << fmt::format(
          fmt::runtime(Text{"{} was not written: a calendar needs an event.\n",
                            "{} no se escribió: un calendario necesita un evento.\n"}
                           .in(language)),
          calendar_);
    else
      write_whole_file(calendar_, calendar.text(*store, on, program_name()));
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
    const auto report =
        store->report(find_person(*store, need("PERSON", person_, "identity, name or @NUMBER")));
    const auto head = store->head().text();
    if (out_.empty()) {  // topics go by their ids
      print(terminal.out, person_record(report, head, {}, language_));
      return ExitCode::done;
    }
    const auto bank = read_bank_reporting(folders_.bank(), terminal.err).bank;
    terminal.out << fmt::format(
        fmt::runtime(Text{"To print: {}\n", "Para imprimir: {}\n"}.in(language_)),
        write({language_, paper}, report.person.number,
              person_record(report, head, bank, language_))
            .string());
    return ExitCode::done;
  }

 private:
  using Rows = std::vector<std::vector<std::string>>;

  void print(std::ostream& out, const render::PersonRecord& record) const {
    Rows head{{std::string(Text{"Person", "Persona"}.in(language_)), record.name}};
    for (const auto& [what, text] : record.facts) head.push_back({what, text});
    out << table(shown(head));
    for (const auto& section : record.sections)
      out << '\n' << section.title << '\n' << table(shown(section.rows));
  }

  static Rows shown(Rows rows) {
    for (auto& row : rows)
      for (auto& cell : row) cell = for_terminal(cell);
    return rows;
  }

  std::filesystem::path write(const render::RecordPage& page, records::Number person,
                              const render::PersonRecord& record) const {
    const auto templates = read_templates(folders_.templates());
    const std::string file = fmt::format("person-{}", person);
    OutputFolder out(out_, [&file](const std::string& path) {
      return path == file + ".html" || path == file + ".md";
    });
    out.write(file + ".html", render::person_record_html(templates, page, record));
    out.write(file + ".md", render::person_record_markdown(templates, page, record));
    out.publish();
    return std::filesystem::path(out_) / (file + ".html");
  }

  std::string person_;
  std::string out_;
  std::string paper_ = "letter";
  RecordOptions record_;
  FolderOptions folders_;
  Language language_ = Language::english;
};

}  // namespace

std::unique_ptr<Command> make_record_due_command() {
  return std::make_unique<RecordDueCommand>();
}
std::unique_ptr<Command> make_record_report_command() {
  return std::make_unique<RecordReportCommand>();
}

}  // namespace footroom::cli
