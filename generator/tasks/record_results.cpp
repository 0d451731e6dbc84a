#include "tasks/record_results.hpp"

#include <algorithm>

#include "tasks/failure.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

bool same(const records::TopicPoints& one, const records::TopicPoints& other) {
  return one.topic == other.topic && one.hundredths == other.hundredths &&
         one.possible_hundredths == other.possible_hundredths;
}

bool same(const records::Result& one, const records::Result& other) {
  return one.day == other.day && one.missed == other.missed &&
         std::equal(one.topics.begin(), one.topics.end(), other.topics.begin(), other.topics.end(),
                    [](const auto& a, const auto& b) { return same(a, b); });
}

void add_quiz(records::Store& store, records::Writing& writing, const grade::Results& results,
              records::Date day) {
  if (!store.find_quiz(results.quiz))
    writing.add(records::Quiz{results.quiz, day, results.blueprint});
}

}  // namespace

records::Occasion occasion_of(const grade::Results& results,
                              std::optional<records::Occasion> chosen, const std::string& file) {
  if (!chosen) return results.practice ? records::Occasion::practice : records::Occasion::test;
  if (results.practice && chosen == records::Occasion::test)
    throw Failure(ExitCode::input_faulty,
                  file + ": is practice, which never counts as a test; leave --occasion out");
  return *chosen;
}

records::Date day_of(const grade::Results& results, const std::string& file) {
  const auto day = records::read_date(results.date);
  if (!day)
    throw Failure(ExitCode::input_faulty, file + ": date: is " + for_terminal(results.date) +
                                              ", expected a day as YYYY-MM-DD");
  return *day;
}

records::Result result_of(const grade::SeatResult& seat, records::Number person,
                          const grade::Results& results, records::Date day,
                          records::Occasion occasion) {
  records::Result result{person, results.quiz, day, occasion, {}, {}};
  for (const auto& question : seat.questions) {
    auto topic = std::find_if(result.topics.begin(), result.topics.end(),
                              [&](const auto& known) { return known.topic == question.topic; });
    if (topic == result.topics.end()) topic = result.topics.insert(topic, {question.topic, 0, 0});
    topic->hundredths += question.points.hundredths;
    topic->possible_hundredths += question.possible.hundredths;
    if (question.points < question.possible) result.missed.push_back(question.item);
  }
  return result;
}

void add_results(records::Store& store, records::Writing& writing, const grade::Results& results,
                 records::Date day, const std::vector<records::Result>& rows) {
  add_quiz(store, writing, results, day);
  for (const auto& row : rows) writing.add(row);
}

std::optional<records::Numbered<records::Result>> result_in_effect(records::Store& store,
                                                                   records::Number person,
                                                                   const std::string& quiz,
                                                                   records::Occasion occasion) {
  for (auto& one : store.report(person).results)
    if (one.value.quiz == quiz && one.value.occasion == occasion) return one;
  return std::nullopt;
}

PutResults put_results(records::Store& store, records::Writing& writing,
                       const grade::Results& results, records::Date day,
                       const std::vector<records::Result>& rows) {
  PutResults put;
  add_quiz(store, writing, results, day);
  for (const auto& row : rows) {
    const auto before = result_in_effect(store, row.person, row.quiz, row.occasion);
    if (!before) {
      writing.add(row);
      ++put.added;
    } else if (!same(before->value, row)) {
      writing.correct(before->number, row);
      ++put.corrected;
    }
  }
  return put;
}

}  // namespace footroom::tasks
