#pragma once
// The due list in words, as a table and as a calendar.

#include <string>
#include <utility>
#include <vector>

#include "engine/text.hpp"
#include "records/store.hpp"
#include "render/calendar.hpp"

namespace footroom::tasks {

/// Somebody who is due, in words; days as YYYY-MM-DD, "-" where there is none.
struct DueLine {
  std::string due;
  std::string person;
  std::string identity;
  std::string course;
  std::string trained;
  std::string reason;
};

DueLine due_line(const records::Due& due, engine::Language language);

/// The days for calendar programs. What is due is gathered while the store is read, and written
/// afterwards, since nothing else may be asked of the store meanwhile.
class DueCalendar {
 public:
  explicit DueCalendar(engine::Language language) : language_(language) {}
  void add(const records::Due& due);
  /// Then there is nothing to write: a calendar needs an event.
  bool empty() const { return events_.empty(); }
  /// iCalendar. An event keeps its UID as long as its day stays.
  std::string text(records::Store& store, records::Date on, const std::string& program) const;

 private:
  engine::Language language_;
  std::vector<std::pair<records::Standing, render::CalendarEvent>> events_;
};

}  // namespace footroom::tasks
