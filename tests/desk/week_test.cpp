// An instructor's week through the forms.

#include <gtest/gtest.h>

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

TEST_F(Week, TellsFaultsInSpanish) {
  OpenDesk desk(folder);
  Visitor visitor(desk);
  add_class(visitor);
  make_quiz(visitor);
  const auto quiz = contents(folder / "quizzes/0001/quiz/quiz.json");
  std::smatch item;  // that the quiz asks
  ASSERT_TRUE(std::regex_search(quiz, item, std::regex("\"item\": ?\"([a-z0-9-]+)\"")));
  const auto swap = [&] {
    return visitor
        .send("/quizzes/1", "/quizzes/1/swap", {{"number", "1"}, {"item-1", item[1].str()}})
        ->body;
  };
  EXPECT_NE(swap().find("question 1: "), std::string::npos);
  ASSERT_EQ(visitor
                .send("/preferences", "/preferences",
                      {{"language", "es"},
                       {"units", "us"},
                       {"decimal-mark", "point"},
                       {"paper", "letter"},
                       {"rules", "us-construction"}})
                ->status,
            303);
  EXPECT_NE(swap().find("pregunta 1: "), std::string::npos);
  const std::string path = "/quizzes/1/answers";
  const auto answers = [&](const std::string& pasted) {
    return visitor.send(path, path, {{"pasted", pasted}})->body;
  };
  EXPECT_NE(answers("seat\t1\nA\t12 ft\nQ\t1\n")
                .find("línea 3: puesto: es Q, se esperaba un puesto del examen, de A a B"),
            std::string::npos);
  EXPECT_NE(answers("nada\n").find("línea 1: no tiene una columna llamada puesto"),
            std::string::npos);
  EXPECT_NE(answers("seat\tname\nA\tAna\n").find("no tiene una columna llamada 1"),
            std::string::npos);
}

/// A file that cannot grow, as on a full disk.
TEST_F(Week, KeepsATraceOfAQuizThatCouldNotBeWritten) {
  constexpr rlim_t too_small_for_a_quiz = 20'000;
  {
    RunningDesk desk(folder, {}, too_small_for_a_quiz);
    Visitor visitor(desk);
    add_class(visitor);
    make_quiz(visitor);
    EXPECT_NE(visitor.get("/quizzes/1")->body.find("cannot write: File too large"),
              std::string::npos);
  }
  OpenDesk desk(folder);
  Visitor visitor(desk);
  EXPECT_NE(visitor.get("/quizzes")->body.find("Unfinished quiz"), std::string::npos);
  EXPECT_NE(visitor.get("/")->body.find("Unfinished quiz"), std::string::npos);
  EXPECT_NE(visitor.get("/quizzes/1")->body.find("cannot write: File too large"),
            std::string::npos);
  make_quiz(visitor);  // for the same class: the trace goes
  EXPECT_EQ(visitor.get("/quizzes/1")->status, 404);
  EXPECT_EQ(visitor.get("/quizzes")->body.find("Unfinished quiz"), std::string::npos);
  EXPECT_EQ(visitor.get("/quizzes/2")->status, 200);
}

TEST_F(Week, TakesAnUnfinishedQuizOffTheListWhenAsked) {
  {
    OpenDesk desk(folder);
    Visitor visitor(desk);
    add_class(visitor);
    make_quiz(visitor);
  }
  fs::remove_all(folder / "quizzes/0001/quiz");  // as a cut leaves it
  OpenDesk desk(folder);
  Visitor visitor(desk);
  EXPECT_NE(visitor.get("/quizzes/1")->body.find("Footroom was ended while it wrote them"),
            std::string::npos);
  EXPECT_EQ(visitor.send("/quizzes/1", "/quizzes/1/forget", {})->status, 303);
  EXPECT_EQ(visitor.get("/quizzes/1")->status, 404);
  EXPECT_FALSE(fs::exists(folder / "quizzes/0001"));
}

/// Whoever guesses the seed must not be able to try out codes: the draws follow from a secret too.
TEST_F(Week, MakesQuizzesWithASecret) {
  std::set<std::string> codes;
  for (const char digit : {'a', 'b'}) {
    Settings settings = settings_for(folder / std::string(1, digit));
    settings.random = [digit] { return std::string(32, digit) + next_text().substr(32); };
    OpenDesk desk(settings);
    Visitor visitor(desk);
    add_class(visitor);
    make_quiz(visitor);
    const auto quiz = contents(folder / std::string(1, digit) / "quizzes/0001/quiz/quiz.json");
    EXPECT_NE(quiz.find('"' + std::string(32, digit) + '"'), std::string::npos);
    std::smatch code;
    ASSERT_TRUE(std::regex_search(quiz, code, std::regex("\"code\": ?\"([0-9A-Z]{5})\"")));
    codes.insert(code[1]);
  }
  EXPECT_EQ(codes.size(), 2u);
  RunningDesk desk(folder / "program");
  Visitor visitor(desk);
  add_class(visitor);
  make_quiz(visitor);
  const auto quiz = contents(folder / "program/quizzes/0001/quiz/quiz.json");
  EXPECT_TRUE(std::regex_search(quiz, std::regex("\"secret\": ?\"[0-9a-f]{32}\"")));
}

TEST_F(Week, EndsWellWhenAsked) {
  for (const int signal : {SIGINT, SIGTERM}) {
    RunningDesk running(folder);
    EXPECT_TRUE(fs::exists(folder / "desk.address"));
    const int status = running.end(signal);
    EXPECT_TRUE(WIFEXITED(status));
    EXPECT_EQ(WEXITSTATUS(status), 0);
    EXPECT_FALSE(fs::exists(folder / "desk.address"));
  }
}

}  // namespace
}  // namespace footroom::desk::testing
