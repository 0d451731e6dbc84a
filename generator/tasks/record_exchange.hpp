#pragma once
// People and results as CSV (RFC 4180) or JSON, there and back without loss.
//
// CSV of people:  identity,name,employer,left
// CSV of results: identity,name,employer,quiz,date,occasion,topics,missed
//   topics is "clearance=2.5/3 swing=1/1" (points of the possible ones), missed "item-id item-id".
// JSON is a list of objects with the same names. Columns may stand in any order; others are
// refused. A title may have capitals, and the first three and `left` may be called identidad,
// nombre, empleador and salida.
//
// A spreadsheet takes a cell that begins with = + - @, a tab or a carriage return for a formula:
// such a cell gets an apostrophe in front, and so does one where such a character comes after
// apostrophes, so that reading can take exactly one away.

#include <filesystem>
#include <functional>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "engine/wording.hpp"
#include "records/store.hpp"

namespace footroom::tasks {

enum class Exchanged { people, results };

const std::vector<std::string>& columns_of(Exchanged what);

/// A row with a text for each of columns_of(), "" where it was not given, and where it came from.
struct ExchangeRow {
  std::string where;  ///< "people.csv:3", "people.json: row 3"
  std::vector<std::string> cells;
};

/// Why rows were refused, each a whole message: "people.csv:3: identity: ...".
using Refusals = std::vector<engine::Wording>;

/// Rows of a file; what cannot be read as a row goes to `refused` as whole messages.
std::vector<ExchangeRow> read_exchange(Exchanged what, const std::string& bytes,
                                       const std::string& file, bool json, Refusals& refused);

/// People as they were typed or pasted: a table as above, with commas, semicolons or tabs, a list
/// in JSON, or names alone, one a line.
std::vector<ExchangeRow> read_typed_people(const std::string& text, const std::string& file,
                                           Refusals& refused);

/// Writes rows one by one.
class ExchangeWriter {
 public:
  using Write = std::function<void(const std::string&)>;
  ExchangeWriter(Exchanged what, bool json, Write write);
  void add(const std::vector<std::string>& cells);
  void finish();

 private:
  Exchanged what_;
  bool json_;
  Write write_;
  bool any_ = false;
};

/// Writes every row that the store has, and returns how many; people who were erased and their
/// results are left out.
std::size_t write_exchange(Exchanged what, bool json, records::Store& store,
                           const ExchangeWriter::Write& write,
                           const records::Told& told = records::tell_nobody);

/// The cell `topics`, and back; throws std::runtime_error with what is wrong.
std::string topics_text(const std::vector<records::TopicPoints>& topics);
std::vector<records::TopicPoints> read_topics(const std::string& text);

}  // namespace footroom::tasks
