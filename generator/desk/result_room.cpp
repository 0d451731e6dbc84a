// What came of a quiz: scores, what to teach, what to look at; and the questions that need care.

#include <filesystem>

#include "desk/quiz_page.hpp"
#include "desk/room.hpp"
#include "grade/class_report.hpp"
#include "grade/statistics.hpp"
#include "grade/statistics_charts.hpp"
#include "render/commonmark.hpp"
#include "render/statistics.hpp"
#include "tasks/known_items.hpp"

namespace footroom::desk {
namespace {

namespace fs = std::filesystem;

/// True where answers were changed after they were graded.
bool is_stale(const Call& call, int number) {
  return fs::last_write_time(responses_file(call, number)) >
         fs::last_write_time(call.house.folder.graded(number) / "results.json");
}

mustache::data mistakes_data(const Call& call, const grade::ClassReport& report) {
  mustache::data list(mustache::data::type::list);
  for (const auto& mistake : report.mistakes) {
    mustache::data one;
    one.set("mistake-title", mistake.title);
    one.set("made-by", call.say_with("made-by", mistake.made, mistake.asked));
    one.set("says", render::html_of_markdown(mistake.says));
    list << one;
  }
  return list;
}

mustache::data checks_data(const Call& call, int number, const grade::ClassReport& report) {
  mustache::data list(mustache::data::type::list);
  for (const auto& check : report.to_check) {
    mustache::data one;
    one.set("check-address", address_of(number) + "/answers/" + check.seat + "#answer-" +
                                 std::to_string(check.number));
    one.set("check-seat", call.say_with("seat-of", check.seat, check.name));
    one.set("check-title", std::to_string(check.number) + ". " + check.title);
    one.set("check-typed", check.typed);
    one.set("check-reason", check.reason);
    list << one;
  }
  return list;
}

mustache::data items_data(const grade::ClassReport& report, notation::Style style) {
  mustache::data list(mustache::data::type::list);
  for (const auto& item : report.items) {
    mustache::data one;
    one.set("item-title", item.title);
    one.set("item-topic", item.topic_title);
    one.set("item-right", std::to_string(item.right) + "/" + std::to_string(item.asked));
    one.set("item-percent", grade::percent_text(item.points, item.possible, style));
    list << one;
  }
  return list;
}

mustache::data seats_data(const Call& call, int number, const grade::Results& results,
                          notation::Style style) {
  mustache::data list(mustache::data::type::list);
  for (const auto& seat : results.seats) {
    mustache::data one;
    one.set("seat-address", address_of(number) + "/feedback/" + seat.seat);
    one.set("seat-label", call.say_with("seat-of", seat.seat, seat.name));
    one.set("seat-points", seat.points.text(style) + " / " + seat.possible.text(style));
    one.set("seat-percent", grade::percent_text(seat.points, seat.possible, style));
    list << one;
  }
  return list;
}

Response show(const Call& call) {
  const int number = call.number(0);
  const auto kept = quiz_of(call, number);
  const grade::Quiz& quiz = *kept;
  const auto results = results_of(call, number);
  const auto report = grade::class_report(results, {}, call.language);
  notation::Style style = results.style;
  style.language = call.language;
  mustache::data data;
  set_steps(call, number, "results", data);
  data.set("stale", mustache::data(is_stale(call, number)));
  Form again;
  again.action = address_of(number) + "/grade";
  again.button = call.say("grade-again");
  data.set("again", call.form(again));
  data.set("counted",
           call.say_with("results-counted", results.seats.size(), results.absent.size()));
  data.set("mean", report.mean);
  data.set("median", report.median);
  data.set("lowest", report.lowest);
  data.set("highest", report.highest);
  data.set("plot", render::svg_element(report.distribution, "scores"));
  data.set("print-feedback", address_of(number) + "/feedback");
  data.set("print-report", address_of(number) + "/report");
  data.set("next-quiz", "/quizzes/new?from=" + std::to_string(number));
  data.set("record", address_of(number) + "/record");
  data.set("has-mistakes", mustache::data(!report.mistakes.empty()));
  data.set("mistakes", mistakes_data(call, report));
  data.set("has-checks", mustache::data(!report.to_check.empty()));
  data.set("checks", checks_data(call, number, report));
  data.set("items", items_data(report, style));
  data.set("seats", seats_data(call, number, results, style));
  auto frame = quiz_frame(call, number, quiz);
  if (call.query("told") == "graded") frame.told = call.say("graded");
  return call.page(frame, "results", data);
}

Response feedback_of_seat(const Call& call) {
  const int number = call.number(0);
  for (const auto& seat : results_of(call, number).seats)
    if (seat.seat == call.parts.at(1))
      return printed_page(
          there(call, call.house.folder.graded(number) / ("feedback-" + seat.seat + ".html")));
  throw NotThere();
}

struct AllGraded {
  std::vector<grade::Results> results;
  std::vector<std::string> files;
  notation::Style style;
  bool any() const { return !results.empty(); }
};

AllGraded all_graded(const Call& call) {
  AllGraded all;
  all.style = call.preferences.style;
  for (const int number : call.house.folder.quizzes())
    if (is_graded(call, number)) {
      all.results.push_back(results_of(call, number));
      all.files.push_back((call.house.folder.graded(number) / "results.json").string());
    }
  return all;
}

grade::Statistics statistics_of(const Call& call, const AllGraded& all) {
  return grade::statistics(all.results, all.files,
                           tasks::known_items(call.house.bank, call.language));
}

Response show_care(const Call& call) {
  const auto all = all_graded(call);
  mustache::data list(mustache::data::type::list);
  bool any = false;
  mustache::data data;
  if (all.any())
    for (const auto& item : statistics_of(call, all).items) {
      if (item.concerns.empty()) continue;
      any = true;
      mustache::data one;
      one.set("item-title", item.title);
      one.set("item-topic", item.topic_title);
      one.set("item-answers", call.say_with("care-answers", item.answers));
      one.set("few", mustache::data(item.answers < grade::enough_answers));
      mustache::data concerns(mustache::data::type::list);
      for (const auto& concern : item.concerns) {
        mustache::data says;
        says.set("concern", grade::in_words(concern, call.language));
        concerns << says;
      }
      one.set("concerns", concerns);
      list << one;
    }
  data.set("graded", mustache::data(all.any()));
  data.set("none-graded", mustache::data(!all.any()));
  data.set("has-items", mustache::data(any));
  data.set("no-items", mustache::data(all.any() && !any));
  data.set("items", list);
  return call.page({call.language, "care", call.say("room-care")}, "care", data);
}

Response print_care(const Call& call) {
  const auto all = all_graded(call);
  if (!all.any()) throw NotThere();
  const auto statistics = statistics_of(call, all);
  Response response;
  response.policy = Policy::printed;
  response.body = render::statistics_html(
      call.house.templates,
      {statistics, grade::statistics_charts(statistics, all.style), all.style});
  return response;
}

}  // namespace

void add_result_room(Routes& routes) {
  routes.get("/quizzes/{number}/results", show);
  routes.get("/quizzes/{number}/feedback", [](const Call& call) {
    return printed_page(
        there(call, call.house.folder.graded(call.number(0)) / "all-feedback.html"));
  });
  routes.get("/quizzes/{number}/feedback/{word}", feedback_of_seat);
  routes.get("/quizzes/{number}/report", [](const Call& call) {
    return printed_page(
        there(call, call.house.folder.graded(call.number(0)) / "class-report.html"));
  });
  routes.get("/care", show_care);
  routes.get("/care/numbers", print_care);
}

}  // namespace footroom::desk
