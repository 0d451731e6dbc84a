// The answers of a class: typed seat by seat, pasted, or from a file; each shown as it is read.

#include <algorithm>

#include "desk/quiz_page.hpp"
#include "desk/room.hpp"
#include "grade/characters.hpp"
#include "grade/class_report.hpp"
#include "grade/marking.hpp"
#include "grade/reading.hpp"
#include "notation/unit.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/graded_files.hpp"
#include "tasks/responses.hpp"

namespace footroom::desk {
namespace {

using Responses = std::vector<grade::Response>;

/// How an answer is understood, in words; nothing for an empty one.
std::string reading_of(const Call& call, const grade::Quiz& quiz, const quiz::Question& question,
                       const std::string& typed) {
  if (grade::is_no_answer(typed)) return {};
  notation::Style style = quiz.header.style;
  style.language = call.language;
  const auto unreadable = [&](const grade::Unreadable& why) {
    return call.say_with("reading-unclear", why.reason);
  };
  if (question.answer) {
    const auto read = grade::read_number(typed, *notation::find_unit(question.answer->unit), style);
    if (const auto* why = std::get_if<grade::Unreadable>(&read)) return unreadable(*why);
    return call.say_with("reading", std::get<grade::WrittenNumber>(read).text);
  }
  const auto read = grade::read_letters(typed, question, style);
  if (const auto* why = std::get_if<grade::Unreadable>(&read)) return unreadable(*why);
  std::string letters;
  for (const auto& letter : std::get<std::vector<std::string>>(read))
    letters += (letters.empty() ? "" : ", ") + letter;
  return call.say_with("reading", letters.empty() ? call.say("reading-none") : letters);
}

/// What is taken as an answer.
std::optional<std::string> clean(const std::string& typed) {
  if (typed.size() > grade::longest_answer || tasks::fault_of(typed)) return std::nullopt;
  return trimmed(typed);
}

const quiz::Sheet& sheet_of(const grade::Quiz& quiz, const std::string& seat) {
  for (const auto& sheet : quiz.sheets)
    if (sheet.seat == seat) return sheet;
  throw NotThere();
}

Responses responses_of(const Call& call, int number, const grade::Quiz& quiz) {
  return tasks::read_responses(responses_file(call, number), quiz).responses;
}

grade::Response* find(Responses& responses, const std::string& seat) {
  for (auto& one : responses)
    if (one.seat == seat) return &one;
  return nullptr;
}

std::string field_name(const quiz::Question& question) {
  return "answer-" + std::to_string(question.number);
}

std::string what_is_asked(const Call& call, const quiz::Question& question) {
  if (question.options.empty()) return {};
  const std::string last = question.options.back().letter;
  return call.say_with(question.kind == quiz::Kind::order        ? "answer-order"
                       : question.kind == quiz::Kind::several_of ? "answer-several"
                                                                 : "answer-one",
                       question.options.front().letter, last);
}

Form seat_form(const Call& call, int number, const grade::Quiz& quiz, const quiz::Sheet& sheet,
               const grade::Response* now) {
  Form form;
  form.action = address_of(number) + "/answers/" + sheet.seat;
  form.button = call.say("answers-save-next");
  form.other_button = call.say("answers-save-check");
  for (std::size_t i = 0; i < sheet.questions.size(); ++i) {
    const auto& question = sheet.questions[i];
    Field field{Field::Kind::text, field_name(question),
                std::to_string(question.number) + ". " + question.title};
    field.value = now ? now->answers.at(i) : std::string();
    field.hint = what_is_asked(call, question);
    field.unit = question.answer ? question.answer->unit_text : std::string();
    field.narrow = true;
    field.reading = address_of(number) + "/reading?seat=" + sheet.seat +
                    "&number=" + std::to_string(question.number);
    field.read = reading_of(call, quiz, question, field.value);
    form.fields.push_back(field);
  }
  return form;
}

Response seat_page(const Call& call, int number, const grade::Quiz& quiz, const quiz::Sheet& sheet,
                   const Form& form) {
  mustache::data data;
  set_steps(call, number, "answers", data);
  data.set("seat", call.say_with("seat-of", sheet.seat, sheet.name));
  data.set("code", sheet.code);
  data.set("form", call.form(form));
  auto frame = quiz_frame(call, number, quiz);
  frame.above = address_of(number) + "/answers";
  frame.above_title = call.say("step-answers");
  frame.title = call.say_with("seat-of", sheet.seat, sheet.name);
  if (call.query("told") == "saved") frame.told = call.say("answers-saved");
  return call.page(frame, "answers-seat", data);
}

Response show_seat(const Call& call) {
  const int number = call.number(0);
  const auto kept = quiz_of(call, number);
  const grade::Quiz& quiz = *kept;
  const auto& sheet = sheet_of(quiz, call.parts.at(1));
  auto responses = responses_of(call, number, quiz);
  return seat_page(call, number, quiz, sheet,
                   seat_form(call, number, quiz, sheet, find(responses, sheet.seat)));
}

/// The seat behind `seat` that has no answers, else the list of seats.
std::string next_after(int number, const grade::Quiz& quiz, Responses& responses,
                       const std::string& seat) {
  bool behind = false;
  for (const auto& sheet : quiz.sheets) {
    const auto* response = find(responses, sheet.seat);
    const bool empty = !response || std::all_of(response->answers.begin(), response->answers.end(),
                                                [](const auto& answer) { return answer.empty(); });
    if (behind && empty) return address_of(number) + "/answers/" + sheet.seat + "?told=saved";
    behind = behind || sheet.seat == seat;
  }
  return address_of(number) + "/answers?told=saved";
}

Response save_seat(const Call& call) {
  const int number = call.number(0);
  const auto kept = quiz_of(call, number);
  const grade::Quiz& quiz = *kept;
  const auto& sheet = sheet_of(quiz, call.parts.at(1));
  auto responses = responses_of(call, number, quiz);
  Form form = seat_form(call, number, quiz, sheet, find(responses, sheet.seat));
  form.fill(call.request.form);
  grade::Response sent{sheet.seat, sheet.name, {}};
  if (const auto* before = find(responses, sheet.seat)) sent.name = before->name;
  for (const auto& question : sheet.questions) {
    Field& field = form.at(field_name(question));
    const auto answer = clean(field.value);
    if (!answer) {
      field.error = call.say("answer-unclean");
      continue;
    }
    sent.answers.push_back(*answer);
    field.read = reading_of(call, quiz, question, *answer);
  }
  if (!form.sound()) return seat_page(call, number, quiz, sheet, form);
  if (auto* before = find(responses, sheet.seat))
    *before = sent;
  else
    responses.push_back(sent);
  tasks::write_responses(responses_file(call, number), quiz, responses);
  if (call.sent("other") == "yes")
    return see_other(address_of(number) + "/answers/" + sheet.seat + "?told=saved");
  return see_other(next_after(number, quiz, responses, sheet.seat));
}

Form many_form(const Call& call, int number) {
  Form form;
  form.action = address_of(number) + "/answers";
  form.button = call.say("answers-take");
  form.plain = true;
  form.fields = {
      {Field::Kind::area,
       "pasted",
       call.say("answers-pasted"),
       {},
       call.say("answers-pasted-hint")},
      {Field::Kind::file, "file", call.say("answers-file"), {}, call.say("answers-file-hint")}};
  return form;
}

Response all_page(const Call& call, int number, const grade::Quiz& quiz, const Form& many) {
  auto responses = responses_of(call, number, quiz);
  mustache::data seats(mustache::data::type::list);
  std::size_t answered = 0;
  for (const auto& sheet : quiz.sheets) {
    const auto* response = find(responses, sheet.seat);
    std::size_t given = 0;
    if (response)
      given = static_cast<std::size_t>(
          std::count_if(response->answers.begin(), response->answers.end(),
                        [](const auto& answer) { return !answer.empty(); }));
    answered += given > 0 ? 1 : 0;
    mustache::data row;
    row.set("seat-address", address_of(number) + "/answers/" + sheet.seat);
    row.set("seat-label", call.say_with("seat-of", sheet.seat, sheet.name));
    row.set("seat-state", given == 0
                              ? call.say("answers-none")
                              : call.say_with("answers-given", given, sheet.questions.size()));
    seats << row;
  }
  Form grade;
  grade.action = address_of(number) + "/grade";
  grade.button = call.say("grade");
  mustache::data data;
  set_steps(call, number, "answers", data);
  data.set("seats", seats);
  data.set("answered", call.say_with("quiz-answered", answered, quiz.sheets.size()));
  data.set("any", mustache::data(answered > 0));
  data.set("empty-form", address_of(number) + "/responses");
  data.set("grade", call.form(grade));
  data.set("many", call.form(many));
  auto frame = quiz_frame(call, number, quiz);
  if (call.query("told") == "saved") frame.told = call.say("answers-saved");
  return call.page(frame, "answers", data);
}

Response save_many(const Call& call) {
  const int number = call.number(0);
  const auto kept = quiz_of(call, number);
  const grade::Quiz& quiz = *kept;
  Form many = many_form(call, number);
  many.fill(call.request.form);
  const std::string file = call.sent("file");
  const std::string pasted = call.sent("pasted");
  const char* from = file.empty() ? "pasted" : "file";
  if (trimmed(pasted).empty() && file.empty()) {
    many.refuse("pasted", call.say("answers-nothing"));
    return all_page(call, number, quiz, many);
  }
  try {
    const auto read = tasks::read_responses(file.empty() ? tasks::csv_of_pasted(pasted) : file,
                                            many.at(from).label, quiz);
    std::string faults;
    for (const auto& fault : read.defects)
      faults += (faults.empty() ? "" : " · ") +
                call.say_with("in-line", fault.line, fault.says.in(call.language));
    if (!faults.empty()) {
      many.refuse(from, faults);
      return all_page(call, number, quiz, many);
    }
    auto responses = responses_of(call, number, quiz);
    for (const auto& fresh : read.responses) {
      const bool empty = std::all_of(fresh.answers.begin(), fresh.answers.end(),
                                     [](const auto& answer) { return grade::is_blank(answer); });
      if (empty) continue;
      if (auto* before = find(responses, fresh.seat))
        *before = fresh;
      else
        responses.push_back(fresh);
    }
    tasks::write_responses(responses_file(call, number), quiz, responses);
  } catch (const tasks::FaultyRow& faulty) {
    many.refuse(from,
                call.say_with("in-line", faulty.fault.line, faulty.fault.says.in(call.language)));
    return all_page(call, number, quiz, many);
  }
  return see_other(address_of(number) + "/answers?told=saved");
}

Response show_reading(const Call& call) {
  const auto kept = quiz_of(call, call.number(0));
  const grade::Quiz& quiz = *kept;
  const auto& sheet = sheet_of(quiz, call.query("seat"));
  Response response;
  response.type = "text/plain; charset=utf-8";
  for (const auto& question : sheet.questions)
    if (std::to_string(question.number) == call.query("number")) {
      const auto answer = clean(call.query("typed"));
      response.body =
          answer ? reading_of(call, quiz, question, *answer) : call.say("answer-unclean");
      return response;
    }
  throw NotThere();
}

Response grade_all(const Call& call) {
  const int number = call.number(0);
  const auto kept = quiz_of(call, number);
  const grade::Quiz& quiz = *kept;
  const auto responses = responses_of(call, number, quiz);
  const grade::Credit credit;
  const auto results = grade::mark_class(quiz, responses, credit, call.house.program);
  if (results.seats.empty()) {
    Form many = many_form(call, number);
    many.error = call.say("answers-nothing");
    return all_page(call, number, quiz, many);
  }
  quiz::Header header = quiz.header;
  header.style.language = call.language;
  const auto report = grade::class_report(results, credit, call.language);
  tasks::write_graded(quiz, responses, credit, results, report, header, call.house.templates,
                      call.house.folder.graded(number));
  return see_other(address_of(number) + "/results?told=graded");
}

}  // namespace

void add_answer_room(Routes& routes) {
  routes.get("/quizzes/{number}/answers", [](const Call& call) {
    const auto kept = quiz_of(call, call.number(0));
    const grade::Quiz& quiz = *kept;
    return all_page(call, call.number(0), quiz, many_form(call, call.number(0)));
  });
  routes.post("/quizzes/{number}/answers", save_many);
  routes.get("/quizzes/{number}/answers/{word}", show_seat);
  routes.post("/quizzes/{number}/answers/{word}", save_seat);
  routes.get("/quizzes/{number}/reading", show_reading);
  routes.get("/quizzes/{number}/responses", [](const Call& call) {
    Response response;
    response.type = "text/csv; charset=utf-8";
    response.file_name = "responses.csv";
    response.body = tasks::file_text(there(call, responses_file(call, call.number(0))));
    return response;
  });
  routes.post("/quizzes/{number}/grade", grade_all);
}

}  // namespace footroom::desk
