#include "tasks/record_exchange.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace footroom::tasks {
namespace {

std::string written(bool json, const std::vector<std::vector<std::string>>& rows) {
  std::string text;
  ExchangeWriter writer(Exchanged::people, json, [&](const std::string& bytes) { text += bytes; });
  for (const auto& row : rows) writer.add(row);
  writer.finish();
  return text;
}

TEST(RecordExchange, ReadsRowsAsTheyAreWrittenEmptyOnesToo) {
  const std::vector<std::vector<std::string>> rows{
      {"A-1", "Ana Ejemplo", "", "2026-01-31"}, {"", "", "", ""}, {"", "=1+2 \"x\",\n", "", ""}};
  for (const bool json : {false, true}) {
    Refusals refused;
    const auto read = read_exchange(Exchanged::people, written(json, rows), "file", json, refused);
    EXPECT_TRUE(refused.empty());
    ASSERT_EQ(read.size(), rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) EXPECT_EQ(read[i].cells, rows[i]);
  }
}

TEST(RecordExchange, RefusesNumbersThatNoReaderHolds) {
  Refusals refused;
  EXPECT_TRUE(
      read_exchange(Exchanged::people, "[{\"name\": 1e999}]", "file", true, refused).empty());
  ASSERT_EQ(refused.size(), 1u);
  EXPECT_EQ(refused.front().english, "file: holds a number that is too large, expected texts");
}

}  // namespace
}  // namespace footroom::tasks
