#pragma once
// A quiz that several machines make, each some seats of it: writing a part, and joining the parts
// to the same bytes that one machine writes.
//
// A part of the seats K to P is a folder with these seats' pages and figures, as the whole quiz has
// them, and a folder part-K-P with
//   all-sheets.html, all-keys.html, quiz.json, responses.csv: these seats' share of the files of
//     all; the shares of all parts, one after the other, are the files;
//   digests.txt: SHA-256 of every other file of the part, as `sha256sum --check` reads it;
//   part.json: which quiz it is of, and which seats it has.

#include <filesystem>
#include <string>
#include <vector>

#include "engine/text.hpp"
#include "quiz/maker.hpp"
#include "quiz/seat_range.hpp"
#include "render/render.hpp"
#include "tasks/told.hpp"

namespace footroom::tasks {

/// Writes the part of these seats, as a whole or not at all; other files in the folder stay.
/// `names` are those of the whole class. Throws Failure.
void write_part(const quiz::Maker& maker, const std::vector<std::string>& names,
                const render::Templates& templates, const std::filesystem::path& folder,
                quiz::SeatRange seats, const Told& sheets_written = tell_nobody,
                std::size_t jobs = 1);

/// Parts that were found to make up one quiz: all seats are there once.
class Parts {
 public:
  /// Looks for parts in these folders. Throws Failure where there are none, where two are of
  /// different quizzes, and where seats are missing or there twice: all such faults at once.
  explicit Parts(const std::vector<std::filesystem::path>& folders);

  const std::string& code() const { return parts_.front().quiz; }
  engine::Language language() const { return parts_.front().language; }
  int sheets() const { return parts_.front().sheets; }
  std::size_t count() const { return parts_.size(); }

  /// Writes the whole quiz, as a whole or not at all, and checks on the way that every file is what
  /// its part wrote. Throws Failure.
  void join(const std::filesystem::path& folder, const Told& parts_joined = tell_nobody) const;

 private:
  struct Part {
    std::filesystem::path folder;
    std::string name;  ///< "part-K-P"
    std::string quiz;
    std::string made_from;
    engine::Language language;
    int sheets;
    quiz::SeatRange seats;
  };

  static Part read(const std::filesystem::path& folder, const std::string& name);

  std::vector<Part> parts_;  ///< in the order of their seats
};

}  // namespace footroom::tasks
