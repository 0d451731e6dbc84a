#include "tasks/correction.hpp"

#include <fmt/format.h>

#include "records/words.hpp"
#include "tasks/choices.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

/// Takes the corrections that an entry of some kind has; what remains in the end fits none.
class Taking {
 public:
  Taking(records::Store& store, Corrections corrections)
      : store_(store), rest_(std::move(corrections)) {}

  void into(records::Content& content) {
    if (auto* employer = std::get_if<records::Employer>(&content)) {
      text("name", employer->name);
      text("place", employer->place);
    } else if (auto* course = std::get_if<records::Course>(&content)) {
      text("english", course->english);
      text("spanish", course->spanish);
    } else if (auto* person = std::get_if<records::Person>(&content)) {
      this->person(*person);
    } else if (auto* session = std::get_if<records::Session>(&content)) {
      this->session(*session);
    } else if (auto* attendance = std::get_if<records::Attendance>(&content)) {
      if (const auto completed = take("completed"))
        attendance->completed =
            choose<bool>("--completed", *completed, {{"yes", true}, {"no", false}});
    }
  }

  void refuse_rest(std::string_view kind) const {
    if (!rest_.empty())
      throw Failure(
          ExitCode::wrong_command_line,
          fmt::format("--{}: does not go with an entry of kind {}", rest_.begin()->first, kind));
  }

 private:
  void person(records::Person& person) {
    text("name", person.name);
    text("identity", person.identity);
    if (const auto name = take("employer")) {
      person.employer.reset();
      if (!name->empty()) person.employer = find_employer(store_, *name);
    }
    if (const auto left = take("left")) {
      person.left.reset();
      if (!left->empty()) person.left = need_date("--left", *left);
    }
  }

  void session(records::Session& session) {
    if (const auto days = take("days")) {
      session.days.clear();
      for (const auto& day : parts_of(*days)) session.days.push_back(need_date("--days", day));
    }
    text("place", session.place);
    if (const auto trainer = take("trainer")) {
      session.trainer.reset();
      if (!trainer->empty()) session.trainer = find_person(store_, *trainer);
    }
  }

  std::optional<std::string> take(const std::string& name) {
    const auto found = rest_.extract(name);
    if (found.empty()) return std::nullopt;
    return found.mapped();
  }
  void text(const std::string& name, std::string& value) {
    if (const auto given = take(name)) value = *given;
  }

  records::Store& store_;
  Corrections rest_;
};

}  // namespace

records::Content corrected(records::Store& store, records::Number entry, Corrections corrections) {
  auto content = store.effective(store.entry(entry).subject()).content;
  const bool nothing = corrections.empty();
  Taking taking(store, std::move(corrections));
  taking.into(content);
  taking.refuse_rest(records::kind_of(content));
  if (nothing)
    throw Failure(ExitCode::wrong_command_line,
                  fmt::format("entry {}: nothing is given that corrects it; withdraw it with "
                              "--withdraw if it was made by mistake",
                              entry));
  return content;
}

records::Content undoing(const records::PersonReport& report, records::Number entry,
                         const std::string& remark) {
  const records::Entry* undone = nullptr;
  for (const auto& one : report.history)
    if (one.number == entry) undone = &one;
  if (!undone)
    throw records::Refused(
        records::worded({"entry {}: there is no such entry", "anotación {}: no existe"}, entry));
  const records::Entry* before = nullptr;
  for (const auto& one : report.history) {
    if (one.subject() != undone->subject()) continue;
    if (one.number < entry) before = &one;
    if (one.number > entry)
      throw records::Refused(records::worded(
          {"entry {}: entry {} stands in its place", "anotación {}: la reemplaza la anotación {}"},
          entry, one.number));
  }
  return before ? before->content : records::Content(records::Withdrawal{remark});
}

}  // namespace footroom::tasks
