#pragma once
#include <cstddef>
#include <string>

#include "cli/command.hpp"
#include "engine/text.hpp"

namespace footroom::cli {

/// Tells on a terminal how far a long command has come: one line is rewritten in place and leaves
/// nothing behind. Elsewhere nothing is written. Also the place where Ctrl-C takes effect while a
/// command has something unfinished on the disk.
class Progress {
 public:
  /// `what`: "items checked". `of`: how many there are; 0: it is not known.
  Progress(Terminal& terminal, engine::Language language, const engine::Text& what, std::size_t of);
  ~Progress() { clear(); }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  /// Throws tasks::Interrupted.
  void tell(std::size_t done);
  /// Makes room for lines of others.
  void clear();

 private:
  Terminal& terminal_;
  std::string what_;
  std::string of_word_;
  std::size_t of_;
  std::size_t told_percent_ = 101;
  bool shown_ = false;
};

}  // namespace footroom::cli
