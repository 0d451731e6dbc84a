#include "cli/progress.hpp"

#include <unistd.h>

#include <utility>

namespace footroom::cli {

Progress::Progress(std::ostream& to, Way way, std::string what, std::size_t of)
    : to_(to), way_(way), what_(std::move(what)), of_(of) {}

void Progress::tell(std::size_t done) {
  const auto quarter = [&](std::size_t n) { return n * 4 / of_; };
  const bool due = way_ == Way::rewritten ||
                   (way_ == Way::quarters && done < of_ && quarter(done) > quarter(done - 1));
  if (!due) return;
  clear();
  to_ << what_ << ": " << done << " of " << of_;
  shown_ = way_ == Way::rewritten;
  if (!shown_) to_ << '\n';
  to_.flush();
}

void Progress::clear() {
  constexpr const char* to_the_start_and_erase = "\r\033[K";  // ECMA-48, EL
  if (shown_) to_ << to_the_start_and_erase;
  shown_ = false;
}

Progress::Way way_for_standard_error(bool quiet, bool long_work) {
  if (quiet) return Progress::Way::silent;
  if (::isatty(STDERR_FILENO) == 1) return Progress::Way::rewritten;
  return long_work ? Progress::Way::quarters : Progress::Way::silent;
}

}  // namespace footroom::cli
