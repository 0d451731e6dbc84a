#include "tasks/certificate_page.hpp"

#include <algorithm>

#include "grade/class_report.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

using records::Date;
using records::Number;

/// The last days of the trainings in a course that a person completed.
std::vector<Date> trained_days(const records::PersonReport& report, Number course) {
  std::vector<Date> days;
  for (const auto& attendance : report.attendances)
    for (const auto& session : report.sessions)
      if (attendance.value.completed && session.number == attendance.value.session &&
          session.value.course == course)
        days.push_back(session.value.days.back());
  for (const auto& certificate : report.certificates)
    if (certificate.value.prior_training && certificate.value.course == course)
      days.push_back(certificate.value.days.back());
  return days;
}

/// What was asked for before this training and not done by an earlier one.
std::vector<records::Retraining> retrainings_done(const records::PersonReport& report,
                                                  const records::Certificate& certificate) {
  const Date last = certificate.days.back();
  std::optional<Date> earlier;
  for (const Date day : trained_days(report, certificate.course))
    if (day < last && (!earlier || *earlier < day)) earlier = day;
  std::vector<records::Retraining> done;
  for (const auto& one : report.retrainings)
    if (one.value.course == certificate.course && one.value.since <= last &&
        (!earlier || *earlier < one.value.since))
      done.push_back(one.value);
  return done;
}

/// Empty where it was erased.
std::string name_in_effect(records::Store& store, Number person) {
  const auto entry = store.effective(person);
  const auto* found = std::get_if<records::Person>(&entry.content);
  return found ? found->name : std::string();
}

class Page {
 public:
  Page(const records::PersonReport& report, const records::Certificate& certificate,
       engine::Language language)
      : report_(report), certificate_(certificate), language_(language) {}

  render::Certificate whole(records::Store& store, const std::vector<std::string>& quizzes,
                            const bank::Bank& bank) {
    set_person();
    for (const auto& course : report_.courses)
      if (course.number == certificate_.course) page_.course = title_of(course.value, language_);
    for (const Date day : certificate_.days) page_.days.push_back(records::date_text(day));
    page_.prior_training = certificate_.prior_training;
    set_session(store);
    if (!certificate_.prior_training) set_tests(quizzes, bank);
    for (const auto& one : retrainings_done(report_, certificate_))
      page_.retrainings.push_back(
          {std::string(text_of(one.reason, language_)), records::date_text(one.since)});
    set_next();
    return page_;
  }

 private:
  void set_person() {
    page_.name = report_.person.value.name;
    page_.identity = report_.person.value.identity;
    if (!report_.employer) return;
    page_.employer = report_.employer->value.name;
    page_.employer_place = report_.employer->value.place;
  }

  void set_session(records::Store& store) {
    page_.employer_signs = certificate_.signer == records::Signer::employer;
    if (!page_.employer_signs && certificate_.signed_by)
      page_.signer = name_in_effect(store, *certificate_.signed_by);
    for (const auto& session : report_.sessions) {
      if (session.number != certificate_.session) continue;
      page_.place = session.value.place;
      if (session.value.trainer) page_.trainer = name_in_effect(store, *session.value.trainer);
    }
  }

  bool is_test_of_it(const records::Result& result, const std::vector<std::string>& quizzes) const {
    if (result.occasion != records::Occasion::test) return false;
    if (quizzes.empty())
      return certificate_.days.front() <= result.day && result.day <= certificate_.days.back();
    return std::find(quizzes.begin(), quizzes.end(), result.quiz) != quizzes.end();
  }

  std::string points(std::int64_t hundredths) const {
    return grade::Points{hundredths}.text(style());
  }
  notation::Style style() const { return {language_, '.'}; }

  void set_tests(const std::vector<std::string>& quizzes, const bank::Bank& bank) {
    std::vector<records::TopicPoints> topics;
    for (const auto& result : report_.results) {
      const auto& value = result.value;
      if (!is_test_of_it(value, quizzes)) continue;
      const grade::Points earned{value.hundredths()};
      const grade::Points possible{value.possible_hundredths()};
      page_.tests.push_back({value.quiz, records::date_text(value.day), earned.text(style()),
                             possible.text(style()),
                             grade::percent_text(earned, possible, style())});
      for (const auto& topic : value.topics) {
        auto sum = std::find_if(topics.begin(), topics.end(),
                                [&](const auto& one) { return one.topic == topic.topic; });
        if (sum == topics.end()) sum = topics.insert(sum, {topic.topic, 0, 0});
        sum->hundredths += topic.hundredths;
        sum->possible_hundredths += topic.possible_hundredths;
      }
    }
    for (const auto& topic : topics)
      page_.topics.push_back({title_of_topic(bank, topic.topic, language_),
                              points(topic.hundredths), points(topic.possible_hundredths)});
  }

  void set_next() {
    const auto standing =
        std::find_if(report_.standings.begin(), report_.standings.end(),
                     [&](const auto& one) { return one.course == certificate_.course; });
    if (standing == report_.standings.end() || standing->trained != certificate_.days.back() ||
        report_.person.value.left || !report_.employer)
      return;
    if (!standing->due) {
      page_.next = render::NextTraining::no_interval;
      return;
    }
    page_.next = standing->reason == records::Reason::interval_passed
                     ? render::NextTraining::refresher
                     : render::NextTraining::retraining;
    page_.next_day = records::date_text(*standing->due);
    page_.next_reason = text_of(standing->reason, language_);
  }

  const records::PersonReport& report_;
  const records::Certificate& certificate_;
  engine::Language language_;
  render::Certificate page_ = {};
};

}  // namespace

render::Certificate certificate_page(records::Store& store, records::Number certificate,
                                     const std::vector<std::string>& quizzes,
                                     const bank::Bank& bank, engine::Language language) {
  const auto entry = store.effective(certificate);
  const auto& content = std::get<records::Certificate>(entry.content);
  auto page = Page(store.report(content.person), content, language).whole(store, quizzes, bank);
  page.number = std::to_string(certificate);
  page.recorded = records::date_text(entry.recorded);
  return page;
}

}  // namespace footroom::tasks
