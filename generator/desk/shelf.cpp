#include "desk/shelf.hpp"

#include <sys/stat.h>

#include <algorithm>

#include "tasks/graded_files.hpp"
#include "tasks/responses.hpp"

namespace footroom::desk {

namespace fs = std::filesystem;

Shelf::Stamp Shelf::stamp_of(const fs::path& file) {
  struct stat state {};
  if (::stat(file.c_str(), &state) != 0) return {};
  return {static_cast<std::uint64_t>(state.st_ino), state.st_size, state.st_mtim.tv_sec,
          state.st_mtim.tv_nsec};
}

std::shared_ptr<const grade::Quiz> Shelf::quiz(const fs::path& file) const {
  const Stamp stamp = stamp_of(file);
  {
    const std::lock_guard lock(mutex_);
    const auto found = std::find_if(kept_.begin(), kept_.end(), [&](const Kept& one) {
      return one.file == file && one.stamp == stamp;
    });
    if (found != kept_.end()) {
      kept_.splice(kept_.begin(), kept_, found);
      return found->quiz;
    }
  }
  // Read outside the lock: pages about other quizzes need not wait. What is read is at least as new
  // as the stamp, so a file that changed meanwhile is read once more.
  auto read = std::make_shared<const grade::Quiz>(tasks::read_quiz_file(file));
  const std::lock_guard lock(mutex_);
  kept_.remove_if([&](const Kept& one) { return one.file == file; });
  kept_.push_front({file, stamp, read});
  if (kept_.size() > most_kept) kept_.pop_back();
  return read;
}

Shelf::Facts Shelf::facts(const fs::path& quiz_file, const fs::path& responses_file) const {
  const Stamp quiz_stamp = stamp_of(quiz_file);
  const Stamp responses_stamp = stamp_of(responses_file);
  {
    const std::lock_guard lock(mutex_);
    const auto found = facts_.find(quiz_file);
    if (found != facts_.end() && found->second.quiz == quiz_stamp &&
        found->second.responses == responses_stamp)
      return found->second.facts;
  }
  const auto read = quiz(quiz_file);
  const Facts facts{read->header, read->sheets.size(), answered_seats(responses_file, *read)};
  const std::lock_guard lock(mutex_);
  facts_[quiz_file] = {quiz_stamp, responses_stamp, facts};
  return facts;
}

std::size_t answered_seats(const fs::path& responses_file, const grade::Quiz& quiz) {
  const auto read = tasks::read_responses(responses_file, quiz);
  return static_cast<std::size_t>(
      std::count_if(read.responses.begin(), read.responses.end(), [](const auto& response) {
        return std::any_of(response.answers.begin(), response.answers.end(),
                           [](const auto& answer) { return !answer.empty(); });
      }));
}

}  // namespace footroom::desk
