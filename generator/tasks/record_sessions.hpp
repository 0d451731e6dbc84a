#pragma once
// Sessions of training with who attended them, and what follows where one was recorded wrongly.

#include <map>
#include <string>
#include <vector>

#include "records/store.hpp"

namespace footroom::tasks {

/// People, and whether they completed the session.
using Attended = std::map<records::Number, bool>;

/// Adds a session and its attendances; returns its number.
records::Number add_session(records::Writing& writing, const records::Session& session,
                            const Attended& attended);

/// The certificates in effect that name a session.
std::vector<records::Numbered<records::Certificate>> certificates_naming(records::Store& store,
                                                                         records::Number session);

/// Whether somebody's data was erased who attended a session: it cannot be withdrawn then.
bool has_erased_people(records::Store& store, records::Number session);

/// Puts `session` in the place of what was recorded. Certificates that tell other days are
/// withdrawn, but not those of people who were erased.
void correct_session(records::Store& store, records::Writing& writing, records::Number number,
                     const records::Session& session);
/// Withdraws a session with its attendances and certificates.
void withdraw_session(records::Store& store, records::Writing& writing, records::Number number,
                      const std::string& remark);

/// Tells whether the person completed the session; where not, their certificates of it are
/// withdrawn.
void correct_attendance(records::Store& store, records::Writing& writing,
                        const records::Numbered<records::Attendance>& attendance, bool completed);
/// Withdraws an attendance, and the person's certificates of that session.
void withdraw_attendance(records::Store& store, records::Writing& writing,
                         const records::Numbered<records::Attendance>& attendance,
                         const std::string& remark);

}  // namespace footroom::tasks
