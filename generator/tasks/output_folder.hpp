#pragma once
// Writes a folder as a whole, or not at all.
//
// Everything is first written into DIR.partial-XXXXXX beside DIR and flushed to the disk. Then:
//   - DIR does not exist or is empty: the new folder is renamed to DIR;
//   - DIR holds only what an earlier run wrote there: the two folders change places in one system
//     call and the old one is removed. A run that is killed leaves DIR as it was or complete;
//   - DIR holds other files too, or is the folder the user stands in, or the file system cannot
//     swap: the files are moved into DIR one by one, and what an earlier run left is removed. A
//     failure on the way puts everything back. Only here can a kill leave a mixture; every page
//     carries the code of its quiz.
// A run that fails or is interrupted removes DIR.partial-XXXXXX (see unfinished.hpp); one that is
// killed leaves it behind, and it can be deleted.

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "tasks/unfinished.hpp"

namespace footroom::tasks {

/// A file being written. Throws Failure "FILE: cannot write: No space left on device".
class OutputFile {
 public:
  /// `shown` is the name for messages.
  OutputFile(const std::filesystem::path& file, std::string shown);
  /// Takes over an open descriptor.
  OutputFile(int descriptor, std::string shown);
  OutputFile(const OutputFile&) = delete;
  OutputFile& operator=(const OutputFile&) = delete;
  ~OutputFile();
  void write(std::string_view bytes);
  void close();

 private:
  std::string shown_;
  int descriptor_;
};

class OutputFolder {
 public:
  /// True for a path inside the folder, "figures/A-1.svg", that an earlier run may have written:
  /// such files are replaced or removed, others stay.
  using IsOurs = std::function<bool(const std::string& path)>;

  /// Throws Failure where the folder cannot be written.
  OutputFolder(std::filesystem::path folder, IsOurs is_ours);
  OutputFolder(const OutputFolder&) = delete;
  OutputFolder& operator=(const OutputFolder&) = delete;
  ~OutputFolder();

  /// Throws Interrupted, too.
  OutputFile file(const std::string& name) const;
  void open(const std::string& name, std::optional<OutputFile>& file) const;
  /// Where a file is until everything is published.
  std::filesystem::path place_of(const std::string& name) const { return partial_ / name; }
  void folder(const std::string& name) const;
  void write(const std::string& name, std::string_view bytes) const;

  /// Moves everything to its place. Without it, nothing has happened.
  void publish();

 private:
  bool may_replace_whole() const;
  bool exchange();
  void move_one_by_one();
  void remove_partial();

  Unfinished unfinished_;
  std::filesystem::path shown_;   ///< as the user named it, for messages
  std::filesystem::path target_;  ///< the same without links
  IsOurs is_ours_;
  std::vector<std::filesystem::path> made_parents_;
  std::filesystem::path partial_;
};

/// One file, whole or not at all, in the same way. Throws Failure.
void write_whole_file(const std::filesystem::path& file, std::string_view bytes);

}  // namespace footroom::tasks
