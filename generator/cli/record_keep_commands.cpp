// Making a store, checking it, copying it and erasing a person.

#include <fmt/format.h>

#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "cli/record.hpp"
#include "cli/surroundings.hpp"
#include "tasks/failure.hpp"

namespace footroom::cli {
namespace {

using engine::Text;

std::size_t entries_of(records::Store& store) {
  return static_cast<std::size_t>(store.head().number);
}

class RecordInitCommand : public Command {
 public:
  void declare(CLI::App& app) override { record_.declare(app); }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const Unfinished unfinished;
    records::Store::create(record_.location());
    terminal.out << Text{"An empty store was made.\n", "Se creó un registro vacío.\n"}.in(language);
    return ExitCode::done;
  }

 private:
  RecordOptions record_;
};

class RecordVerifyCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    record_.declare(app);
    add_text_option(app, "--head", head_, "N:DIGEST", "a head that this command printed before");
    app.footer(
        "Prints the head of the store: the number of its last entry and a digest of all of them.\n"
        "Keep it elsewhere, on paper too. A store in which somebody changed entries and all the\n"
        "digests after them still verifies by itself, but not against a head that was kept.");
  }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto kept = records::read_head(head_);
    if (!head_.empty() && !kept)
      throw Failure(
          ExitCode::wrong_command_line,
          "--head: is " + head_ + ", expected a number, a colon and 64 digits of 0-9 a-f");
    const auto store = record_.open();
    Progress progress(terminal, language, {"entries checked", "anotaciones revisadas"},
                      entries_of(*store));
    const auto bad =
        store->verify(kept, [&](records::Number n) { progress.tell(static_cast<std::size_t>(n)); });
    progress.clear();
    if (bad) {
      terminal.err << record_.location() << ": "
                   << (bad->number > 0 ? fmt::format("entry {}: ", bad->number) : "") << bad->what
                   << '\n';
      return ExitCode::input_faulty;
    }
    terminal.out << fmt::format(
        fmt::runtime(Text{"The store verifies. Its head, to keep elsewhere:\n{}\n",
                          "El registro es íntegro. Su cabeza, para guardarla en otro lugar:\n{}\n"}
                         .in(language)),
        store->head().text());
    return ExitCode::done;
  }

 private:
  RecordOptions record_;
  std::string head_;
};

class RecordBackupCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("file", file_, "where to write; must not exist")->type_name("FILE");
    record_.declare(app);
    app.footer(
        "Others may go on working meanwhile. The file holds personal data, of people who are\n"
        "erased later too: delete old backups. footroom record restore reads it.");
  }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const Unfinished unfinished;
    const auto store = record_.open();
    Progress progress(terminal, language, {"entries copied", "anotaciones copiadas"},
                      entries_of(*store));
    const auto head =
        store->backup(need("FILE", file_, "where to write the backup"),
                      [&](records::Number n) { progress.tell(static_cast<std::size_t>(n)); });
    progress.clear();
    terminal.out << fmt::format(fmt::runtime(Text{"Backup {}, entries: {}\nHead: {}\n",
                                                  "Copia {}, anotaciones: {}\nCabeza: {}\n"}
                                                 .in(language)),
                                file_, head.number, head.text());
    return ExitCode::done;
  }

 private:
  std::string file_;
  RecordOptions record_;
};

class RecordRestoreCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("file", file_, "a backup")->type_name("FILE");
    record_.declare(app);
    app.footer("Verifies the backup and makes a store of it, where --store names none yet.");
  }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto& file = need("FILE", file_, "a backup");
    const auto& location = record_.location();
    const Unfinished unfinished;
    Progress progress(terminal, language, {"entries restored", "anotaciones restauradas"},
                      entries_of(*records::Store::open(file, random_salt)));
    const auto head = records::Store::restore(
        file, location, [&](records::Number n) { progress.tell(static_cast<std::size_t>(n)); });
    progress.clear();
    terminal.out << fmt::format(fmt::runtime(Text{"Restored entries: {}\nHead: {}\n",
                                                  "Anotaciones restauradas: {}\nCabeza: {}\n"}
                                                 .in(language)),
                                head.number, head.text());
    return ExitCode::done;
  }

 private:
  std::string file_;
  RecordOptions record_;
};

class RecordEraseCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("person", person_, "identity, name or @NUMBER")->type_name("PERSON");
    record_.declare(app);
    recorded_.declare(app);
    app.add_flag("--confirm", confirmed_, "erase; without it, tell what would be erased");
    app.footer(
        "Removes the name, the identity and the remarks of a person, for good. The entries about\n"
        "them stay without a name. The latest certification of someone who is employed has to be\n"
        "kept (29 CFR 1926.503(b)), so erase those who left. Older backups and exports still hold\n"
        "the data: delete them.");
  }
  ExitCode run(Terminal& terminal) override {
    const auto language = record_.language();
    const auto day = recorded_.day();
    const auto store = record_.open();
    const auto number = find_person(*store, need("PERSON", person_, "identity, name or @NUMBER"));
    const auto report = store->report(number);
    const std::string name =
        for_terminal(name_of(report.person.value, report.person.erased, language));
    if (!confirmed_) {
      terminal.err << fmt::format(
          "@{} {}: the personal data of {} entries would be erased for good; add --confirm\n",
          number, name, report.history.size());
      return ExitCode::wrong_command_line;
    }
    const auto writing = store->write(day);
    writing->erase(number);
    writing->commit();
    terminal.out << fmt::format(
        fmt::runtime(Text{"@{} was erased. Delete older backups and exports.\n",
                          "@{}: datos borrados. Elimine las copias y exportaciones anteriores.\n"}
                         .in(language)),
        number);
    return ExitCode::done;
  }

 private:
  std::string person_;
  RecordOptions record_;
  RecordedOption recorded_;
  bool confirmed_ = false;
};

}  // namespace

std::unique_ptr<Command> make_record_init_command() {
  return std::make_unique<RecordInitCommand>();
}
std::unique_ptr<Command> make_record_verify_command() {
  return std::make_unique<RecordVerifyCommand>();
}
std::unique_ptr<Command> make_record_backup_command() {
  return std::make_unique<RecordBackupCommand>();
}
std::unique_ptr<Command> make_record_restore_command() {
  return std::make_unique<RecordRestoreCommand>();
}
std::unique_ptr<Command> make_record_erase_command() {
  return std::make_unique<RecordEraseCommand>();
}

}  // namespace footroom::cli
