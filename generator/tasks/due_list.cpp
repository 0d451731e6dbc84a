#include "tasks/due_list.hpp"

#include <fmt/format.h>

#include "bank/digest.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

using engine::Text;

/// Numbers differ from store to store only by chance, so the person's digest stands in for them.
std::string uid_of(records::Store& store, const records::Standing& standing) {
  return bank::sha256(fmt::format("training due {} {} {}", store.digest(standing.person),
                                  standing.course, day_or_dash(standing.due)));
}

}  // namespace

DueLine due_line(const records::Due& due, engine::Language language) {
  return {day_or_dash(due.standing.due),
          name_of(due.person, due.erased, language),
          due.person.identity,
          title_of(due.course, language),
          day_or_dash(due.standing.trained),
          std::string(text_of(due.standing.reason, language))};
}

void DueCalendar::add(const records::Due& due) {
  const DueLine line = due_line(due, language_);
  std::string description = line.reason;
  if (due.standing.trained)
    description += '\n' +
                   std::string(Text{"Last trained: ", "Última capacitación: "}.in(language_)) +
                   line.trained;
  if (!line.identity.empty())
    description +=
        '\n' + std::string(Text{"Identity: ", "Identidad: "}.in(language_)) + line.identity;
  events_.emplace_back(
      due.standing,
      render::CalendarEvent{
          {},
          line.due,
          fmt::format(
              fmt::runtime(
                  Text{"Training due: {}, {}", "Capacitación pendiente: {}, {}"}.in(language_)),
              line.person, line.course),
          description});
}

std::string DueCalendar::text(records::Store& store, records::Date on,
                              const std::string& program) const {
  std::vector<render::CalendarEvent> all;
  for (const auto& [standing, event] : events_) {
    all.push_back(event);
    all.back().uid = uid_of(store, standing);
  }
  return render::calendar(all, program, records::date_text(on));
}

}  // namespace footroom::tasks
