#include "tasks/record_exchange.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "records/words.hpp"
#include "render/escape.hpp"
#include "tasks/choices.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/people.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

using records::worded;

std::optional<std::size_t> index_of(const std::vector<std::string>& names,
                                    const std::string& name) {
  const auto at = std::find(names.begin(), names.end(), name);
  if (at == names.end()) return std::nullopt;
  return static_cast<std::size_t>(at - names.begin());
}

engine::Wording unknown(const std::string& name, const std::vector<std::string>& known) {
  return for_terminal(name.substr(0, 100)) +
         engine::Wording{": is no column, expected " + alternatives(known),
                         ": no es una columna, se esperaba " + alternatives(known, " o ")} +
         suggestion(name, known);
}

/// The column's name, where a title is written otherwise.
std::string plain_title(const std::string& title) {
  const std::string plain = folded(title);
  for (const auto& [spanish, name] : {std::pair<const char*, const char*>{"identidad", "identity"},
                                      {"nombre", "name"},
                                      {"empleador", "employer"},
                                      {"salida", "left"}})
    if (plain == spanish) return name;
  return plain;
}

std::vector<ExchangeRow> read_csv_rows(const std::vector<std::string>& columns,
                                       const std::string& bytes, const std::string& file,
                                       Refusals& refused) {
  const auto rows = read_csv(bytes);
  if (rows.empty()) {
    refused.push_back(
        file + worded({":1: is empty, expected a first row that names the columns",
                       ":1: está vacío, se esperaba una primera fila que nombre las columnas"}));
    return {};
  }
  const auto where = [&file](const CsvRow& row) { return fmt::format("{}:{}", file, row.line); };
  const auto& header = rows.front();
  if (!header.wrong.empty()) refused.push_back(where(header) + ": " + header.wrong);
  std::vector<std::size_t> places;
  for (const auto& title : header.fields) {
    const auto place = index_of(columns, plain_title(title));
    if (!place)
      refused.push_back(where(header) + ": " + unknown(title, columns));
    else if (std::find(places.begin(), places.end(), *place) != places.end())
      refused.push_back(where(header) + ": " + title +
                        worded({": is named twice", ": está dos veces"}));
    else
      places.push_back(*place);
  }
  if (!refused.empty()) return {};
  std::vector<ExchangeRow> read;
  for (auto row = rows.begin() + 1; row != rows.end(); ++row) {
    if (!row->wrong.empty()) {
      refused.push_back(where(*row) + ": " + row->wrong);
    } else if (row->fields.size() != places.size()) {
      refused.push_back(where(*row) + worded({": has {} cells, expected {}",
                                              ": tiene {} celdas, se esperaban {}"},
                                             row->fields.size(), places.size()));
    } else {
      auto& one =
          read.emplace_back(ExchangeRow{where(*row), std::vector<std::string>(columns.size())});
      for (std::size_t i = 0; i < places.size(); ++i)
        one.cells[places[i]] = render::without_csv_guard(row->fields[i]);
    }
  }
  return read;
}

/// Lines that are not blank, with their numbers, without blanks around them.
std::vector<std::pair<int, std::string>> lines_of(const std::string& text) {
  std::vector<std::pair<int, std::string>> lines;
  int number = 0;
  for (std::size_t at = 0; at < text.size();) {
    const auto end = std::min(text.find('\n', at), text.size());
    std::string line = text.substr(at, end - at);
    at = end + 1;
    ++number;
    line.erase(0, line.find_first_not_of(" \t\r"));
    line.erase(line.find_last_not_of(" \t\r") + 1);
    if (!line.empty()) lines.emplace_back(number, line);
  }
  return lines;
}

std::vector<ExchangeRow> read_json_rows(const std::vector<std::string>& columns,
                                        const std::string& bytes, const std::string& file,
                                        Refusals& refused) {
  using nlohmann::json;
  json list;
  try {
    list = json::parse(bytes);
  } catch (const json::parse_error& error) {
    refused.push_back(file +
                      worded({": is no JSON: byte {}", ": no es JSON: byte {}"}, error.byte));
    return {};
  } catch (const json::exception&) {
    refused.push_back(file +
                      engine::Wording{": holds a number that is too large, expected texts",
                                      ": tiene un número demasiado grande, se esperaban textos"});
    return {};
  }
  if (!list.is_array()) {
    refused.push_back(file + engine::Wording{": is no list, expected [{...}, ...]",
                                             ": no es una lista, se esperaba [{...}, ...]"});
    return {};
  }
  std::vector<ExchangeRow> read;
  for (std::size_t i = 0; i < list.size(); ++i) {
    ExchangeRow row{fmt::format("{}: row {}", file, i + 1),
                    std::vector<std::string>(columns.size())};
    const auto before = refused.size();
    if (!list[i].is_object()) {
      refused.push_back(row.where + engine::Wording{": is no object, expected {...}",
                                                    ": no es un objeto, se esperaba {...}"});
      continue;
    }
    for (const auto& [name, value] : list[i].items()) {
      const auto place = index_of(columns, name);
      if (!place)
        refused.push_back(row.where + ": " + unknown(name, columns));
      else if (!value.is_string())
        refused.push_back(row.where + ": " + name +
                          engine::Wording{": is no text, expected \"...\"",
                                          ": no es un texto, se esperaba \"...\""});
      else
        row.cells[*place] = value.get<std::string>();
    }
    if (refused.size() == before) read.push_back(std::move(row));
  }
  return read;
}

}  // namespace

const std::vector<std::string>& columns_of(Exchanged what) {
  static const std::vector<std::string> people{"identity", "name", "employer", "left"};
  static const std::vector<std::string> results{"identity", "name",     "employer", "quiz",
                                                "date",     "occasion", "topics",   "missed"};
  return what == Exchanged::people ? people : results;
}

std::vector<ExchangeRow> read_exchange(Exchanged what, const std::string& bytes,
                                       const std::string& file, bool json, Refusals& refused) {
  return json ? read_json_rows(columns_of(what), bytes, file, refused)
              : read_csv_rows(columns_of(what), bytes, file, refused);
}

std::vector<ExchangeRow> read_typed_people(const std::string& text, const std::string& file,
                                           Refusals& refused) {
  const auto begin = text.find_first_not_of(" \t\r\n");
  if (begin != std::string::npos && text[begin] == '[')
    return read_exchange(Exchanged::people, text, file, true, refused);
  const std::string csv = csv_of_pasted(text);
  const auto& columns = columns_of(Exchanged::people);
  const auto lines = lines_of(csv);
  const bool names_alone = csv.find_first_of(",;\"") == std::string::npos && !lines.empty() &&
                           !index_of(columns, plain_title(lines.front().second));
  if (!names_alone) return read_exchange(Exchanged::people, csv, file, false, refused);
  std::vector<ExchangeRow> rows;
  for (const auto& [line, name] : lines) {
    rows.push_back({fmt::format("{}:{}", file, line), std::vector<std::string>(columns.size())});
    rows.back().cells[1] = name;
  }
  return rows;
}

ExchangeWriter::ExchangeWriter(Exchanged what, bool json, Write write)
    : what_(what), json_(json), write_(std::move(write)) {
  if (json_) {
    write_("[");
    return;
  }
  std::string header;
  for (const auto& column : columns_of(what_)) header += (header.empty() ? "" : ",") + column;
  write_(header + "\r\n");
}

void ExchangeWriter::add(const std::vector<std::string>& cells) {
  const auto& columns = columns_of(what_);
  std::string line;
  if (json_) {
    auto row = nlohmann::ordered_json::object();
    for (std::size_t i = 0; i < columns.size(); ++i)
      if (!cells.at(i).empty()) row[columns[i]] = cells[i];
    line = (any_ ? ",\n " : "\n ") + row.dump();
  } else {
    for (std::size_t i = 0; i < columns.size(); ++i)
      line += (i > 0 ? "," : "") + render::escape_csv(cells.at(i));
    line += "\r\n";
  }
  any_ = true;
  write_(line);
}

void ExchangeWriter::finish() {
  if (json_) write_("\n]\n");
}

std::size_t write_exchange(Exchanged what, bool json, records::Store& store,
                           const ExchangeWriter::Write& write, const records::Told& told) {
  std::map<records::Number, std::string> employers;
  for (const auto& employer : store.employers()) employers[employer.number] = employer.value.name;
  constexpr std::size_t block = 65'536;
  std::string pending;
  ExchangeWriter writer(what, json, [&](const std::string& bytes) {
    pending += bytes;
    if (pending.size() < block) return;
    write(pending);
    pending.clear();
  });
  std::size_t count = 0;
  const auto write_person = [&](const records::Numbered<records::Person>& person,
                                const std::vector<std::string>& more) {
    if (person.erased) return;
    std::vector<std::string> cells{
        person.value.identity, person.value.name,
        person.value.employer ? employers[*person.value.employer] : std::string()};
    cells.insert(cells.end(), more.begin(), more.end());
    writer.add(cells);
    ++count;
  };
  if (what == Exchanged::people)
    store.each_person([&](const auto& person) {
      told(person.number);
      write_person(person,
                   {person.value.left ? records::date_text(*person.value.left) : std::string()});
    });
  else
    store.each_result([&](const auto& one) {
      told(one.number);
      const auto& result = one.value;
      std::string missed;
      for (const auto& item : result.missed) missed += (missed.empty() ? "" : " ") + item;
      const auto person = store.effective(result.person);
      write_person(
          {result.person, std::get<records::Person>(person.content), person.erased},
          {result.quiz, records::date_text(result.day), std::string(records::word(result.occasion)),
           topics_text(result.topics), missed});
    });
  writer.finish();
  write(pending);
  return count;
}

std::string topics_text(const std::vector<records::TopicPoints>& topics) {
  std::string text;
  for (const auto& topic : topics)
    text += fmt::format("{}{}={}/{}", text.empty() ? "" : " ", topic.topic,
                        points_text(topic.hundredths), points_text(topic.possible_hundredths));
  return text;
}

std::vector<records::TopicPoints> read_topics(const std::string& text) {
  std::vector<records::TopicPoints> topics;
  for (std::size_t at = text.find_first_not_of(' '); at < text.size();
       at = text.find_first_not_of(' ', at)) {
    const auto end = std::min(text.find(' ', at), text.size());
    const std::string part = text.substr(at, end - at);
    const auto equals = part.rfind('=');
    const auto slash = part.rfind('/');
    if (equals == std::string::npos || slash == std::string::npos || slash < equals)
      throw std::runtime_error("is " + for_terminal(part) + ", expected topic=points/possible");
    const auto points = read_points(std::string_view(part).substr(equals + 1, slash - equals - 1));
    const auto possible = read_points(std::string_view(part).substr(slash + 1));
    if (!points || !possible)
      throw std::runtime_error("is " + for_terminal(part) +
                               ", expected points such as 2.5/3 after the =");
    topics.push_back({part.substr(0, equals), *points, *possible});
    at = end;
  }
  return topics;
}

}  // namespace footroom::tasks
