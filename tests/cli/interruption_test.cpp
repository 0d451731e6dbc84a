// Ctrl-C, a closed terminal and an order to stop leave everything as it was, or complete.

#include <gtest/gtest.h>

#include <array>
#include <chrono>
#include <csignal>
#include <thread>

#include "cli/program_run.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/unfinished.hpp"

namespace footroom::cli {
namespace {

using tasks::Interrupted;
using tasks::OutputFolder;
using tasks::Unfinished;
using testing::contents;
using testing::contents_below;
using testing::Program;
using testing::put;
using testing::run_in;
using testing::Scratch;
using Words = std::vector<std::string>;

bool any_file(const std::string&) {
  return true;
}

void write_folder(const testing::fs::path& folder, int signal) {
  try {
    OutputFolder out(folder, any_file);
    out.write("a.txt", "new");
    ::raise(signal);
    out.write("b.txt", "new");
    out.publish();
  } catch (const Interrupted&) {
  }
  ::_exit(0);  // the signal did not come through
}

TEST(Unfinished, ASignalWaitsUntilEverythingIsCleanedUp) {
  for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
    const Scratch scratch;
    put(scratch.path / "out" / "a.txt", "old");
    EXPECT_EXIT(write_folder(scratch.path / "out", signal), ::testing::KilledBySignal(signal), "");
    EXPECT_EQ(contents_below(scratch.path),
              (std::map<std::string, std::string>{{"out/a.txt", "old"}}));
    EXPECT_EXIT(write_folder(scratch.path / "x" / "fresh", signal),
                ::testing::KilledBySignal(signal), "");
    EXPECT_FALSE(testing::fs::exists(scratch.path / "x"));
  }
}

TEST(Unfinished, WhatTheProgramWasStartedToIgnoreIsIgnored) {
  const Scratch scratch;
  const auto run = [&scratch] {
    std::signal(SIGHUP, SIG_IGN);
    write_folder(scratch.path / "out", SIGHUP);
  };
  EXPECT_EXIT(run(), ::testing::ExitedWithCode(0), "");
  EXPECT_EQ(contents_below(scratch.path / "out").size(), 2u);
}

TEST(Unfinished, WithoutOneASignalEndsTheProgramAtOnce) {
  const auto run = [] {
    { const Unfinished nothing_any_more; }
    ::raise(SIGINT);
    ::_exit(0);
  };
  EXPECT_EXIT(run(), ::testing::KilledBySignal(SIGINT), "");
}

TEST(Unfinished, LeavesToAnotherThreadWhatThatReceives) {
  const Scratch scratch;
  const auto run = [&scratch] {
    sigset_t ends;
    ::sigemptyset(&ends);
    ::sigaddset(&ends, SIGTERM);
    ::pthread_sigmask(SIG_BLOCK, &ends, nullptr);
    std::thread working([&] {
      OutputFolder out(scratch.path / "out", any_file);
      ::kill(::getpid(), SIGTERM);
      out.write("a.txt", "new");
      out.publish();
    });
    working.join();
    int received = 0;
    ::sigwait(&ends, &received);
    ::_exit(received == SIGTERM ? 0 : 1);
  };
  EXPECT_EXIT(run(), ::testing::ExitedWithCode(0), "");
  EXPECT_EQ(contents_below(scratch.path / "out").size(), 1u);
}

/// What a folder holds, and which folders; of a store of records its head alone, for SQLite writes
/// the same entries in more than one way.
std::map<std::string, std::string> state_of(const testing::fs::path& folder) {
  auto state = contents_below(folder);
  for (const auto& entry : testing::fs::recursive_directory_iterator(folder))
    if (entry.is_directory())
      state[entry.path().lexically_relative(folder).generic_string() + "/"] = "";
  for (auto& [name, bytes] : state)
    if (name.ends_with(".db")) {
      const Scratch elsewhere;
      testing::fs::copy(folder / name, elsewhere.path / "store");
      bytes = run_in(elsewhere.path, {"record", "verify", "--store", "store"}).out;
      EXPECT_NE(bytes, "") << name;
    }
  return state;
}

/// Runs a command once to its end, and then stops it at moments that are spread over the time of a
/// whole run. `folder` is what it starts from.
void expect_before_or_complete(const testing::fs::path& folder, const Words& command) {
  const Scratch scratch;
  const auto start_anew = [&] {
    testing::fs::remove_all(scratch.path / "in");
    testing::fs::copy(folder, scratch.path / "in", testing::fs::copy_options::recursive);
  };
  start_anew();
  const auto before = state_of(scratch.path / "in");
  const auto start = std::chrono::steady_clock::now();
  const auto ran = run_in(scratch.path / "in", command);
  const auto whole = std::chrono::duration_cast<std::chrono::microseconds>(
      std::chrono::steady_clock::now() - start);
  ASSERT_EQ(ran.code, 0) << ran.err;
  const auto complete = state_of(scratch.path / "in");
  ASSERT_NE(before, complete);
  constexpr int moments = 3;
  constexpr std::array signals{SIGINT, SIGTERM, SIGHUP};
  for (int moment = 1; moment <= moments; ++moment) {
    start_anew();
    Program program{scratch.path / "in"};
    program.signal = signals.at(static_cast<std::size_t>(moment) % signals.size());
    program.killed_after = static_cast<useconds_t>(whole.count() * moment / (moments + 1));
    const auto stopped = program.run(command);
    EXPECT_TRUE(stopped.code == -program.signal || stopped.code == 0) << stopped.code;
    EXPECT_EQ(stopped.err.find("fault"), std::string::npos) << stopped.err;
    const auto after = state_of(scratch.path / "in");
    std::string names;
    for (const auto& [name, bytes] : after) names += " " + name;
    EXPECT_TRUE(after == before || after == complete)
        << "footroom " << command.at(0) << ", signal " << program.signal << " at moment " << moment
        << ", left" << names;
  }
}

class Interruption : public ::testing::Test {
 protected:
  Scratch scratch;

  void expect_ok(const Words& command) {
    const auto ran = run_in(scratch.path, command);
    ASSERT_EQ(ran.code, 0) << command.at(0) << ": " << ran.err;
  }

  /// A quiz of eight seats in "quiz", with its form filled in.
  void make_quiz() {
    expect_ok({"quiz", "--seed", "5", "--date", "2026-11-26", "--sheets", "8", "--out", "quiz"});
    std::string form = contents(scratch.path / "quiz" / "responses.csv");
    for (std::size_t i = 0; (i = form.find(",,", i)) != std::string::npos; i += 2)
      form.insert(i + 1, "1");
    put(scratch.path / "quiz" / "responses.csv", form);
  }

  /// A store with an employer, a course and a thousand people who attended.
  void make_store() {
    std::string people = "identity,name,employer\n";
    std::string roster = "name\n";
    for (int i = 0; i < 1000; ++i) {
      people += "P-" + std::to_string(i) + ",Person " + std::to_string(i) + ",Invented Roofing\n";
      roster += "P-" + std::to_string(i) + "\n";
    }
    put(scratch.path / "people.csv", people);
    put(scratch.path / "roster.csv", roster);
    expect_ok(recorded({"init"}));
    expect_ok(recorded({"add-employer", "Invented Roofing"}));
    expect_ok(recorded({"add-course", "falls", "--english", "Falls"}));
    expect_ok(recorded({"import", "people", "people.csv"}));
    expect_ok(recorded({"set-policy", "--employer", "Invented Roofing", "--course", "falls",
                        "--refresher-months", "12"}));
    expect_ok(recorded(
        {"add-session", "--course", "falls", "--days", "2025-01-02", "--roster", "roster.csv"}));
  }

  static Words recorded(Words words) {
    words.insert(words.begin(), "record");
    words.insert(words.end(), {"--store", "crew.db"});
    const bool adds = words[1] != "init" && words[1] != "due" && words[1] != "export" &&
                      words[1] != "backup" && words[1] != "restore";
    if (adds) words.insert(words.end(), {"--date", "2026-11-26"});
    return words;
  }
};

TEST_F(Interruption, OfAQuiz) {
  put(scratch.path / "out" / "notes.txt", "mine");
  expect_before_or_complete(scratch.path, {"quiz", "--seed", "5", "--date", "2026-11-26",
                                           "--sheets", "8", "--out", "made/quiz"});
}

TEST_F(Interruption, OfAQuizInPartsOnSeveralThreads) {
  const Words quiz{"quiz",    "--seed", "5",      "--date", "2026-11-26", "--sheets", "8",
                   "--seats", "A..H",   "--jobs", "3",      "--out",      "part"};
  expect_before_or_complete(scratch.path, quiz);
  expect_ok(quiz);
  expect_before_or_complete(scratch.path, {"join", "part", "--out", "joined"});
}

TEST_F(Interruption, OfAQuizMadeAgainAndItsExports) {
  make_quiz();
  expect_before_or_complete(scratch.path,
                            {"quiz", "--from", "quiz/quiz.json", "--swap", "2", "--out", "again"});
  expect_before_or_complete(scratch.path,
                            {"export", "qti", "quiz/quiz.json", "--out", "quiz.qti.zip"});
  expect_before_or_complete(scratch.path,
                            {"export", "csv", "quiz/quiz.json", "--out", "questions.csv"});
}

TEST_F(Interruption, OfGrading) {
  make_quiz();
  expect_before_or_complete(scratch.path,
                            {"grade", "quiz/quiz.json", "quiz/responses.csv", "--out", "graded"});
}

TEST_F(Interruption, OfStatistics) {
  make_quiz();
  expect_ok({"grade", "quiz/quiz.json", "quiz/responses.csv", "--out", "graded"});
  expect_before_or_complete(scratch.path, {"statistics", "graded/results.json", "--out", "items"});
  expect_before_or_complete(scratch.path,
                            {"statistics", "graded/results.json", "--levels", "levels.json"});
}

TEST_F(Interruption, OfTheManual) {
  expect_before_or_complete(scratch.path, {"manual", "--out", "manual"});
}

TEST_F(Interruption, OfSingleFiles) {
  put(scratch.path / "README.md", "<!-- coverage: begin -->\n<!-- coverage: end -->\n");
  expect_before_or_complete(scratch.path, {"bank", "coverage", "--into", "README.md"});
  expect_before_or_complete(
      scratch.path,
      {"plot", "clearance-against-slack", "slope-length=16 ft", "pitch=6:12", "d-ring-height=5 ft",
       "slack=8 ft", "datum=below-d-ring", "body-below=5 ft", "--out", "new/slack.svg"});
}

TEST_F(Interruption, OfARecordsFile) {
  make_store();
  expect_before_or_complete(scratch.path, recorded({"export", "people", "out.csv"}));
  expect_before_or_complete(scratch.path, recorded({"backup", "copy.db"}));
  expect_before_or_complete(scratch.path,
                            recorded({"due", "--on", "2026-11-26", "--calendar", "due.ics"}));
  expect_ok(recorded({"backup", "copy.db"}));
  testing::fs::remove(scratch.path / "crew.db");
  expect_before_or_complete(scratch.path, recorded({"restore", "copy.db"}));
}

TEST_F(Interruption, OfAChangeOfTheRecords) {
  make_store();
  put(scratch.path / "more.csv",
      "identity,name,employer\nX-1,One More,Invented Roofing\nX-2,Another,Invented Roofing\n");
  expect_before_or_complete(scratch.path, recorded({"add-employer", "Other"}));
}

}  // namespace
}  // namespace footroom::cli
