// record import and record export.

#include <fcntl.h>
#include <fmt/format.h>

#include <map>

#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "cli/record.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/record_exchange.hpp"
#include "tasks/record_import.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;
using engine::Text;

Exchanged choose_exchanged(const std::string& text) {
  return choose<Exchanged>("WHAT", need("WHAT", text, "people or results"),
                           {{"people", Exchanged::people}, {"results", Exchanged::results}});
}

bool is_json(const std::string& file) {
  const auto extension = fs::path(file).extension();
  if (extension == ".json") return true;
  if (extension == ".csv") return false;
  throw Failure(ExitCode::wrong_command_line,
                file + ": expected a name that ends in .csv or .json");
}

class RecordImportCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("what", what_, "people or results")->type_name("WHAT");
    app.add_option("file", file_, "CSV or JSON, told by its name")->type_name("FILE");
    app.add_flag("--add-employers", add_employers_, "add employers that the store does not have");
    record_.declare(app);
    recorded_.declare(app);
    app.footer(
        "People have the columns identity, name, employer and left; results identity, name,\n"
        "employer, quiz, date, occasion (test or practice), topics (\"clearance=2.5/3 "
        "swing=1/1\")\n"
        "and missed (ids of items). All rows are recorded, or none.");
  }

  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto recorded = recorded_.day();
    const auto what = choose_exchanged(what_);
    const bool json = is_json(need("FILE", file_, "a file in CSV or JSON"));
    Refusals refused;
    const auto rows = read_exchange(what, file_text(file_), file_, json, refused);
    const auto store = record_.open();
    const auto writing = store->write(recorded);
    Progress progress(terminal, language, {"rows recorded", "filas registradas"}, rows.size());
    RecordImport(*store, *writing, add_employers_).add(what, rows, refused, [&](std::size_t done) {
      progress.tell(done);
    });
    progress.clear();
    for (const auto& message : refused) terminal.err << message.english << '\n';
    if (!refused.empty())
      throw Failure(ExitCode::input_faulty,
                    file_ + ": has the defects above; nothing was recorded");
    writing->commit();
    terminal.out << fmt::format(
        fmt::runtime(Text{"Rows recorded: {}\n", "Filas registradas: {}\n"}.in(language)),
        rows.size());
    return ExitCode::done;
  }

 private:
  std::string what_;
  std::string file_;
  bool add_employers_ = false;
  RecordOptions record_;
  RecordedOption recorded_;
};

/// A file for its owner alone that gets its name when it is whole.
class WholeFile {
 public:
  explicit WholeFile(std::string file)
      : file_(std::move(file)), partial_(file_ + ".partial"), out_(partial_, file_) {
    fs::permissions(partial_, fs::perms::owner_read | fs::perms::owner_write);
  }
  WholeFile(const WholeFile&) = delete;
  WholeFile& operator=(const WholeFile&) = delete;
  ~WholeFile() {
    std::error_code ignored;
    fs::remove(partial_, ignored);
  }
  void write(const std::string& bytes) { out_.write(bytes); }
  void publish() {
    out_.close();
    fs::rename(partial_, file_);
  }

 private:
  Unfinished unfinished_;
  std::string file_;
  fs::path partial_;
  OutputFile out_;
};

class RecordExportCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("what", what_, "people or results")->type_name("WHAT");
    app.add_option("file", file_, "CSV or JSON, told by its name")->type_name("FILE");
    record_.declare(app);
    app.footer(
        "Writes what record import reads; people who were erased and their results are left out.\n"
        "The whole store is copied by record backup.");
  }

  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto what = choose_exchanged(what_);
    const bool json = is_json(need("FILE", file_, "where to write"));
    const auto store = record_.open();
    Progress progress(terminal, language, {"entries written", "anotaciones escritas"},
                      static_cast<std::size_t>(store->head().number));
    WholeFile file(file_);
    const auto count = write_exchange(
        what, json, *store, [&file](const std::string& bytes) { file.write(bytes); },
        [&progress](records::Number n) { progress.tell(static_cast<std::size_t>(n)); });
    file.publish();
    progress.clear();
    terminal.out << fmt::format(
        fmt::runtime(Text{"Rows written to {}: {}\n", "Filas escritas en {}: {}\n"}.in(language)),
        file_, count);
    return ExitCode::done;
  }

 private:
  std::string what_;
  std::string file_;
  RecordOptions record_;
};

}  // namespace

std::unique_ptr<Command> make_record_import_command() {
  return std::make_unique<RecordImportCommand>();
}
std::unique_ptr<Command> make_record_export_command() {
  return std::make_unique<RecordExportCommand>();
}

}  // namespace footroom::cli
