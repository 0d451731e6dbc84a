#include "grade/statistics.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>
#include <set>
#include <tuple>

#include "grade/json_reader.hpp"
#include "grade/names.hpp"
#include "grade/test_theory.hpp"

namespace footroom::grade {
namespace {

using Json = nlohmann::ordered_json;

// From what share on an item is too easy, and below which it is too hard. Common practice, no
// single source.
constexpr double too_easy = 0.95;
constexpr double too_hard = 0.20;
/// What rounding may make of a relation that is none.
constexpr double rounding = 1e-9;

double share_of(Points points, Points possible) {
  return possible.hundredths > 0 ? double(points.hundredths) / double(possible.hundredths) : 0;
}

/// What is gathered of an item over all quizzes.
struct Gathered {
  std::vector<const QuestionResult*> answers;
  CentredSums with_rest;
  double upper = 0;  ///< sum of shares
  double lower = 0;
  double group = 0;  ///< size of each
};
using GatheredItems = std::map<std::string, Gathered, std::less<>>;

/// The answers of a quiz by item, then by seat.
using Columns = std::map<std::string, std::vector<const QuestionResult*>, std::less<>>;

Columns columns_of(const Results& results, const std::string& file) {
  Columns columns;
  for (const SeatResult& seat : results.seats) {
    std::set<std::string_view> seen;
    for (const QuestionResult& question : seat.questions) {
      if (!seen.insert(question.item).second)
        throw FaultyFile(fmt::format("{}: seat {} has the item \"{}\" twice, expected it once",
                                     file, seat.seat, question.item));
      columns[question.item].push_back(&question);
    }
  }
  return columns;
}

bool have_same_items(const Results& results, const Columns& columns) {
  return std::all_of(columns.begin(), columns.end(), [&](const auto& entry) {
    const auto& answers = entry.second;
    return answers.size() == results.seats.size() &&
           std::all_of(answers.begin(), answers.end(), [&](const QuestionResult* answer) {
             return answer->possible == answers.front()->possible;
           });
  });
}

/// Hundredths of a point; a column an item, in the order of `columns`.
Scores scores_of(const Results& results, const Columns& columns) {
  Scores scores(results.seats.size());
  for (const auto& [item, answers] : columns)
    for (std::size_t seat = 0; seat < answers.size(); ++seat)
      scores[seat].push_back(double(answers[seat]->points.hundredths));
  return scores;
}

/// What every question is worth where all are worth the same and earned all of it or nothing.
std::optional<double> worth_of_all_or_nothing(const Columns& columns) {
  std::optional<Points> worth;
  for (const auto& [item, answers] : columns)
    for (const QuestionResult* answer : answers) {
      if (worth.value_or(answer->possible) != answer->possible) return std::nullopt;
      worth = answer->possible;
      if (answer->points != Points{} && answer->points != answer->possible) return std::nullopt;
    }
  if (!worth || worth->hundredths <= 0) return std::nullopt;
  return double(worth->hundredths);
}

QuizStatistics quiz_statistics(const Results& results, const Columns& columns) {
  QuizStatistics quiz;
  quiz.quiz = results.quiz;
  quiz.title = results.title;
  quiz.date = results.date;
  quiz.seats = static_cast<int>(results.seats.size());
  quiz.items = static_cast<int>(columns.size());
  quiz.same_items = have_same_items(results, columns);
  std::vector<double> percents;
  for (const SeatResult& seat : results.seats)
    percents.push_back(100 * share_of(seat.points, seat.possible));
  quiz.mean = mean(percents);
  quiz.standard_deviation = standard_deviation(percents);
  if (!quiz.same_items) return quiz;
  const Scores scores = scores_of(results, columns);
  const auto worth = worth_of_all_or_nothing(columns);
  quiz.all_or_nothing = worth.has_value();
  quiz.reliability = worth ? kuder_richardson_20(scores, *worth) : cronbach_alpha(scores);
  if (quiz.standard_deviation && quiz.reliability)
    quiz.standard_error =
        standard_error_of_measurement(*quiz.standard_deviation, *quiz.reliability);
  return quiz;
}

/// Adds what only makes sense among the seats of one quiz.
void gather_relations(const Results& results, const Columns& columns, GatheredItems& gathered) {
  const Scores scores = scores_of(results, columns);
  const auto groups = extreme_groups(totals(scores));
  Points possible;
  for (const auto& [item, answers] : columns) possible += answers.front()->possible;
  std::size_t index = 0;
  for (const auto& [item, answers] : columns) {
    Gathered& into = gathered[item];
    std::vector<double> shares;
    for (const QuestionResult* answer : answers)
      shares.push_back(share_of(answer->points, answer->possible));
    std::vector<double> rest = rest_totals(scores, index++);
    const Points rest_possible = possible - answers.front()->possible;
    if (rest_possible.hundredths > 0) {
      for (double& one : rest) one /= double(rest_possible.hundredths);
      into.with_rest += centred_sums(shares, rest);
    }
    if (!groups) continue;
    into.group += double(groups->size);
    for (std::size_t seat = 0; seat < shares.size(); ++seat) {
      into.upper += groups->upper[seat] * shares[seat];
      into.lower += groups->lower[seat] * shares[seat];
    }
  }
}

// ---- Answers -----------------------------------------------------------------------------------

std::vector<AnswerUse> uses_of(const std::vector<const QuestionResult*>& answers,
                               const KnownItem* known) {
  std::map<std::string, AnswerUse, std::less<>> uses;
  const auto use = [&](const std::string& id) -> AnswerUse& {
    AnswerUse& one = uses[id];
    one.id = id;
    return one;
  };
  for (const QuestionResult* answer : answers) {
    if (answer->kind == quiz::Kind::order) return {};  // everybody gives all options
    if (answer->kind == quiz::Kind::number && !answer->mistake.empty())
      ++use(answer->mistake).given;
    const bool one_option =
        answer->kind == quiz::Kind::one_of || answer->kind == quiz::Kind::verdict;
    for (const std::string& id : answer->chosen) {
      ++use(id).given;
      if (one_option && is_right(answer->outcome)) ++use(id).right;
    }
    if (!answer->mistake.empty() && use(answer->mistake).says.empty())
      use(answer->mistake).says = answer->says;
  }
  if (known)
    for (const std::string& id : known->answers) use(id);
  std::vector<AnswerUse> list;
  for (auto& [id, one] : uses) list.push_back(std::move(one));
  std::stable_sort(list.begin(), list.end(),
                   [](const AnswerUse& a, const AnswerUse& b) { return a.given > b.given; });
  return list;
}

// ---- Levels ------------------------------------------------------------------------------------

constexpr std::array<double, 4> least_of_level{0.85, 0.70, 0.50, 0};

int suggested_level(double difficulty, double error, int own) {
  const int easiest = level_of_difficulty(difficulty + error);
  const int hardest = level_of_difficulty(difficulty - error);
  return easiest <= own && own <= hardest ? own : level_of_difficulty(difficulty);
}

// ---- Concerns ----------------------------------------------------------------------------------

std::vector<Concern> concerns_of(const ItemStatistics& item) {
  using Kind = Concern::Kind;
  std::vector<Concern> concerns;
  if (item.difficulty > too_easy) concerns.push_back({Kind::too_easy, {}});
  if (item.difficulty < too_hard) concerns.push_back({Kind::too_hard, {}});
  if (item.item_rest.value_or(0) < -rounding || item.discrimination.value_or(0) < -rounding)
    concerns.push_back({Kind::negative, {}});
  if (item.kind != quiz::Kind::several_of) {
    Concern leads{Kind::mistake_leads, {}};
    for (const AnswerUse& use : item.uses)
      if (use.given - use.right > item.right) leads.ids.push_back(use.id);
    if (!leads.ids.empty()) concerns.push_back(std::move(leads));
  }
  if (item.answers >= enough_answers) {
    Concern unused{Kind::never_given, {}};
    for (const AnswerUse& use : item.uses)
      if (use.given == 0) unused.ids.push_back(use.id);
    if (!unused.ids.empty()) concerns.push_back(std::move(unused));
  }
  if (item.unreadable > 0) concerns.push_back({Kind::unreadable, {}, item.unreadable});
  if (item.suggested_level && *item.suggested_level != item.level)
    concerns.push_back({Kind::other_level, {}, *item.suggested_level});
  return concerns;
}

ItemStatistics item_statistics(const std::string& id, const Gathered& gathered,
                               const KnownItem* known) {
  const QuestionResult& last = *gathered.answers.back();
  ItemStatistics item;
  item.item = id;
  item.title = known ? known->title : last.title;
  item.topic_title = last.topic_title;
  item.level = known ? known->level : last.level;
  item.kind = last.kind;
  std::vector<double> shares;
  for (const QuestionResult* answer : gathered.answers) {
    ++item.answers;
    item.right += is_right(answer->outcome);
    item.empty += answer->outcome == Outcome::empty;
    item.unreadable += answer->outcome == Outcome::unreadable;
    shares.push_back(share_of(answer->points, answer->possible));
  }
  item.difficulty = *mean(shares);
  if (const auto deviation = standard_deviation(shares))
    item.difficulty_error = *deviation / std::sqrt(double(item.answers));
  if (gathered.group > 0) item.discrimination = (gathered.upper - gathered.lower) / gathered.group;
  item.item_rest = gathered.with_rest.correlation();
  if (item.answers >= enough_answers)
    item.suggested_level = suggested_level(item.difficulty, *item.difficulty_error, item.level);
  item.uses = uses_of(gathered.answers, known);
  item.concerns = concerns_of(item);
  return item;
}

void refuse_same(const std::vector<Results>& results, const std::vector<std::string>& files) {
  std::map<std::string, std::string> seen;
  for (std::size_t i = 0; i < results.size(); ++i) {
    const auto [before, is_new] = seen.emplace(results_json(results[i]), files.at(i));
    if (!is_new)
      throw FaultyFile(fmt::format("{}: holds the same results as {}, expected each class once",
                                   files[i], before->second));
  }
}

Json number_or_null(const std::optional<double>& number) {
  return number ? Json(*number) : Json();
}

}  // namespace

int level_of_difficulty(double difficulty) {
  int level = 1;
  for (const double least : least_of_level) {
    if (difficulty >= least) return level;
    ++level;
  }
  return static_cast<int>(least_of_level.size());
}

std::string_view name_of(Concern::Kind kind) {
  switch (kind) {
    case Concern::Kind::too_easy:
      return "too-easy";
    case Concern::Kind::too_hard:
      return "too-hard";
    case Concern::Kind::negative:
      return "negative-discrimination";
    case Concern::Kind::mistake_leads:
      return "mistake-leads";
    case Concern::Kind::never_given:
      return "never-given";
    case Concern::Kind::unreadable:
      return "unreadable";
    case Concern::Kind::other_level:
      return "other-level";
  }
  return {};
}

std::string in_words(const Concern& concern, engine::Language language) {
  const auto words = [&](engine::Text text) {
    return fmt::format(fmt::runtime(text.in(language)), fmt::join(concern.ids, ", "),
                       concern.count);
  };
  switch (concern.kind) {
    case Concern::Kind::too_easy:
      return words({"too easy: nearly everyone earns all of its points",
                    "demasiado fácil: casi todos ganan todos sus puntos"});
    case Concern::Kind::too_hard:
      return words({"too hard: nearly nobody earns its points",
                    "demasiado difícil: casi nadie gana sus puntos"});
    case Concern::Kind::negative:
      return words(
          {"those who do well in the rest of the quiz do worse here: check the key and "
           "the wording",
           "quienes van bien en el resto del examen van peor aquí: revise la clave y la "
           "redacción"});
    case Concern::Kind::mistake_leads:
      return words({"a mistake is more common than the right answer: {0}",
                    "un error es más común que la respuesta correcta: {0}"});
    case Concern::Kind::never_given:
      return words({"answers that nobody gave: {0}", "respuestas que nadie dio: {0}"});
    case Concern::Kind::unreadable:
      return words({"answers that could not be read and count as wrong: {1}",
                    "respuestas que no se pudieron leer y cuentan como incorrectas: {1}"});
    case Concern::Kind::other_level:
      return words({"the answers suggest level {1}", "las respuestas sugieren el nivel {1}"});
  }
  return {};
}

Statistics statistics(const std::vector<Results>& results, const std::vector<std::string>& files,
                      const KnownItems& known) {
  refuse_same(results, files);
  Statistics all;
  GatheredItems gathered;
  for (std::size_t i = 0; i < results.size(); ++i) {
    const Columns columns = columns_of(results[i], files.at(i));
    all.quizzes.push_back(quiz_statistics(results[i], columns));
    for (const auto& [item, answers] : columns) {
      auto& list = gathered[item].answers;
      list.insert(list.end(), answers.begin(), answers.end());
    }
    if (all.quizzes.back().same_items) gather_relations(results[i], columns, gathered);
  }
  for (const auto& [id, one] : gathered) {
    const auto found = known.find(id);
    all.items.push_back(item_statistics(id, one, found == known.end() ? nullptr : &found->second));
  }
  std::stable_sort(
      all.items.begin(), all.items.end(),
      [](const ItemStatistics& a, const ItemStatistics& b) { return a.difficulty < b.difficulty; });
  return all;
}

std::string statistics_json(const Statistics& statistics) {
  Json quizzes = Json::array();
  for (const QuizStatistics& quiz : statistics.quizzes)
    quizzes.push_back({{"quiz", quiz.quiz},
                       {"title", quiz.title},
                       {"date", quiz.date},
                       {"seats", quiz.seats},
                       {"items", quiz.items},
                       {"same-items", quiz.same_items},
                       {"few", quiz.seats < enough_answers},
                       {"coefficient", quiz.all_or_nothing ? "kr-20" : "alpha"},
                       {"reliability", number_or_null(quiz.reliability)},
                       {"mean", number_or_null(quiz.mean)},
                       {"standard-deviation", number_or_null(quiz.standard_deviation)},
                       {"standard-error", number_or_null(quiz.standard_error)}});
  Json items = Json::array();
  for (const ItemStatistics& item : statistics.items) {
    Json uses = Json::array();
    for (const AnswerUse& use : item.uses) {
      Json one{{"id", use.id}, {"given", use.given}};
      if (item.kind == quiz::Kind::one_of || item.kind == quiz::Kind::verdict)
        one["right"] = use.right;
      uses.push_back(std::move(one));
    }
    Json concerns = Json::array();
    for (const Concern& concern : item.concerns) concerns.push_back(name_of(concern.kind));
    items.push_back(
        {{"item", item.item},
         {"title", item.title},
         {"topic-title", item.topic_title},
         {"kind", kind_names()[static_cast<std::size_t>(item.kind)]},
         {"level", item.level},
         {"suggested-level", item.suggested_level ? Json(*item.suggested_level) : Json()},
         {"answers", item.answers},
         {"few", item.answers < enough_answers},
         {"right", item.right},
         {"empty", item.empty},
         {"unreadable", item.unreadable},
         {"difficulty", item.difficulty},
         {"difficulty-error", number_or_null(item.difficulty_error)},
         {"discrimination", number_or_null(item.discrimination)},
         {"item-rest", number_or_null(item.item_rest)},
         {"uses", std::move(uses)},
         {"concerns", std::move(concerns)}});
  }
  const Json json{{"format", 1}, {"quizzes", std::move(quizzes)}, {"items", std::move(items)}};
  return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string levels_json(const Statistics& statistics) {
  std::map<std::string, int> levels;
  for (const ItemStatistics& item : statistics.items)
    if (item.suggested_level) levels[item.item] = *item.suggested_level;
  Json list = Json::object();
  for (const auto& [item, level] : levels) list[item] = level;
  return Json{{"format", 1}, {"levels", std::move(list)}}.dump(1, ' ', false,
                                                               Json::error_handler_t::replace) +
         "\n";
}

std::map<std::string, int, std::less<>> read_levels(std::string_view text,
                                                    const std::string& file) {
  const nlohmann::json json = parse_json(text, file);
  const JsonReader whole(json, file);
  whole.member("format").whole(1, 1);
  std::map<std::string, int, std::less<>> levels;
  for (const auto& [item, level] : whole.member("levels").members())
    levels[item] = level.whole(1, 4);
  return levels;
}

}  // namespace footroom::grade
