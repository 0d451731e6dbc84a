#include "grade/class_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "figure/plot.hpp"

namespace footroom::grade {
namespace {

/// Tenths of a percent, so that sums are exact.
std::int64_t permille(Points points, Points possible) {
  if (possible.hundredths == 0) return 0;
  return Points{1000}.share(points.hundredths, possible.hundredths).hundredths;
}

std::string percent_of(double per_mille, notation::Style style) {
  const bool whole = per_mille == 0 || per_mille == 1000;
  return notation::write_number(per_mille / 10, whole ? 0 : 1, style) + "%";
}

std::vector<ItemLine> item_lines(const Results& results) {
  std::vector<ItemLine> lines;
  std::map<std::string, std::size_t, std::less<>> places;
  for (const SeatResult& seat : results.seats)
    for (const QuestionResult& question : seat.questions) {
      const auto [place, fresh] = places.emplace(question.item, lines.size());
      if (fresh)
        lines.push_back(
            {question.item, question.title, question.topic_title, question.level, 0, 0, {}, {}});
      ItemLine& line = lines[place->second];
      ++line.asked;
      line.right += is_right(question.outcome) ? 1 : 0;
      line.points += question.points;
      line.possible += question.possible;
    }
  std::stable_sort(lines.begin(), lines.end(), [](const ItemLine& a, const ItemLine& b) {
    return permille(a.points, a.possible) < permille(b.points, b.possible);
  });
  return lines;
}

std::vector<MistakeLine> mistake_lines(const Results& results) {
  std::vector<MistakeLine> lines;
  std::map<std::pair<std::string, std::string>, std::size_t> places;
  std::map<std::string, int, std::less<>> asked;
  for (const SeatResult& seat : results.seats)
    for (const QuestionResult& question : seat.questions) {
      ++asked[question.item];
      if (question.mistake.empty() || question.says.empty()) continue;
      const auto [place, fresh] =
          places.emplace(std::pair{question.item, question.mistake}, lines.size());
      if (fresh)
        lines.push_back({question.item,
                         question.title,
                         question.mistake,
                         question.says,
                         0,
                         0,
                         {},
                         seat.seat,
                         question.read,
                         question.right});
      MistakeLine& line = lines[place->second];
      ++line.made;
      line.lost += question.possible - question.points;
    }
  for (MistakeLine& line : lines) line.asked = asked[line.item];
  std::stable_sort(lines.begin(), lines.end(), [](const MistakeLine& a, const MistakeLine& b) {
    return a.made != b.made ? a.made > b.made : a.lost > b.lost;
  });
  return lines;
}

figure::Drawing draw_distribution(const Results& results, notation::Style style) {
  constexpr int bars = 10;
  std::array<int, bars> seats{};
  for (const SeatResult& seat : results.seats) {
    const std::int64_t tenth = permille(seat.points, seat.possible) / 100;
    ++seats[static_cast<std::size_t>(std::min<std::int64_t>(tenth, bars - 1))];
  }
  const auto say = [&](engine::Text text) { return std::string(text.in(style.language)); };
  figure::Curve curve;
  curve.area = true;
  std::string counts;
  for (int i = 0; i < bars; ++i) {
    const int count = seats[static_cast<std::size_t>(i)];
    for (const auto& [x, y] :
         {std::pair{i, 0}, std::pair{i, count}, std::pair{i + 1, count}, std::pair{i + 1, 0}})
      curve.points.push_back({10.0 * x, static_cast<double>(y)});
    if (count > 0)
      counts +=
          fmt::format("{}{}-{}%: {}", counts.empty() ? "" : ", ", 10 * i, 10 * (i + 1), count);
  }
  figure::Plot plot;
  plot.title = say({"Scores of the class", "Puntajes del grupo"});
  plot.description =
      say({"How many seats reached which score. ", "Cuántos puestos alcanzaron cada puntaje. "}) +
      counts;
  plot.axis = say({"score (%)", "puntaje (%)"});
  plot.style = style;
  figure::Panel panel;
  panel.axis = say({"seats", "puestos"});
  panel.counts = true;
  panel.curves = {curve};
  plot.panels = {panel};
  return figure::draw_plot(plot);
}

}  // namespace

std::string percent_text(Points points, Points possible, notation::Style style) {
  return percent_of(static_cast<double>(permille(points, possible)), style);
}

ClassReport class_report(const Results& results, const Credit& credit, engine::Language language) {
  notation::Style style = results.style;
  style.language = language;
  ClassReport report{results,
                     credit,
                     item_lines(results),
                     mistake_lines(results),
                     {},
                     {},
                     {},
                     {},
                     {},
                     draw_distribution(results, style)};
  std::vector<std::int64_t> scores;
  std::int64_t sum = 0;
  for (const SeatResult& seat : results.seats) {
    scores.push_back(permille(seat.points, seat.possible));
    sum += scores.back();
    for (const QuestionResult& question : seat.questions)
      if (question.outcome == Outcome::unreadable)
        report.to_check.push_back({seat.seat, seat.name, question.number, question.title,
                                   question.typed, question.reason});
  }
  if (scores.empty()) return report;
  std::sort(scores.begin(), scores.end());
  const std::size_t half = scores.size() / 2;
  const double middle = scores.size() % 2 == 1
                            ? static_cast<double>(scores[half])
                            : static_cast<double>(scores[half - 1] + scores[half]) / 2;
  report.mean = percent_of(static_cast<double>(sum) / static_cast<double>(scores.size()), style);
  report.median = percent_of(middle, style);
  report.lowest = percent_of(static_cast<double>(scores.front()), style);
  report.highest = percent_of(static_cast<double>(scores.back()), style);
  return report;
}

}  // namespace footroom::grade
