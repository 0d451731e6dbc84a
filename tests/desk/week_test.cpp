// An instructor's week through the forms, and what a kill in the middle of it leaves.

#include <gtest/gtest.h>
#include <sys/wait.h>

#include <csignal>

#include "desk/open_desk.hpp"

namespace footroom::desk::testing {
namespace {

namespace fs = std::filesystem;
using cli::testing::contents;
using cli::testing::contents_below;

class Week : public ::testing::Test {
 protected:
  Scratch scratch;
  fs::path folder = scratch.path / "desk";

  static void add_class(Visitor& visitor) {
    const auto sent = visitor.send("/classes", "/classes",
                                   {{"title", "Monday"}, {"names", "Ana Ejemplo\nBen Sample\n"}});
    ASSERT_EQ(sent->status, 303);
  }
  /// Waits until the sheets are there.
  static void make_quiz(Visitor& visitor) {
    const auto sent = visitor.send("/quizzes/new?class=1", "/quizzes/new",
                                   {{"class", "1"},
                                    {"made-of", "weekly"},
                                    {"date", "2026-11-23"},
                                    {"language", "en"},
                                    {"units", "us"},
                                    {"fresh", "yes"}});
    ASSERT_EQ(sent->status, 303) << sent->body;
    const std::string work = sent->get_header_value("Location") + "/work";
    while (visitor.get(work)->body.find("\"running\":true") != std::string::npos)
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  static std::string seat_answer(Visitor& visitor, const std::string& seat,
                                 const std::string& answer) {
    const std::string path = "/quizzes/1/answers/" + seat;
    const auto sent = visitor.send(path, path, {{"answer-1", answer}});
    return std::to_string(sent->status) + " " + sent->get_header_value("Location");
  }
};

TEST_F(Week, GoesFromAnEmptyFolderToTheNextQuiz) {
  OpenDesk desk(folder);
  Visitor visitor(desk);
  EXPECT_NE(visitor.get("/")->body.find("Add your class"), std::string::npos);
  add_class(visitor);
  make_quiz(visitor);
  EXPECT_EQ(visitor.get("/quizzes/1")->status, 200);
  EXPECT_NE(visitor.get("/quizzes/1/sheets")->body.find("Ben Sample"), std::string::npos);
  EXPECT_EQ(visitor.get("/quizzes/1/keys")->status, 200);
  EXPECT_EQ(visitor.get("/quizzes/1/results")->status, 404);
  EXPECT_EQ(seat_answer(visitor, "A", "12 ft"), "303 /quizzes/1/answers/B?told=saved");
  EXPECT_EQ(seat_answer(visitor, "B", "about 3.8 m"), "303 /quizzes/1/answers?told=saved");
  EXPECT_NE(visitor.get("/quizzes/1/answers/A")->body.find("value=\"12 ft\""), std::string::npos);
  const auto graded = visitor.send("/quizzes/1/answers", "/quizzes/1/grade", {});
  ASSERT_EQ(graded->status, 303);
  const auto results = visitor.get("/quizzes/1/results");
  ASSERT_EQ(results->status, 200);
  EXPECT_NE(results->body.find("Ana Ejemplo"), std::string::npos);
  EXPECT_EQ(visitor.get("/quizzes/1/feedback")->status, 200);
  EXPECT_EQ(visitor.get("/quizzes/1/feedback/A")->status, 200);
  EXPECT_EQ(visitor.get("/quizzes/1/feedback/C")->status, 404);
  EXPECT_EQ(visitor.get("/quizzes/1/report")->status, 200);
  EXPECT_EQ(visitor.get("/care")->status, 200);
  EXPECT_EQ(visitor.get("/care/numbers")->status, 200);
  EXPECT_NE(visitor.get("/quizzes/new?from=1")->body.find("name=\"topics\""), std::string::npos);
}

TEST_F(Week, ShowsHowAnAnswerIsRead) {
  OpenDesk desk(folder);
  Visitor visitor(desk);
  add_class(visitor);
  make_quiz(visitor);
  const std::string page = visitor.get("/quizzes/1/answers/A")->body;
  std::smatch match;
  ASSERT_TRUE(
      std::regex_search(page, match, std::regex("id=\"answer-([0-9]+)-unit\">[^<]+</span>")));
  const std::string at = "/quizzes/1/reading?seat=A&number=" + match[1].str() + "&typed=";
  EXPECT_NE(visitor.get(at + "about%2012.5")->body.find("is read as 12.5"), std::string::npos);
  EXPECT_NE(visitor.get(at + "perhaps")->body.find("cannot be read"), std::string::npos);
  EXPECT_EQ(visitor.get(at)->body, "");
  EXPECT_EQ(visitor.get("/quizzes/1/reading?seat=Z&number=1&typed=1")->status, 404);
}

TEST_F(Week, TakesAWholeClassFromASpreadsheet) {
  OpenDesk desk(folder);
  Visitor visitor(desk);
  add_class(visitor);
  make_quiz(visitor);
  const std::string path = "/quizzes/1/answers";
  const auto wrong =
      visitor.send(path, path, {{"pasted", "seat\t1\nA\t12 ft\nQ\t1\n"}, {"file", ""}});
  EXPECT_EQ(wrong->status, 200);
  EXPECT_NE(wrong->body.find("expected a seat of the quiz"), std::string::npos);
  const auto pasted =
      visitor.send(path, path, {{"pasted", "seat\t1\nA\t12 ft\nB\t\n"}, {"file", ""}});
  EXPECT_EQ(pasted->status, 303);
  EXPECT_NE(visitor.get(path)->body.find("Answers typed: 1 of 2"), std::string::npos);
  const auto file = visitor.send(path, path, {{"pasted", ""}, {"file", "seat,1\r\nB,9 ft\r\n"}});
  EXPECT_EQ(file->status, 303);
  EXPECT_NE(visitor.get(path)->body.find("Answers typed: 2 of 2"), std::string::npos);
  EXPECT_NE(visitor.get(path + "/A")->body.find("value=\"12 ft\""), std::string::npos);
}

TEST_F(Week, SpeaksSpanish) {
  OpenDesk desk(folder);
  Visitor visitor(desk);
  const auto saved = visitor.send("/preferences", "/preferences",
                                  {{"language", "es"},
                                   {"units", "si"},
                                   {"decimal-mark", "point"},
                                   {"paper", "a4"},
                                   {"rules", "us-construction"}});
  ASSERT_EQ(saved->status, 303) << saved->body;
  EXPECT_NE(visitor.get("/")->body.find("lang=\"es\""), std::string::npos);
  EXPECT_NE(visitor.get("/classes")->body.find("Nombre del grupo"), std::string::npos);
}

TEST_F(Week, SaysWhatIsWrongBesideTheFieldAndKeepsWhatWasTyped) {
  OpenDesk desk(folder);
  Visitor visitor(desk);
  const auto refused =
      visitor.send("/classes", "/classes", {{"title", ""}, {"names", "Ana Ejemplo"}});
  EXPECT_EQ(refused->status, 200);
  EXPECT_NE(refused->body.find("id=\"title-error\">Give the class a name."), std::string::npos);
  EXPECT_NE(refused->body.find("Ana Ejemplo</textarea>"), std::string::npos);
  EXPECT_FALSE(fs::exists(folder / "classes"));
}

/// The program itself, so that it can be killed.
class Killed : public Week {
 protected:
  struct Running {
    pid_t child = 0;
    int port = 0;
    std::string key_path;
  };

  Running start() const {
    const fs::path out = scratch.path / "out";
    fs::remove(out);
    const pid_t child = ::fork();
    if (child == 0) {
      const int file = ::open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0666);
      ::dup2(file, STDOUT_FILENO);
      ::execl(FOOTROOM_PROGRAM, FOOTROOM_PROGRAM, "desk", "--no-open", "--folder", folder.c_str(),
              nullptr);
      ::_exit(127);
    }
    static const std::regex parts("http://127\\.0\\.0\\.1:([0-9]+)(/open\\?key=[0-9a-f]+)\n");
    std::smatch match;
    std::string said;
    while (!std::regex_match(said, match, parts)) {
      std::this_thread::sleep_for(std::chrono::milliseconds(10));
      said = fs::exists(out) ? contents(out) : "";
    }
    return {child, std::stoi(match[1]), match[2]};
  }
};

TEST_F(Killed, EndsWellWhenAsked) {
  for (const int signal : {SIGINT, SIGTERM}) {
    const Running running = start();
    ::kill(running.child, signal);
    int status = 0;
    ::waitpid(running.child, &status, 0);
    EXPECT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
    EXPECT_FALSE(fs::exists(folder / "desk.address"));
  }
}

}  // namespace
}  // namespace footroom::desk::testing
