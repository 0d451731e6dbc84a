#include "tasks/people.hpp"

#include <gtest/gtest.h>

#include "tasks/csv_rows.hpp"
#include "tasks/record_exchange.hpp"

namespace footroom::tasks {
namespace {

TEST(FoldedNames, LoseCapitalsAndAccents) {
  EXPECT_EQ(folded("José ÑANDÚ"), "jose nandu");
  EXPECT_EQ(folded("Straße"), "strasse");
  EXPECT_EQ(folded("O'Neil-2"), "o'neil-2");
  EXPECT_EQ(folded(""), "");
  EXPECT_EQ(folded("\xff"), "\xff");
}

TEST(PastedRows, BecomeCsv) {
  EXPECT_EQ(csv_of_pasted("a\tb \"c\"\r\n1\t\n"), "\"a\",\"b \"\"c\"\"\"\n\"1\",\"\"\n");
  EXPECT_EQ(csv_of_pasted("a,b\n1,2"), "a,b\n1,2");
  EXPECT_EQ(csv_of_pasted("a\tb\n1\t2"), "\"a\",\"b\"\n\"1\",\"2\"\n");
}

TEST(TypedPeople, AreNamesAloneOrATable) {
  const auto read = [](const std::string& text) {
    Refusals refused;
    std::string all;
    for (const auto& row : read_typed_people(text, "line", refused)) {
      all += row.where;
      for (const auto& cell : row.cells) all += "|" + cell;
      all += "\n";
    }
    for (const auto& one : refused) all += "refused " + one.english + "\n";
    return all;
  };
  EXPECT_EQ(read("\n Ana Ejemplo \r\nBen\n"), "line:2||Ana Ejemplo||\nline:3||Ben||\n");
  EXPECT_EQ(read("name\nAna\n"), "line:2||Ana||\n");
  EXPECT_EQ(read("NOMBRE\tIdentidad\nAna\tA-1\n"), "line:2|A-1|Ana||\n");
  EXPECT_EQ(read("empleador;salida;nombre\nX;2026-01-31;Ana\n"), "line:2||Ana|X|2026-01-31\n");
  EXPECT_EQ(read("[{\"name\": \"Ana\"}]"), "line: row 1||Ana||\n");
  EXPECT_EQ(read(""), "refused line:1: is empty, expected a first row that names the columns\n");
}

}  // namespace
}  // namespace footroom::tasks
