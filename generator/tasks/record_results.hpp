#pragma once
// Results of a graded quiz as results of people in the records.

#include <optional>
#include <string>
#include <vector>

#include "grade/results.hpp"
#include "records/store.hpp"

namespace footroom::tasks {

/// `chosen`, or what the results say themselves. Throws Failure where practice was chosen as a
/// test; `file` is the name for messages, here and below.
records::Occasion occasion_of(const grade::Results& results,
                              std::optional<records::Occasion> chosen, const std::string& file);

/// The day of the quiz. Throws Failure where the results name none.
records::Date day_of(const grade::Results& results, const std::string& file);

/// Points by topic, exact, and the items that were not answered rightly.
records::Result result_of(const grade::SeatResult& seat, records::Number person,
                          const grade::Results& results, records::Date day,
                          records::Occasion occasion);

/// Adds the results, and the quiz where the store does not have it.
void add_results(records::Store& store, records::Writing& writing, const grade::Results& results,
                 records::Date day, const std::vector<records::Result>& rows);

struct PutResults {
  std::size_t added = 0;
  std::size_t corrected = 0;
};

/// As add_results(), but a result of the same person, quiz and occasion is corrected where it
/// differs: grading again and recording again leaves one result.
PutResults put_results(records::Store& store, records::Writing& writing,
                       const grade::Results& results, records::Date day,
                       const std::vector<records::Result>& rows);

/// The person's result of a quiz and occasion that is in effect.
std::optional<records::Numbered<records::Result>> result_in_effect(records::Store& store,
                                                                   records::Number person,
                                                                   const std::string& quiz,
                                                                   records::Occasion occasion);

}  // namespace footroom::tasks
