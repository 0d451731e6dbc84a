#include "records/standing.hpp"

#include <algorithm>

namespace footroom::records {
namespace {

struct CourseHistory {
  std::optional<Date> trained;
  std::optional<int> refresher_months;
  std::vector<Retraining> retrainings;
};

}  // namespace

std::vector<Standing> standings_of(Number person, const std::vector<Entry>& effective,
                                   const Surroundings& surroundings) {
  std::map<Number, CourseHistory> courses;
  bool left = false;
  const auto trained_on = [&courses](Number course, Date day) {
    auto& latest = courses[course].trained;
    latest = latest ? std::max(*latest, day) : day;
  };
  for (const auto& entry : effective) {
    if (const auto* p = std::get_if<Person>(&entry.content)) {
      left = p->left.has_value();
    } else if (const auto* attended = std::get_if<Attendance>(&entry.content)) {
      const auto session = surroundings.sessions.find(attended->session);
      if (attended->completed && session != surroundings.sessions.end())
        trained_on(session->second.course, session->second.days.back());
    } else if (const auto* certificate = std::get_if<Certificate>(&entry.content)) {
      if (certificate->prior_training) trained_on(certificate->course, certificate->days.back());
    } else if (const auto* retraining = std::get_if<Retraining>(&entry.content)) {
      courses[retraining->course].retrainings.push_back(*retraining);
    }
  }
  for (const auto& policy : surroundings.policies)
    courses[policy.course].refresher_months = policy.refresher_months;

  std::vector<Standing> standings;
  for (const auto& [number, course] : courses) {
    Standing standing{person, number, course.trained, {}, Reason::interval_passed};
    const auto due_by = [&standing](Date day, Reason reason) {
      if (standing.due && *standing.due <= day) return;
      standing.due = day;
      standing.reason = reason;
    };
    if (!left) {
      for (const auto& retraining : course.retrainings)
        if (!course.trained || *course.trained < retraining.since)
          due_by(retraining.since, retraining.reason);
      if (course.refresher_months && !course.trained && surroundings.employed_since)
        due_by(*surroundings.employed_since, Reason::never_trained);
      if (course.trained && course.refresher_months.value_or(0) > 0)
        due_by(months_later(*course.trained, *course.refresher_months), Reason::interval_passed);
    }
    standings.push_back(standing);
  }
  return standings;
}

}  // namespace footroom::records
