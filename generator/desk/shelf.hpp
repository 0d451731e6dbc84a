#pragma once
#include <cstdint>
#include <filesystem>
#include <list>
#include <map>
#include <memory>
#include <mutex>

#include "grade/quiz_file.hpp"

namespace footroom::desk {

/// The quizzes that were read last, so that a page need not read a large file again. A file that
/// was written since is read anew.
class Shelf {
 public:
  /// The quiz of a quiz.json. Throws Failure.
  std::shared_ptr<const grade::Quiz> quiz(const std::filesystem::path& file) const;

  /// What lists tell of a quiz.
  struct Facts {
    quiz::Header header;
    std::size_t seats = 0;
    std::size_t answered = 0;  ///< seats with an answer
  };
  Facts facts(const std::filesystem::path& quiz_file,
              const std::filesystem::path& responses_file) const;

 private:
  /// Tells two states of a file apart: it is never written in place.
  struct Stamp {
    std::uint64_t inode = 0;
    std::int64_t size = 0;
    std::int64_t seconds = 0;
    std::int64_t nanoseconds = 0;
    bool operator==(const Stamp&) const = default;
  };
  static Stamp stamp_of(const std::filesystem::path& file);

  struct Kept {
    std::filesystem::path file;
    Stamp stamp;
    std::shared_ptr<const grade::Quiz> quiz;
  };
  struct KeptFacts {
    Stamp quiz;
    Stamp responses;
    Facts facts;
  };
  static constexpr std::size_t most_kept = 8;

  mutable std::mutex mutex_;
  mutable std::list<Kept> kept_;  ///< the last used first
  mutable std::map<std::filesystem::path, KeptFacts> facts_;
};

/// How many seats have an answer.
std::size_t answered_seats(const std::filesystem::path& responses_file, const grade::Quiz& quiz);

}  // namespace footroom::desk
