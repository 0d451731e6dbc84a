#include "bank/blueprint.hpp"

#include <algorithm>
#include <charconv>
#include <functional>
#include <numeric>
#include <set>

namespace footroom::bank {
namespace {

constexpr int most_questions = 100;
constexpr int most_minutes = 600;
constexpr int most_points = 1000;
constexpr int most_share = 1000;
constexpr int most_weeks = 104;

std::string counted(int number, const std::string& one, const std::string& several) {
  return std::to_string(number) + " " + (number == 1 ? one : several);
}

/// "1 2": whole numbers with one space between. Empty where it is anything else.
std::vector<int> numbers_in(const std::string& text, int lowest, int highest) {
  std::vector<int> numbers;
  const char* at = text.data();
  const char* const end = at + text.size();
  while (true) {
    int number = 0;
    const auto read = std::from_chars(at, end, number);
    if (read.ec != std::errc() || number < lowest || number > highest) return {};
    numbers.push_back(number);
    if (read.ptr == end) return numbers;
    if (*read.ptr != ' ') return {};
    at = read.ptr + 1;
  }
}

Section read_section(ElementReader& reader, pugi::xml_node node, bool by_share) {
  reader.check(node, {{"topic", by_share ? "share" : "questions"}, {"levels", "points"}, {}});
  Section section;
  section.at = reader.at(node);
  section.topic = reader.name(node, "topic");
  if (by_share)
    section.share = reader.whole(node, "share", 0, most_share, 0);
  else
    section.questions = reader.whole(node, "questions", 1, most_questions, 0);
  section.points = reader.whole(node, "points", 1, most_questions, 0);
  if (node.attribute("levels")) {
    const std::string levels = reader.attribute(node, "levels");
    section.levels = numbers_in(levels, 1, 4);
    if (section.levels.empty())
      reader.refuse(node, "levels=\"" + levels +
                              "\", expected levels from 1 to 4 with a space between: \"1 2\"");
  }
  return section;
}

LevelRule read_level(ElementReader& reader, pugi::xml_node node) {
  reader.check(node, {{"number"}, {"share", "at-least", "at-most"}, {}});
  LevelRule rule;
  rule.at = reader.at(node);
  rule.level = reader.whole(node, "number", 1, 4, 1);
  if (node.attribute("share")) rule.share = reader.whole(node, "share", 0, most_share, 0);
  rule.at_least = reader.whole(node, "at-least", 0, most_questions, 0);
  if (node.attribute("at-most"))
    rule.at_most = reader.whole(node, "at-most", 0, most_questions, most_questions);
  const bool bounds = node.attribute("at-least") || node.attribute("at-most");
  if (rule.share.has_value() == bounds)
    reader.refuse(node, "<level> has either a \"share\", or \"at-least\", \"at-most\" or both");
  else if (rule.at_most && rule.at_least > *rule.at_most)
    reader.refuse(node, "at-least=\"" + std::to_string(rule.at_least) + "\" is above at-most=\"" +
                            std::to_string(*rule.at_most) + "\"");
  return rule;
}

/// The <level> elements of a blueprint or course, for quizzes of `questions`.
std::vector<LevelRule> read_levels(ElementReader& reader, pugi::xml_node root, int questions) {
  std::vector<LevelRule> rules;
  std::set<int> seen;
  int shares = 0;
  int least = 0;
  for (const pugi::xml_node child : root.children("level")) {
    rules.push_back(read_level(reader, child));
    const LevelRule& rule = rules.back();
    if (!seen.insert(rule.level).second)
      reader.refuse(
          child, "level " + std::to_string(rule.level) + " stands twice, expected each level once");
    if (rule.share.has_value() != rules.front().share.has_value())
      reader.refuse(child,
                    "one <level> has a \"share\" and another has none, expected all or none");
    shares += rule.share.value_or(0);
    least += rule.at_least;
  }
  if (rules.empty()) return rules;
  const pugi::xml_node first = root.child("level");
  if (rules.front().share && shares == 0)
    reader.refuse(first, "the shares of all levels sum to 0, expected one above 0");
  if (least > questions)
    reader.refuse(first, "the levels ask for at least " + counted(least, "question", "questions") +
                             ", but the quiz has " + std::to_string(questions));
  return rules;
}

std::optional<int> read_minutes_over(ElementReader& reader, pugi::xml_node root) {
  if (!root.attribute("minutes-over")) return std::nullopt;
  return reader.whole(root, "minutes-over", 0, 100, 0);
}

/// The <section> elements; with a total, each has a share of it.
std::vector<Section> read_sections(ElementReader& reader, pugi::xml_node parent, bool by_share) {
  std::vector<Section> sections;
  for (const pugi::xml_node child : parent.children("section"))
    sections.push_back(read_section(reader, child, by_share));
  const auto has_share = [](const Section& section) { return section.share.value_or(0) > 0; };
  if (by_share && !sections.empty() && std::none_of(sections.begin(), sections.end(), has_share))
    reader.refuse(parent.child("section"),
                  "the shares of all sections sum to 0, expected one above 0");
  return sections;
}

Week read_week(ElementReader& reader, pugi::xml_node node) {
  reader.check(node, {{"number"}, {"blueprint", "questions", "minutes"}, {{"new"}, {"section"}}});
  Week week;
  week.at = reader.at(node);
  week.number = reader.whole(node, "number", 1, most_weeks, 1);
  week.blueprint = reader.name(node, "blueprint");
  week.questions = reader.whole(node, "questions", 1, most_questions, 0);
  week.minutes = reader.whole(node, "minutes", 1, most_minutes, 0);
  for (const pugi::xml_node child : node.children("new")) {
    reader.check(child, {{"topic"}, {}, {}});
    week.topics.push_back({reader.name(child, "topic"), reader.at(child)});
  }
  week.sections = read_sections(reader, node, week.questions > 0);
  if (!week.blueprint.empty() && (!week.sections.empty() || week.questions > 0 || week.minutes > 0))
    reader.refuse(node,
                  "a week with a blueprint takes all from it, expected no <section>, "
                  "\"questions\" or \"minutes\" beside it");
  return week;
}

}  // namespace

Blueprint read_blueprint(ElementReader& reader, pugi::xml_node root) {
  reader.check(root, {{"id", "minutes"},
                      {"same-items", "questions", "points", "minutes-over", "topic-at-most"},
                      {{"title", 1, 1}, {"course", 1, 1}, {"level"}, {"section", 1}}});
  Blueprint blueprint;
  blueprint.at = reader.at(root);
  blueprint.id = reader.name(root, "id");
  blueprint.minutes = reader.whole(root, "minutes", 1, most_minutes, 0);
  blueprint.minutes_over = read_minutes_over(reader, root);
  blueprint.same_items = reader.truth(root, "same-items", true);
  blueprint.questions = reader.whole(root, "questions", 1, most_questions, 0);
  blueprint.points = reader.whole(root, "points", 1, most_points, 0);
  blueprint.topic_at_most = reader.whole(root, "topic-at-most", 1, most_questions, 0);
  if (blueprint.topic_at_most > 0 && !root.attribute("questions"))
    reader.refuse(root,
                  "\"topic-at-most\" bounds shares of a total, expected \"questions\" beside it");
  blueprint.title = reader.only_text(root.child("title"));
  blueprint.course = reader.only_text(root.child("course"));
  blueprint.sections = read_sections(reader, root, root.attribute("questions"));
  const int questions = blueprint.questions > 0
                            ? blueprint.questions
                            : std::accumulate(blueprint.sections.begin(), blueprint.sections.end(),
                                              0, [](int sum, const Section& section) {
                                                return sum + section.questions;
                                              });
  blueprint.levels = read_levels(reader, root, questions);
  if (blueprint.points > 0 && blueprint.points < questions)
    reader.refuse(root, "points=\"" + std::to_string(blueprint.points) + "\" cannot give each of " +
                            counted(questions, "question", "questions") +
                            " a point, expected at least " + std::to_string(questions));
  return blueprint;
}

Course read_course(ElementReader& reader, pugi::xml_node root) {
  reader.check(root, {{"id", "questions", "minutes"},
                      {"new-percent", "spacing", "minutes-over"},
                      {{"title", 1, 1}, {"level"}, {"week", 1}}});
  Course course;
  course.at = reader.at(root);
  course.id = reader.name(root, "id");
  course.title = reader.only_text(root.child("title"));
  course.questions = reader.whole(root, "questions", 1, most_questions, 0);
  course.minutes = reader.whole(root, "minutes", 1, most_minutes, 0);
  course.minutes_over = read_minutes_over(reader, root);
  course.new_percent = reader.whole(root, "new-percent", 1, 100, 60);
  const std::string spacing = root.attribute("spacing").as_string("1 2 4 8");
  course.spacing = numbers_in(spacing, 1, most_weeks);
  const auto not_growing =
      std::adjacent_find(course.spacing.begin(), course.spacing.end(), std::greater_equal<int>());
  if (course.spacing.empty() || not_growing != course.spacing.end())
    reader.refuse(root, "spacing=\"" + spacing +
                            "\", expected numbers of weeks that grow, with a space between: "
                            "\"1 2 4 8\"");
  course.levels = read_levels(reader, root, course.questions);

  std::set<std::string> taught;
  for (const pugi::xml_node child : root.children("week")) {
    Week week = read_week(reader, child);
    if (!course.weeks.empty() && week.number <= course.weeks.back().number)
      reader.refuse(child, "week " + std::to_string(week.number) + " stands behind week " +
                               std::to_string(course.weeks.back().number) +
                               ", expected the weeks in ascending order");
    for (const NewTopic& topic : week.topics)
      if (!taught.insert(topic.topic).second)
        reader.refuse(child,
                      "the topic \"" + topic.topic + "\" is new in two weeks, expected it in one");
    course.weeks.push_back(std::move(week));
  }
  return course;
}

}  // namespace footroom::bank
