#include "desk/shelf.hpp"

#include <gtest/gtest.h>

#include "desk/open_desk.hpp"
#include "tasks/failure.hpp"

namespace footroom::desk::testing {
namespace {

namespace fs = std::filesystem;

class ShelfOfQuizzes : public ::testing::Test {
 protected:
  ShelfOfQuizzes() { make("one", "7"); }
  void make(const std::string& name, const std::string& seed) const {
    const auto made = cli::testing::run_in(
        scratch.path, {"quiz", "--seed", seed, "--sheets", "2", "--out", name});
    ASSERT_EQ(made.code, 0) << made.err;
  }
  fs::path file(const std::string& name) const { return scratch.path / name / "quiz.json"; }
  fs::path answers(const std::string& name) const { return scratch.path / name / "responses.csv"; }

  Scratch scratch;
  Shelf shelf;
};

TEST_F(ShelfOfQuizzes, KeepsWhatItReadUntilTheFileChanges) {
  const auto first = shelf.quiz(file("one"));
  EXPECT_EQ(shelf.quiz(file("one")), first);
  make("other", "8");
  fs::rename(file("other"), file("one"));
  const auto second = shelf.quiz(file("one"));
  EXPECT_NE(second, first);
  EXPECT_NE(second->header.code, first->header.code);
  EXPECT_EQ(first->sheets.size(), 2U);  // whoever holds it, holds it
}

TEST_F(ShelfOfQuizzes, TellsWhenAnswersWereTyped) {
  EXPECT_EQ(shelf.facts(file("one"), answers("one")).seats, 2U);
  EXPECT_EQ(shelf.facts(file("one"), answers("one")).answered, 0U);
  std::ofstream(scratch.path / "typed.csv") << "seat,1\nA,12 ft\n";
  fs::rename(scratch.path / "typed.csv", answers("one"));
  EXPECT_EQ(shelf.facts(file("one"), answers("one")).answered, 1U);
}

TEST_F(ShelfOfQuizzes, KeepsNoFileThatIsGone) {
  shelf.quiz(file("one"));
  fs::remove(file("one"));
  EXPECT_THROW(shelf.quiz(file("one")), tasks::Failure);
}

}  // namespace
}  // namespace footroom::desk::testing
