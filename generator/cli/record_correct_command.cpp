#include <fmt/format.h>

#include "cli/options.hpp"
#include "cli/record.hpp"
#include "tasks/correction.hpp"
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
    const auto content = withdraw_ ? records::Content(records::Withdrawal{remark_})
                                   : corrected(*store, entry, given());
    if (withdraw_) refuse_others();
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

  /// What was given; "-" empties what may be empty.
  Corrections given() const {
    Corrections all;
    for (const auto& [name, text] : texts_)
      if (!text.empty())
        all[name.substr(2)] = text == "-" && may_be_empty(name) ? std::string() : text;
    return all;
  }
  static bool may_be_empty(const std::string& name) {
    return name != "--days" && name != "--trainer" && name != "--completed";
  }

  void refuse_others() const {
    for (const auto& [name, text] : texts_)
      if (!text.empty())
        throw Failure(ExitCode::wrong_command_line, name + ": does not go with --withdraw");
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
