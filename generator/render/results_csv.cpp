#include "grade/names.hpp"
#include "render/escape.hpp"
#include "render/feedback.hpp"

namespace footroom::render {
namespace {

// Numbers for machines, whatever the quiz's decimal mark.
std::string number(grade::Points points) {
  return points.text(notation::Style());
}

}  // namespace

std::string results_csv_header() {
  return "quiz,date,course,seat,name,number,item,topic,level,kind,outcome,mistake,typed,read,right,"
         "points,possible\r\n";
}

std::string results_csv_rows(const grade::Results& results, const grade::SeatResult& seat) {
  std::string rows;
  for (const grade::QuestionResult& question : seat.questions) {
    const std::string fields[] = {results.quiz,
                                  results.date,
                                  results.course,
                                  seat.seat,
                                  seat.name,
                                  std::to_string(question.number),
                                  question.item,
                                  question.topic,
                                  std::to_string(question.level),
                                  grade::kind_names()[static_cast<std::size_t>(question.kind)],
                                  std::string(name_of(question.outcome)),
                                  question.mistake,
                                  question.typed,
                                  question.read,
                                  question.right,
                                  number(question.points),
                                  number(question.possible)};
    for (const std::string& field : fields) rows += escape_csv(field) + ',';
    rows.back() = '\r';
    rows += '\n';
  }
  return rows;
}

}  // namespace footroom::render
