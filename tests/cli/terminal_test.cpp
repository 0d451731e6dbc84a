// Long work tells on a terminal how far it has come, and nothing anywhere else.

#include <gtest/gtest.h>
#include <pty.h>

#include "cli/program_run.hpp"

namespace footroom::cli {
namespace {

using testing::contents;
using testing::put;
using testing::run_in;
using testing::Scratch;
using Words = std::vector<std::string>;

/// What the program writes to standard error where that is a terminal.
std::string told_to_a_terminal(const testing::fs::path& folder, const Words& arguments) {
  int ours = -1;
  int terminal = -1;
  if (::openpty(&ours, &terminal, nullptr, nullptr, nullptr) != 0)
    throw std::runtime_error("no terminal can be made here");
  std::vector<char*> words{const_cast<char*>(FOOTROOM_PROGRAM)};
  for (const auto& argument : arguments) words.push_back(const_cast<char*>(argument.c_str()));
  words.push_back(nullptr);
  const pid_t child = ::fork();
  if (child == 0) {
    const int nowhere = ::open("/dev/null", O_WRONLY);
    if (::chdir(folder.c_str()) == 0 && ::dup2(nowhere, STDOUT_FILENO) >= 0 &&
        ::dup2(terminal, STDERR_FILENO) >= 0)
      ::execv(FOOTROOM_PROGRAM, words.data());
    ::_exit(127);
  }
  ::close(terminal);
  std::string told;
  std::array<char, 4096> block{};
  for (ssize_t count = 0; (count = ::read(ours, block.data(), block.size())) > 0;)
    told.append(block.data(), static_cast<std::size_t>(count));
  ::close(ours);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0) << told;
  return told;
}

class TerminalProgress : public ::testing::Test {
 protected:
  Scratch scratch;

  void expect_ok(const Words& command) {
    const auto ran = run_in(scratch.path, command);
    ASSERT_EQ(ran.code, 0) << command.at(0) << ": " << ran.err;
    EXPECT_EQ(ran.err, "") << "nothing is told where nobody watches";
  }

  /// `last`: what stands on the line before it is erased for the last time.
  void expect_told(const Words& command, const std::string& last) {
    const std::string told = told_to_a_terminal(scratch.path, command);
    EXPECT_TRUE(told.ends_with(last + "\r\033[K")) << told;
    EXPECT_EQ(told.find('\n'), told.npos) << told;
  }
};

TEST_F(TerminalProgress, OfAQuizItsGradesAndTheirStatistics) {
  const Words quiz{"quiz", "--seed", "5", "--sheets", "3", "--out", "quiz"};
  expect_ok(quiz);
  expect_told(quiz, "sheets written: 3 of 3");
  expect_told({"quiz", "--seed", "5", "--sheets", "3", "--language", "es", "--out", "quiz"},
              "hojas escritas: 3 de 3");
  expect_told({"quiz", "--from", "quiz", "--out", "again"}, "hojas escritas: 3 de 3");
  const Words package{"export", "qti", "quiz", "--out", "quiz.zip"};
  expect_ok(package);
  expect_told(package, "hojas empaquetadas: 3 de 3");
  expect_ok(quiz);
  std::string form = contents(scratch.path / "quiz" / "responses.csv");
  for (std::size_t i = 0; (i = form.find(",,", i)) != std::string::npos; i += 2)
    form.insert(i + 1, "1");
  put(scratch.path / "quiz" / "responses.csv", form);
  const Words grade{"grade", "quiz/quiz.json", "quiz/responses.csv", "--out", "graded"};
  expect_ok(grade);
  expect_told(grade, "seats written: 3 of 3");
  const Words statistics{"statistics", "graded/results.json", "--out", "items"};
  expect_ok(statistics);
  expect_told(statistics, "results read: 1 of 1");
}

TEST_F(TerminalProgress, OfTheBankAndTheManual) {
  const Words check{"bank", "check", "free-fall-over-the-eave", "--draws", "20"};
  expect_ok(check);
  expect_told(check, "items checked: 1 of 1");
  Words quiet = check;
  quiet.push_back("--quiet");
  EXPECT_EQ(told_to_a_terminal(scratch.path, quiet), "");
  expect_ok({"manual", "--out", "manual"});
  EXPECT_NE(told_to_a_terminal(scratch.path, {"manual", "--out", "manual"})
                .find("calculations worked out: "),
            std::string::npos);
}

TEST_F(TerminalProgress, OfTheRecords) {
  put(scratch.path / "people.csv", "identity,name,employer\nA-1,Ana Ejemplo,\nA-2,Ben Sample,\n");
  const auto records = [](Words words) {
    words.insert(words.begin(), "record");
    words.insert(words.end(), {"--store", "crew.db"});
    return words;
  };
  expect_ok(records({"init"}));
  expect_told(records({"import", "people", "people.csv"}), "rows recorded: 2 of 2");
  expect_told(records({"verify"}), "entries checked: 2 of 2");
  expect_ok(records({"verify"}));
  expect_told(records({"export", "people", "out.csv"}), "entries written: 2 of 2");
  expect_ok(records({"export", "people", "out.csv"}));
  expect_told(records({"backup", "copy.db"}), "entries copied: 2 of 2");
  expect_ok(records({"backup", "other.db"}));
  expect_ok(records({"add-course", "falls", "--english", "Falls"}));
  expect_ok(
      records({"add-session", "--course", "falls", "--days", "2026-11-02", "--people", "A-1,A-2"}));
  const Words certificates = records({"certificate", "--session", "4", "--out", "pages"});
  expect_told(certificates, "certificates written: 2 of 2");
  expect_ok(certificates);
}

}  // namespace
}  // namespace footroom::cli
