// Power goes off, the process is killed, at every file operation of every kind of writing. Then the
// folder opens again; what was acknowledged is there; what was not is there as a whole or not at
// all; and work goes on. What writes more gets a line in deeds().

#include <gtest/gtest.h>
#include <sys/mman.h>

#include "desk/open_desk.hpp"

namespace footroom::desk::testing {
namespace {

namespace fs = std::filesystem;

using Fields = Visitor::Fields;

/// What the preloaded library reads and counts (see power_cut.cpp).
class Control {
 public:
  explicit Control(const fs::path& path) {
    const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (file < 0 || ::ftruncate(file, sizeof(Numbers)) != 0) throw std::runtime_error(path);
    void* mapped = ::mmap(nullptr, sizeof(Numbers), PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    if (mapped == MAP_FAILED) throw std::runtime_error(path);
    ::close(file);
    numbers_ = static_cast<Numbers*>(mapped);
    never();
  }
  Control(const Control&) = delete;
  Control& operator=(const Control&) = delete;
  ~Control() { ::munmap(numbers_, sizeof(Numbers)); }

  void never() { numbers_->left = -1; }
  void cut_after(std::int64_t operations) { numbers_->left = operations; }
  std::int64_t seen() const { return numbers_->seen; }

 private:
  struct Numbers {
    std::atomic<std::int64_t> left;
    std::atomic<std::int64_t> seen;
  };
  Numbers* numbers_;
};

/// The text of pages, without what differs from form to form.
std::string text_of(Visitor& visitor, const std::vector<std::string>& paths) {
  static const std::regex hidden("name=\"(token|once)\" value=\"[0-9a-f]*\"");
  std::string all;
  for (const auto& path : paths) {
    const auto page = visitor.get(path);
    if (!page) throw std::runtime_error("no answer for " + path);
    all += std::to_string(page->status) + " " + path + "\n";
    if (page->status >= 500) throw std::runtime_error(page->body);
    all += std::regex_replace(page->body, hidden, "");
  }
  return all;
}

/// Waits until no sheets are being written.
void wait_for_work(Visitor& visitor, const std::string& quiz) {
  for (;;) {
    const auto state = visitor.get(quiz + "/work");
    if (!state || state->body.find("\"running\":true") == std::string::npos) return;
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
}

/// A quiz with all its parts, which have one code; else what there is.
std::string whole_quiz(Visitor& visitor) {
  const auto page = visitor.get("/quizzes/1");
  if (page->status == 404) return "none";
  if (page->body.find("/quizzes/1/forget") != std::string::npos) return "unfinished";
  std::smatch code;
  if (!std::regex_search(page->body, code, std::regex("Quiz ([0-9A-Z]{5})\\.")))
    return "broken: " + page->body;
  for (const char* part : {"/sheets", "/keys", "/responses"}) {
    const auto there = visitor.get("/quizzes/1" + std::string(part));
    if (there->status != 200 || there->body.find(code[1].str() + "-B") == std::string::npos)
      return "broken: " + std::string(part);
  }
  return "whole";
}

/// A form, and what is seen of it.
struct Deed {
  std::string name;
  std::vector<std::string> before;  ///< deeds by name
  std::string page;
  std::string action;
  Fields fields;
  std::function<std::string(Visitor&)> look;
  /// What may be seen after a cut beside what was there before and what is there afterwards.
  std::string unfinished = {};
};

std::function<std::string(Visitor&)> pages(const std::vector<std::string>& paths) {
  return [paths](Visitor& visitor) { return text_of(visitor, paths); };
}

const std::vector<Deed>& deeds() {
  static const std::vector<Deed> all{
      {"Preferences",
       {},
       "/preferences",
       "/preferences",
       {{"language", "es"},
        {"units", "si"},
        {"decimal-mark", "comma"},
        {"paper", "a4"},
        {"rules", "us-construction"}},
       pages({"/preferences"})},
      {"Class",
       {},
       "/classes",
       "/classes",
       {{"title", "Monday"}, {"names", "Ana Ejemplo\nBen Sample\n"}},
       pages({"/classes", "/classes/1"})},
      {"ClassChange",
       {"Class"},
       "/classes/1",
       "/classes/1",
       {{"title", "Tuesday"}, {"names", "Ana Ejemplo\nBen Sample\nTheo Trainer\n"}},
       pages({"/classes", "/classes/1"})},
      {"PersonInClass",
       {"Class"},
       "/classes/1/people/2",
       "/classes/1/people/2",
       {{"name", "Ben Sample"},
        {"was", "Ben Sample"},
        {"language", "es"},
        {"sheet", "large-print"},
        {"extra-time", "25%"}},
       pages({"/classes/1", "/classes/1/people/2"})},
      {"Quiz",
       {"Class"},
       "/quizzes/new?class=1",
       "/quizzes/new",
       {{"class", "1"},
        {"made-of", "weekly"},
        {"date", "2026-11-23"},
        {"language", "en"},
        {"units", "us"},
        {"fresh", "yes"}},
       whole_quiz,
       "unfinished"},
      {"Swap",
       {"Class", "Quiz"},
       "/quizzes/1",
       "/quizzes/1/swap",
       {{"number", "1"}, {"item-1", ""}},
       [](Visitor& visitor) { return whole_quiz(visitor) + text_of(visitor, {"/quizzes/1"}); }},
      {"AnswersOfASeat",
       {"Class", "Quiz"},
       "/quizzes/1/answers/A",
       "/quizzes/1/answers/A",
       {{"answer-1", "12 ft"}, {"answer-2", "B"}},
       pages({"/quizzes/1/answers", "/quizzes/1/answers/A"})},
      {"AnswersOfAll",
       {"Class", "Quiz"},
       "/quizzes/1/answers",
       "/quizzes/1/answers",
       {{"pasted", "seat\t1\nA\t12 ft\nB\t9 ft\n"}},
       pages({"/quizzes/1/answers", "/quizzes/1/answers/A", "/quizzes/1/answers/B"})},
      {"Grading",
       {"Class", "Quiz", "AnswersOfAll"},
       "/quizzes/1/answers",
       "/quizzes/1/grade",
       {},
       pages({"/quizzes/1/results", "/quizzes/1/feedback", "/quizzes/1/feedback/B",
              "/quizzes/1/report"})},
      // Entry 1 is the course, 2 the employer, 3 the interval, 4 Ana, 5 Ben, 6 Theo, 7 the session.
      {"Course",
       {},
       "/courses",
       "/courses",
       {{"code", "fall-protection"}, {"english", "Fall protection"}, {"spanish", "Caídas"}},
       pages({"/courses"})},
      {"Employer",
       {"Course"},
       "/courses",
       "/employers",
       {{"name", "Invented Roofing"}, {"place", "Yard"}},
       pages({"/courses"})},
      {"Interval",
       {"Course", "Employer"},
       "/courses/1",
       "/courses/1/interval",
       {{"employer", "2"}, {"months", "12"}},
       pages({"/courses/1"})},
      {"Session",
       {"Course", "Employer", "Interval", "Class"},
       "/sessions/new?from=class-1",
       "/sessions/new",
       {{"from", "class-1"},
        {"course", "1"},
        {"day", "2026-11-02"},
        {"new-trainer", "Theo Trainer"},
        {"place", "Yard"},
        {"employer", "2"},
        {"name-1-is", "new"},
        {"name-1", "came"},
        {"name-1", "completed"},
        {"name-2-is", "new"},
        {"name-2", "came"}},
       pages({"/sessions", "/sessions/7"})},
      {"Correction",
       {"Course", "Employer", "Interval", "Class", "Session"},
       "/sessions/7",
       "/sessions/7/correct",
       {{"day", "2026-11-09"}, {"trainer", "6"}, {"place", "Hall"}},
       pages({"/sessions", "/sessions/7"})},
      {"Striking",
       {"Course", "Employer", "Interval", "Class", "Session"},
       "/sessions/7",
       "/sessions/7/strike",
       {{"remark", "was held elsewhere"}},
       pages({"/sessions", "/sessions/7"})},
      {"Certificates",
       {"Course", "Employer", "Interval", "Class", "Session"},
       "/sessions/7",
       "/sessions/7/certificates",
       {},
       pages({"/sessions/7", "/certificates"})},
      {"Person",
       {},
       "/people/new",
       "/people/new",
       {{"name", "Ana Ejemplo"}, {"identity", "A-1"}},
       pages({"/people"})},
      // Entry 1 is Ana, 2 Ben.
      {"People",
       {},
       "/people/import",
       "/people/import",
       {{"pasted", "name,identity\nAna Ejemplo,A-1\nBen Sample,B-1\n"}, {"file", ""}},
       pages({"/people"})},
      {"PersonCorrected",
       {"People"},
       "/people/1/correct",
       "/people/1/correct",
       {{"name", "Ana M. Ejemplo"}, {"identity", "A-1"}},
       pages({"/people", "/people/1"})},
      {"CorrectionUndone",
       {"People", "PersonCorrected"},
       "/people/1/entries/3",
       "/people/1/entries/3",
       {},
       pages({"/people", "/people/1"})},
      {"Erasure",
       {"People"},
       "/people/1/erase",
       "/people/1/erase",
       {{"sure", "yes"}},
       pages({"/people", "/people/1"})},
      {"Retraining",
       {"People", "Course"},
       "/people/1/retrain",
       "/people/1/retrain",
       {{"course", "3"}, {"since", "2026-11-20"}, {"reason", "equipment-changed"}},
       pages({"/people/1"})},
      {"ResultsIntoRecords",
       {"Class", "Quiz", "AnswersOfAll", "Grading", "People"},
       "/quizzes/1/record",
       "/quizzes/1/record",
       {{"occasion", "test"}, {"employer", ""}, {"seat-A", "1"}, {"seat-B", "2"}},
       pages({"/people/1", "/people/2"})},
  };
  return all;
}

const Deed& deed_called(const std::string& name) {
  for (const auto& deed : deeds())
    if (deed.name == name) return deed;
  throw std::logic_error("no deed " + name);
}

class PowerCut : public ::testing::TestWithParam<Deed> {
 protected:
  Scratch scratch;
  fs::path prepared = scratch.path / "prepared";
  fs::path folder = scratch.path / "desk";
  Control control{scratch.path / "control"};

  /// True where it was acknowledged.
  static bool send(Visitor& visitor, const Deed& deed, const std::string& page) {
    const auto sent =
        visitor.post(deed.action, Visitor::with_hidden(page, deed.action, deed.fields));
    if (sent && sent->status != 303) throw std::runtime_error(sent->body);
    wait_for_work(visitor, "/quizzes/1");
    return bool(sent);
  }
  static void perform(Visitor& visitor, const Deed& deed) {
    if (!send(visitor, deed, visitor.get(deed.page)->body))
      throw std::runtime_error("no answer to " + deed.name);
  }

  void prepare() const {
    const OpenDesk desk(prepared);
    Visitor visitor(desk);
    for (const auto& name : GetParam().before) perform(visitor, deed_called(name));
  }
  std::vector<std::string> environment() {
    fs::remove_all(folder);
    fs::copy(prepared, folder, fs::copy_options::recursive);
    fs::create_directories(scratch.path / "saved");
    control.never();
    return {"LD_PRELOAD=" POWER_CUT_LIBRARY,
            "POWER_CUT_CONTROL=" + (scratch.path / "control").string(),
            "POWER_CUT_UNDER=" + folder.string(),
            "POWER_CUT_SAVED=" + (scratch.path / "saved").string()};
  }

  /// All moments; of a long write its begin, its end, and some between.
  static std::set<std::int64_t> moments(std::int64_t operations) {
    constexpr std::int64_t at_begin = 8;
    constexpr std::int64_t at_end = 16;
    constexpr std::int64_t between = 8;
    std::set<std::int64_t> all;
    for (std::int64_t i = 0; i <= operations; ++i)
      if (i < at_begin || i + at_end > operations || i % (operations / between + 1) == 0)
        all.insert(i);
    return all;
  }

  bool has_leftovers() const {
    for (const auto& entry : fs::recursive_directory_iterator(folder))
      if (entry.path().filename().string().find(".partial-") != std::string::npos) return true;
    return false;
  }
};

TEST_P(PowerCut, LosesNothing) {
  const Deed& deed = GetParam();
  prepare();
  std::string before;
  std::string after;
  std::int64_t operations = 0;
  {
    RunningDesk desk(prepared.parent_path() / "desk", environment());
    Visitor visitor(desk);
    before = deed.look(visitor);
    const std::int64_t start = control.seen();
    perform(visitor, deed);
    operations = control.seen() - start;
    after = deed.look(visitor);
  }
  ASSERT_NE(before, after);
  ASSERT_GT(operations, 4);

  for (const std::int64_t moment : moments(operations)) {
    SCOPED_TRACE(deed.name + ", cut after operations: " + std::to_string(moment) + " of " +
                 std::to_string(operations));
    bool acknowledged = false;
    {
      RunningDesk desk(folder, environment());
      Visitor visitor(desk);
      const std::string page = visitor.get(deed.page)->body;
      control.cut_after(moment);
      acknowledged = send(visitor, deed, page);
      control.cut_after(0);  // if it still lives, at the first operation of its ending
      const int status = desk.end(SIGTERM);
      ASSERT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL) << status;
    }
    RunningDesk desk(folder);
    EXPECT_FALSE(has_leftovers());
    Visitor visitor(desk);
    const std::string now = deed.look(visitor);
    const bool is_new = now == after || (!deed.unfinished.empty() && now == deed.unfinished);
    EXPECT_TRUE(is_new || (now == before && !acknowledged)) << now;
    if (now != after) perform(visitor, deed);
    if (now == before) {
      EXPECT_EQ(deed.look(visitor), after);
    }
    perform(visitor, deed_called("Preferences"));
    const int status = desk.end(SIGTERM);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0);
  }
}

std::string name_of(const ::testing::TestParamInfo<Deed>& deed) {
  return deed.param.name;
}

INSTANTIATE_TEST_SUITE_P(Deeds, PowerCut, ::testing::ValuesIn(deeds()), name_of);

}  // namespace
}  // namespace footroom::desk::testing
