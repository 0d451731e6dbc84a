// Published values: every row of tests/reference/*.csv runs through the catalogue.

#include <csv.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "engine/drawn_values.hpp"
#include "notation/quantity_text.hpp"

namespace footroom::engine {
namespace {

struct Row {
  std::string place;  ///< file:line-ish, for messages
  std::vector<std::string> fields;

  const std::string& id() const { return fields[0]; }
  const std::string& calculation() const { return fields[1]; }
  const std::string& inputs() const { return fields[2]; }
  const std::string& output() const { return fields[3]; }
  const std::string& expected() const { return fields[4]; }
  const std::string& tolerance() const { return fields[5]; }
  const std::string& source() const { return fields[6]; }
  const std::string& status() const { return fields[7]; }
};

const std::vector<std::string> header{"id",        "calculation", "inputs", "output", "expected",
                                      "tolerance", "source",      "status", "note"};

/// The records of one CSV file, by libcsv; the first is the header.
class Records {
 public:
  explicit Records(std::string bytes) {
    csv_init(&parser_, CSV_STRICT | CSV_STRICT_FINI);
    complete_ = csv_parse(&parser_, bytes.data(), bytes.size(), on_field, on_record, this) ==
                    bytes.size() &&
                csv_fini(&parser_, on_field, on_record, this) == 0;
    csv_free(&parser_);
  }
  bool complete() const { return complete_; }
  const std::vector<std::vector<std::string>>& all() const { return all_; }

 private:
  static void on_field(void* bytes, std::size_t size, void* self) {
    static_cast<Records*>(self)->fields_.emplace_back(static_cast<const char*>(bytes), size);
  }
  static void on_record(int, void* self) {
    auto& records = *static_cast<Records*>(self);
    records.all_.push_back(std::move(records.fields_));
    records.fields_.clear();
  }

  csv_parser parser_{};
  bool complete_ = false;
  std::vector<std::string> fields_;
  std::vector<std::vector<std::string>> all_;
};

std::vector<std::filesystem::path> files() {
  std::vector<std::filesystem::path> all;
  for (const auto& entry :
       std::filesystem::directory_iterator(FOOTROOM_SOURCE_DIR "/tests/reference"))
    if (entry.path().extension() == ".csv") all.push_back(entry.path());
  std::sort(all.begin(), all.end());
  return all;
}

Records read(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return Records({std::istreambuf_iterator<char>(in), {}});
}

std::vector<Row> rows() {
  std::vector<Row> all;
  for (const auto& file : files()) {
    const Records records = read(file);
    for (std::size_t i = 1; i < records.all().size(); ++i) {
      const auto& fields = records.all()[i];
      if (fields.size() == header.size())
        all.push_back({file.filename().string() + ", record " + std::to_string(i), fields});
    }
  }
  return all;
}

Quantity quantity_of(const std::string& text, Dimension expected) {
  const auto read = notation::read_quantity(text, expected);
  if (const auto* error = std::get_if<notation::ReadError>(&read))
    throw std::runtime_error(text + ": " + error->message);
  return std::get<notation::ReadQuantity>(read).quantity;
}

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(' ');
  return first == text.npos ? "" : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

Values inputs_of(const Row& row, const Calculation& calculation) {
  Values values;
  std::istringstream parts(row.inputs());
  for (std::string part; std::getline(parts, part, ';');) {
    const auto equals = part.find('=');
    if (equals == part.npos) throw std::runtime_error(part + ": expected name=value");
    const std::string name = trimmed(part.substr(0, equals));
    const std::string text = trimmed(part.substr(equals + 1));
    const Input* input = calculation.find_input(name);
    if (!input) throw std::runtime_error(name + " is no input");
    values.emplace(name, input->choices.empty() ? Value(quantity_of(text, input->dimension))
                                                : Value(Word{text}));
  }
  return values;
}

TEST(ReferenceFiles, AreWholeAndSayHowFarTheyWereVerified) {
  ASSERT_FALSE(files().empty());
  for (const auto& file : files()) {
    const Records records = read(file);
    ASSERT_TRUE(records.complete()) << file;
    ASSERT_GT(records.all().size(), 1u) << file;
    EXPECT_EQ(records.all()[0], header) << file;
    for (const auto& fields : records.all()) EXPECT_EQ(fields.size(), header.size()) << file;
  }
  std::vector<std::string> ids;
  for (const Row& row : rows()) {
    ids.push_back(row.id());
    EXPECT_FALSE(row.source().empty()) << row.place;
    const std::vector<std::string> statuses{"read", "second-hand", "from-memory", "computed"};
    EXPECT_EQ(std::count(statuses.begin(), statuses.end(), row.status()), 1) << row.place;
  }
  std::sort(ids.begin(), ids.end());
  EXPECT_EQ(std::adjacent_find(ids.begin(), ids.end()), ids.end()) << "an id is used twice";
}

class Reference : public testing::TestWithParam<Row> {};

TEST_P(Reference, ValueComesOut) {
  const Row& row = GetParam();
  const Calculation* calculation = find_calculation(row.calculation());
  ASSERT_NE(calculation, nullptr) << row.place << ": no calculation " << row.calculation();
  const Output* output = calculation->find_output(row.output());
  ASSERT_NE(output, nullptr) << row.place << ": no output " << row.output();

  const Values inputs = inputs_of(row, *calculation);
  const Value got = calculation->run(inputs).at(row.output());
  const std::string context =
      row.place + ", " + row.id() + ", by " + row.source() + "\nfor " + in_words(inputs) + "(SI)";
  if (!output->choices.empty()) {
    EXPECT_EQ(std::get<Word>(got).id, row.expected()) << context;
    return;
  }
  const Quantity expected = quantity_of(row.expected(), output->dimension);
  const Quantity tolerance = quantity_of(row.tolerance(), output->dimension);
  EXPECT_NEAR(std::get<Quantity>(got).si, expected.si, tolerance.si) << context;
}

INSTANTIATE_TEST_SUITE_P(Published, Reference, testing::ValuesIn(rows()), [](const auto& entry) {
  std::string name = entry.param.id();
  for (char& c : name)
    if (!std::isalnum(static_cast<unsigned char>(c))) c = '_';
  return name;
});

}  // namespace
}  // namespace footroom::engine
