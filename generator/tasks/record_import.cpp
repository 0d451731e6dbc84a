#include "tasks/record_import.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

#include "records/words.hpp"
#include "tasks/choices.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

using records::called;
using records::worded;

std::string shortened(const std::string& text) {
  return for_terminal(text.substr(0, 100));
}

records::Date cell_date(const std::string& column, const std::string& text) {
  const auto date = records::read_date(text);
  if (!date)
    throw Failure(ExitCode::input_faulty,
                  called(column) + worded({": is {}, expected a day as YYYY-MM-DD",
                                           ": es {}, se esperaba un día como AAAA-MM-DD"},
                                          shortened(text)));
  return *date;
}

}  // namespace

RecordImport::RecordImport(records::Store& store, records::Writing& writing, bool add_employers)
    : store_(store), writing_(writing), add_employers_(add_employers) {
  for (const auto& employer : store.employers()) employers_[employer.value.name] = employer.number;
}

void RecordImport::add(Exchanged what, const std::vector<ExchangeRow>& rows, Refusals& refused,
                       const std::function<void(std::size_t)>& tell) {
  std::size_t done = 0;
  for (const auto& row : rows) {
    try {
      what == Exchanged::people ? add_person(row) : add_result(row);
    } catch (const Failure& failure) {
      refused.push_back(row.where + ": " + failure.says);
    } catch (const records::Refused& refusal) {
      refused.push_back(row.where + ": " + refusal.says);
    }
    tell(++done);
  }
}

std::optional<records::Number> RecordImport::employer_of(const std::string& name) {
  if (name.empty()) return std::nullopt;
  if (const auto known = employers_.find(name); known != employers_.end()) return known->second;
  if (!add_employers_) {
    std::vector<std::string> names;
    for (const auto& [known, number] : employers_) names.push_back(known);
    throw Failure(ExitCode::input_faulty,
                  worded({"employer: the store has no employer named {}",
                          "empleador: no hay en el registro un empleador llamado {}"},
                         shortened(name)) +
                      suggestion(name, names));
  }
  return employers_[name] = writing_.add(records::Employer{name, ""});
}

void RecordImport::add_person(const ExchangeRow& row) {
  records::Person person{row.cells[1], row.cells[0], {}, {}};
  person.employer = employer_of(row.cells[2]);
  if (!row.cells[3].empty()) person.left = cell_date("left", row.cells[3]);
  writing_.add(person);
}

void RecordImport::add_result(const ExchangeRow& row) {
  records::Result result;
  result.person = person_of(row);
  result.quiz = row.cells[3];
  result.day = cell_date("date", row.cells[4]);
  const auto occasion = records::read_occasion(row.cells[5]);
  if (!occasion)
    throw Failure(ExitCode::input_faulty, worded({"occasion: is {}, expected test or practice",
                                                  "ocasión: es {}, se esperaba test o practice"},
                                                 shortened(row.cells[5])));
  result.occasion = *occasion;
  try {
    result.topics = read_topics(row.cells[6]);
  } catch (const std::runtime_error& error) {
    throw Failure(ExitCode::input_faulty, std::string("topics: ") + error.what());
  }
  std::string missed = row.cells[7];
  std::replace(missed.begin(), missed.end(), ' ', ',');
  result.missed = parts_of(missed);
  writing_.add(result);
}

records::Number RecordImport::person_of(const ExchangeRow& row) {
  const bool by_identity = !row.cells[0].empty();
  const auto& text = by_identity ? row.cells[0] : row.cells[1];
  const auto column = called(by_identity ? "identity" : "name");
  if (text.empty())
    throw Failure(ExitCode::input_faulty, worded({"identity: is empty, and so is the name",
                                                  "identidad: está vacía, y también el nombre"}));
  const auto employer = employer_of(row.cells[2]);
  std::vector<records::Number> found;
  for (const auto& one : store_.find_people(text))
    if (one.value.employer == employer &&
        text == (by_identity ? one.value.identity : one.value.name))
      found.push_back(one.number);
  if (found.size() == 1) return found[0];
  throw Failure(
      ExitCode::input_faulty,
      column + worded(found.empty()
                          ? engine::Text{": {} is nobody in the store with this employer",
                                         ": {} no es nadie del registro con este empleador"}
                          : engine::Text{": {} is more than one person; give identities",
                                         ": {} es más de una persona; dé identidades"},
                      shortened(text)));
}

}  // namespace footroom::tasks
