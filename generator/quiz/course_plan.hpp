#pragma once
// From a course plan to the quiz of each week.

#include <string>
#include <vector>

#include "bank/item.hpp"
#include "quiz/maker.hpp"

namespace footroom::quiz {

struct PlannedWeek {
  int number = 1;
  std::vector<std::string> new_topics;
  std::vector<std::string> returning;  ///< asked again, in the order in which they were taught
  bank::Blueprint blueprint;
};

/// Plans every week of a course.
///
/// A week without blueprint or sections asks its new topics and those that are due. A topic is due
/// when so many weeks have passed since it was last asked as the course's spacing says: after it
/// was asked once the first number, after twice the second, and so on; after the last number the
/// interval doubles each time. A topic asked by a week's own blueprint or sections counts as asked.
/// `new_percent` of the questions go to new topics (all of them where none is due) and the rest to
/// the due ones, in equal parts by largest remainder, each topic at least one. The last week, where
/// it has no blueprint or sections, asks all topics alike.
///
/// That the intervals grow is common practice; that repeating over time beats repeating at once
/// is well studied (Cepeda, Pashler, Vul, Wixted and Rohrer, "Distributed practice in verbal recall
/// tasks", Psychological Bulletin 132 (2006) 354-380; cited from memory).
///
/// Throws CannotMake, with the line in the course plan: a topic asked before its week; a week with
/// nothing to ask; fewer questions than topics; a last week that leaves a topic out; more
/// questions of levels than the week has.
std::vector<PlannedWeek> plan_course(const bank::Bank& bank, const bank::Course& course);

/// Draws the families of each week once, with the rule set and units of `settings`, the quizzes of
/// the weeks before standing back. Throws CannotMake where the bank cannot fill a week; gives what
/// an instructor should know (see remarks_on()), nothing where all is well.
std::vector<std::string> try_course(const bank::Bank& bank, const std::vector<PlannedWeek>& weeks,
                                    Settings settings);

}  // namespace footroom::quiz
