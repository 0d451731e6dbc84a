// A whole quiz through the program: which files there are, what they hold, and what is left when
// something goes wrong.

#include <gtest/gtest.h>
#include <sys/mount.h>

#include <nlohmann/json.hpp>
#include <regex>

#include "cli/program_run.hpp"
#include "cli/small_bank.hpp"

namespace footroom::cli {
namespace {

using testing::contents;
using testing::contents_below;
using testing::Program;
using testing::put;
using testing::Ran;
using testing::run_in;
using testing::Scratch;
using Words = std::vector<std::string>;

using testing::bank_with;
using testing::small_bank;

Words quiz(const Words& more) {
  Words words{"quiz", "--bank", small_bank.string(), "--seed", "5", "--date", "2026-03-02"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

/// Runs and checks that it is refused with this code and message, and that nothing was written.
void expect_refused(const Scratch& scratch, const Words& words, int code,
                    const std::string& message) {
  const auto before = contents_below(scratch.path);
  const Ran ran = run_in(scratch.path, words);
  EXPECT_EQ(ran.code, code);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err, message + "\n");
  EXPECT_EQ(contents_below(scratch.path), before);
}

TEST(Quiz, WritesEveryFileOfTheContract) {
  const Scratch scratch;
  const Ran ran = run_in(scratch.path, quiz({"--sheets", "2", "--out", "out"}));
  ASSERT_EQ(ran.code, 0) << ran.err;
  EXPECT_TRUE(std::regex_match(
      ran.out, std::regex("Quiz [0-9A-Z]{5}, sheets: 2\nTo print: out/all-sheets.html\nAnswer "
                          "keys: out/all-keys.html\n")))
      << ran.out;
  auto files = contents_below(scratch.path / "out");
  for (const char* name : {"sheet-A.md", "sheet-A.html", "key-A.md", "key-A.html", "sheet-B.md",
                           "sheet-B.html", "key-B.md", "key-B.html", "all-sheets.html",
                           "all-keys.html", "quiz.json", "responses.csv"}) {
    EXPECT_FALSE(files[name].empty()) << name;
    files.erase(name);
  }
  EXPECT_FALSE(files.empty());
  for (const auto& [name, bytes] : files)
    EXPECT_TRUE(std::regex_match(name, std::regex("figures/[AB]-[1-5](-key)?\\.svg"))) << name;
  // Whatever a page links to is there.
  for (const char* page : {"sheet-A.md", "key-A.md", "sheet-B.md", "key-B.md"}) {
    const std::string text = contents(scratch.path / "out" / page);
    const std::regex link("\\]\\(([^)]*\\.svg)\\)");
    for (std::sregex_iterator at(text.begin(), text.end(), link), end; at != end; ++at)
      EXPECT_EQ(files.count((*at)[1]), 1u) << page << ": " << (*at)[1];
  }
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(scratch.path),
                          std::filesystem::directory_iterator()),
            1);
}

TEST(Quiz, RecordsHowToMakeItAgain) {
  const Scratch scratch;
  ASSERT_EQ(run_in(scratch.path, quiz({"--units", "si", "--language", "es", "--out", "out"})).code,
            0);
  const auto json = nlohmann::json::parse(contents(scratch.path / "out" / "quiz.json"));
  EXPECT_EQ(json["format"], 1);
  EXPECT_EQ(json["seed"], 5);
  EXPECT_EQ(json["date"], "2026-03-02");
  EXPECT_EQ(json["blueprint"], "weekly");
  EXPECT_EQ(json["units"], "si");
  EXPECT_EQ(json["language"], "es");
  EXPECT_EQ(json["rules"], "us-construction");
  EXPECT_EQ(json["program"], "footroom 0.1.0");
  EXPECT_EQ(json["bank"].get<std::string>().size(), 64u);
  EXPECT_EQ(json["sheets"].size(), 1u);
}

TEST(Quiz, TheSameCommandGivesTheSameBytes) {
  const Scratch scratch;
  ASSERT_EQ(run_in(scratch.path, quiz({"--sheets", "3", "--out", "a"})).code, 0);
  ASSERT_EQ(run_in(scratch.path, quiz({"--sheets", "3", "--out", "b"})).code, 0);
  EXPECT_EQ(contents_below(scratch.path / "a"), contents_below(scratch.path / "b"));
}

TEST(Quiz, WithoutASeedEachRunIsAnother) {
  const Scratch scratch;
  const Words words{"quiz", "--bank", small_bank.string(), "--date", "2026-03-02", "--out"};
  std::vector<nlohmann::json> quizzes;
  for (const char* out : {"a", "b"}) {
    Words with = words;
    with.emplace_back(out);
    ASSERT_EQ(run_in(scratch.path, with).code, 0);
    quizzes.push_back(nlohmann::json::parse(contents(scratch.path / out / "quiz.json")));
  }
  EXPECT_NE(quizzes[0]["seed"], quizzes[1]["seed"]);
  EXPECT_NE(quizzes[0]["secret"], quizzes[1]["secret"]);
  // and seed and secret make it again
  const std::string seed = std::to_string(quizzes[0]["seed"].get<std::uint64_t>());
  ASSERT_EQ(run_in(scratch.path, {"quiz", "--bank", small_bank.string(), "--date", "2026-03-02",
                                  "--seed", seed, "--secret", quizzes[0]["secret"], "--out", "c"})
                .code,
            0);
  EXPECT_EQ(contents_below(scratch.path / "a"), contents_below(scratch.path / "c"));
}

TEST(Quiz, ARosterSetsTheSeatsUnlessMoreAreAskedFor) {
  const Scratch scratch;
  put(scratch.path / "class.csv", "name\nAna\nBen\nCleo\n");
  const auto names = [&](const char* out) {
    std::vector<std::string> all;
    const auto json = nlohmann::json::parse(contents(scratch.path / out / "quiz.json"));
    for (const auto& sheet : json["sheets"]) all.push_back(sheet["name"]);
    return all;
  };
  ASSERT_EQ(
      run_in(scratch.path, quiz({"--roster", "class.csv", "--sheets", "2", "--out", "a"})).code, 0);
  EXPECT_EQ(names("a"), (std::vector<std::string>{"Ana", "Ben", "Cleo"}));
  ASSERT_EQ(
      run_in(scratch.path, quiz({"--roster", "class.csv", "--sheets", "4", "--out", "b"})).code, 0);
  EXPECT_EQ(names("b"), (std::vector<std::string>{"Ana", "Ben", "Cleo", ""}));
}

TEST(Quiz, ARowThatCannotBeReadIsLeftOutAndTheRunEndsWithOne) {
  const Scratch scratch;
  put(scratch.path / "class.csv", "name\nAna\nB\xe9n\nCleo\n");
  const Ran ran = run_in(scratch.path, quiz({"--roster", "class.csv", "--out", "out"}));
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(ran.err, "class.csv:3: the name is not in UTF-8 (byte 2); left out\n");
  EXPECT_EQ(nlohmann::json::parse(contents(scratch.path / "out" / "quiz.json"))["sheets"].size(),
            2u);
}

TEST(Quiz, NamesWithMarkupStayText) {
  const Scratch scratch;
  put(scratch.path / "class.csv",
      "name\n\"<script>alert(1)</script> & \"\"Kit\"\" *b* [x](y) {{z}}\"\n\"=1+1,\"\"a\"\"\"\n");
  ASSERT_EQ(run_in(scratch.path, quiz({"--roster", "class.csv", "--out", "out"})).code, 0);
  const auto out = scratch.path / "out";
  for (const char* page : {"sheet-A.html", "key-A.html", "all-sheets.html", "all-keys.html"}) {
    const std::string text = contents(out / page);
    EXPECT_EQ(text.find("<script>alert"), std::string::npos) << page;
    EXPECT_NE(text.find("&lt;script&gt;alert(1)&lt;/script&gt; &amp; "), std::string::npos) << page;
  }
  const std::string markdown = contents(out / "sheet-A.md");
  EXPECT_NE(markdown.find("\\<script>alert(1)\\</script> & \"Kit\" \\*b\\* \\[x\\]"),
            std::string::npos);
  const auto json = nlohmann::json::parse(contents(out / "quiz.json"));
  EXPECT_EQ(json["sheets"][0]["name"], "<script>alert(1)</script> & \"Kit\" *b* [x](y) {{z}}");
  EXPECT_EQ(json["sheets"][1]["name"], "=1+1,\"a\"");
}

TEST(Quiz, ReplacesAnEarlierQuizAndKeepsOtherFiles) {
  const Scratch scratch;
  put(scratch.path / "out" / "class.csv", "name\nAna\n");
  ASSERT_EQ(run_in(scratch.path, quiz({"--sheets", "3", "--out", "out"})).code, 0);
  ASSERT_EQ(run_in(scratch.path, quiz({"--roster", "out/class.csv", "--out", "out"})).code, 0);
  const auto files = contents_below(scratch.path / "out");
  EXPECT_EQ(files.count("class.csv"), 1u);
  EXPECT_EQ(files.count("sheet-A.md"), 1u);
  EXPECT_EQ(files.count("sheet-B.md"), 0u);
  EXPECT_EQ(files.count("key-C.html"), 0u);
}

TEST(Quiz, WritesIntoTheFolderItRunsIn) {
  const Scratch scratch;
  ASSERT_EQ(run_in(scratch.path, quiz({"--out", "."})).code, 0);
  ASSERT_EQ(run_in(scratch.path, quiz({"--out", "."})).code, 0);
  EXPECT_EQ(contents_below(scratch.path).count("quiz.json"), 1u);
}

TEST(Quiz, DoesNotWriteOverAnswers) {
  const Scratch scratch;
  ASSERT_EQ(run_in(scratch.path, quiz({"--out", "out"})).code, 0);
  const auto responses = scratch.path / "out" / "responses.csv";
  std::string rows = contents(responses);
  rows.insert(rows.rfind(",,") + 1, "9.5 ft");
  put(responses, rows);
  expect_refused(scratch, quiz({"--out", "out"}), 3,
                 "out/responses.csv:2: holds answers, which a new quiz would replace; move the "
                 "file away or write elsewhere");
}

TEST(Quiz, SwapsAQuestionAndRecordsIt) {
  const Scratch scratch;
  ASSERT_EQ(run_in(scratch.path, quiz({"--out", "before"})).code, 0);
  const Ran ran = run_in(scratch.path, quiz({"--swap", "1", "--swap", "1", "--out", "after"}));
  ASSERT_EQ(ran.code, 0) << ran.err;
  const auto read = [&](const char* folder) {
    return nlohmann::json::parse(contents(scratch.path / folder / "quiz.json"));
  };
  const auto before = read("before");
  const auto after = read("after");
  EXPECT_FALSE(before.contains("swaps"));
  EXPECT_EQ(after["swaps"], nlohmann::json::parse(R"([{"question": 1, "draw": 2}])"));
  const auto& was = before["sheets"][0]["questions"];
  const auto& is = after["sheets"][0]["questions"];
  EXPECT_EQ(is[0]["item"], was[0]["item"]);
  EXPECT_NE(is[0], was[0]);
  ASSERT_EQ(is.size(), was.size());
  for (std::size_t i = 1; i < is.size(); ++i) EXPECT_EQ(is[i], was[i]);
}

TEST(QuizFault, ASwapThatCannotBeMade) {
  const Scratch scratch;
  expect_refused(scratch, quiz({"--swap", "9"}), 2,
                 "--swap: question 9: is not in the quiz, expected 1 to 5");
  expect_refused(scratch, quiz({"--swap", "x=item"}), 2,
                 "--swap: is x, expected a whole number from 1 to 1000");
  expect_refused(scratch, quiz({"--swap", "3="}), 2,
                 "--swap: 3= names no item, expected N=ITEM or N alone");
  expect_refused(scratch, {"quiz", "--swap", "3"}, 2,
                 "--swap: needs the quiz whose question it changes: --from beside it, or its "
                 "--seed, and --secret if it has one");
}

TEST(QuizFault, BrokenXmlIsNamedWithFileAndLine) {
  const Scratch scratch;
  bank_with(scratch, "items/roof/order.xml", "</title>", "</titel>");
  expect_refused(scratch, {"quiz", "--bank", "bank", "--out", "out"}, 1,
                 "bank/items/roof/order.xml:3: not well-formed XML: Start-end tags mismatch\n"
                 "bank: has the defects above; nothing was made from it");
}

TEST(QuizFault, AMissingTranslationIsNamedWithFileAndLine) {
  const Scratch scratch;
  bank_with(scratch, "items/roof/order.xml", "<es>De menor a mayor inclinación</es>", "");
  expect_refused(scratch, {"quiz", "--bank", "bank", "--out", "out"}, 1,
                 "bank/items/roof/order.xml:3: <title> lacks <es>, expected both <en> and <es>\n"
                 "bank: has the defects above; nothing was made from it");
}

TEST(QuizFault, ABlueprintThatAsksForTooMuchIsNamedWithFileAndLine) {
  const Scratch scratch;
  bank_with(scratch, "blueprints/weekly.xml", "topic=\"roof\" questions=\"2\"",
            "topic=\"roof\" questions=\"7\"");
  expect_refused(scratch, {"quiz", "--bank", "bank", "--out", "out"}, 1,
                 "bank/blueprints/weekly.xml:5: the section \"roof\" asks for 7 questions, but the "
                 "bank has 2 that fit");
}

TEST(QuizFault, AValueOutsideItsDomainIsNamedWithFileAndLine) {
  const Scratch scratch;
  bank_with(scratch, "items/slack-and-free-fall/number.xml",
            "<input name=\"slack\" value=\"slack\"/>",
            "<input name=\"slack\" value=\"slack - 100 ft\"/>");
  expect_refused(
      scratch, {"quiz", "--bank", "bank", "--seed", "5", "--out", "out"}, 1,
      "bank/items/slack-and-free-fall/number.xml:29: none of 1000 draws can be asked; 1000 were "
      "thrown away because the calculation \"fall\" refuses its input \"slack\"");
}

TEST(QuizFault, AClassListThatIsNotThere) {
  const Scratch scratch;
  expect_refused(scratch, quiz({"--roster", "class.csv", "--out", "out"}), 3,
                 "class.csv: cannot read: No such file or directory");
  std::filesystem::create_directory(scratch.path / "class.csv");
  expect_refused(scratch, quiz({"--roster", "class.csv", "--out", "out"}), 3,
                 "class.csv: cannot read: Is a directory");
}

TEST(QuizFault, PlacesThatCannotBeWritten) {
  const Scratch scratch;
  put(scratch.path / "file", "mine");
  expect_refused(scratch, quiz({"--out", "file"}), 3, "file: is a file, expected a folder");
  expect_refused(scratch, quiz({"--out", "file/out"}), 3,
                 "file/out: cannot make the folder: Not a directory");
  expect_refused(scratch, quiz({"--out", "/proc/out"}), 3,
                 "/proc/out: cannot make the folder: No such file or directory");
}

TEST(QuizFault, AFileThatGrowsPastTheLimit) {
  const Scratch scratch;
  ASSERT_EQ(run_in(scratch.path, quiz({"--out", "out"})).code, 0);
  const auto before = contents_below(scratch.path);
  Program program{scratch.path};
  program.largest_file = 5000;
  const Ran ran = program.run(quiz({"--sheets", "3", "--out", "out"}));
  EXPECT_EQ(ran.code, 3);
  EXPECT_TRUE(std::regex_match(ran.err, std::regex("out/[a-z-]+[A-C]?\\.[a-z]+: cannot write: File "
                                                   "too large\n")))
      << ran.err;
  EXPECT_EQ(contents_below(scratch.path), before);
}

/// A file system of 64 kB; absent where mounting is not allowed.
class SmallDisk {
 public:
  explicit SmallDisk(std::filesystem::path at) : path(std::move(at)) {
    std::filesystem::create_directory(path);
    mounted = ::mount("footroom", path.c_str(), "tmpfs", 0, "size=64k") == 0;
  }
  SmallDisk(const SmallDisk&) = delete;
  SmallDisk& operator=(const SmallDisk&) = delete;
  ~SmallDisk() {
    if (mounted) ::umount(path.c_str());
  }
  std::filesystem::path path;
  bool mounted;
};

TEST(QuizFault, AFullDisk) {
  const Scratch scratch;
  const SmallDisk disk(scratch.path / "disk");
  if (!disk.mounted) GTEST_SKIP() << "mounting a file system is not allowed here";
  const Ran ran = run_in(scratch.path, quiz({"--sheets", "9", "--out", "disk/out"}));
  EXPECT_EQ(ran.code, 3);
  EXPECT_TRUE(std::regex_match(ran.err, std::regex("disk/out/[a-zA-Z0-9./-]+: cannot [a-z ]+: No "
                                                   "space left on device\n")))
      << ran.err;
  EXPECT_TRUE(std::filesystem::is_empty(disk.path));
}

TEST(QuizFault, AReadOnlyDisk) {
  const Scratch scratch;
  const SmallDisk disk(scratch.path / "disk");
  if (!disk.mounted) GTEST_SKIP() << "mounting a file system is not allowed here";
  ASSERT_EQ(::mount(nullptr, disk.path.c_str(), nullptr, MS_REMOUNT | MS_RDONLY, nullptr), 0);
  expect_refused(scratch, quiz({"--out", "disk/out"}), 3,
                 "disk/out: cannot make the folder: Read-only file system");
}

TEST(QuizFault, AKillLeavesTheFolderAsItWasOrComplete) {
  const Scratch scratch;
  const Words first = quiz({"--sheets", "4", "--out", "out"});
  Words second = quiz({"--sheets", "6", "--out", "out"});
  second[4] = "6";  // another seed
  ASSERT_EQ(run_in(scratch.path, second).code, 0);
  const auto complete = contents_below(scratch.path / "out");
  ASSERT_EQ(run_in(scratch.path, first).code, 0);
  const auto before = contents_below(scratch.path / "out");

  // Moments spread over the time that a whole run takes here.
  const auto start = std::chrono::steady_clock::now();
  ASSERT_EQ(run_in(scratch.path, second).code, 0);
  const auto whole = std::chrono::duration_cast<std::chrono::microseconds>(
      std::chrono::steady_clock::now() - start);
  int killed = 0;
  for (int moment = 1; moment <= 12; ++moment) {
    ASSERT_EQ(run_in(scratch.path, first).code, 0);
    Program program{scratch.path};
    program.killed_after = static_cast<useconds_t>(whole.count() * moment / 11);
    killed += program.run(second).code == -SIGKILL;
    const auto after = contents_below(scratch.path / "out");
    EXPECT_TRUE(after == before || after == complete) << "killed at moment " << moment;
  }
  EXPECT_GT(killed, 0);
}

}  // namespace
}  // namespace footroom::cli
