#include <gtest/gtest.h>

#include "program_run.hpp"

namespace footroom::cli::testing {
namespace {

const std::vector<std::string> arrest = {"plot",
                                         "arrest-in-time",
                                         "mass=220 lb",
                                         "free-fall=6 ft",
                                         "stiffness=2700 lbf/ft",
                                         "absorber-force=900 lbf",
                                         "maximum-elongation=3.5 ft"};
const std::vector<std::string> clearance = {"plot",
                                            "clearance-against-slack",
                                            "slope-length=16 ft",
                                            "pitch=6:12",
                                            "d-ring-height=5 ft",
                                            "slack=8 ft",
                                            "datum=below-d-ring",
                                            "body-below=5 ft"};

std::vector<std::string> with(std::vector<std::string> words,
                              const std::vector<std::string>& more) {
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(PlotCommand, WritesTheArrestWithItsLimit) {
  const Scratch scratch;
  const auto ran = run_in(scratch.path, with(arrest, {"--out", "arrest.svg"}));
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  const auto files = contents_below(scratch.path);
  ASSERT_EQ(files.size(), 1u);
  const std::string& svg = files.at("arrest.svg");
  EXPECT_NE(svg.find("force (lbf)"), std::string::npos);
  EXPECT_NE(svg.find("1926.502(d)(16)(ii)"), std::string::npos);
}

TEST(PlotCommand, WritesTheClearanceInSpanishAndMetresAndReplacesOnlyItsFile) {
  const Scratch scratch;
  put(scratch.path / "mine.txt", "kept");
  put(scratch.path / "slack.svg", "old");
  const auto ran = run_in(
      scratch.path, with(clearance, {"--units", "si", "--language", "es", "--out", "slack.svg"}));
  EXPECT_EQ(ran.code, 0) << ran.err;
  const auto files = contents_below(scratch.path);
  ASSERT_EQ(files.size(), 2u);
  EXPECT_EQ(files.at("mine.txt"), "kept");
  EXPECT_NE(files.at("slack.svg").find("holgura (m)"), std::string::npos);
}

TEST(PlotCommand, SaysWhatIsWrong) {
  const Scratch scratch;
  const auto expect = [&](const std::vector<std::string>& words, int code,
                          const std::string& message) {
    const auto ran = run_in(scratch.path, words);
    EXPECT_EQ(ran.code, code);
    EXPECT_EQ(ran.err, message + "\n");
    EXPECT_TRUE(contents_below(scratch.path).empty());
  };
  expect({"plot"}, 2, "PLOT: is missing, expected arrest-in-time or clearance-against-slack");
  expect({"plot", "arrest-in-tim", "--out", "a.svg"}, 2,
         "arrest-in-tim: is no plot; did you mean arrest-in-time?");
  expect(arrest, 2, "--out: names no file, expected FILE.svg");
  expect(with(clearance, {"free-fall=2 ft", "--out", "a.svg"}), 2,
         "free-fall: follows from the slack, and is not given");
  expect(with(clearance, {"safety-margn=2 ft", "--out", "a.svg"}), 2,
         "safety-margn: is no input of clearance; did you mean safety-margin?");
}

}  // namespace
}  // namespace footroom::cli::testing
