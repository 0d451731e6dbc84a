#include "quiz/course_plan.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <numeric>
#include <set>

#include "quiz/apportion.hpp"
#include "quiz/blueprint.hpp"
#include "quiz/families.hpp"

namespace footroom::quiz {
namespace {

/// A topic that was taught: when it was last asked and how often.
struct Taught {
  std::string topic;
  int since = 0;  ///< the week it was new
  int asked_in = 0;
  int times = 0;
};

int interval_after(const std::vector<int>& spacing, int times) {
  const auto given = static_cast<int>(spacing.size());
  int interval = spacing[static_cast<std::size_t>(std::min(times, given) - 1)];
  for (int i = given; i < times && interval < 1'000'000; ++i) interval *= 2;
  return interval;
}

class Planner {
 public:
  Planner(const bank::Bank& bank, const bank::Course& course) : bank_(bank), course_(course) {}

  PlannedWeek plan(const bank::Week& week) {
    const bool last = &week == &course_.weeks.back();
    PlannedWeek planned;
    planned.number = week.number;
    for (const bank::NewTopic& topic : week.topics) {
      planned.new_topics.push_back(topic.topic);
      taught_.push_back({topic.topic, week.number, 0, 0});
    }
    if (!week.blueprint.empty()) {
      planned.blueprint = bank_.blueprints.at(week.blueprint);
    } else {
      planned.blueprint = frame_of(week);
      planned.blueprint.sections = week.sections.empty() ? sections_of(week, last) : week.sections;
      if (!week.sections.empty()) planned.blueprint.questions = week.questions;
      check_levels(planned.blueprint);
    }
    set_asked(planned, week);
    planned.blueprint.title = title_of(planned, week);
    planned.blueprint.course = course_.title;
    if (last) check_covers_all(planned, week);
    return planned;
  }

 private:
  bank::Blueprint frame_of(const bank::Week& week) const {
    bank::Blueprint blueprint;
    blueprint.id = fmt::format("{}-week-{}", course_.id, week.number);
    blueprint.minutes = week.minutes > 0 ? week.minutes : course_.minutes;
    blueprint.minutes_over = course_.minutes_over;
    blueprint.levels = course_.levels;
    blueprint.at = week.at;
    return blueprint;
  }

  bool is_new(const Taught& topic, const bank::Week& week) const {
    return topic.since == week.number;
  }

  bool is_due(const Taught& topic, const bank::Week& week) const {
    return topic.times == 0 ||
           week.number - topic.asked_in >= interval_after(course_.spacing, topic.times);
  }

  std::vector<bank::Section> sections_of(const bank::Week& week, bool last) const {
    std::vector<std::string> fresh;
    std::vector<std::string> due;
    for (const Taught& topic : taught_) {
      if (is_new(topic, week))
        fresh.push_back(topic.topic);
      else if (last || is_due(topic, week))
        due.push_back(topic.topic);
    }
    const std::size_t topics = fresh.size() + due.size();
    if (topics == 0)
      throw CannotMake(week.at, fmt::format("week {} has nothing to ask: no topic is new and none "
                                            "is due to return; name a blueprint or sections",
                                            week.number));
    const int questions = week.questions > 0 ? week.questions : course_.questions;
    if (topics > static_cast<std::size_t>(questions))
      throw CannotMake(week.at, fmt::format("week {} asks {} topics, but has {} questions, "
                                            "expected at least one question a topic",
                                            week.number, topics, questions));
    // Weights whose sums over the new topics and over the due ones stand as the percentages.
    std::vector<int> weights;
    if (last || due.empty() || fresh.empty()) {
      weights.assign(topics, 1);
    } else {
      weights.assign(fresh.size(), course_.new_percent * static_cast<int>(due.size()));
      weights.resize(topics, (100 - course_.new_percent) * static_cast<int>(fresh.size()));
    }
    // A topic that is due is asked even where new topics take 100 percent.
    for (int& weight : weights) weight = std::max(weight, 1);
    const std::vector<int> numbers = apportion(questions, weights, 1);
    std::vector<bank::Section> sections;
    for (std::size_t i = 0; i < topics; ++i)
      sections.push_back(
          {i < fresh.size() ? fresh[i] : due[i - fresh.size()], numbers[i], {}, week.at});
    return sections;
  }

  void check_levels(const bank::Blueprint& blueprint) const {
    const auto numbers = questions_by_section(blueprint);
    const int questions = std::accumulate(numbers.begin(), numbers.end(), 0);
    const int least =
        std::accumulate(blueprint.levels.begin(), blueprint.levels.end(), 0,
                        [](int sum, const bank::LevelRule& rule) { return sum + rule.at_least; });
    if (least > questions)
      throw CannotMake(blueprint.at,
                       fmt::format("the levels of the course ask for at least {} questions, but "
                                   "this week has {}",
                                   least, questions));
  }

  /// Notes what a week asks; refuses what was not taught yet.
  void set_asked(PlannedWeek& planned, const bank::Week& week) {
    const auto numbers = questions_by_section(planned.blueprint);
    std::set<std::string> asked;
    for (std::size_t i = 0; i < numbers.size(); ++i)
      if (numbers[i] > 0) asked.insert(planned.blueprint.sections[i].topic);
    for (const std::string& topic : asked)
      if (std::none_of(taught_.begin(), taught_.end(),
                       [&](const Taught& one) { return one.topic == topic; }))
        refuse_untaught(planned.blueprint, topic, week);
    for (Taught& topic : taught_) {
      if (!asked.contains(topic.topic)) continue;
      if (!is_new(topic, week)) planned.returning.push_back(topic.topic);
      topic.asked_in = week.number;
      ++topic.times;
    }
  }

  [[noreturn]] void refuse_untaught(const bank::Blueprint& blueprint, const std::string& topic,
                                    const bank::Week& week) const {
    const auto section = std::find_if(blueprint.sections.begin(), blueprint.sections.end(),
                                      [&](const auto& one) { return one.topic == topic; });
    const std::string asks =
        week.blueprint.empty()
            ? fmt::format("week {} asks", week.number)
            : fmt::format("the blueprint \"{}\" of week {} asks", week.blueprint, week.number);
    const auto later = [&]() -> std::string {
      for (const bank::Week& other : course_.weeks)
        for (const bank::NewTopic& one : other.topics)
          if (one.topic == topic) return fmt::format("which is new in week {}", other.number);
      return "which no week teaches";
    };
    throw CannotMake(week.blueprint.empty() ? section->at : week.at,
                     fmt::format("{} the topic \"{}\", {}", asks, topic, later()));
  }

  void check_covers_all(const PlannedWeek& planned, const bank::Week& week) const {
    for (const Taught& topic : taught_)
      if (topic.asked_in != week.number)
        throw CannotMake(week.at,
                         fmt::format("the last week asks nothing of \"{}\", which week {} teaches, "
                                     "expected all topics of the course in \"{}\"",
                                     topic.topic, topic.since, planned.blueprint.id));
  }

  bank::Text title_of(const PlannedWeek& planned, const bank::Week& week) const {
    bank::Text title = planned.blueprint.title;
    if (week.blueprint.empty()) {
      if (planned.new_topics.empty()) title = {"Review", "Repaso", {}};
      for (const std::string& id : planned.new_topics)
        for (const bank::Topic& topic : bank_.topics)
          if (topic.id == id) {
            title.english += (title.english.empty() ? "" : "; ") + topic.title.english;
            title.spanish += (title.spanish.empty() ? "" : "; ") + topic.title.spanish;
          }
    }
    return {fmt::format("Week {}: {}", week.number, title.english),
            fmt::format("Semana {}: {}", week.number, title.spanish), week.at};
  }

  const bank::Bank& bank_;
  const bank::Course& course_;
  std::vector<Taught> taught_;
};

}  // namespace

std::vector<PlannedWeek> plan_course(const bank::Bank& bank, const bank::Course& course) {
  Planner planner(bank, course);
  std::vector<PlannedWeek> weeks;
  for (const bank::Week& week : course.weeks) weeks.push_back(planner.plan(week));
  return weeks;
}

std::vector<std::string> try_course(const bank::Bank& bank, const std::vector<PlannedWeek>& weeks,
                                    Settings settings) {
  std::vector<std::string> remarks;
  for (const PlannedWeek& week : weeks) {
    const auto chosen = choose_families(bank, week.blueprint, settings,
                                        {settings.seed, static_cast<std::uint32_t>(week.number)});
    for (const auto& remark : remarks_on(chosen, bank, week.blueprint, settings))
      remarks.push_back(remark);
    EarlierQuiz quiz;
    for (const ChosenFamily& family : chosen) quiz.items.insert(family.item->id);
    settings.before.insert(settings.before.begin(), std::move(quiz));
  }
  return remarks;
}

}  // namespace footroom::quiz
