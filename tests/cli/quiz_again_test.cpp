// A sheet from its code and quiz.json, and a quiz from quiz.json.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <regex>

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

Words with_bank(Words words) {
  words.insert(words.begin(), {"quiz", "--bank", small_bank.string()});
  return words;
}

/// A quiz for three in `made`, with whatever the options change. Its code.
std::string make_quiz(const Scratch& scratch, Words options = {}) {
  put(scratch.path / "class.csv", "name\nAna\nBen\nÇelik\n");
  options.insert(options.end(), {"--roster", "class.csv", "--out", "made"});
  const Ran ran = run_in(scratch.path, with_bank(options));
  EXPECT_EQ(ran.code, 0) << ran.err;
  return nlohmann::json::parse(contents(scratch.path / "made" / "quiz.json"))["code"];
}

/// The files of seat B.
std::map<std::string, std::string> of_seat_b(std::map<std::string, std::string> files) {
  std::erase_if(files, [](const auto& file) {
    return !std::regex_match(file.first,
                             std::regex("(sheet|key)-B\\.(md|html)|figures/B-[0-9]+(-key)?\\.svg"));
  });
  return files;
}

void expect_refused(const Scratch& scratch, const Words& options, int code,
                    const std::string& message) {
  const auto before = contents_below(scratch.path);
  const Ran ran = run_in(scratch.path, with_bank(options));
  EXPECT_EQ(ran.code, code);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, message + "\n");
  EXPECT_EQ(contents_below(scratch.path), before);
}

TEST(QuizAgain, ASheetComesOutByteForByte) {
  const std::vector<Words> quizzes{
      {},
      {"--units", "si", "--language", "es", "--decimal-mark", "comma", "--paper", "a4"},
      {"--seed", "5", "--date", "2026-03-02"},
      {"--seed", "6", "--swap", "2", "--topics", "roof,rules"},
  };
  for (const Words& options : quizzes) {
    const Scratch scratch;
    const std::string code = make_quiz(scratch, options);
    const auto made = of_seat_b(contents_below(scratch.path / "made"));
    ASSERT_GE(made.size(), 4u);
    for (const char* from : {"made", "made/quiz.json"}) {
      const Ran ran = run_in(scratch.path,
                             with_bank({"--code", code + "-b", "--from", from, "--out", "again"}));
      ASSERT_EQ(ran.code, 0) << ran.err;
      EXPECT_EQ(contents_below(scratch.path / "again"), made);
    }
    const Ran ran = run_in(scratch.path, with_bank({"--from", "made", "--out", "whole"}));
    ASSERT_EQ(ran.code, 0) << ran.err;
    EXPECT_EQ(contents_below(scratch.path / "whole"), contents_below(scratch.path / "made"));
  }
}

TEST(QuizAgain, TellsWhereTheSheetIs) {
  const Scratch scratch;
  const std::string code = make_quiz(scratch);
  const Ran ran = run_in(scratch.path, with_bank({"--code", code + "-C", "--from", "made"}));
  EXPECT_EQ(ran.code, 0);
  const std::string folder = "output/" + code + "-C/";
  EXPECT_EQ(ran.out, "Sheet " + code + "-C\nTo print: " + folder +
                         "sheet-C.html\nAnswer key: " + folder + "key-C.html\n");
}

TEST(QuizAgain, ASheetReplacesOnlyItself) {
  const Scratch scratch;
  const std::string code = make_quiz(scratch);
  const auto before = contents_below(scratch.path / "made");
  put(scratch.path / "made" / "sheet-B.html", "coffee");
  ASSERT_EQ(
      run_in(scratch.path, with_bank({"--code", code + "-B", "--from", "made", "--out", "made"}))
          .code,
      0);
  EXPECT_EQ(contents_below(scratch.path / "made"), before);
}

TEST(QuizAgain, ASwapKeepsAllOtherQuestions) {
  const Scratch scratch;
  const std::string code = make_quiz(scratch);
  ASSERT_EQ(
      run_in(scratch.path, with_bank({"--from", "made", "--swap", "1", "--out", "swapped"})).code,
      0);
  const auto read = [&](const char* folder) {
    return nlohmann::json::parse(contents(scratch.path / folder / "quiz.json"));
  };
  const auto before = read("made");
  const auto after = read("swapped");
  EXPECT_NE(after["code"], before["code"]);
  EXPECT_EQ(after["swaps"], nlohmann::json::parse(R"([{"question": 1, "draw": 1}])"));
  for (std::size_t seat = 0; seat < 3; ++seat) {
    const auto& was = before["sheets"][seat]["questions"];
    const auto& is = after["sheets"][seat]["questions"];
    EXPECT_EQ(is[0]["item"], was[0]["item"]);
    EXPECT_NE(is[0], was[0]);
    for (std::size_t i = 1; i < was.size(); ++i) EXPECT_EQ(is[i], was[i]);
  }
  // And that again, with a second swap of the same question.
  ASSERT_EQ(run_in(scratch.path, with_bank({"--from", "swapped", "--out", "again"})).code, 0);
  EXPECT_EQ(contents_below(scratch.path / "again"), contents_below(scratch.path / "swapped"));
  ASSERT_EQ(
      run_in(scratch.path, with_bank({"--from", "again", "--swap", "1", "--out", "third"})).code,
      0);
  EXPECT_EQ(read("third")["swaps"], nlohmann::json::parse(R"([{"question": 1, "draw": 2}])"));
  EXPECT_NE(read("third")["code"], after["code"]);
}

TEST(QuizAgainFault, TheCodeAloneIsRefused) {
  const Scratch scratch;
  const std::string code = make_quiz(scratch);
  expect_refused(scratch, {"--code", code + "-B"}, 2,
                 "--code: a code only names a sheet; neither its questions nor its answers follow "
                 "from it. Name the instructor's quiz.json, or its folder, with --from");
}

TEST(QuizAgainFault, CodesOfOtherQuizzesAndSeats) {
  const Scratch scratch;
  const std::string code = make_quiz(scratch, {"--seed", "5", "--date", "2026-03-02"});
  expect_refused(scratch, {"--from", "made", "--code", "7K3QX-B"}, 2,
                 "--code: is 7K3QX-B, expected a sheet of the quiz " + code +
                     " in made/quiz.json, such as " + code + "-A");
  expect_refused(
      scratch, {"--from", "made", "--code", code}, 2,
      "--code: is " + code + " and names no seat, expected it as on the sheet, " + code + "-A");
  expect_refused(scratch, {"--from", "made", "--code", code + "-BB"}, 2,
                 "--code: the quiz " + code + " has no seat BB, expected A to C; did you mean B?");
}

TEST(QuizAgainFault, OptionsThatTheQuizHasItself) {
  const Scratch scratch;
  make_quiz(scratch);
  expect_refused(scratch, {"--from", "made", "--units", "si"}, 2,
                 "--units: cannot stand beside --from, whose quiz has its own");
  expect_refused(scratch, {"--from", "made", "--seed", "5"}, 2,
                 "--seed: cannot stand beside --from, whose quiz has its own");
  expect_refused(scratch, {"--from", "made", "--code", "X-A", "--swap", "1"}, 2,
                 "--swap: cannot stand beside --code: a swap changes every sheet");
}

TEST(QuizAgainFault, AnotherBank) {
  const Scratch scratch;
  const std::string code = make_quiz(scratch);
  testing::bank_with(scratch, "topics.xml", "</en>", " </en>");
  const Ran ran =
      run_in(scratch.path, {"quiz", "--bank", "bank", "--from", "made", "--code", code + "-A"});
  EXPECT_EQ(ran.code, 1);
  EXPECT_TRUE(std::regex_match(
      ran.err,
      std::regex(
          "made/quiz\\.json: was made from another question bank \\(digest [0-9a-f]{12}\\.\\."
          "\\.; this one has [0-9a-f]{12}\\.\\.\\.\\), from which other sheets would come; name "
          "the bank it was made from with --bank\n")))
      << ran.err;
}

TEST(QuizAgainFault, AFileThatWasChanged) {
  const Scratch scratch;
  const std::string code = make_quiz(scratch);
  const std::filesystem::path file = scratch.path / "made" / "quiz.json";
  const auto changed = [&](auto change) {
    auto json = nlohmann::json::parse(contents(file));
    change(json);
    put(scratch.path / "changed.json", json.dump());
  };
  const std::string other = "another sheet comes out than the file says; ";
  changed([](auto& json) { json["sheets"][1]["questions"][0]["stem"] = "x"; });
  expect_refused(
      scratch, {"--from", "changed.json", "--code", code + "-B"}, 1,
      "changed.json: seat B: " + other + "the file was changed, or the program since then");
  expect_refused(
      scratch, {"--from", "changed.json"}, 1,
      "changed.json: seat B: " + other + "the file was changed, or the program since then");
  changed([](auto& json) { json["secret"] = std::string(32, '0'); });
  expect_refused(
      scratch, {"--from", "changed.json", "--code", code + "-B"}, 1,
      "changed.json: seat B: " + other + "the file was changed, or the program since then");
  changed([](auto& json) {
    json["program"] = "footroom 9.9";
    json["sheets"][1]["questions"][0]["stem"] = "x";
  });
  expect_refused(scratch, {"--from", "changed.json", "--code", code + "-B"}, 1,
                 "changed.json: seat B: " + other +
                     "it was made by footroom 9.9, this is footroom 0.1.0; make it again with that "
                     "version");
  changed([](auto& json) { json["sheets"][1]["questions"][0]["item"] = "unheard-of"; });
  expect_refused(
      scratch, {"--from", "changed.json", "--code", code + "-B"}, 1,
      "changed.json: seat B, question 1: \"unheard-of\" is no item of the bank; name the "
      "bank it was made from with --bank");
}

}  // namespace
}  // namespace footroom::cli
