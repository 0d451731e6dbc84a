#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <thread>

#include "cli/command.hpp"
#include "cli/options.hpp"
#include "cli/surroundings.hpp"
#include "desk/desk.hpp"
#include "desk/folder.hpp"
#include "tasks/failure.hpp"

namespace footroom::cli {
namespace {

namespace fs = std::filesystem;

/// Of the XDG Base Directory Specification: $XDG_DATA_HOME, else ~/.local/share.
fs::path folder_of_user() {
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data && fs::path(data).is_absolute()) return fs::path(data) / "footroom";
  const char* home = std::getenv("HOME");
  if (home && *home) return fs::path(home) / ".local" / "share" / "footroom";
  throw Failure(ExitCode::wrong_command_line, "--folder: is missing, and there is no HOME");
}

class DeskCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    add_text_option(app, "--port", port_, "N",
                    "port on this machine (the last one, else any free one)");
    add_text_option(app, "--folder", folder_, "DIR",
                    "where everything is kept (~/.local/share/footroom)");
    app.add_flag("--no-open", no_open_, "print the address and open no browser");
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer(
        "Prints an address and opens it in the browser: classes, quizzes, answers, feedback and\n"
        "records, all in one folder, which can be copied as a backup. Only this machine reaches\n"
        "the desk, and only with the address printed, which holds a key: keep it to yourself.\n"
        "Ctrl-C ends it. Started a second time, it opens the desk that is running.");
  }

  ExitCode run(Terminal& terminal) override {
    const fs::path folder = folder_.empty() ? folder_of_user() : fs::path(folder_);
    if (const auto running = desk::Folder::open_address(folder)) {
      show(terminal, *running);
      return ExitCode::done;
    }
    desk::Settings settings;
    settings.folder = folder;
    settings.bank = folders_.bank();
    settings.templates = folders_.templates();
    settings.practice_core = practice_core_folder;
    settings.port =
        port_.empty() ? 0 : static_cast<int>(whole_number("--port", port_, 1024, 65'535));
    settings.today = today;
    settings.random = random_salt;
    settings.seed = random_seed;
    settings.program = program_name();

    // Every thread is started with these blocked, so that one thread alone receives them.
    sigset_t ends;
    sigemptyset(&ends);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&ends, signal);
    pthread_sigmask(SIG_BLOCK, &ends, nullptr);
    desk::Desk desk(std::move(settings));
    std::thread waiting([&] {
      int signal = 0;
      sigwait(&ends, &signal);
      desk.close();
    });
    show(terminal, desk.address());
    desk.serve();
    ::kill(::getpid(), SIGTERM);  // where serving ended by itself
    waiting.join();
    return ExitCode::done;
  }

 private:
  void show(Terminal& terminal, const std::string& address) const {
    terminal.out << address << '\n';
    terminal.out.flush();
    if (!no_open_) open_in_browser(address);
  }

  std::string port_;
  std::string folder_;
  bool no_open_ = false;
  FolderOptions folders_;
};

}  // namespace

std::unique_ptr<Command> make_desk_command() {
  return std::make_unique<DeskCommand>();
}

}  // namespace footroom::cli
