// A graded quiz among the training records: whose results they are, and whether it was a test.

#include <algorithm>

#include "desk/crew.hpp"
#include "desk/quiz_page.hpp"
#include "desk/room.hpp"
#include "desk/whom.hpp"
#include "tasks/failure.hpp"
#include "tasks/record_results.hpp"

namespace footroom::desk {
namespace {

using records::Number;

std::string results_file(const Call& call, int quiz) {
  return (call.house.folder.graded(quiz) / "results.json").string();
}

std::string field_name(const grade::SeatResult& seat) {
  return "seat-" + seat.seat;
}

Form taken_form(const Call& call, int quiz, const grade::Results& results) {
  const auto store = crew_store(call);
  const auto people = store ? crew(*store) : std::vector<records::Numbered<records::Person>>();
  notation::Style style = results.style;
  style.language = call.language;
  Form form;
  form.action = address_of(quiz) + "/record";
  form.button = call.say("taken-record");
  Field occasion{Field::Kind::one_of, "occasion", call.say("taken-occasion")};
  const std::string practice(records::word(records::Occasion::practice));
  const std::string test(records::word(records::Occasion::test));
  if (!results.practice) occasion.choices.push_back({test, call.say("taken-test")});
  occasion.choices.push_back({practice, call.say("taken-practice")});
  occasion.value = occasion.choices.front().value;
  occasion.hint = call.say("taken-occasion-hint");
  Field employer{Field::Kind::list, "employer", call.say("session-new-people")};
  employer.hint = call.say("session-new-people-hint");
  employer.choices = {{"", call.say("no-employer")}};
  if (store)
    for (auto& choice : employer_choices(*store)) employer.choices.push_back(std::move(choice));
  if (employer.choices.size() == 2) employer.value = employer.choices.back().value;
  form.fields = {occasion, employer};
  for (const auto& seat : results.seats) {
    if (seat.name.empty()) continue;
    Field field{Field::Kind::list, field_name(seat),
                call.say_with("seat-of", seat.seat, seat.name)};
    field.choices = whom_choices(call, seat.name, people);
    field.value = field.choices.front().value;
    field.hint = call.say_with("taken-points", seat.points.text(style), seat.possible.text(style));
    form.fields.push_back(field);
  }
  return form;
}

Response taken_page(const Call& call, int quiz, const grade::Results& results, const Form& form) {
  mustache::data data;
  data.set("form", call.form(form));
  data.set("day", call.say_with("taken-day", results.quiz, results.date));
  Pages::Frame frame{call.language, "quizzes", call.say("taken-title"),
                     address_of(quiz) + "/results", call.say("step-results")};
  if (call.query("told") == "recorded")
    frame.told = call.say_with("taken-recorded", call.query("added"), call.query("corrected"));
  return call.page(frame, "taken", data);
}

Response record(const Call& call) {
  const int quiz = call.number(0);
  const auto results = results_of(call, quiz);
  Form form = taken_form(call, quiz, results);
  form.fill(call.request.form);
  const auto chosen = records::read_occasion(form.at("occasion").value);
  if (!chosen || (results.practice && chosen == records::Occasion::test))
    form.refuse("occasion", call.say("choose-one"));
  tasks::PutResults put;
  try {
    const auto day = tasks::day_of(results, results_file(call, quiz));
    const auto store = crew_store_to_write(call);
    const auto writing = store->write(recorded_today(call));
    std::optional<Number> employer;
    if (const Number number = number_in(form.at("employer").value); number > 0) employer = number;
    std::vector<records::Result> rows;
    for (const auto& seat : results.seats) {
      if (seat.name.empty() || !chosen) continue;
      Field& field = form.at(field_name(seat));
      const Whom meant = whom(field.choices, field.value);
      if (meant.kind == Whom::Kind::nobody) continue;
      if (meant.kind == Whom::Kind::unclear) {
        field.error = call.say("whom-choose");
        continue;
      }
      const Number person = meant.kind == Whom::Kind::known
                                ? meant.person
                                : writing->add(records::Person{seat.name, {}, employer, {}});
      if (std::any_of(rows.begin(), rows.end(),
                      [&](const records::Result& row) { return row.person == person; }))
        field.error = call.say("whom-twice");
      rows.push_back(tasks::result_of(seat, person, results, day, *chosen));
    }
    if (form.sound() && rows.empty()) form.error = call.say("taken-nobody");
    if (form.sound()) {
      put = tasks::put_results(*store, *writing, results, day, rows);
      writing->commit();
    }
  } catch (const records::Refused& refusal) {
    form.error = refusal.says.in(call.language);
  } catch (const tasks::Failure& failure) {
    form.error = engine::wording_of(failure).in(call.language);
  }
  if (!form.sound()) return taken_page(call, quiz, results, form);
  return see_other(address_of(quiz) + "/record?told=recorded&added=" + std::to_string(put.added) +
                   "&corrected=" + std::to_string(put.corrected));
}

}  // namespace

void add_taken_room(Routes& routes) {
  routes.get("/quizzes/{number}/record", [](const Call& call) {
    const auto results = results_of(call, call.number(0));
    return taken_page(call, call.number(0), results, taken_form(call, call.number(0), results));
  });
  routes.post("/quizzes/{number}/record", record);
}

}  // namespace footroom::desk
