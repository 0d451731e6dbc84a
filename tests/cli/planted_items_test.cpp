// A bank with twelve kinds of defect and one sound item: `bank check` names each defect with file
// and line, and still checks what is sound.

#include <gtest/gtest.h>

#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "cli/program_run.hpp"
#include "cli/small_bank.hpp"

namespace footroom::cli {
namespace {

using testing::put;
using testing::Ran;
using testing::run_in;
using testing::Scratch;
using testing::small_bank;

/// Each defect is told once, with the unit system that first showed it.
///
/// Line 1 is <item>, 4 and 6 grids, 7 a let, 11 the answer's units, 14 the last mistake, 15 a step.
const std::string number =
    R"(<item xmlns="urn:footroom:bank" id="ID" topic="roof" level="1" kind="number" training="iii">
<title><en>Line and spare</en><es>Cuerda y sobrante</es></title>
<draw name="slope-length" symbol="L"><meaning><en>slope length</en><es>largo de la pendiente</es></meaning>
<us unit="ft" from="12" to="32" step="0.5"/><si unit="m" from="3.6" to="9.6" step="0.1"/></draw>
<draw name="spare" symbol="s"><meaning><en>spare</en><es>sobrante</es></meaning>
<us unit="ft" from="1" to="4" step="0.1"/><si unit="m" from="0.3" to="1.2" step="0.05"/></draw>
<let name="line" symbol="l" value="slope-length + spare"><meaning><en>line</en><es>cuerda</es></meaning>
<us unit="ft" places="1"/><si unit="m" places="2"/></let>
<stem><en>The slope is {slope-length} long. Leave {spare} to spare. How long is the line?</en><es>La pendiente mide {slope-length}. Deje {spare} de más. ¿Cuánto mide la cuerda?</es></stem>
<answer value="line">
<us unit="ft" places="1"/><si unit="m" places="2"/></answer>
<mistake id="none" value="slope-length"><en>The spare is left out.</en><es>Falta el sobrante.</es></mistake>
<mistake id="minus" value="slope-length - spare"><en>The spare is taken off.</en><es>El sobrante está restado.</es></mistake>
<mistake id="twice" value="line + spare"><en>The spare counts once.</en><es>El sobrante cuenta una vez.</es></mistake>
<step of="line"/>
<source citation="a sum of two lengths" status="computed"/>
</item>
)";

/// Lines 4 and 6 are grids, 9 to 12 options.
const std::string verdict =
    R"(<item xmlns="urn:footroom:bank" id="ID" topic="roof" level="1" kind="verdict" training="iii">
<title><en>Long enough</en><es>Alcanza</es></title>
<draw name="line" symbol="l"><meaning><en>line</en><es>cuerda</es></meaning>
<us unit="ft" from="10" to="60" step="0.5"/><si unit="m" from="3" to="18" step="0.1"/></draw>
<draw name="slope" symbol="L"><meaning><en>slope</en><es>pendiente</es></meaning>
<us unit="ft" from="10" to="60" step="0.5"/><si unit="m" from="3" to="18" step="0.1"/></draw>
<stem><en>The line is {line} long, the slope {slope}. Is it enough?</en><es>La cuerda mide {line}, la pendiente {slope}. ¿Alcanza?</es></stem>
<options>
<option id="enough" right="line > slope"><en>Enough</en><es>Alcanza</es><says><en>Compare.</en><es>Compare.</es></says></option>
<option id="short" right="line &lt; slope"><en>Too short</en><es>No alcanza</es><says><en>Compare.</en><es>Compare.</es></says></option>
<option id="never" right="false"><en>No line is</en><es>Ninguna</es><says><en>Compare.</en><es>Compare.</es></says></option>
<option id="always" right="false"><en>Any line is</en><es>Cualquiera</es><says><en>Compare.</en><es>Compare.</es></says></option>
</options>
<source citation="a comparison of two lengths" status="computed"/>
</item>
)";

std::string with(std::string text, const std::string& was, const std::string& by) {
  const auto at = text.find(was);
  if (at == text.npos) throw std::runtime_error("not found: " + was);
  return text.replace(at, was.size(), by);
}

class PlantedItems : public ::testing::Test {
 protected:
  PlantedItems() {
    for (const char* part : {"topics.xml", "rules"})
      testing::fs::copy(small_bank / part, bank() / part, testing::fs::copy_options::recursive);
  }
  testing::fs::path bank() {
    testing::fs::create_directories(scratch_.path / "bank");
    return scratch_.path / "bank";
  }
  void plant(const std::string& id, const std::string& text, const std::string& topic = "roof") {
    std::string item = with(with(text, "id=\"ID\"", "id=\"" + id + "\""), "topic=\"roof\"",
                            "topic=\"" + topic + "\"");
    put(bank() / "items" / topic / (id + ".xml"), item);
  }
  std::vector<std::string> lines(const std::string& text) {
    std::vector<std::string> all;
    std::istringstream in(text);
    for (std::string line; std::getline(in, line);) all.push_back(line);
    return all;
  }
  Ran check() {
    return run_in(scratch_.path, {"bank", "check", "--draws", "200", "--bank", "bank"});
  }

 private:
  Scratch scratch_;
};

TEST_F(PlantedItems, AreSoundBeforeAnythingIsWrong) {
  plant("number", number);
  plant("verdict", verdict);
  const Ran ran = check();
  EXPECT_EQ(ran.code, 0);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(ran.out, "items checked: 2, defects found in draws: 0\n");
}

TEST_F(PlantedItems, AreEachNamedAndTheSoundOneIsStillChecked) {
  plant("sound", number);
  plant("both-right", with(verdict, "line &lt; slope", "line > slope"));
  plant("close", with(number, "line + spare", "line + 0.01 ft"));
  plant("dimension", with(number, "slope-length + spare", "slope-length + 3 lbf"));
  std::string edge = verdict;
  for (int i = 0; i < 2; ++i) {
    edge = with(edge, R"(from="10" to="60" step="0.5")", R"(from="30" to="30.1" step="0.05")");
    edge = with(edge, R"(from="3" to="18" step="0.1")", R"(from="9" to="9.02" step="0.01")");
  }
  plant("edge", edge);
  plant("spanish", with(number, "<es>Cuerda y sobrante</es>", ""));
  plant("calculation",
        with(number, "<step of", "<calculation of=\"edge-fal\" name=\"fall\"/><step of"));
  plant("unit",
        with(number, "<answer value=\"line\">\n<us unit=\"ft\"", "<answer value=\"line\">\n<us"));
  plant("condition", with(number, "<step of", "<keep if=\"spare > 99 ft\"/><step of"));
  plant("typo", with(number, "slope-length + spare", "slope-lenght + spare"));
  plant("twice", number);
  plant("twice", number, "rules");
  put(bank() / "rules" / "planted.xml", R"(<rules xmlns="urn:footroom:bank" id="planted">
<title><en>Planted</en><es>Plantadas</es></title>
<limit id="height" us="6 ft" citation=" " status="read"><en>height</en><es>altura</es></limit>
</rules>
)");
  plant("variants", with(number, "to=\"32\" step=\"0.5\"", "to=\"32\" step=\"10\""));
  const Ran ran = check();
  EXPECT_EQ(ran.code, 1);
  const std::string items = "bank/items/roof/";
  EXPECT_EQ(
      lines(ran.err),
      (std::vector<std::string>{
          items + "spanish.xml:2: <title> lacks <es>, expected both <en> and <es>",
          items + "unit.xml:11: <us> lacks the attribute \"unit\"",
          "bank/items/rules/twice.xml:1: id=\"twice\" is another item's, expected each once",
          "bank/rules/planted.xml:3: citation is empty, expected where <limit> comes from",
          items + "both-right.xml:10: the options \"enough\" and \"short\" are right at once, "
                  "expected exactly one right option (US units, seed 1, draw 0)",
          items + "calculation.xml:15: unknown calculation \"edge-fal\"; did you mean "
                  "\"edge-fall\"? (US units, seed 1, 200 draws)",
          items + "close.xml:14: none of 1000 draws can be asked; 1000 were thrown away because "
                  "the mistake \"twice\" comes within the tolerance of the answer (US units, seed "
                  "1, draw 0)",
          items + "condition.xml:15: none of 1000 draws can be asked; 1000 were thrown away "
                  "because the condition \"spare > 99 ft\" does not hold (US units, seed 1, draw "
                  "0)",
          items + "dimension.xml:7: \"slope-length + 3 lbf\", column 14: adds a force to a length "
                  "(US units, seed 1, draw 0)",
          items + "edge.xml:1: none of 1000 draws can be asked; 1000 were thrown away because "
                  "what is right turns on half a percent of \"line\" (US units, seed 1, draw 0)",
          items + "typo.xml:7: unknown name \"slope-lenght\" in \"slope-lenght + spare\"; did you "
                  "mean \"slope-length\"? (US units, seed 1, 200 draws)",
          items + "variants.xml:1: about 93 different questions, expected 1000 or more (US units, "
                  "seed 1, 200 draws)",
      }));
  EXPECT_EQ(ran.out,
            "items checked: 10, defects found in draws: 8; files above could not be read\n");
}

TEST_F(PlantedItems, WithoutASourceOrWithAHardStemAreNamed) {
  plant("unsourced",
        with(number, "<source citation=\"a sum of two lengths\" status=\"computed\"/>", ""));
  plant("hard",
        with(with(number, "Leave {spare} to spare.",
                  "Considering manufacturers' recommendations regarding installation procedures, "
                  "additional length necessitates {spare}."),
             "Deje {spare} de más.",
             "Considerando las recomendaciones correspondientes del fabricante, adicionalmente "
             "proporcione {spare} complementarios."));
  const Ran ran = check();
  EXPECT_EQ(ran.code, 1);
  EXPECT_EQ(
      lines(ran.err),
      (std::vector<std::string>{
          // 20 words, 46 syllables, 3 sentences
          "bank/items/roof/hard.xml:9: the English stem reads at US grade 14.2 (Flesch-Kincaid), "
          "expected 8.0 or less (US units, seed 1, draw 0)",
          // 18 words, 54 syllables, 3 sentences
          "bank/items/roof/hard.xml:9: the Spanish stem has a reading ease of 20.7 (Fernández "
          "Huerta), expected 70.0 or more (US units, seed 1, draw 0)",
          "bank/items/roof/unsourced.xml:1: no source is named, expected a <source>, a "
          "<calculation> or a <limit> (US units, seed 1, draw 0)",
      }));
}

}  // namespace
}  // namespace footroom::cli
