#include "tasks/earlier_quiz.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "cli/program_run.hpp"
#include "tasks/failure.hpp"

namespace footroom::tasks {
namespace {

using Items = std::set<std::string, std::less<>>;

quiz::EarlierQuiz read(const std::string& bytes) {
  std::istringstream in(bytes);
  return read_earlier_quiz(in, "quiz.json");
}

std::string refusal_of(const std::string& bytes) {
  try {
    read(bytes);
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.code, ExitCode::input_faulty);
    return failure.what();
  }
  return "none";
}

std::string quiz_text(const std::string& code, const std::string& date, const std::string& item) {
  return "{\"format\": 1, \"code\": \"" + code + "\", \"date\": \"" + date +
         "\", \"sheets\": [{\"questions\": [{\"item\": \"" + item + "\"}]}]}";
}

TEST(EarlierQuiz, TakesTheItemsOfAllSheetsAndLooksAtNothingElse) {
  const auto quiz = read(R"({"more": {"sheets": [{"questions": [{"item": "no"}]}]}, "format": 1,
"code": "7K3QX", "date": "2026-01-05", "item": "no", "sheets": [
{"questions": [{"item": "a", "answer": {"item": "no"}}, {"x": [1.5, null], "item": "b"}]},
{"item": "no", "questions": [{"deep": [[[[[{"item": "no"}]]]]], "item": "c"}, {"item": "a"}]}]})");
  EXPECT_EQ(quiz.code, "7K3QX");
  EXPECT_EQ(quiz.date, "2026-01-05");
  EXPECT_EQ(quiz.items, (Items{"a", "b", "c"}));
}

TEST(EarlierQuiz, RefusesWhatIsNoQuiz) {
  EXPECT_EQ(refusal_of(""),
            "quiz.json: not well-formed JSON at byte 1, expected a whole quiz.json");
  EXPECT_EQ(refusal_of("[]"), "quiz.json: is a list, expected the quiz.json of a quiz");
  EXPECT_EQ(refusal_of("7"), "quiz.json: is one value, expected the quiz.json of a quiz");
  EXPECT_EQ(refusal_of("{}"), "quiz.json: has no \"format\", expected the quiz.json of a quiz");
  EXPECT_EQ(refusal_of(R"({"format": 2})"),
            "quiz.json: \"format\" is not 1, expected the quiz.json of this or an earlier version");
  EXPECT_EQ(refusal_of(R"({"format": "1"})"), "quiz.json: \"format\" is no number, expected 1");
  EXPECT_EQ(read(R"({"format": 1.0, "sheets": [{"questions": [{"item": "a"}]}]})").items,
            Items{"a"})
      << "as the reader of quizzes takes it";
  EXPECT_EQ(refusal_of(R"({"format": 1, "sheets": []})"),
            "quiz.json: names no item, expected sheets with questions");
  EXPECT_EQ(refusal_of(R"({"format": 1, "sheets": [{"questions": [{"item": ["a"]}]}]})"),
            "quiz.json: an \"item\" is no text, expected the id of an item");
  EXPECT_EQ(refusal_of(R"({"format": 1, "code": {}, "sheets": []})"),
            "quiz.json: \"code\" or \"date\" is no text, expected a text");
  EXPECT_EQ(refusal_of("{\"format\": 1, \"code\": \"\xff\"}"),
            "quiz.json: not well-formed JSON at byte 24, expected a whole quiz.json");
}

TEST(EarlierQuiz, RefusesATextThatIsCutOffAnywhere) {
  const std::string whole = quiz_text("A", "2026-01-05", "a");
  EXPECT_EQ(refusal_of(whole), "none");
  for (std::size_t size = 0; size < whole.size(); ++size)
    EXPECT_NE(refusal_of(whole.substr(0, size)), "none") << size;
}

TEST(EarlierQuiz, IsNotHarmedByDepth) {
  const std::string deep(300'000, '[');
  EXPECT_NE(refusal_of("{\"format\": 1, \"x\": " + deep), "none");
  EXPECT_EQ(read("{\"x\": " + deep + std::string(deep.size(), ']') + ", " +
                 quiz_text("A", "", "a").substr(1))
                .items,
            Items{"a"});
}

TEST(EarlierQuiz, SortsByDateElseByTheOrderGivenLastFirst) {
  const cli::testing::Scratch scratch;
  const auto file = [&](const char* name) { return (scratch.path / name).string(); };
  cli::testing::put(file("1"), quiz_text("A", "2026-01-05", "a"));
  cli::testing::put(file("2"), quiz_text("B", "2026-01-12", "b"));
  cli::testing::put(file("3"), quiz_text("C", "2026-01-12", "c"));
  cli::testing::put(file("4"), quiz_text("D", "", "d"));
  const auto codes = [&](const std::vector<std::string>& files) {
    std::string all;
    for (const auto& quiz : read_earlier_quizzes(files)) all += quiz.code;
    return all;
  };
  EXPECT_EQ(codes({file("1"), file("2"), file("3")}), "CBA");
  EXPECT_EQ(codes({file("3"), file("2"), file("1")}), "BCA");
  EXPECT_EQ(codes({file("2"), file("1"), file("2")}), "BA");
  EXPECT_EQ(codes({file("3"), file("1"), file("4")}), "DAC");
  EXPECT_EQ(codes({}), "");
}

}  // namespace
}  // namespace footroom::tasks
