#pragma once
// The one folder in which the desk keeps everything. Copied as a whole, it is a backup.
//
//   preferences.json   language, units, decimal mark, paper, rule set, course plan
//   classes/0001/      class.json (title) and roster.csv
//   quizzes/0001/      made-for.json (class, day), quiz/ (as footroom quiz writes it) and graded/
//   crew.db            the training records
//   desk.port          the port of the last desk
//   desk.lock, desk.address, download-WORD.partial-000000   only while a desk is open
//
// Every name is made here from a number: no text of a request ever becomes a part of a path.

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "notation/quantity_text.hpp"
#include "quiz/maker.hpp"
#include "tasks/failure.hpp"

namespace footroom::desk {

struct Preferences {
  notation::Style style;
  notation::System system = notation::System::us;
  quiz::Paper paper = quiz::Paper::letter;
  std::string rules = "us-construction";
  std::string course = {};  ///< plan that the practice page follows; empty: the whole bank
};

struct SchoolClass {
  int number = 0;
  std::string title;
  std::vector<std::string> names = {};                    ///< by seat
  std::vector<quiz::Accommodations> accommodations = {};  ///< by seat; may be shorter than names
  std::vector<tasks::RowFault> faults = {};  ///< of lines of its list that cannot be read
};

/// For whom a quiz was made.
struct MadeFor {
  int class_number = 0;         ///< 0: no class
  std::string date = {};        ///< of the quiz
  engine::Wording failed = {};  ///< why it could not be written, where that is known
};

class Folder {
 public:
  /// Makes the folder where there is none, and takes it for this desk alone. Throws Failure
  /// (which tells the address of a desk that has it already).
  explicit Folder(const std::filesystem::path& path);
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path store() const { return path_ / "crew.db"; }
  /// A file made for the browser to save, under one of our own words. It is no part of what is
  /// kept: it goes when the folder is closed, or is next opened.
  std::filesystem::path download(const std::string& word) const {
    return path_ / ("download-" + word + ".partial-000000");
  }

  /// The port of the desk that had the folder last: what a browser keeps for the practice page, and
  /// a bookmark, hold as long as it stays. 0 where there was none.
  int port_before() const;
  void write_port(int port) const;

  /// Only the user may read it.
  void write_address(const std::string& address) const;
  /// The address of a desk that has the folder open now, or nothing.
  static std::optional<std::string> open_address(const std::filesystem::path& path);

  std::optional<Preferences> preferences() const;  ///< nothing before they were chosen
  void write(const Preferences& preferences) const;

  std::vector<SchoolClass> classes() const;  ///< in the order of their numbers
  std::optional<SchoolClass> school_class(int number) const;
  int add(const SchoolClass& fresh) const;  ///< its number
  void write(const SchoolClass& changed) const;

  std::vector<int> quizzes() const;  ///< the newest first
  bool has_quiz(int number) const;   ///< with its files complete
  /// Those that were begun and have no files: being written, failed, or cut short. The newest
  /// first.
  std::vector<int> unfinished_quizzes() const;
  bool is_unfinished(int number) const;
  int add_quiz(const MadeFor& made_for) const;
  /// Why the quiz could not be written.
  void tell_failed(int number, const engine::Wording& why) const;
  /// Takes an unfinished quiz off the list.
  void forget_unfinished(int number) const;
  MadeFor made_for(int number) const;
  std::filesystem::path quiz(int number) const;  ///< the folder with quiz.json
  std::filesystem::path graded(int number) const;

 private:
  void remove_leftovers() const;
  std::filesystem::path class_folder(int number) const;
  std::filesystem::path quiz_folder(int number) const;
  std::filesystem::path made_for_file(int number) const;
  void write(int quiz, const MadeFor& made_for) const;

  std::filesystem::path path_;
  int lock_ = -1;
};

}  // namespace footroom::desk
