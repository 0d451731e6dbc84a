#pragma once
// How the items of one or many graded quizzes did. An item is a family: seats of a quiz have it
// with different numbers. Everything is counted from results.json files; where something cannot be
// defined it is empty.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/text.hpp"
#include "grade/results.hpp"

namespace footroom::grade {

/// Below this many answers, or seats of a quiz, a figure says little. Common practice, no single
/// source.
inline constexpr int enough_answers = 30;

/// What the bank says of an item.
struct KnownItem {
  std::string title;
  int level = 1;
  std::vector<std::string> answers;  ///< ids of its mistakes, of a choice of its options
};
using KnownItems = std::map<std::string, KnownItem, std::less<>>;

struct QuizStatistics {
  std::string quiz;  ///< code
  std::string title;
  std::string date;
  int seats = 0;
  int items = 0;            ///< families that were asked
  bool same_items = false;  ///< each seat had all of them, worth the same points
  /// Each answer earned all of its points or none, and all questions are worth the same: the
  /// reliability is then KR-20, else Cronbach's alpha. Empty where seats had different items.
  bool all_or_nothing = false;
  std::optional<double> reliability;
  /// Of the seats' scores in percent of their points.
  std::optional<double> mean;
  std::optional<double> standard_deviation;
  std::optional<double> standard_error;  ///< of measurement
};

/// How often an answer was given: a mistake of an item of kind number, an option of a choice.
struct AnswerUse {
  std::string id;
  int given = 0;
  int right = 0;     ///< so often as a right answer: kinds one-of and verdict
  std::string says;  ///< Markdown, of the first who gave it: what went wrong; may be empty
};

struct Concern {
  enum class Kind {
    too_easy,
    too_hard,
    negative,  ///< those who do well otherwise do worse here
    mistake_leads,
    never_given,
    unreadable,
    other_level,
  };
  Kind kind;
  std::vector<std::string> ids;  ///< of answers
  int count = 0;                 ///< of answers, or a level
};
/// "too-easy" ... as files name it.
std::string_view name_of(Concern::Kind kind);
std::string in_words(const Concern& concern, engine::Language language);

struct ItemStatistics {
  std::string item;
  std::string title;
  std::string topic_title;
  int level = 1;  ///< the bank's, else that of the last results
  quiz::Kind kind = quiz::Kind::number;
  int answers = 0;  ///< empty and unreadable ones count, and earn nothing
  int right = 0;
  int empty = 0;
  int unreadable = 0;
  /// Mean share of the points, 0 to 1: the higher, the easier.
  double difficulty = 0;
  /// Standard error of that; empty for one answer.
  std::optional<double> difficulty_error;
  /// Mean share in the upper group less that in the lower, -1 to 1. The groups are made within each
  /// quiz by total (extreme_groups()), then put together.
  std::optional<double> discrimination;
  /// Correlation with the rest of the quiz, -1 to 1; of items of all or nothing it is the
  /// point-biserial. Deviations from each quiz's own means are put together (the within-class
  /// correlation of an analysis of covariance; common practice), the rest as a share of its points,
  /// so that neither an easy quiz nor a long one feigns a relation. Of one quiz it is the ordinary
  /// item-rest correlation. Fisher's z was not taken: it has no value for r = 1, which small
  /// classes give.
  std::optional<double> item_rest;
  /// From enough answers: the level that the difficulty suggests (level_of_difficulty()); the own
  /// one where its band is within a standard error.
  std::optional<int> suggested_level;
  std::vector<AnswerUse> uses;  ///< the most frequent first, then by id; those never given last
  std::vector<Concern> concerns;
};

struct Statistics {
  std::vector<QuizStatistics> quizzes;  ///< in the order given
  std::vector<ItemStatistics> items;    ///< the hardest first, equal ones by id
};

/// Level 1 from 85 percent of the points on, 2 from 70, 3 from 50, else 4. Our own choice, no
/// source: levels are meant for sheets of which most get two thirds.
int level_of_difficulty(double difficulty);

/// Throws FaultyFile where a seat has an item twice, and where two results are the same.
/// `files` names them for messages, one for each.
Statistics statistics(const std::vector<Results>& results, const std::vector<std::string>& files,
                      const KnownItems& known);

/// statistics.json (questionbank/statistics.schema.json).
std::string statistics_json(const Statistics& statistics);

/// levels.json (questionbank/levels.schema.json): the suggested levels, by item.
std::string levels_json(const Statistics& statistics);
/// By item id. Throws FaultyFile.
std::map<std::string, int, std::less<>> read_levels(std::string_view json, const std::string& file);

}  // namespace footroom::grade
