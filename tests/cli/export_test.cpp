// Exports as a user runs them. What is inside a QTI package: tests/qti.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "cli/program_run.hpp"
#include "cli/small_bank.hpp"
#include "render/escape.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/zip_file.hpp"

namespace footroom::cli {

using namespace tasks;

namespace {

using testing::contents;
using testing::put;
using testing::Ran;
using testing::run_in;
using testing::Scratch;
using testing::small_bank;
using Words = std::vector<std::string>;

class Export : public ::testing::Test {
 protected:
  Export() {
    put(scratch.path / "class.csv",
        "name\n\"=cmd|' /C calc'!A0\"\n@sum\n'=quoted\n\"Lee, \"\"Mei\"\"\"\n");
    const Ran ran =
        run_in(scratch.path, {"quiz", "--bank", small_bank.string(), "--seed", "5", "--date",
                              "2026-03-02", "--roster", "class.csv", "--out", "made"});
    EXPECT_EQ(ran.code, 0) << ran.err;
    quiz = nlohmann::json::parse(contents(scratch.path / "made" / "quiz.json"));
    code = quiz["code"];
  }
  Ran run(Words words) const { return run_in(scratch.path, words); }
  Scratch scratch;
  nlohmann::json quiz;
  std::string code;
};

TEST_F(Export, CsvHasARowAQuestionAndDisarmsFormulas) {
  const Ran ran = run({"export", "csv", "made", "--out", "table.csv"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  EXPECT_EQ(ran.out, "Quiz " + code + ": table.csv\n");
  const std::string bytes = contents(scratch.path / "table.csv");
  const auto rows = read_csv(bytes);
  ASSERT_EQ(rows.size(), 1u + 4 * 5);
  const Words& titles = rows[0].fields;
  const auto column = [&](const char* title) {
    return static_cast<std::size_t>(std::find(titles.begin(), titles.end(), title) -
                                    titles.begin());
  };
  std::size_t row = 1;
  for (const auto& sheet : quiz["sheets"])
    for (const auto& question : sheet["questions"]) {
      ASSERT_TRUE(rows[row].wrong.empty()) << rows[row].wrong.english;
      const Words& fields = rows[row++].fields;
      ASSERT_EQ(fields.size(), titles.size());
      EXPECT_EQ(fields[column("seat")], sheet["seat"]);
      EXPECT_EQ(render::without_csv_guard(fields[column("name")]), sheet["name"]);
      EXPECT_EQ(fields[column("question")], question["stem"]);
      if (question["kind"] == "number") {
        EXPECT_EQ(std::stod(fields[column("value")]), question["answer"]["value"]);
      }
      for (std::size_t i = 0; i < fields.size(); ++i)
        EXPECT_TRUE(titles[i] == "value" ||
                    std::string("=+-@\t\r\n").find((fields[i] + "x")[0]) == std::string::npos)
            << titles[i] << ": " << fields[i];
    }
  // RFC 4180: rows end with CRLF, also the last one.
  EXPECT_EQ(bytes.substr(bytes.size() - 2), "\r\n");
  EXPECT_EQ(bytes.substr(0, 10), "quiz,date,");
}

TEST_F(Export, NamesThatLookLikeFormulasComeBackFromTheForm) {
  const std::string form = contents(scratch.path / "made" / "responses.csv");
  for (const auto& row : read_csv(form))
    for (const std::string& field : row.fields)
      EXPECT_EQ(std::string("=+-@").find((field + "x")[0]), std::string::npos) << field;
  std::string filled;
  for (std::size_t at = 0, end; at < form.size(); at = end + 2) {
    end = form.find("\r\n", at);
    std::string line = form.substr(at, end - at);
    if (at > 0) line.replace(line.size() - 5, 5, ",1,A,A,A,A");
    filled += line + "\r\n";
  }
  put(scratch.path / "filled.csv", filled);
  const Ran ran = run({"grade", "made/quiz.json", "filled.csv", "--out", "graded"});
  ASSERT_EQ(ran.code, 0) << ran.err;
  const auto results = nlohmann::json::parse(contents(scratch.path / "graded" / "results.json"));
  ASSERT_EQ(results["seats"].size(), 4u);
  for (std::size_t seat = 0; seat < 4; ++seat)
    EXPECT_EQ(results["seats"][seat]["name"], quiz["sheets"][seat]["name"]);
  for (const auto& row : read_csv(contents(scratch.path / "graded" / "results.csv")))
    for (const std::string& field : row.fields)
      EXPECT_EQ(std::string("=+-@").find((field + "x")[0]), std::string::npos) << field;
}

TEST_F(Export, QtiIsAnArchiveWithTheSeatsThatAreWanted) {
  ASSERT_EQ(run({"export", "qti", "made/quiz.json", "--bank", small_bank.string()}).out,
            "Quiz " + code + ": output/" + code + "-qti.zip\n");
  const std::string all = contents(scratch.path / "output" / (code + "-qti.zip"));
  EXPECT_EQ(all.substr(0, 4), "PK\3\4");
  ASSERT_EQ(
      run({"export", "qti", "made", "--bank", small_bank.string(), "--seat", "B", "--out", "b.zip"})
          .code,
      0);
  const std::string one = contents(scratch.path / "b.zip");
  EXPECT_NE(one.find("tests/sheet-B.xml"), std::string::npos);
  EXPECT_EQ(one.find("tests/sheet-A.xml"), std::string::npos);
  EXPECT_NE(all.find("tests/sheet-A.xml"), std::string::npos);
}

TEST_F(Export, RefusesWhatIsNotThere) {
  const Ran nothing = run({"export", "qti"});
  EXPECT_EQ(nothing.code, 2);
  EXPECT_EQ(nothing.err, "export qti: needs QUIZ.json; see footroom export qti --help\n");
  const Ran seat = run({"export", "csv", "made", "--seat", "AB"});
  EXPECT_EQ(seat.code, 2);
  EXPECT_EQ(seat.err,
            "--seat: the quiz " + code + " has no seat AB, expected A to D; did you mean A?\n");
  EXPECT_EQ(run({"export", "csv", "nowhere"}).code, 3);
  put(scratch.path / "no.json", "{");
  EXPECT_EQ(run({"export", "qti", "no.json"}).code, 1);
  const Ran other = run({"export", "qti", "made"});  // the real bank
  EXPECT_EQ(other.code, 1);
  EXPECT_EQ(other.err.find("made/quiz.json: was made from another question bank"), 0u) << other.err;
}

TEST(ZipFile, HasEqualBytesForEqualFiles) {
  const std::vector<render::PackageFile> files{{"a.txt", std::string(1000, 'a')},
                                               {"folder/b.txt", ""}};
  const std::string once = zip_of(files);
  EXPECT_EQ(zip_of(files), once);
  EXPECT_LT(once.size(), 500u);
  EXPECT_NE(zip_of({files[1], files[0]}), once);
}

}  // namespace
}  // namespace footroom::cli
