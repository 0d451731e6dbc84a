// The class list: what each person needs is kept, shown, changed and printed.

#include <gtest/gtest.h>

#include "desk/open_desk.hpp"
#include "grade/quiz_file.hpp"
#include "tasks/roster.hpp"

namespace footroom::desk::testing {
namespace {

namespace fs = std::filesystem;
using cli::testing::contents;
using engine::Language;

class ClassList : public ::testing::Test {
 protected:
  Scratch scratch;
  fs::path folder = scratch.path / "desk";
  OpenDesk desk{folder};
  Visitor visitor{desk};

  /// Theo and Zoe come by the file, and what Ben needs.
  void add_class() {
    const auto sent = visitor.send(
        "/classes", "/classes",
        {{"title", "Monday"},
         {"names", "Ana Ejemplo\nBen Sample\n"},
         {"file",
          "name,language,large print,without figures,extra time\r\nBen Sample,Spanish,yes,,25%\r\n"
          "Theo Trainer,,,yes,10 min\r\nZoe,,,,\r\n"}});
    ASSERT_EQ(sent->status, 303) << sent->body;
  }
  tasks::Roster roster() const { return tasks::read_roster(folder / "classes/0001/roster.csv"); }
  static quiz::Accommodations bens() {
    quiz::Accommodations made;
    made.language = Language::spanish;
    made.large_print = true;
    made.extra_percent = 25;
    return made;
  }
  httplib::Result change(const std::string& names, Visitor::Fields more = {}) {
    more.insert(more.end(), {{"title", "Monday"}, {"names", names}});
    return visitor.send("/classes/1", "/classes/1", more);
  }
  httplib::Result change_person(const std::string& place, Visitor::Fields fields) {
    const std::string path = "/classes/1/people/" + place;
    return visitor.send(path, path, std::move(fields));
  }
  void speak_spanish() {
    ASSERT_EQ(visitor
                  .send("/preferences", "/preferences",
                        {{"language", "es"},
                         {"units", "us"},
                         {"decimal-mark", "point"},
                         {"paper", "letter"},
                         {"rules", "us-construction"}})
                  ->status,
              303);
  }
  void make_quiz() {
    ASSERT_EQ(visitor
                  .send("/quizzes/new?class=1", "/quizzes/new",
                        {{"class", "1"},
                         {"made-of", "weekly"},
                         {"date", "2026-11-23"},
                         {"language", "en"},
                         {"units", "us"}})
                  ->status,
              303);
    while (visitor.get("/quizzes/1/work")->body.find("\"running\":true") != std::string::npos)
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
};

TEST_F(ClassList, KeepsAndShowsWhatEachPersonNeeds) {
  add_class();
  EXPECT_EQ(roster().names,
            (std::vector<std::string>{"Ana Ejemplo", "Ben Sample", "Theo Trainer", "Zoe"}));
  EXPECT_EQ(roster().accommodations.at(0), quiz::Accommodations());
  EXPECT_EQ(roster().accommodations.at(1), bens());
  EXPECT_TRUE(roster().accommodations.at(2).without_figures);
  EXPECT_EQ(roster().accommodations.at(2).extra_minutes, 10);
  const std::string page = visitor.get("/classes/1")->body;
  EXPECT_NE(page.find("sheet in Spanish, large print, 25% more time"), std::string::npos);
  EXPECT_NE(page.find("figures told in words, 10 more minutes"), std::string::npos);
  speak_spanish();
  EXPECT_NE(
      visitor.get("/classes/1")->body.find("hoja en español, letra grande, 25 % más de tiempo"),
      std::string::npos);
}

TEST_F(ClassList, GivesThemTheirSheets) {
  add_class();
  make_quiz();
  const fs::path quiz = folder / "quizzes/0001/quiz";
  const auto made = grade::read_quiz(contents(quiz / "quiz.json"), "quiz.json");
  ASSERT_EQ(made.sheets.size(), 4u);
  EXPECT_EQ(made.sheets[0].accommodations, quiz::Accommodations());
  EXPECT_EQ(made.sheets[1].accommodations.language, Language::spanish);
  EXPECT_TRUE(made.sheets[1].accommodations.large_print);
  EXPECT_TRUE(made.sheets[2].accommodations.without_figures);
  // As the command makes them from the class list.
  const fs::path again = scratch.path / "again";
  const std::string command = std::string(FOOTROOM_PROGRAM) + " quiz --roster " +
                              (folder / "classes/0001/roster.csv").string() + " --seed " +
                              std::to_string(made.header.seed) + " --secret " + made.header.secret +
                              " --date 2026-11-23 --out " + again.string() + " > /dev/null";
  ASSERT_EQ(std::system(command.c_str()), 0);
  for (const char* page : {"sheet-A.html", "sheet-B.html", "sheet-C.html", "sheet-D.html",
                           "key-B.html", "all-sheets.html", "all-keys.html"})
    EXPECT_EQ(contents(quiz / page), contents(again / page)) << page;
  EXPECT_NE(visitor.get("/quizzes/1")->body.find("sheet in Spanish, large print"),
            std::string::npos);
}

TEST_F(ClassList, KeepsNeedsWhileNamesAreAddedAndMoved) {
  add_class();
  ASSERT_EQ(change("Zoe\nTheo Trainer\nNew One\nBen Sample\n")->status, 303);
  EXPECT_EQ(roster().names,
            (std::vector<std::string>{"Zoe", "Theo Trainer", "New One", "Ben Sample"}));
  EXPECT_EQ(roster().accommodations.at(2), quiz::Accommodations());
  EXPECT_EQ(roster().accommodations.at(3), bens());
}

TEST_F(ClassList, AsksBeforeNeedsAreLost) {
  add_class();
  const auto asked = change("Ana Ejemplo\nBen Simple\nTheo Trainer\n");
  EXPECT_EQ(asked->status, 200);
  EXPECT_NE(asked->body.find("Take out Ben Sample (sheet in Spanish"), std::string::npos);
  EXPECT_EQ(asked->body.find("Take out Zoe"), std::string::npos);
  EXPECT_EQ(roster().accommodations.at(1), bens());
  EXPECT_EQ(change("Ana Ejemplo\nZoe\n", {{"gone", "Ben Sample"}})->status, 200);
  EXPECT_EQ(
      change("Ana Ejemplo\nZoe\n", {{"gone", "Ben Sample"}, {"gone", "Theo Trainer"}})->status,
      303);
  EXPECT_EQ(roster().names, (std::vector<std::string>{"Ana Ejemplo", "Zoe"}));
}

TEST_F(ClassList, SetsOnePersonsNeedsAndCorrectsTheName) {
  add_class();
  ASSERT_EQ(change_person("1", {{"name", "Ana Ejemplar"},
                                {"was", "Ana Ejemplo"},
                                {"language", "es"},
                                {"sheet", "large-print"},
                                {"extra-time", "25 %"}})
                ->status,
            303);
  EXPECT_EQ(roster().names.at(0), "Ana Ejemplar");
  EXPECT_EQ(roster().accommodations.at(0), bens());
  EXPECT_EQ(roster().accommodations.at(1), bens());
  ASSERT_EQ(
      change_person(
          "2",
          {{"name", "Ben Sample"}, {"was", "Ben Sample"}, {"language", ""}, {"extra-time", ""}})
          ->status,
      303);
  EXPECT_EQ(roster().accommodations.at(1), quiz::Accommodations());
  EXPECT_EQ(visitor.get("/classes/1/people/5")->status, 404);
  EXPECT_EQ(visitor.get("/classes/1/people/0")->status, 404);
}

TEST_F(ClassList, RefusesWhatCannotBeTakenBesideItsField) {
  add_class();
  const auto before = cli::testing::contents_below(folder);
  const auto refused = [&](Visitor::Fields fields, const std::string& says) {
    const auto page = change_person("2", std::move(fields));
    EXPECT_EQ(page->status, 200);
    EXPECT_NE(page->body.find(says), std::string::npos) << says;
  };
  refused({{"name", "Ben"}, {"was", "Ben Sample"}, {"extra-time", "much"}},
          "id=\"extra-time-error\">Cannot be read.");
  refused({{"name", " "}, {"was", "Ben Sample"}}, "id=\"name-error\">Write at least one name.");
  refused({{"name", "Ben\nCem"}, {"was", "Ben Sample"}}, "id=\"name-error\">Write one name.");
  refused({{"name", "Ben"}, {"was", "Ben Sample"}, {"language", "fr"}}, "id=\"language-error\"");
  refused({{"name", "Ben"}, {"was", "Theo Trainer"}}, "was changed meanwhile");
  EXPECT_EQ(cli::testing::contents_below(folder), before);
}

TEST_F(ClassList, TakesATableFromASpreadsheet) {
  ASSERT_EQ(
      visitor
          .send("/classes", "/classes",
                {{"title", "Pasted"},
                 {"names", "Nombre\tIdioma\tLetra grande\r\nAna \"la jefa\"\tespañol\tsí\r\n"}})
          ->status,
      303);
  EXPECT_EQ(roster().names, (std::vector<std::string>{"Ana \"la jefa\""}));
  EXPECT_EQ(roster().accommodations.at(0).language, Language::spanish);
  EXPECT_TRUE(roster().accommodations.at(0).large_print);
}

TEST_F(ClassList, TellsFaultsInTheLanguageOfThePageWithTheLineThatWasTyped) {
  const auto send = [&](const std::string& names, const std::string& file) {
    return visitor.send("/classes", "/classes", {{"title", "X"}, {"names", names}, {"file", file}})
        ->body;
  };
  EXPECT_NE(
      send("Ana\n\nB\x01n\n", "").find("line 3: the name holds a line break or another control"),
      std::string::npos);
  EXPECT_NE(send("", "name\nAna\n\"Ben\" x\n")
                .find("id=\"file-error\">line 3: a quotation mark stands inside a field"),
            std::string::npos);
  EXPECT_NE(send("", "name,large prnt\nAna,yes\n").find("did you mean large print?"),
            std::string::npos);
  speak_spanish();
  EXPECT_NE(send("Ana\n\nB\x01n\n", "").find("línea 3: el nombre tiene un salto de línea"),
            std::string::npos);
  EXPECT_NE(send("", "grupo\nA\n").find("línea 1: no tiene una columna llamada nombre"),
            std::string::npos);
  EXPECT_NE(send("", "name,language\nAna,French\n").find("se esperaba español o inglés"),
            std::string::npos);
}

TEST_F(ClassList, ShowsLinesOfItsFileThatCannotBeRead) {
  add_class();
  std::ofstream(folder / "classes/0001/roster.csv") << "name,language\nAna,French\nBen,es\n";
  EXPECT_NE(visitor.get("/classes/1")->body.find("line 2: language is French"), std::string::npos);
  const auto refused = visitor.send("/quizzes/new?class=1", "/quizzes/new",
                                    {{"class", "1"},
                                     {"made-of", "weekly"},
                                     {"date", "2026-11-23"},
                                     {"language", "en"},
                                     {"units", "us"}});
  EXPECT_EQ(refused->status, 200);
  EXPECT_NE(refused->body.find("lines that cannot be read"), std::string::npos);
}

}  // namespace
}  // namespace footroom::desk::testing
