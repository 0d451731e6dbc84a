#pragma once
#include <cstddef>
#include <ostream>
#include <string>

namespace footroom::cli {

/// Tells how far a long command has come. On a terminal one line is rewritten in place and leaves
/// nothing behind; elsewhere a line is written at each quarter.
class Progress {
 public:
  enum class Way { rewritten, quarters, silent };

  /// `what`: "items checked".
  Progress(std::ostream& to, Way way, std::string what, std::size_t of);
  ~Progress() { clear(); }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void tell(std::size_t done);
  /// Makes room for lines of others.
  void clear();

 private:
  std::ostream& to_;
  Way way_;
  std::string what_;
  std::size_t of_;
  bool shown_ = false;
};

/// As it suits standard error: silent for short work that is not watched on a terminal.
Progress::Way way_for_standard_error(bool quiet, bool long_work);

}  // namespace footroom::cli
