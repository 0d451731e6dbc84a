#include "cli/progress.hpp"

#include "tasks/unfinished.hpp"

namespace footroom::cli {

Progress::Progress(Terminal& terminal, engine::Language language, const engine::Text& what,
                   std::size_t of)
    : terminal_(terminal),
      what_(what.in(language)),
      of_word_(engine::Text{" of ", " de "}.in(language)),
      of_(of) {}

void Progress::tell(std::size_t done) {
  tasks::Unfinished::check();
  if (!terminal_.watched || of_ == 0) return;
  const std::size_t percent = done * 100 / of_;
  if (percent == told_percent_) return;  // a million rows are not a million lines
  told_percent_ = percent;
  clear();
  terminal_.err << what_ << ": " << done << of_word_ << of_ << std::flush;
  shown_ = true;
}

void Progress::clear() {
  constexpr const char* to_the_start_and_erase = "\r\033[K";  // ECMA-48, EL
  if (shown_) terminal_.err << to_the_start_and_erase << std::flush;
  shown_ = false;
}

}  // namespace footroom::cli
