// A file of the bank that is no item: blueprint, course plan, rule set, pool, topics. Its first
// line is its place in the bank, the rest its text. Read or refused with file and line; of what is
// read, quizzes are planned or refused.

#include <filesystem>

#include "fuzz/bank_files.hpp"
#include "fuzz/own_folder.hpp"
#include "fuzz/target.hpp"
#include "quiz/blueprint.hpp"
#include "quiz/course_plan.hpp"

namespace footroom::fuzz {
namespace {

namespace fs = std::filesystem;

constexpr const char* places[] = {"blueprints/file.xml", "courses/file.xml", "rules/file.xml",
                                  "pools/file.xml",      "topics.xml",       "trade-terms.xml"};

/// A folder for one bank, gone when the process ends.
const fs::path& folder() {
  static const OwnFolder made{"blueprints", "courses", "rules", "pools"};
  return made.path();
}

bank::ReadBank read_with(const std::string& place, std::string_view text) {
  const auto file = folder() / place;
  std::ofstream(file, std::ios::binary) << text;
  auto read = bank::read_bank(folder());
  fs::remove(file);
  return read;
}

void try_planning(const bank::Bank& read) {
  bank::Bank whole = the_bank();
  try {
    for (const auto& [id, blueprint] : read.blueprints) {
      quiz::questions_by_section(blueprint);
      if (blueprint.sections.size() <= 10)
        quiz::Maker(whole, quiz::restricted_to(blueprint, {"swing", "clearance"}), {});
    }
    for (const auto& [id, course] : read.courses) {
      whole.blueprints = the_bank().blueprints;
      for (const auto& week : quiz::plan_course(whole, course))
        require(
            !week.new_topics.empty() || !week.returning.empty() || !week.blueprint.sections.empty(),
            "each week has something to ask");
    }
  } catch (const quiz::CannotMake& refusal) {
    require(!refusal.where.file.empty() && refusal.where.line > 0,
            std::string("a refusal names file and line: ") + refusal.what());
  }
}

}  // namespace

void try_input(std::string_view input) {
  const std::string place(take_line(input));
  if (std::find(std::begin(places), std::end(places), place) == std::end(places)) return;
  const auto read = read_with(place, input);
  for (const auto& defect : read.defects)
    require((defect.at.file.ends_with(place) || defect.at.file.ends_with("topics.xml")) &&
                defect.at.line > 0 && !defect.message.empty(),
            "a defect names its file and line: " + defect.at.file);
  try_planning(read.bank);
}

}  // namespace footroom::fuzz
