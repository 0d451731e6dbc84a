#include <fmt/format.h>

#include "cli/options.hpp"
#include "cli/record.hpp"
#include "tasks/failure.hpp"

namespace footroom::cli {
namespace {

using engine::Text;

class RecordCorrectCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("entry", entry_, "number of the entry")->type_name("ENTRY");
    app.add_flag("--withdraw", withdraw_, "the entry was made by mistake and does not count");
    add_text_option(app, "--remark", remark_, "TEXT", "why it is withdrawn");
    for (auto& [name, text] : texts_) add_text_option(app, name, text, holder(name), says(name));
    record_.declare(app);
    recorded_.declare(app);
    app.footer(
        "Adds an entry that stands in the place of another one, which stays readable. What is not\n"
        "given stays as it was; \"-\" empties --identity, --employer, --left and --place.");
  }

  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto recorded = recorded_.day();
    const auto entry = static_cast<records::Number>(
        whole_number("ENTRY", need("ENTRY", entry_, "the number of an entry"), 1, ~0ULL >> 1));
    const auto store = record_.open();
    const auto content =
        withdraw_ ? records::Content(records::Withdrawal{remark_}) : corrected(*store, entry);
    if (withdraw_) refuse_unused("--withdraw");
    const auto writing = store->write(recorded);
    const auto number = writing->correct(entry, content);
    writing->commit();
    terminal.out << fmt::format(fmt::runtime(Text{"Entry {} stands in the place of entry {}\n",
                                                  "La anotación {} reemplaza a la {}\n"}
                                                 .in(language)),
                                number, entry);
    return ExitCode::done;
  }

 private:
  static std::string holder(const std::string& name) {
    if (name == "--left") return "YYYY-MM-DD";
    if (name == "--days") return "YYYY-MM-DD,...";
    if (name == "--completed") return "yes|no";
    return name == "--trainer" ? "PERSON" : name == "--employer" ? "NAME" : "TEXT";
  }
  static std::string says(const std::string& name) {
    if (name == "--name") return "of a person or an employer";
    if (name == "--identity" || name == "--employer") return "of a person";
    if (name == "--left") return "day on which the person left the employer";
    if (name == "--place") return "of an employer or a session";
    if (name == "--completed") return "of an attendance";
    if (name == "--english" || name == "--spanish") return "title of a course";
    return "of a session";
  }

  /// The text of an option if it was given; what remains in the end fits no kind.
  std::optional<std::string> take(const std::string& name) {
    std::string text = std::move(texts_.at(name));
    texts_[name].clear();
    if (text.empty()) return std::nullopt;
    return text;
  }
  void take_into(std::string& value, const std::string& name) {
    if (const auto text = take(name)) value = *text == "-" ? "" : *text;
  }

  void refuse_unused(std::string_view kind) {
    for (const auto& [name, text] : texts_)
      if (!text.empty())
        throw Failure(ExitCode::wrong_command_line,
                      fmt::format("{}: does not go with {}", name, kind));
  }

  records::Content corrected(records::Store& store, records::Number entry) {
    const auto before = store.effective(store.entry(entry).subject());
    auto content = before.content;
    const auto unchanged = texts_;
    if (auto* employer = std::get_if<records::Employer>(&content)) {
      take_into(employer->name, "--name");
      take_into(employer->place, "--place");
    } else if (auto* course = std::get_if<records::Course>(&content)) {
      take_into(course->english, "--english");
      take_into(course->spanish, "--spanish");
    } else if (auto* person = std::get_if<records::Person>(&content)) {
      take_into(person->name, "--name");
      take_into(person->identity, "--identity");
      if (const auto name = take("--employer")) {
        person->employer.reset();
        if (*name != "-") person->employer = find_employer(store, *name);
      }
      if (const auto left = take("--left")) {
        person->left.reset();
        if (*left != "-") person->left = need_date("--left", *left);
      }
    } else if (auto* session = std::get_if<records::Session>(&content)) {
      if (const auto days = take("--days")) {
        session->days.clear();
        for (const auto& day : parts_of(*days)) session->days.push_back(need_date("--days", day));
      }
      take_into(session->place, "--place");
      if (const auto trainer = take("--trainer")) session->trainer = find_person(store, *trainer);
    } else if (auto* attendance = std::get_if<records::Attendance>(&content)) {
      if (const auto completed = take("--completed"))
        attendance->completed =
            choose<bool>("--completed", *completed, {{"yes", true}, {"no", false}});
    }
    refuse_unused(std::string("an entry of kind ") + std::string(records::kind_of(content)));
    if (texts_ == unchanged)
      throw Failure(ExitCode::wrong_command_line,
                    fmt::format("entry {}: nothing is given that corrects it; withdraw it with "
                                "--withdraw if it was made by mistake",
                                entry));
    return content;
  }

  std::string entry_;
  bool withdraw_ = false;
  std::string remark_;
  std::map<std::string, std::string> texts_{
      {"--name", ""},    {"--identity", ""}, {"--employer", ""}, {"--left", ""},
      {"--days", ""},    {"--place", ""},    {"--trainer", ""},  {"--completed", ""},
      {"--english", ""}, {"--spanish", ""}};
  RecordOptions record_;
  RecordedOption recorded_;
};

}  // namespace

std::unique_ptr<Command> make_record_correct_command() {
  return std::make_unique<RecordCorrectCommand>();
}

}  // namespace footroom::cli
