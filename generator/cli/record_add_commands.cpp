// Adding single entries, a class and its results.

#include <fmt/format.h>

#include <set>

#include "cli/options.hpp"
#include "cli/record.hpp"
#include "grade/results.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/record_results.hpp"
#include "tasks/record_sessions.hpp"
#include "tasks/roster.hpp"

namespace footroom::cli {
namespace {

using engine::Text;

/// One entry, and its number printed.
class AddCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    declare_content(app);
    record_.declare(app);
    recorded_.declare(app);
  }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto day = recorded_.day();
    const auto store = record_.open();
    const auto content = this->content(*store);
    const auto writing = store->write(day);
    const auto number = writing->add(content);
    writing->commit();
    terminal.out << fmt::format(fmt::runtime(Text{"Entry {}\n", "Anotación {}\n"}.in(language)),
                                number);
    return ExitCode::done;
  }

 protected:
  virtual void declare_content(CLI::App& app) = 0;
  virtual records::Content content(records::Store& store) = 0;

 private:
  RecordOptions record_;
  RecordedOption recorded_;
};

class RecordAddEmployerCommand : public AddCommand {
  void declare_content(CLI::App& app) override {
    app.add_option("name", name_, "the employer's name")->type_name("NAME");
    add_text_option(app, "--place", place_, "TEXT", "where it is");
  }
  records::Content content(records::Store&) override {
    return records::Employer{need("NAME", name_, "the employer's name"), place_};
  }
  std::string name_;
  std::string place_;
};

class RecordAddCourseCommand : public AddCommand {
  void declare_content(CLI::App& app) override {
    app.add_option("code", code_, "a short name: fall-protection")->type_name("CODE");
    add_text_option(app, "--english", english_, "TEXT", "the title in English");
    add_text_option(app, "--spanish", spanish_, "TEXT", "the title in Spanish");
  }
  records::Content content(records::Store&) override {
    return records::Course{need("CODE", code_, "a short name"), english_, spanish_};
  }
  std::string code_;
  std::string english_;
  std::string spanish_;
};

class RecordSetPolicyCommand : public AddCommand {
  void declare_content(CLI::App& app) override {
    add_text_option(app, "--employer", employer_, "NAME", "whose people need the course");
    add_text_option(app, "--course", course_, "CODE", "the course");
    add_text_option(app, "--refresher-months", months_, "N",
                    "train again after so many months; 0: no fixed interval (0)");
    app.footer(
        "29 CFR 1926.503 sets no interval: it asks for retraining when the workplace or the\n"
        "equipment changes or knowledge is inadequate. An interval is the employer's own policy.");
  }
  records::Content content(records::Store& store) override {
    return records::Policy{find_employer(store, need("--employer", employer_, "NAME")),
                           find_course(store, need("--course", course_, "CODE")),
                           static_cast<int>(whole_number("--refresher-months", months_, 0, 600))};
  }
  std::string employer_;
  std::string course_;
  std::string months_ = "0";
};

class RecordAddPersonCommand : public AddCommand {
  void declare_content(CLI::App& app) override {
    app.add_option("name", name_, "the person's name")->type_name("NAME");
    add_text_option(app, "--identity", identity_, "TEXT", "badge or payroll number");
    add_text_option(app, "--employer", employer_, "NAME", "who employs the person");
  }
  records::Content content(records::Store& store) override {
    records::Person person{need("NAME", name_, "the person's name"), identity_, {}, {}};
    if (!employer_.empty()) person.employer = find_employer(store, employer_);
    return person;
  }
  std::string name_;
  std::string identity_;
  std::string employer_;
};

class RecordRetrainCommand : public AddCommand {
  void declare_content(CLI::App& app) override {
    app.add_option("person", person_, "identity, name or @NUMBER")->type_name("PERSON");
    add_text_option(app, "--course", course_, "CODE", "the course to train again");
    add_text_option(app, "--reason", reason_, "REASON",
                    "workplace-changed, equipment-changed, knowledge-inadequate, interval-passed");
    add_text_option(app, "--since", since_, "YYYY-MM-DD", "due from this day on");
    add_text_option(app, "--remark", remark_, "TEXT", "what happened; erased with the person");
    app.footer("The first three reasons are those of 29 CFR 1926.503(c).");
  }
  records::Content content(records::Store& store) override {
    using records::Reason;
    const auto reason = choose<Reason>("--reason", need("--reason", reason_, "REASON"),
                                       {{"workplace-changed", Reason::workplace_changed},
                                        {"equipment-changed", Reason::equipment_changed},
                                        {"knowledge-inadequate", Reason::knowledge_inadequate},
                                        {"interval-passed", Reason::interval_passed}});
    const auto since = need_date("--since", need("--since", since_, "YYYY-MM-DD"));
    return records::Retraining{
        find_person(store, need("PERSON", person_, "identity, name or @NUMBER")),
        find_course(store, need("--course", course_, "CODE")), since, reason, remark_};
  }
  std::string person_;
  std::string course_;
  std::string reason_;
  std::string since_;
  std::string remark_;
};

class RecordAddSessionCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--course", course_, "CODE", "the course");
    add_text_option(app, "--days", days_, "YYYY-MM-DD,...", "the day or days of training");
    add_text_option(app, "--trainer", trainer_, "PERSON", "who trained: identity, name or @NUMBER");
    add_text_option(app, "--place", place_, "TEXT", "where");
    add_text_option(app, "--people", people_, "PERSON,...", "who completed it");
    add_text_option(app, "--roster", roster_, "FILE.csv", "the same, by a column called name");
    add_text_option(app, "--not-completed", not_completed_, "PERSON,...",
                    "who came, but did not complete it");
    record_.declare(app);
    recorded_.declare(app);
  }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto recorded = recorded_.day();
    records::Session session;
    for (const auto& text : parts_of(need("--days", days_, "YYYY-MM-DD,...")))
      session.days.push_back(need_date("--days", text));
    session.place = place_;
    Roster roster;
    if (!roster_.empty()) roster = read_roster(std::filesystem::path(roster_));
    for (const auto& defect : roster.defects) terminal.err << defect.text() << '\n';
    if (!roster.defects.empty())
      throw Failure(ExitCode::input_faulty,
                    roster_ + ": has the defects above; nothing was recorded");
    const auto store = record_.open();
    session.course = find_course(*store, need("--course", course_, "CODE"));
    if (!trainer_.empty()) session.trainer = find_person(*store, trainer_);
    Attended attended;
    const auto attend = [&](const std::string& text, bool completed) {
      if (!attended.emplace(find_person(*store, text), completed).second)
        throw Failure(ExitCode::input_faulty, for_terminal(text) + ": is named twice");
    };
    for (const auto& person : parts_of(people_)) attend(person, true);
    for (const auto& name : roster.names) attend(name, true);
    for (const auto& person : parts_of(not_completed_)) attend(person, false);

    const auto writing = store->write(recorded);
    const auto number = add_session(*writing, session, attended);
    writing->commit();
    terminal.out << fmt::format(
        fmt::runtime(Text{"Session {}, people: {}\n", "Sesión {}, personas: {}\n"}.in(language)),
        number, attended.size());
    return ExitCode::done;
  }

 private:
  std::string course_;
  std::string days_;
  std::string trainer_;
  std::string place_;
  std::string people_;
  std::string roster_;
  std::string not_completed_;
  RecordOptions record_;
  RecordedOption recorded_;
};

class RecordAddResultsCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("file", file_, "results.json of footroom grade")->type_name("RESULTS.json");
    add_text_option(app, "--occasion", occasion_, "test|practice",
                    "what the quiz was for (test, or practice where the file says so)");
    record_.declare(app);
    recorded_.declare(app);
    app.footer(
        "People are found by the identity or name in the results. All or none are recorded.");
  }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto recorded = recorded_.day();
    const auto chosen = chosen_occasion();
    const auto results =
        grade::read_results(file_text(need("RESULTS.json", file_, "a file")), file_);
    const auto occasion = occasion_of(results, chosen, file_);
    const auto day = day_of(results, file_);
    const auto store = record_.open();
    std::vector<records::Result> rows;
    std::set<records::Number> people;
    bool sound = true;
    for (const auto& seat : results.seats) {
      try {
        const auto person = find_person(*store, seat.name);
        if (!people.insert(person).second)
          throw Failure(ExitCode::input_faulty, for_terminal(seat.name) + ": is named twice");
        rows.push_back(result_of(seat, person, results, day, occasion));
      } catch (const Failure& failure) {
        terminal.err << file_ << ": seat " << for_terminal(seat.seat) << ": " << failure.what()
                     << '\n';
        sound = false;
      }
    }
    if (!sound)
      throw Failure(ExitCode::input_faulty,
                    file_ + ": has the defects above; nothing was recorded");
    const auto writing = store->write(recorded);
    tasks::add_results(*store, *writing, results, day, rows);
    writing->commit();
    terminal.out << fmt::format(
        fmt::runtime(Text{"Quiz {}, results: {}\n", "Examen {}, resultados: {}\n"}.in(language)),
        for_terminal(results.quiz), rows.size());
    return ExitCode::done;
  }

 private:
  std::optional<records::Occasion> chosen_occasion() const {
    if (occasion_.empty()) return std::nullopt;
    return choose<records::Occasion>(
        "--occasion", occasion_,
        {{"test", records::Occasion::test}, {"practice", records::Occasion::practice}});
  }

  std::string file_;
  std::string occasion_;
  RecordOptions record_;
  RecordedOption recorded_;
};

}  // namespace

std::unique_ptr<Command> make_record_add_employer_command() {
  return std::make_unique<RecordAddEmployerCommand>();
}
std::unique_ptr<Command> make_record_add_course_command() {
  return std::make_unique<RecordAddCourseCommand>();
}
std::unique_ptr<Command> make_record_set_policy_command() {
  return std::make_unique<RecordSetPolicyCommand>();
}
std::unique_ptr<Command> make_record_add_person_command() {
  return std::make_unique<RecordAddPersonCommand>();
}
std::unique_ptr<Command> make_record_retrain_command() {
  return std::make_unique<RecordRetrainCommand>();
}
std::unique_ptr<Command> make_record_add_session_command() {
  return std::make_unique<RecordAddSessionCommand>();
}
std::unique_ptr<Command> make_record_add_results_command() {
  return std::make_unique<RecordAddResultsCommand>();
}

}  // namespace footroom::cli
