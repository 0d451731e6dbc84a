// Every calculation of the catalogue through its page, in both languages and unit systems.

#include <gtest/gtest.h>

#include "desk/open_desk.hpp"
#include "figure/figure.hpp"
#include "render/escape.hpp"
#include "tasks/bank_files.hpp"
#include "tasks/calc_page.hpp"
#include "tasks/examples.hpp"

namespace footroom::desk::testing {
namespace {

using engine::Calculation;
using notation::System;

struct Edition {
  const char* language;
  const char* units;
  const char* decimal_mark;
  System system;
  notation::Style style;
};
const Edition editions[] = {
    {"en", "us", "point", System::us, {engine::Language::english, '.'}},
    {"en", "si", "point", System::si, {engine::Language::english, '.'}},
    {"es", "us", "point", System::us, {engine::Language::spanish, '.'}},
    {"es", "si", "comma", System::si, {engine::Language::spanish, ','}},
};

class CalculationRoom : public ::testing::Test {
 protected:
  Scratch scratch;
  OpenDesk desk{scratch.path / "desk"};
  Visitor visitor{desk};

  void choose(const Edition& edition) {
    const auto saved = visitor.send("/preferences", "/preferences",
                                    {{"language", edition.language},
                                     {"units", edition.units},
                                     {"decimal-mark", edition.decimal_mark},
                                     {"paper", "letter"},
                                     {"rules", "us-construction"},
                                     {"course", ""}});
    ASSERT_EQ(saved->status, 303) << saved->body;
  }
  static std::string encoded(const std::string& text) {
    std::string all;
    for (const char c : text) {
      char code[4];
      std::snprintf(code, sizeof code, "%%%02X", static_cast<unsigned char>(c));
      all += code;
    }
    return all;
  }
  static std::string address(const Calculation& calculation) {
    return "/calculations/" + std::string(calculation.id);
  }
  /// The manual's example with one input typed otherwise.
  static std::string with(const Calculation& calculation, std::string_view changed,
                          const std::string& text) {
    std::string path = address(calculation) + "?" + std::string(changed) + "=" + encoded(text);
    for (const std::string& word : tasks::example_words(calculation.id, System::us)) {
      const std::string name = word.substr(0, word.find('='));
      if (name != changed) path += "&" + name + "=" + encoded(word.substr(word.find('=') + 1));
    }
    return path;
  }
  static bool is_refused(const std::string& body, std::string_view input, bool group) {
    return body.find("id=\"" + std::string(input) + "-error\"") != std::string::npos &&
           body.find("href=\"#" + std::string(input) + (group ? "-1" : "") + "\"") !=
               std::string::npos &&
           body.find("id=\"results\"") == std::string::npos;
  }
};

TEST_F(CalculationRoom, ShowsEachExampleAsTheCalculationGivesIt) {
  std::ostringstream defects;
  const auto bank = tasks::read_sound_bank(FOOTROOM_SOURCE_DIR "/questionbank", defects);
  const auto& rules = tasks::find_rules(bank, "us-construction");
  for (const Edition& edition : editions) {
    choose(edition);
    const auto list = visitor.get("/calculations");
    for (const auto* calculation : engine::catalogue()) {
      SCOPED_TRACE(std::string(calculation->id) + " " + edition.language + " " + edition.units);
      const auto escaped = [](std::string_view text) { return render::escape_xml(text); };
      EXPECT_NE(list->body.find("href=\"" + address(*calculation) + "\""), std::string::npos);
      const auto page = visitor.get(address(*calculation));
      ASSERT_EQ(page->status, 200) << page->body;
      const std::string& body = page->body;
      const auto given = tasks::read_case(
          *calculation, tasks::example_words(calculation->id, edition.system), edition.system,
          edition.style, [&]() -> const bank::RuleSet& { return rules; });
      const auto outputs = tasks::run_case(given);
      for (const auto& [name, shown] : outputs)
        EXPECT_NE(body.find("<strong>" + escaped(shown.text) + "</strong>"), std::string::npos)
            << name << " " << shown.text;
      for (const auto& step : tasks::taken_steps(given, outputs))
        EXPECT_NE(body.find("<p>" + escaped(step.says) + "</p>"), std::string::npos) << step.says;
      for (const auto& source : tasks::cited(given))
        EXPECT_NE(body.find(escaped(source.citation)), std::string::npos) << source.citation;
      for (const auto& caution : calculation->cautions)
        EXPECT_NE(body.find(escaped(caution.in(edition.style.language))), std::string::npos);
      EXPECT_EQ(body.find("id=\"scene-title\"") != std::string::npos,
                tasks::drawing_of(given, outputs).has_value());
      EXPECT_NE(body.find(edition.style.language == engine::Language::english
                              ? "a training aid, not a design"
                              : "no un diseño"),
                std::string::npos);
      EXPECT_EQ(body.find("class=\"error\""), std::string::npos);
    }
  }
}

TEST_F(CalculationRoom, RefusesAndEscapesHostileTextInEveryInput) {
  const std::string evil = "\"><script>alert(1)</script>' onload='x' &amp;";
  for (const auto* calculation : engine::catalogue())
    for (const auto& input : calculation->inputs) {
      const auto page = visitor.get(with(*calculation, input.id, evil));
      ASSERT_EQ(page->status, 200) << calculation->id << " " << input.id;
      EXPECT_EQ(page->body.find("<script>alert"), std::string::npos) << input.id;
      const bool group = !input.choices.empty() && !input.word_example.empty();
      EXPECT_TRUE(is_refused(page->body, input.id, group)) << calculation->id << " " << input.id;
    }
}

TEST_F(CalculationRoom, RefusesWhatLiesOutsideADomain) {
  choose(editions[3]);
  for (const auto* calculation : engine::catalogue())
    for (const auto& input : calculation->inputs) {
      if (!input.choices.empty() || !input.word_example.empty()) continue;
      const auto page = visitor.get(with(*calculation, input.id, "-99999"));
      ASSERT_EQ(page->status, 200);
      EXPECT_TRUE(is_refused(page->body, input.id, false)) << calculation->id << " " << input.id;
      EXPECT_NE(page->body.find("se espera"), std::string::npos) << calculation->id;
    }
}

TEST_F(CalculationRoom, DrawsAPlotThatCanBeKeptAsAnAddress) {
  const auto* edge_fall = engine::find_calculation("edge-fall");
  const std::string values = with(*edge_fall, "slack", "4 ft");
  const std::string plot = values + "&plot-input=slack&plot-output=free-fall";
  const auto drawn = visitor.get(plot + "&plot-from=0&plot-to=" + encoded("8' 6\""));
  EXPECT_NE(drawn->body.find("id=\"plot-drawing-title\""), std::string::npos);
  EXPECT_NE(drawn->body.find("at 4 ft: 7.5 ft"), std::string::npos);  // as README.md has it
  EXPECT_NE(drawn->body.find("29 CFR 1926.502(d)(16)(iii)"), std::string::npos);
  EXPECT_NE(drawn->body.find("is read as 8 ft 6 in"), std::string::npos);
  const auto refused = [&](const std::string& more, const std::string& field) {
    const auto page = visitor.get(more);
    return page->status == 200 &&
           page->body.find("id=\"" + field + "-error\"") != std::string::npos &&
           page->body.find("plot-drawing-title") == std::string::npos;
  };
  EXPECT_TRUE(refused(plot + "&plot-from=5&plot-to=5", "plot-to"));
  EXPECT_TRUE(refused(plot + "&plot-from=5%20kg", "plot-from"));
  EXPECT_TRUE(refused(plot + "&plot-to=1000", "plot-to"));
  EXPECT_TRUE(refused(values + "&plot-input=nothing&plot-output=free-fall", "plot-input"));
  EXPECT_TRUE(refused(values + "&plot-input=slack&plot-output=end", "plot-output"));
}

TEST_F(CalculationRoom, DrawsThePlotsOfTheCommand) {
  EXPECT_NE(visitor.get("/calculations/arrest-in-time")->body.find("id=\"history-drawing-title\""),
            std::string::npos);
  const std::string slack = "/calculations/clearance-against-slack";
  EXPECT_NE(visitor.get(slack)->body.find("id=\"plot-drawing-title\""), std::string::npos);
  const auto none = visitor.get(slack +
                                "?slope-length=16&pitch=6&d-ring-height=5&slack=0"
                                "&datum=below-d-ring&body-below=5");
  EXPECT_NE(none->body.find("id=\"slack-error\""), std::string::npos);
  EXPECT_EQ(none->body.find("id=\"plot-drawing-title\""), std::string::npos);
}

TEST_F(CalculationRoom, TellsHowAFieldIsRead) {
  const std::string reading = "/calculations/edge-fall/reading?input=slack&typed=";
  EXPECT_EQ(visitor.get(reading + encoded("4' 6\""))->body, "is read as 4 ft 6 in");
  EXPECT_EQ(visitor.get(reading + "4")->body, "is read as 4 ft");
  EXPECT_EQ(visitor.get(reading + "much")->body, "cannot be read: there is no number in it");
  EXPECT_EQ(visitor.get(reading)->body, "");
  EXPECT_EQ(visitor.get("/calculations/edge-fall/reading?input=none&typed=1")->status, 404);
  EXPECT_EQ(visitor.get("/calculations/nothing")->status, 404);
}

TEST_F(CalculationRoom, SaysWhatThePracticePageLacks) {
  const auto page = visitor.get("/practice");
  EXPECT_EQ(page->status, 500);
  EXPECT_NE(page->body.find("no core for the tests"), std::string::npos);
  EXPECT_EQ(visitor.get("/practice/hand-out")->status, 200);
}

}  // namespace
}  // namespace footroom::desk::testing
