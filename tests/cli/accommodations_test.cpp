// A class in which seats need different sheets: what they get, how they are graded, and that their
// sheets can be made again.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/program_run.hpp"
#include "cli/small_bank.hpp"

namespace footroom::cli {
namespace {

using testing::contents;
using testing::contents_below;
using testing::put;
using testing::Ran;
using testing::run_in;
using testing::Scratch;
using testing::small_bank;
using Words = std::vector<std::string>;

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

class Class : public ::testing::Test {
 protected:
  Class() {
    put(scratch.path / "class.csv",
        "name,language,large print,without figures,extra time\n"
        "Ana,,,,\n"
        "Ben,Spanish,,,\n"
        "Cem,,yes,,\n"
        "Dee,Spanish,,yes,25%\n");
  }
  void make(Words options = {}) {
    options.insert(options.begin(), {"quiz", "--bank", small_bank.string(), "--roster", "class.csv",
                                     "--out", "made"});
    const Ran ran = run_in(scratch.path, options);
    ASSERT_EQ(ran.code, 0) << ran.err;
  }
  std::string made(const std::string& file) const { return contents(scratch.path / "made" / file); }
  nlohmann::json quiz() const { return nlohmann::json::parse(made("quiz.json")); }

  Scratch scratch;
};

TEST_F(Class, EachSeatHasTheSheetThatItNeeds) {
  make();
  EXPECT_TRUE(has(made("sheet-A.html"), ">Answer</span>"));
  EXPECT_TRUE(has(made("sheet-B.html"), ">Respuesta</span>"));
  EXPECT_TRUE(
      has(made("sheet-B.html"), "<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"es\""));
  EXPECT_TRUE(has(made("key-B.html"), "Clave de respuestas"));
  EXPECT_TRUE(has(made("sheet-C.html"), "<article class=\"sheet large\""));
  EXPECT_TRUE(has(made("sheet-C.html"), ".large { font-size: 18pt;"));
  EXPECT_FALSE(has(made("sheet-A.html"), "font-size: 18pt"));
  EXPECT_TRUE(has(made("sheet-A.html"), "<figure"));
  EXPECT_FALSE(has(made("sheet-D.html"), "<figure"));
  EXPECT_TRUE(has(made("sheet-D.html"), "La figura en palabras"));
  EXPECT_TRUE(has(made("sheet-D.md"), "**La figura en palabras:**"));
  EXPECT_FALSE(has(made("sheet-D.md"), ".svg)"));
  EXPECT_FALSE(std::filesystem::exists(scratch.path / "made" / "figures" / "D-1.svg"));

  const auto sheet = quiz()["sheets"][3];
  const int minutes = sheet["minutes"];
  const int extra = (minutes + 3) / 4;
  EXPECT_EQ(sheet["extra-minutes"], extra);
  EXPECT_TRUE(has(made("sheet-D.html"), "Tiempo adicional: " + std::to_string(extra) +
                                            " minutos, " + std::to_string(minutes + extra) +
                                            " en total"));
  EXPECT_FALSE(has(made("sheet-A.html"), "Extra time"));
}

TEST_F(Class, TheCollectionsTellTheLanguageOfEachSheet) {
  make();
  for (const char* file : {"all-sheets.html", "all-keys.html"}) {
    const std::string all = made(file);
    EXPECT_TRUE(has(all, "<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\"")) << file;
    EXPECT_TRUE(has(all, " lang=\"es\" xml:lang=\"es\" id=\"" +
                             std::string(file).substr(4, file[4] == 's' ? 5 : 3) + "-B\""))
        << file;
    EXPECT_TRUE(has(all, "Puesto B · página")) << file;
    EXPECT_TRUE(has(all, "Seat A · page")) << file;
    EXPECT_TRUE(has(all, ".large { font-size: 18pt;")) << file;
  }
}

TEST_F(Class, QuizJsonRecordsThem) {
  make();
  const auto sheets = quiz()["sheets"];
  for (const char* key : {"language", "large-print", "without-figures", "extra-minutes", "title"})
    EXPECT_FALSE(sheets[0].contains(key)) << key;
  EXPECT_EQ(sheets[1]["language"], "es");
  EXPECT_TRUE(sheets[1].contains("title"));
  EXPECT_EQ(sheets[2]["large-print"], true);
  EXPECT_FALSE(sheets[2].contains("language"));
  EXPECT_EQ(sheets[3]["without-figures"], true);
  EXPECT_TRUE(sheets[3]["questions"][0].contains("class-words"));
  EXPECT_FALSE(sheets[2]["questions"][0].contains("class-words"));
}

TEST_F(Class, TheirSheetsCanBeMadeAgain) {
  make();
  const auto before = contents_below(scratch.path / "made");
  ASSERT_EQ(run_in(scratch.path,
                   {"quiz", "--bank", small_bank.string(), "--from", "made", "--out", "again"})
                .code,
            0);
  EXPECT_EQ(contents_below(scratch.path / "again"), before);
  const std::string code = quiz()["code"];
  for (const char* seat : {"B", "C", "D"}) {
    const Ran ran = run_in(scratch.path, {"quiz", "--bank", small_bank.string(), "--from", "made",
                                          "--code", code + "-" + seat, "--out", seat});
    ASSERT_EQ(ran.code, 0) << ran.err;
    for (const auto& [name, bytes] : contents_below(scratch.path / seat))
      EXPECT_EQ(bytes, before.at(name)) << name;
  }
}

TEST_F(Class, FeedbackIsInTheSheetsLanguageAndTheReportInTheClasss) {
  make();
  const auto whole = quiz();
  // Everyone makes the first mistake of each question, else writes the last option.
  std::string form = "seat,1,2,3,4,5\n";
  int said = 0;
  for (const auto& sheet : whole["sheets"]) {
    form += sheet["seat"];
    for (const auto& question : sheet["questions"]) {
      const auto& mistakes = question["mistakes"];
      form +=
          ",\"" + (mistakes.empty() ? std::string("A") : std::string(mistakes[0]["text"])) + "\"";
      said += mistakes.empty() ? 0 : 1;
    }
    form += "\n";
  }
  ASSERT_GT(said, 0);
  put(scratch.path / "form.csv", form);
  const Ran ran = run_in(scratch.path, {"grade", "made/quiz.json", "form.csv", "--out", "graded"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  const auto graded = [&](const std::string& file) {
    return contents(scratch.path / "graded" / file);
  };
  EXPECT_TRUE(has(graded("feedback-A.html"), "Your answers"));
  EXPECT_TRUE(has(graded("feedback-B.html"), "Sus respuestas"));
  EXPECT_TRUE(has(graded("feedback-C.html"), "class=\"key feedback large\""));
  EXPECT_TRUE(has(graded("all-feedback.html"), "Sus respuestas"));
  EXPECT_TRUE(
      has(graded("class-report.html"), "<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\""));

  const auto results = nlohmann::json::parse(graded("results.json"));
  for (std::size_t i = 0; i < 5; ++i) {
    const auto& in_english = results["seats"][0]["questions"][i];
    const auto& of_spanish_seat = results["seats"][1]["questions"][i];
    EXPECT_EQ(of_spanish_seat["title"], in_english["title"]);
    EXPECT_EQ(of_spanish_seat["topic-title"], in_english["topic-title"]);
    if (!of_spanish_seat.contains("says")) continue;
    const auto& question = whole["sheets"][1]["questions"][i];
    const std::string mistake = of_spanish_seat["mistake"];
    EXPECT_EQ(of_spanish_seat["says"], question["class-words"]["says"][mistake]);
    EXPECT_NE(of_spanish_seat["says"], question["mistakes"][0]["says"]);
  }
}

TEST_F(Class, TheWholeClassCanHaveThem) {
  make({"--large-print", "--without-figures"});
  for (const char* seat : {"A", "B", "C", "D"}) {
    const std::string page = made(std::string("sheet-") + seat + ".html");
    EXPECT_TRUE(has(page, "<article class=\"sheet large\"")) << seat;
    EXPECT_FALSE(has(page, "<figure")) << seat;
  }
}

TEST_F(Class, ARowThatIsNotUnderstoodIsNamed) {
  put(scratch.path / "class.csv", "name,language,large prnt\nAna,French,yes\nBen,,\n");
  const Ran ran = run_in(scratch.path, {"quiz", "--bank", small_bank.string(), "--roster",
                                        "class.csv", "--out", "made"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err,
            "class.csv:1: note: the column large prnt is left alone; did you mean large print?\n"
            "class.csv:2: language is French, expected English or Spanish; left out\n");
  EXPECT_EQ(quiz()["sheets"].size(), 1u);
}

}  // namespace
}  // namespace footroom::cli
