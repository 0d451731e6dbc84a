#include "grade/names.hpp"
#include "quiz/right_letters.hpp"
#include "render/escape.hpp"
#include "render/render.hpp"

namespace footroom::render {
namespace {

std::string lines(const std::vector<std::string>& all) {
  std::string text;
  for (const std::string& line : all) text += (text.empty() ? "" : "\n") + line;
  return text;
}

/// "A: text", a line each.
std::string options(const quiz::Question& question) {
  std::vector<std::string> all;
  for (const quiz::Option& option : question.options)
    all.push_back(option.letter + ": " + option.text);
  return lines(all);
}

std::string mistakes(const quiz::Question& question) {
  std::vector<std::string> all;
  for (const quiz::Mistake& mistake : question.mistakes)
    all.push_back(mistake.text + ": " + mistake.says);
  return lines(all);
}

std::string right_answer(const quiz::Question& question) {
  if (question.answer) return question.answer->text;
  std::string letters;
  for (const std::string& letter : quiz::right_letters(question))
    letters += (letters.empty() ? "" : " ") + letter;
  return letters;
}

}  // namespace

std::string questions_csv_header() {
  return "quiz,date,seat,name,number,item,topic,level,kind,points,minutes,question,options,answer,"
         "value,unit,tolerance,mistakes\r\n";
}

std::string questions_csv_rows(const quiz::Header& header, const quiz::Sheet& sheet) {
  std::string rows;
  for (const quiz::Question& question : sheet.questions) {
    const auto& answer = question.answer;
    const std::string fields[] = {
        escape_csv(header.code),
        escape_csv(header.date),
        escape_csv(sheet.seat),
        escape_csv(sheet.name),
        csv_number(question.number),
        escape_csv(question.item),
        escape_csv(question.topic),
        csv_number(question.level),
        escape_csv(grade::kind_names()[static_cast<std::size_t>(question.kind)]),
        csv_number(question.points),
        csv_number(question.minutes),
        escape_csv(question.stem),
        escape_csv(options(question)),
        escape_csv(right_answer(question)),
        answer ? csv_number(answer->number) : std::string(),
        answer ? escape_csv(answer->unit) : std::string(),
        answer ? csv_number(answer->tolerance) : std::string(),
        escape_csv(mistakes(question))};
    for (const std::string& field : fields) rows += field + ',';
    rows.back() = '\r';
    rows += '\n';
  }
  return rows;
}

}  // namespace footroom::render
