#include "tasks/roster.hpp"

#include <gtest/gtest.h>

#include "tasks/failure.hpp"

namespace footroom::tasks {
namespace {

using Names = std::vector<std::string>;

std::string refusal(const std::string& bytes) {
  try {
    read_roster(bytes, "class.csv");
  } catch (const Failure& failure) {
    EXPECT_EQ(failure.code, ExitCode::input_faulty);
    return failure.what();
  }
  return "was read";
}

std::vector<std::string> texts(const std::vector<RowFault>& faults) {
  std::vector<std::string> all;
  for (const auto& fault : faults) all.push_back(fault.text());
  return all;
}

std::vector<std::string> defects(const Roster& roster) {
  return texts(roster.defects);
}

TEST(Roster, TakesTheNameColumnWhereverItStands) {
  EXPECT_EQ(read_roster("id,Name,crew\n1,Ana Ruiz,a\n2,Ben Ode,b\n", "class.csv").names,
            (Names{"Ana Ruiz", "Ben Ode"}));
  EXPECT_EQ(read_roster("nombre;grupo\r\nJosé Peña;a\r\n", "class.csv").names,
            (Names{"José Peña"}));
}

TEST(Roster, SkipsByteOrderMarkAndBlankLinesAndKeepsMarkup) {
  EXPECT_EQ(read_roster("\xef\xbb\xbfname\n\n\"O'Dell, \"\"Kit\"\" <b>&amp;</b>\"\n\n* _Ann_ *",
                        "class.csv")
                .names,
            (Names{"O'Dell, \"Kit\" <b>&amp;</b>", "* _Ann_ *"}));
}

TEST(Roster, NamesEachRowThatIsLeftOutAndGoesOn) {
  const auto roster = read_roster(
      "crew,name\n"
      "a,Ana\n"
      "b\n"
      "c,\n"
      "d,Jos\xe9 Pe\xf1"
      "a\n"
      "e,\"two\nlines\"\n"
      "f,\"Ann\" Lee,x\n"
      "g,Zoe\n"
      "h,\xef\xbb\xbf\n"
      "i,Ana\uFFFF\n",
      "class.csv");
  EXPECT_EQ(roster.names, (Names{"Ana", "Zoe"}));
  EXPECT_EQ(defects(roster),
            (std::vector<std::string>{
                "class.csv:3: has 1 field, expected the name in field 2; left out",
                "class.csv:4: has no name; left out",
                "class.csv:5: the name is not in UTF-8 (byte 4); left out",
                "class.csv:6: the name holds a line break or another control character; left out",
                "class.csv:8: a quotation mark stands inside a field, expected it around the whole "
                "field; left out",
                "class.csv:10: has no name; left out",
                "class.csv:11: the name holds a line break or another control character; left "
                "out"}));
}

TEST(Roster, NamesWhereAQuotationMarkIsNeverClosed) {
  const auto roster = read_roster("name\nAna\n\"Ben\nCleo\n", "class.csv");
  EXPECT_EQ(roster.names, (Names{"Ana"}));
  EXPECT_EQ(defects(roster), (std::vector<std::string>{
                                 "class.csv:3: a quotation mark is opened here and never closed; "
                                 "left out"}));
}

TEST(Roster, RefusesAFileWithoutNames) {
  EXPECT_EQ(refusal(""), "class.csv:1: is empty, expected a first row that names the columns");
  EXPECT_EQ(refusal("\nid,crew\n1,a\n"),
            "class.csv:2: has no column called name or nombre, only: id, crew");
  EXPECT_EQ(refusal("name\n"), "class.csv:1: names nobody, expected a row for each seat");
  EXPECT_EQ(refusal("\"name\n"), "class.csv:1: a quotation mark is opened here and never closed");
}

TEST(Roster, RefusesOverlongAndSurrogateForms) {
  for (const char* name : {"\xc0\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80", "\xff", "\xe2\x82"})
    EXPECT_EQ(read_roster("name\n" + std::string(name) + "\n", "class.csv").defects.size(), 1u);
}

quiz::Accommodations of_row(const std::string& titles, const std::string& fields) {
  const auto roster = read_roster("name," + titles + "\nAna," + fields + "\n", "class.csv");
  EXPECT_EQ(roster.names, (Names{"Ana"})) << fields;
  EXPECT_EQ(texts(roster.notes), Names()) << titles;
  return roster.accommodations.size() == 1 ? roster.accommodations[0] : quiz::Accommodations{};
}

TEST(RosterAccommodations, AreReadInBothLanguages) {
  quiz::Accommodations all;
  all.language = engine::Language::spanish;
  all.large_print = true;
  all.without_figures = true;
  all.extra_minutes = 15;
  EXPECT_EQ(of_row("language,large print,without figures,extra time", "Spanish,yes,x,15 min"), all);
  EXPECT_EQ(of_row("Idioma,Letra_grande,sin-figuras,Tiempo extra", "español,Sí,1,15 minutos"), all);
  all.extra_percent = 50;
  all.extra_minutes = 0;
  EXPECT_EQ(of_row("language,large print,without figures,extra time", "ESPAÑOL,SÍ,true,50 %"), all);
  EXPECT_EQ(of_row("language,large print,without figures,extra time", ",no,,"),
            quiz::Accommodations());
  EXPECT_EQ(of_row("crew,linea,price", "a,b,c"), quiz::Accommodations());
}

TEST(RosterAccommodations, WhatIsNotUnderstoodIsNamedWithItsRow) {
  const auto roster = read_roster(
      "name,language,large print,without figures,extra time\n"
      "Ana,French,,,\n"
      "Ben,,perhaps,,\n"
      "Cem,,,maybe,\n"
      "Dee,,,,a while\n"
      "Eve,,,,5000\n"
      "Fay,,,,-5\n"
      "Gil,en,no,no,0%\n",
      "class.csv");
  EXPECT_EQ(roster.names, (Names{"Gil"}));
  EXPECT_EQ(roster.accommodations.size(), 1u);
  EXPECT_EQ(defects(roster),
            (std::vector<std::string>{
                "class.csv:2: language is French, expected English or Spanish; left out",
                "class.csv:3: large print is perhaps, expected yes or no; left out",
                "class.csv:4: without figures is maybe, expected yes or no; left out",
                "class.csv:5: extra time is a while, expected such as 25% or 15 min; left out",
                "class.csv:6: extra time is 5000, expected such as 25% or 15 min; left out",
                "class.csv:7: extra time is -5, expected such as 25% or 15 min; left out"}));
}

TEST(RosterAccommodations, AColumnThatLooksMisspeltIsNoted) {
  const auto roster = read_roster("name,large prnt\nAna,yes\n", "class.csv");
  EXPECT_EQ(
      texts(roster.notes),
      (std::vector<std::string>{
          "class.csv:1: note: the column large prnt is left alone; did you mean large print?"}));
  EXPECT_FALSE(roster.accommodations.at(0).large_print);
  EXPECT_EQ(refusal("name,language,idioma\nAna,en,es\n"),
            "class.csv:1: the column idioma stands twice, expected it once");
}

TEST(RosterAccommodations, AreWrittenSoThatReadingGivesThemAgain) {
  const Names names{"Ana \"la jefa\" Ejemplo, A-1", "=Ben", "'Cem", "  Dee", "Éva"};
  std::vector<quiz::Accommodations> needs(names.size());
  needs[0].language = engine::Language::spanish;
  needs[1].language = engine::Language::english;
  needs[1].large_print = true;
  needs[2].without_figures = true;
  needs[2].extra_percent = 25;
  needs[3].extra_minutes = 15;
  needs[4].extra_percent = 10;
  needs[4].extra_minutes = 5;
  const auto roster = read_roster(roster_csv(names, needs), "class.csv");
  EXPECT_EQ(roster.names, names);
  EXPECT_EQ(roster.accommodations, needs);
  EXPECT_EQ(defects(roster), Names());
  EXPECT_EQ(texts(roster.notes), Names());
}

TEST(RosterAccommodations, ExtraTimeIsTakenOnceAsPercentAndOnceAsMinutes) {
  quiz::Accommodations made;
  EXPECT_TRUE(read_extra_time("25% 15 min", made));
  EXPECT_EQ(made.extra_percent, 25);
  EXPECT_EQ(made.extra_minutes, 15);
  for (const char* text : {"15 min 20 min", "10% 20%", "1 2", "25 % x", "x", "% 25"}) {
    quiz::Accommodations none;
    EXPECT_FALSE(read_extra_time(text, none)) << text;
  }
}

TEST(RosterFaults, AreToldInSpanishToo) {
  const auto roster = read_roster("name,language\n,es\nAna,French\n\"Ben\" x,\n", "clase.csv");
  std::vector<std::string> spanish;
  for (const auto& fault : roster.defects) spanish.push_back(fault.text(engine::Language::spanish));
  EXPECT_EQ(
      spanish,
      (Names{"clase.csv:2: no tiene nombre; queda fuera",
             "clase.csv:3: el idioma es French, se esperaba español o inglés; queda fuera",
             "clase.csv:4: hay comillas dentro de un campo, se esperaban alrededor de todo el "
             "campo; queda fuera"}));
  try {
    read_roster("grupo\nA\n", "clase.csv");
    FAIL() << "was read";
  } catch (const FaultyRow& row) {
    EXPECT_EQ(row.says.spanish,
              "clase.csv:1: no tiene una columna llamada nombre o name, solo: grupo");
    EXPECT_EQ(row.fault.line, 1);
  }
}

}  // namespace
}  // namespace footroom::tasks
