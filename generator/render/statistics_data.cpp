#include "render/statistics_data.hpp"

#include <fmt/format.h>

namespace footroom::render {
namespace {

using Data = mustache::data;

class Writer {
 public:
  Writer(const Templates::Parts& parts, const StatisticsPage& page, const Dress& dress)
      : parts_(parts), page_(page), dress_(dress) {}

  Data quiz(const grade::QuizStatistics& quiz) const {
    Data data;
    data.set("code", quiz.quiz);
    data.set("quiz-title", quiz.title);
    data.set("date", quiz.date);
    data.set("seats", counted(quiz.seats));
    data.set("questions", std::to_string(quiz.items));
    data.set("mean", number(quiz.mean, 1));
    data.set("deviation", number(quiz.standard_deviation, 1));
    data.set("reliability", number(quiz.reliability, 2));
    data.set("has-reliability", Data(quiz.reliability.has_value()));
    data.set("coefficient", label(quiz.all_or_nothing ? "statistics-kr-20" : "statistics-alpha"));
    data.set("error", number(quiz.standard_error, 1));
    return data;
  }

  Data item(const grade::ItemStatistics& item) const {
    Data data;
    data.set("id", item.item);
    data.set("item-title", item.title);
    data.set("answers", counted(item.answers));
    data.set("few", Data(item.answers < grade::enough_answers));
    data.set("difficulty", number(item.difficulty, 2));
    data.set("discrimination", number(item.discrimination, 2));
    data.set("item-rest", number(item.item_rest, 2));
    data.set("level", std::to_string(item.level));
    const bool other = item.suggested_level && *item.suggested_level != item.level;
    data.set("has-other-level", Data(other));
    data.set("other-level", other ? std::to_string(*item.suggested_level) : std::string());
    set_list(data, "concerns", item.concerns, [&](const grade::Concern& concern) {
      return Data("text", grade::in_words(concern, page_.style.language));
    });
    set_list(data, "uses", item.uses, [&](const grade::AnswerUse& use) {
      Data one;
      one.set("use", use.id);
      one.set("given", std::to_string(use.given));
      one.set("right", std::to_string(use.right));
      one.set("is-right", Data(use.right > 0));
      one.set("has-says", Data(!use.says.empty()));
      one.set("says", dress_.option(use.says));
      return one;
    });
    return data;
  }

 private:
  const std::string& label(std::string_view id) const {
    return parts_.labels.at(id, page_.style.language);
  }
  std::string number(const std::optional<double>& value, int places) const {
    return value ? notation::write_number(*value, places, page_.style)
                 : label("statistics-undefined");
  }
  static std::string counted(int count) {
    return std::to_string(count) + (count < grade::enough_answers ? "*" : "");
  }

  const Templates::Parts& parts_;
  const StatisticsPage& page_;
  const Dress& dress_;
};

}  // namespace

Data statistics_data(const Templates::Parts& parts, const StatisticsPage& page,
                     const Dress& dress) {
  const Writer writer(parts, page, dress);
  Data data;
  data.look_also_in(parts.label_data(page.style.language));
  data.set("language", page.style.language == engine::Language::english ? "en" : "es");
  data.set("page-title", parts.labels.at("statistics-title", page.style.language));
  data.set("styles", parts.styles);
  // Its column heads are long.
  data.set("page-rules",
           ".report thead .points { white-space: normal; }\n"
           ".report .points + :not(.points) { padding-left: 4mm; }");
  set_list(data, "quizzes", page.statistics.quizzes,
           [&](const grade::QuizStatistics& quiz) { return writer.quiz(quiz); });
  std::vector<const grade::ItemStatistics*> in_need;
  for (const grade::ItemStatistics& item : page.statistics.items)
    if (!item.concerns.empty()) in_need.push_back(&item);
  set_list(data, "in-need", in_need,
           [&](const grade::ItemStatistics* item) { return writer.item(*item); });
  set_list(data, "items", page.statistics.items,
           [&](const grade::ItemStatistics& item) { return writer.item(item); });
  int number = 0;
  set_list(data, "charts", page.charts, [&](const figure::Drawing& chart) {
    const std::string name = fmt::format("items-{}", ++number);
    Data one;
    one.set("chart", name);
    one.set("drawing", dress.drawing(chart, name));
    one.set("figure-title", chart.title);
    one.set("figure-description", chart.description);
    return one;
  });
  return data;
}

}  // namespace footroom::render
