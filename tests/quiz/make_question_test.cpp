#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "notation/typeset.hpp"
#include "quiz/compiled_item.hpp"
#include "quiz/fixture.hpp"

namespace footroom::quiz {
namespace {

using namespace tests;

const bank::Bank bank_of_tests = small_bank();
const Settings si = settings_of(notation::System::si);

const Shown& given(const Question& question, const std::string& name) {
  for (const Shown& shown : question.givens)
    if (shown.name == name) return shown;
  throw std::out_of_range(name);
}

// ---- Kind number -------------------------------------------------------------------------------

const std::string fall =
    item_xml("number",
             R"(<draw name="slope" symbol="L"><meaning><en>slope</en><es>pendiente</es></meaning>
<us unit="ft" from="12" to="24" step="1"/><si unit="m" from="3.6" to="7.2" step="0.2"/></draw>
<draw name="slack" symbol="sigma"><meaning><en>slack</en><es>holgura</es></meaning>
<us unit="ft" from="1.5" to="6" step="0.5"/><si unit="m" from="0.5" to="1.8" step="0.1"/></draw>
<calculation of="edge-fall" name="fall">
<input name="slope-length" value="slope"/><input name="pitch" value="6 pitch"/>
<input name="d-ring-height" value="5 ft"/><input name="slack" value="slack"/></calculation>
<keep if="fall.below-edge >= 0.5 ft"/>
)" + stem_xml("Slope {slope}, slack {slack}.") +
                 answer_xml("fall.free-fall") +
                 mistake_xml("less-slack", "change=\"fall.slack\" to=\"slack - 0.5 ft\"") +
                 mistake_xml("more-slack", "change=\"slack\" to=\"slack + 3 ft\"") +
                 mistake_xml("sum", "value=\"5 ft + slack\"") + "<step of=\"fall\"/>\n");

TEST(NumberQuestion, FollowsFromThePrintedNumbers) {
  for (std::uint32_t sheet = 0; sheet < 20; ++sheet) {
    const Question question = ask(bank_of_tests, fall, sheet);
    const double slope = given(question, "slope").number;
    const double slack = given(question, "slack").number;
    // The geometry of a fall over the eave, worked out here on its own, in feet.
    const double angle = std::atan(0.5);
    const double taut = std::hypot(slope * std::cos(angle), 5 - slope * std::sin(angle));
    ASSERT_TRUE(question.answer);
    EXPECT_NEAR(question.answer->number, 5 + taut + slack - slope, 1e-9);
    EXPECT_EQ(question.answer->unit, "ft");
    EXPECT_DOUBLE_EQ(question.answer->tolerance, 0.1);
    EXPECT_EQ(question.answer->text,
              notation::write_quantity(question.answer->number, *notation::find_unit("ft"), 1, {}));
  }
}

TEST(NumberQuestion, WorksOutMistakesWithAChangedInput) {
  const Question question = ask(bank_of_tests, fall);
  const double slack = given(question, "slack").number;
  ASSERT_EQ(question.mistakes.size(), 3u);
  EXPECT_EQ(question.mistakes[0].id, "less-slack");
  EXPECT_NEAR(*question.mistakes[0].number, question.answer->number - 0.5, 1e-9);
  EXPECT_NEAR(*question.mistakes[1].number, question.answer->number + 3, 1e-9);
  EXPECT_NEAR(*question.mistakes[2].number, 5 + slack, 1e-9);
  EXPECT_EQ(question.mistakes[2].says, "sum");
}

TEST(NumberQuestion, ShowsTheStepsThatLeadToTheAnswer) {
  const Question question = ask(bank_of_tests, fall);
  ASSERT_EQ(question.steps.size(), 4u);
  const WorkedStep::Line& last = *question.steps.back().line;
  EXPECT_EQ(last.name, "fall.free-fall");
  EXPECT_EQ(last.result, question.answer->text);
  EXPECT_EQ(notation::to_text(last.symbols), "FF = h + b");
  const WorkedStep::Line& first = *question.steps.front().line;
  const std::string slope = given(question, "slope").text;
  EXPECT_EQ(notation::to_text(first.numbers),
            "√((" + slope + " · cos 26.57°)² + (5\u00a0ft − " + slope + " · sin 26.57°)²)");
}

TEST(NumberQuestion, IsTheSameForTheSameKeyAndAnotherForAnother) {
  std::set<std::string> stems;
  for (std::uint32_t sheet = 0; sheet < 30; ++sheet) {
    const Question once = ask(bank_of_tests, fall, sheet);
    const Question again = ask(bank_of_tests, fall, sheet);
    EXPECT_EQ(once.stem, again.stem);
    EXPECT_EQ(once.answer->number, again.answer->number);
    stems.insert(once.stem);
  }
  EXPECT_GT(stems.size(), 15u);
}

TEST(NumberQuestion, UsesTheGridOfItsUnitSystem) {
  const Question question = ask(bank_of_tests, fall, 0, si);
  EXPECT_EQ(given(question, "slope").unit, "m");
  EXPECT_EQ(question.answer->unit, "m");
  EXPECT_EQ(question.stem, "Slope " + given(question, "slope").text + ", slack " +
                               given(question, "slack").text + ".");
}

TEST(NumberQuestion, RecordsCalculationsLetsAndSources) {
  const Question question = ask(bank_of_tests, fall);
  ASSERT_EQ(question.calculations.size(), 1u);
  EXPECT_EQ(question.calculations[0].id, "edge-fall");
  EXPECT_EQ(question.calculations[0].inputs[0].name, "slope-length");
  EXPECT_EQ(question.calculations[0].inputs[0].text, given(question, "slope").text);
  EXPECT_EQ(question.calculations[0].outputs[3].name, "free-fall");
  EXPECT_EQ(question.topic_title, "The roof");
  ASSERT_FALSE(question.sources.empty());
  EXPECT_EQ(question.sources[0].status, "second-hand");
  EXPECT_FALSE(question.cautions.empty());
}

TEST(NumberQuestion, ShowsALetAndALineForAnAnswerThatIsAFormula) {
  const std::string xml = item_xml(
      "number",
      draw_xml("part", 3, 9) +
          R"(<let name="whole" symbol="b_1" value="part * 3"><meaning><en>whole</en><es>total</es></meaning>
<us unit="ft" places="1"/><si unit="m" places="2"/></let>
)" + stem_xml("{part} {whole}") +
          answer_xml("whole - 1 ft") + "<step of=\"whole\"/>\n");
  const Question question = ask(bank_of_tests, xml);
  const double part = given(question, "part").number;
  ASSERT_EQ(question.lets.size(), 1u);
  EXPECT_NEAR(question.lets[0].number, 3 * part, 1e-9);
  EXPECT_EQ(question.lets[0].meaning, "whole");
  EXPECT_EQ(question.stem, given(question, "part").text + " " + question.lets[0].text);
  ASSERT_EQ(question.steps.size(), 2u);
  EXPECT_EQ(notation::to_text(question.steps[0].line->symbols), "b₁ = a · 3");
  EXPECT_EQ(question.steps[1].line->name, "answer");
  EXPECT_EQ(notation::to_text(question.steps[1].line->numbers),
            question.lets[0].text + " − 1\u00a0ft");
}

// ---- Draws that are thrown away ----------------------------------------------------------------

TEST(ThrownAwayDraws, AreThoseThatFailACondition) {
  const std::string xml =
      item_xml("number", draw_xml("part", 1, 20) + "<keep if=\"part >= 19 ft\"/>\n" +
                             stem_xml("s") + answer_xml("part * 1.1"));
  for (std::uint32_t sheet = 0; sheet < 20; ++sheet)
    EXPECT_GE(given(ask(bank_of_tests, xml, sheet), "part").number, 19);
}

TEST(ThrownAwayDraws, AreThoseOnARoundingBoundary) {
  // Half a foot at no places: odd numbers would print as a half rounded up or down.
  const std::string xml =
      item_xml("number", draw_xml("part", 1, 20) + stem_xml("s") + answer_xml("part / 2", 0));
  std::set<double> parts;
  for (std::uint32_t sheet = 0; sheet < 100; ++sheet)
    parts.insert(given(ask(bank_of_tests, xml, sheet), "part").number);
  EXPECT_EQ(parts, (std::set<double>{2, 4, 6, 8, 10, 12, 14, 16, 18, 20}));
}

TEST(ThrownAwayDraws, AreThoseInWhichAMistakePassesForRight) {
  // The mistake is off by part - 10 ft; within 0.1 ft and its own rounding that is part = 10 ft.
  const std::string xml =
      item_xml("number", draw_xml("part", 9, 11) + stem_xml("s") + answer_xml("part * 2") +
                             mistake_xml("other", "value=\"part + 10 ft\""));
  std::set<double> parts;
  for (std::uint32_t sheet = 0; sheet < 40; ++sheet)
    parts.insert(given(ask(bank_of_tests, xml, sheet), "part").number);
  EXPECT_EQ(parts, (std::set<double>{9, 11}));
}

TEST(ThrownAwayDraws, AreThoseInWhichTwoMistakesFallTogether) {
  const std::string xml =
      item_xml("number", draw_xml("part", 9, 11) + stem_xml("s") + answer_xml("part * 5") +
                             mistake_xml("one", "value=\"part + 10 ft\"") +
                             mistake_xml("two", "value=\"part * 2\""));
  std::set<double> parts;
  for (std::uint32_t sheet = 0; sheet < 40; ++sheet)
    parts.insert(given(ask(bank_of_tests, xml, sheet), "part").number);
  EXPECT_EQ(parts, (std::set<double>{9, 11}));
}

/// The values of `name` that are asked on many sheets.
std::set<double> asked_values(const std::string& xml, const std::string& name) {
  std::set<double> values;
  for (std::uint32_t sheet = 0; sheet < 200; ++sheet)
    values.insert(given(ask(bank_of_tests, xml, sheet), name).number);
  return values;
}

// The mistake lies exactly as far off as it must not: in binary a little more or less, by the draw.
TEST(ThrownAwayDraws, AreThoseInWhichTheLastBitOfAMistakeWouldDecide) {
  const std::string mistaken = "value=\"max(part + 0.17 ft, (part - 20 ft) * 9)\"";
  const std::string xml =
      item_xml("number", draw_xml("part", 1, 24) + stem_xml("s") + answer_xml("part + 0.02 ft") +
                             mistake_xml("near", mistaken));
  EXPECT_EQ(asked_values(xml, "part"), (std::set<double>{23, 24}));
  const std::string two = item_xml(
      "number", draw_xml("part", 1, 24) + stem_xml("s") + answer_xml("part * 3 + 100 ft") +
                    mistake_xml("one", "value=\"part + 0.02 ft\"") + mistake_xml("two", mistaken));
  EXPECT_EQ(asked_values(two, "part"), (std::set<double>{23, 24}));
}

TEST(ThrownAwayDraws, AreThoseThatACalculationRefuses) {
  // edge-fall takes a D-ring height up to 2 m (6.56 ft).
  const std::string xml =
      item_xml("number", draw_xml("height", 5, 9) + R"(<calculation of="edge-fall" name="fall">
<input name="slope-length" value="20 ft"/><input name="pitch" value="6 pitch"/>
<input name="d-ring-height" value="height"/><input name="slack" value="2 ft"/></calculation>
)" + stem_xml("s") + answer_xml("fall.free-fall"));
  for (std::uint32_t sheet = 0; sheet < 20; ++sheet)
    EXPECT_LE(given(ask(bank_of_tests, xml, sheet), "height").number, 6);
}

TEST(ThrownAwayDraws, AreThoseWhoseStepsAreRoundedTooMuchForTheAnswer) {
  // The let shows whole feet, the answer tenths of it times ten: only multiples of 3 survive.
  const std::string xml = item_xml(
      "number",
      draw_xml("part", 1, 12) +
          R"(<let name="third" symbol="b" value="part / 3"><meaning><en>a</en><es>b</es></meaning>
<us unit="ft" places="0"/><si unit="m" places="0"/></let>
)" + stem_xml("s") +
          answer_xml("third * 10") + "<step of=\"third\"/>\n");
  for (std::uint32_t sheet = 0; sheet < 30; ++sheet)
    EXPECT_EQ(std::fmod(given(ask(bank_of_tests, xml, sheet), "part").number, 3), 0);
}

TEST(ThrownAwayDraws, NameTheCommonestReasonWhenNoneIsLeft) {
  const std::string xml =
      item_xml("number", draw_xml("part", 1, 20) + "<keep if=\"part > 20 ft\"/>\n" + stem_xml("s") +
                             answer_xml("part"));
  EXPECT_EQ(refusal_of(bank_of_tests, xml),
            "item.xml:4: none of 1000 draws can be asked; 1000 were thrown away because the "
            "condition \"part > 20 ft\" does not hold");
}

TEST(ThrownAwayDraws, AreCountedByReason) {
  const bank::Item item =
      item_of(item_xml("number", draw_xml("part", 1, 20) + "<keep if=\"part >= 11 ft\"/>\n" +
                                     stem_xml("s") + answer_xml("part")));
  const CompiledItem compiled(bank_of_tests, item, settings_of());
  Tally tally;
  for (std::uint32_t sheet = 0; sheet < 200; ++sheet) compiled.make({1, sheet, 0, 0}, &tally);
  ASSERT_EQ(tally.reasons.size(), 1u);
  EXPECT_NEAR(tally.reasons.begin()->second.count, 200, 80);  // half of all draws
  EXPECT_EQ(tally.reasons.begin()->second.at.line, 4);
}

TEST(Conditions, GuardWhatIsWorkedOutAfterThem) {
  const std::string xml = item_xml("number", draw_xml("part", 1, 6) + R"(<keep if="part > 3 ft"/>
<let name="root" symbol="b" value="(1 ft * (part - 3 ft)) ^ 0.5"><meaning><en>a</en><es>b</es></meaning>
<us unit="ft" places="3"/><si unit="m" places="3"/></let>
)" + stem_xml("s") + answer_xml("root", 3));
  for (std::uint32_t sheet = 0; sheet < 20; ++sheet)
    EXPECT_GT(given(ask(bank_of_tests, xml, sheet), "part").number, 3);
}

// ---- The other kinds ---------------------------------------------------------------------------

TEST(OneOfNumbers, OffersTheAnswerAmongTheMistakesInAscendingOrder) {
  const std::string xml =
      item_xml("one-of", draw_xml("part", 3, 20) + stem_xml("s") + answer_xml("part * 2") +
                             mistake_xml("treble", "value=\"part * 3\"") +
                             mistake_xml("single", "value=\"part\""));
  for (std::uint32_t sheet = 0; sheet < 20; ++sheet) {
    const Question question = ask(bank_of_tests, xml, sheet);
    ASSERT_EQ(question.options.size(), 3u);
    EXPECT_EQ(question.options[0].id, "single");
    EXPECT_EQ(question.options[1].id, "answer");
    EXPECT_TRUE(question.options[1].right);
    EXPECT_EQ(question.options[2].letter, "C");
    EXPECT_FALSE(question.answer);
    EXPECT_EQ(question.mistakes[0].letter, "C");
  }
}

const std::string verdict =
    item_xml("verdict", draw_xml("height", 1, 12) + "<limit name=\"height\"/>\n" +
                            stem_xml("{height}, {limit.height}") + "<options>\n" +
                            option_xml("over", "right=\"height > limit.height\"") +
                            option_xml("under", "right=\"height &lt;= limit.height\"") +
                            option_xml("never", "right=\"false\"") + "</options>\n");

TEST(Verdict, HasOneRightOptionAndNeverStandsOnTheEdge) {
  std::set<std::string> right;
  std::set<std::string> first;
  for (std::uint32_t sheet = 0; sheet < 100; ++sheet) {
    const Question question = ask(bank_of_tests, verdict, sheet);
    const double height = given(question, "height").number;
    EXPECT_NE(height, 6);
    int count = 0;
    for (const Option& option : question.options) {
      if (!option.right) continue;
      ++count;
      right.insert(option.id);
      EXPECT_EQ(option.id, height > 6 ? "over" : "under");
    }
    EXPECT_EQ(count, 1);
    first.insert(question.options[0].id);
    EXPECT_EQ(question.mistakes.size(), 2u);
  }
  EXPECT_EQ(right.size(), 2u);
  EXPECT_EQ(first.size(), 3u);  // options are shuffled
}

TEST(Verdict, PrintsTheLimitAsPublishedInEachSystem) {
  const Question us = ask(bank_of_tests, verdict);
  EXPECT_EQ(us.stem, given(us, "height").text + ", 6\u00a0ft");
  ASSERT_EQ(us.limits.size(), 1u);
  EXPECT_EQ(us.limits[0].text, "6\u00a0ft");
  const Question metric = ask(bank_of_tests, verdict, 0, si);
  EXPECT_EQ(metric.limits[0].text, "1.8\u00a0m");
  EXPECT_EQ(metric.sources[0].citation, "invented");
}

TEST(Question, NamesItsSourcesInItsLanguage) {
  const std::string sourced = item_xml(
      "verdict",
      stem_xml("s") + "<options>\n" + option_xml("yes", "right=\"true\"") +
          option_xml("no", "right=\"false\"") + "</options>\n" +
          R"(<source citation="29 CFR 1" status="read"><en>holes</en><es>huecos</es></source>
<source status="computed"><en>plane geometry</en><es>geometría plana</es></source>
<source status="common-practice"/>
)");
  const auto lines = [&](engine::Language language) {
    std::vector<std::string> all;
    const Settings settings = settings_of(notation::System::us, language);
    for (const SourceLine& source : ask(bank_of_tests, sourced, 0, settings).sources)
      all.push_back(source.citation + "|" + source.supports + "|" + source.status);
    return all;
  };
  EXPECT_EQ(lines(engine::Language::english),
            (std::vector<std::string>{"29 CFR 1|holes|read", "plane geometry||computed",
                                      "common practice, no single source||common-practice"}));
  EXPECT_EQ(lines(engine::Language::spanish),
            (std::vector<std::string>{"29 CFR 1|huecos|read", "geometría plana||computed",
                                      "práctica común, sin una fuente única||common-practice"}));
}

TEST(SeveralOf, OffersSomeRightAndSomeWrong) {
  std::string options = "<options show=\"3\">\n";
  for (const char* id : {"a", "b", "c"}) options += option_xml(id, "right=\"true\"");
  for (const char* id : {"x", "y", "z"}) options += option_xml(id, "right=\"false\"");
  const std::string xml = item_xml("several-of", stem_xml("s") + options + "</options>\n");
  std::set<int> counts;
  for (std::uint32_t sheet = 0; sheet < 60; ++sheet) {
    const Question question = ask(bank_of_tests, xml, sheet);
    ASSERT_EQ(question.options.size(), 3u);
    counts.insert(static_cast<int>(std::count_if(question.options.begin(), question.options.end(),
                                                 [](const Option& o) { return o.right; })));
  }
  EXPECT_EQ(counts, (std::set<int>{1, 2}));
}

TEST(Options, AreOfferedOnlyWhereTheirConditionHolds) {
  const std::string xml = item_xml(
      "one-of", draw_xml("part", 1, 12) + stem_xml("s") + "<options>\n" +
                    option_xml("right", "right=\"true\"") + option_xml("wrong", "right=\"false\"") +
                    option_xml("long", "right=\"false\" when=\"part > 6.5 ft\"") + "</options>\n");
  for (std::uint32_t sheet = 0; sheet < 30; ++sheet) {
    const Question question = ask(bank_of_tests, xml, sheet);
    EXPECT_EQ(question.options.size(), given(question, "part").number > 6.5 ? 3u : 2u);
  }
}

TEST(Options, ThatReadTheSameAreNotOfferedTogether) {
  const std::string xml =
      item_xml("one-of", draw_xml("one", 1, 3) + draw_xml("two", 1, 3, "b") + stem_xml("s") +
                             "<options>\n" + option_xml("right", "right=\"true\"", "{one}") +
                             option_xml("wrong", "right=\"false\"", "{two}") + "</options>\n");
  for (std::uint32_t sheet = 0; sheet < 30; ++sheet) {
    const Question question = ask(bank_of_tests, xml, sheet);
    EXPECT_NE(given(question, "one").number, given(question, "two").number);
  }
}

TEST(Order, PlacesTheOptionsByRankAndThrowsTiesAway) {
  const std::string xml = item_xml(
      "order", draw_xml("one", 1, 4) + draw_xml("two", 1, 4, "b") + stem_xml("s") + "<options>\n" +
                   option_xml("one", "rank=\"one\"") + option_xml("two", "rank=\"two\"") +
                   option_xml("zero", "rank=\"0 ft\"") + "</options>\n");
  std::set<std::string> shown;
  for (std::uint32_t sheet = 0; sheet < 60; ++sheet) {
    const Question question = ask(bank_of_tests, xml, sheet);
    std::map<std::string, int> place;
    std::string order;
    for (const Option& option : question.options) {
      place[option.id] = option.place;
      order += option.id + " ";
    }
    shown.insert(order);
    EXPECT_EQ(place["zero"], 1);
    const bool one_first = given(question, "one").number < given(question, "two").number;
    EXPECT_NE(given(question, "one").number, given(question, "two").number);
    EXPECT_EQ(place["one"], one_first ? 2 : 3);
    EXPECT_EQ(place["two"], one_first ? 3 : 2);
    EXPECT_TRUE(question.mistakes.empty());
  }
  EXPECT_EQ(shown.size(), 6u);
}

// Equal in decimals: a last bit would tell which is the greater.
TEST(Order, ThrowsAwayRanksThatDifferInTheirLastBitOnly) {
  const std::string xml =
      item_xml("order", draw_xml("one", 1, 24) + stem_xml("s") + "<options>\n" +
                            option_xml("sum", "rank=\"one * 0.1 + one * 0.2\"") +
                            option_xml("product", "rank=\"max(one * 0.3, (one - 20 ft) * 3)\"") +
                            option_xml("zero", "rank=\"0 ft\"") + "</options>\n");
  EXPECT_EQ(asked_values(xml, "one"), (std::set<double>{23, 24}));
}

// With half a percent more the drawn length is the other one, but for a last bit.
TEST(Order, IsRefusedWhereRanksMeetAtHalfAPercent) {
  for (int length = 1; length <= 40; ++length) {
    const std::string drawn = option_xml("drawn", "rank=\"one\"");
    const std::string longer =
        option_xml("longer", "rank=\"" + std::to_string(length) + " ft * 1.005\"");
    for (const std::string& options : {drawn + longer, longer + drawn})
      EXPECT_NE(refusal_of(bank_of_tests,
                           item_xml("order", draw_xml("one", length, length) + stem_xml("s") +
                                                 "<options>\n" + options + "</options>\n"))
                    .find("half a percent of \"one\""),
                std::string::npos)
          << length;
  }
}

TEST(Picks, OfOnePoolDiffer) {
  const std::string xml = item_xml(
      "number",
      "<pick name=\"first\" pool=\"names\"/>\n<pick name=\"second\" pool=\"names\"/>\n"
      "<pick name=\"third\" pool=\"names\"/>\n" +
          draw_xml("part", 1, 3) + stem_xml("{first} {second} {third}") + answer_xml("part"));
  std::set<std::string> stems;
  for (std::uint32_t sheet = 0; sheet < 100; ++sheet)
    stems.insert(ask(bank_of_tests, xml, sheet).stem);
  EXPECT_EQ(stems, (std::set<std::string>{"ana bea carl", "ana carl bea", "bea ana carl",
                                          "bea carl ana", "carl ana bea", "carl bea ana"}));
}

TEST(Picks, CanDecideWhatIsRight) {
  const std::string xml =
      item_xml("one-of",
               R"(<pick name="where"><choice id="eave"><en>eave</en><es>alero</es></choice>
<choice id="ridge"><en>ridge</en><es>cumbrera</es></choice></pick>
)" + stem_xml("{where}") +
                   "<options>\n" + option_xml("low", "right=\"where == &quot;eave&quot;\"") +
                   option_xml("high", "right=\"where == &quot;ridge&quot;\"") + "</options>\n");
  for (std::uint32_t sheet = 0; sheet < 20; ++sheet) {
    const Question question = ask(bank_of_tests, xml, sheet,
                                  settings_of(notation::System::us, engine::Language::spanish));
    for (const Option& option : question.options)
      EXPECT_EQ(option.right, (option.id == "low") == (question.stem == "alero"));
  }
}

// Formulas have no lists: the words of one stand in one word, with blanks between.
TEST(Picks, CanDecideAListOfWords) {
  const std::string xml = item_xml(
      "one-of",
      R"xml(<pick name="back"><choice id="over"><en>over</en><es>encima</es></choice>
<choice id="under"><en>under</en><es>debajo</es></choice></pick>
<calculation of="rope-passes" name="ropes"><input name="workers" value="2"/>
<input name="passes" value="if(back == &quot;over&quot;, &quot;1-over 1-over&quot;, &quot;1-over 1-under&quot;)"/>
</calculation>
)xml" + stem_xml("{back}") +
          "<options>\n" + option_xml("free", "right=\"ropes.state == &quot;free&quot;\"") +
          option_xml("tangled", "right=\"ropes.state == &quot;tangled&quot;\"") + "</options>\n");
  std::set<std::string> stems;
  for (std::uint32_t sheet = 0; sheet < 20; ++sheet) {
    const Question question = ask(bank_of_tests, xml, sheet);
    stems.insert(question.stem);
    for (const Option& option : question.options)
      EXPECT_EQ(option.right, (option.id == "free") == (question.stem == "under"));
  }
  EXPECT_EQ(stems.size(), 2u);
}

// ---- What is refused ---------------------------------------------------------------------------

TEST(RefusedItems, NameFileAndLineAndWhatWasMeant) {
  const auto with = [](const std::string& parts) {
    return refusal_of(bank_of_tests, item_xml("number", draw_xml("part", 1, 3) + parts));
  };
  EXPECT_EQ(with(stem_xml("{prat}") + answer_xml("part")),
            "item.xml:4: unknown name {prat}; did you mean {part}?");
  EXPECT_EQ(with(stem_xml("{part") + answer_xml("part")),
            "item.xml:4: \"{part\" is not closed, expected a } behind the name");
  EXPECT_EQ(with(stem_xml("s") + answer_xml("prat")),
            "item.xml:5: unknown name \"prat\" in \"prat\"; did you mean \"part\"?");
  EXPECT_EQ(with(stem_xml("s") + answer_xml("limit.height")),
            "item.xml:5: \"limit.height\" is not declared, expected <limit name=\"height\"/> "
            "before");
  EXPECT_EQ(with("<limit name=\"heigth\"/>\n" + stem_xml("s") + answer_xml("part")),
            "item.xml:1: the rule set \"test\" has no limit \"heigth\"; did you mean \"height\"?");
  EXPECT_EQ(
      with("<calculation of=\"edge-fal\" name=\"fall\"/>\n" + stem_xml("s") + answer_xml("part")),
      "item.xml:4: unknown calculation \"edge-fal\"; did you mean \"edge-fall\"?");
  EXPECT_EQ(with("<calculation of=\"edge-fall\" name=\"fall\">\n<input name=\"slak\" "
                 "value=\"part\"/></calculation>\n" +
                 stem_xml("s") + answer_xml("part")),
            "item.xml:5: \"edge-fall\" has no input \"slak\"; did you mean \"slack\"?");
  EXPECT_EQ(
      with("<calculation of=\"edge-fall\" name=\"fall\"/>\n" + stem_xml("s") + answer_xml("part")),
      "item.xml:4: \"edge-fall\" lacks the input \"slope-length\"");
  EXPECT_EQ(
      with(stem_xml("s") + answer_xml("part") + mistake_xml("m", "change=\"prat\" to=\"0 ft\"")),
      "item.xml:6: change=\"prat\"; did you mean \"part\"?");
  EXPECT_EQ(with(stem_xml("s") + answer_xml("part") + "<step of=\"fall\"/>\n"),
            "item.xml:6: step of=\"fall\", expected a calculation, one of its outputs or a let");
}

TEST(RefusedItems, MeasureTheAnswerInAUnitOfAnotherDimension) {
  const std::string xml =
      item_xml("number", draw_xml("part", 1, 3) + stem_xml("s") + answer_xml("part * part"));
  EXPECT_EQ(refusal_of(bank_of_tests, xml),
            "item.xml:5: \"answer\" is an area, which \"ft\" does not measure");
}

TEST(RefusedItems, CompareAPickWithAWordItNeverIs) {
  const std::string xml =
      item_xml("number", draw_xml("part", 1, 3) + "<pick name=\"who\" pool=\"names\"/>\n" +
                             "<keep if='who == \"anna\"'/>\n" + stem_xml("s") + answer_xml("part"));
  EXPECT_EQ(refusal_of(bank_of_tests, xml),
            "item.xml:5: \"who\" is never \"anna\"; did you mean \"ana\"?");
}

TEST(RefusedItems, NeedALimitThatTheRuleSetDoesNotGiveInTheseUnits) {
  const std::string xml =
      item_xml("number", draw_xml("part", 1, 3) + "<limit name=\"us-only\"/>\n" + stem_xml("s") +
                             answer_xml("part"));
  EXPECT_EQ(refusal_of(bank_of_tests, xml), "none");
  EXPECT_EQ(refusal_of(bank_of_tests, xml, si),
            "item.xml:1: the limit \"us-only\" of the rule set \"test\" has no value in SI units "
            "(rules.xml:5)");
  Settings other = settings_of();
  other.rules = "tset";
  EXPECT_EQ(refusal_of(bank_of_tests, xml, other),
            "item.xml:1: unknown rule set \"tset\"; did you mean \"test\"?");
}

TEST(RefusedItems, HaveAToleranceFinerThanWhatIsPrinted) {
  std::string xml =
      item_xml("number", draw_xml("part", 1, 3) + stem_xml("s") + answer_xml("part", 0));
  const auto at = xml.find("places=\"0\"");
  xml.insert(at, "tolerance=\"0.4\" ");
  EXPECT_EQ(refusal_of(bank_of_tests, xml),
            "item.xml:5: the tolerance 0.4 is less than half of the last place shown, expected 0.5 "
            "or more");
}

}  // namespace
}  // namespace footroom::quiz
