#include "tasks/record_sessions.hpp"

#include <algorithm>

namespace footroom::tasks {
namespace {

using records::Number;

/// Entries about people who were erased stay as they are.
bool is_erased(records::Store& store, Number person) {
  return store.effective(person).erased;
}

void withdraw_certificates(records::Store& store, records::Writing& writing,
                           const records::Attendance& attendance, const std::string& remark) {
  for (const auto& one : store.report(attendance.person).certificates)
    if (one.value.session == attendance.session)
      writing.correct(one.number, records::Withdrawal{remark});
}

}  // namespace

Number add_session(records::Writing& writing, const records::Session& session,
                   const Attended& attended) {
  const Number number = writing.add(session);
  for (const auto& [person, completed] : attended)
    writing.add(records::Attendance{number, person, completed});
  return number;
}

std::vector<records::Numbered<records::Certificate>> certificates_naming(records::Store& store,
                                                                         Number session) {
  std::vector<records::Numbered<records::Certificate>> all;
  store.each_certificate([&](const auto& one) {
    if (one.value.session == session) all.push_back(one);
  });
  return all;
}

bool has_erased_people(records::Store& store, Number session) {
  const auto attendances = store.attendances(session);
  return std::any_of(attendances.begin(), attendances.end(), [&](const auto& attendance) {
    return is_erased(store, attendance.value.person);
  });
}

void correct_session(records::Store& store, records::Writing& writing, Number number,
                     const records::Session& session) {
  for (const auto& one : certificates_naming(store, number))
    if (one.value.days != session.days && !is_erased(store, one.value.person))
      writing.correct(one.number, records::Withdrawal{});
  writing.correct(number, session);
}

void withdraw_session(records::Store& store, records::Writing& writing, Number number,
                      const std::string& remark) {
  for (const auto& one : certificates_naming(store, number))
    writing.correct(one.number, records::Withdrawal{remark});
  for (const auto& one : store.attendances(number))
    writing.correct(one.number, records::Withdrawal{remark});
  writing.correct(number, records::Withdrawal{remark});
}

void correct_attendance(records::Store& store, records::Writing& writing,
                        const records::Numbered<records::Attendance>& attendance, bool completed) {
  if (!completed) withdraw_certificates(store, writing, attendance.value, {});
  auto corrected = attendance.value;
  corrected.completed = completed;
  writing.correct(attendance.number, corrected);
}

void withdraw_attendance(records::Store& store, records::Writing& writing,
                         const records::Numbered<records::Attendance>& attendance,
                         const std::string& remark) {
  withdraw_certificates(store, writing, attendance.value, remark);
  writing.correct(attendance.number, records::Withdrawal{remark});
}

}  // namespace footroom::tasks
