#include "quiz/maker.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <numeric>
#include <set>

#include "notation/typeset.hpp"
#include "quiz/fixture.hpp"

namespace footroom::quiz {
namespace {

using namespace tests;

bank::Bank bank_with_items() {
  bank::Bank bank = small_bank();
  for (int i = 0; i < 4; ++i)
    bank.items.push_back(item_of(
        item_xml("number", draw_xml("part", 1, 90) + stem_xml("{part}") + answer_xml("part"),
                 "sum-" + std::to_string(i), i == 0 ? 3 : 1)));
  bank.items.push_back(item_of(item_xml("number",
                                        draw_xml("part", 1, 90) + "<limit name=\"us-only\"/>\n" +
                                            stem_xml("{part}") + answer_xml("part"),
                                        "limited", 2)));
  bank.items.push_back(item_of(item_xml(
      "number", draw_xml("part", 1, 90) + stem_xml("{part}") + answer_xml("part"), "swings", 1)));
  bank.items.back().topic = "swing";
  return bank;
}

bank::Blueprint blueprint_of(std::vector<bank::Section> sections) {
  bank::Blueprint blueprint;
  blueprint.id = "short";
  blueprint.title = {"Short", "Breve", {}};
  blueprint.course = {"Course", "Curso", {}};
  blueprint.minutes = 20;
  blueprint.sections = std::move(sections);
  blueprint.at = {"blueprint.xml", 1};
  return blueprint;
}

bank::Section section(const std::string& topic, int questions, std::vector<int> levels = {}) {
  return {topic, questions, std::move(levels), {"blueprint.xml", 7}};
}

std::vector<std::string> items_of(const Sheet& sheet) {
  std::vector<std::string> ids;
  for (const Question& question : sheet.questions) ids.push_back(question.item);
  return ids;
}

std::string refusal_of_quiz(const bank::Bank& bank, const bank::Blueprint& blueprint,
                            const Settings& settings = settings_of()) {
  try {
    const Maker maker(bank, blueprint, settings);
  } catch (const CannotMake& refusal) {
    return refusal.what();
  }
  return "none";
}

TEST(Maker, OrdersByTopicThenLevelAndNumbersTheQuestions) {
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("swing", 1), section("roof", 5)});
  const Maker maker(bank, blueprint, settings_of());
  const Sheet sheet = maker.sheet(0);
  EXPECT_EQ(items_of(sheet),
            (std::vector<std::string>{"sum-1", "sum-2", "sum-3", "limited", "sum-0", "swings"}));
  EXPECT_EQ(sheet.questions.front().number, 1);
  EXPECT_EQ(sheet.questions.back().number, 6);
  EXPECT_EQ(sheet.points, 6);
  EXPECT_EQ(sheet.minutes, 18);
}

TEST(Maker, FillsLevelsByThoseThatStandInForTheItemsOwn) {
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("roof", 1, {4})});
  EXPECT_NE(refusal_of_quiz(bank, blueprint), "none");
  Settings settings = settings_of();
  settings.levels = {{"sum-2", 4}};
  const Maker maker(bank, blueprint, settings);
  EXPECT_EQ(items_of(maker.sheet(0)), (std::vector<std::string>{"sum-2"}));
  EXPECT_EQ(maker.header().levels, settings.levels);

  const bank::Blueprint all = blueprint_of({section("roof", 5)});
  EXPECT_EQ(items_of(Maker(bank, all, settings).sheet(0)),
            (std::vector<std::string>{"sum-1", "sum-3", "limited", "sum-0", "sum-2"}));
  EXPECT_NE(Maker(bank, all, settings).header().code,
            Maker(bank, all, settings_of()).header().code);
}

TEST(Maker, FillsALevelMixByThemToo) {
  const bank::Bank bank = bank_with_items();
  bank::Blueprint blueprint = blueprint_of({section("roof", 2)});
  blueprint.levels = {{4, std::nullopt, 2, std::nullopt, {"blueprint.xml", 9}}};
  Settings settings = settings_of();
  settings.levels = {{"sum-1", 4}, {"sum-3", 4}};
  EXPECT_EQ(items_of(Maker(bank, blueprint, settings).sheet(0)),
            (std::vector<std::string>{"sum-1", "sum-3"}));
}

TEST(Maker, GivesEverySeatTheSameFamiliesWithItsOwnNumbers) {
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("roof", 2)});
  const Maker maker(bank, blueprint, settings_of());
  std::set<std::string> stems;
  for (int seat = 0; seat < 20; ++seat) {
    EXPECT_EQ(items_of(maker.sheet(seat)), items_of(maker.sheet(0)));
    stems.insert(maker.sheet(seat).questions[0].stem + maker.sheet(seat).questions[1].stem);
  }
  EXPECT_EQ(stems.size(), 20u);
}

TEST(Maker, GivesEachSeatItsOwnFamiliesWhereTheBlueprintSaysSo) {
  const bank::Bank bank = bank_with_items();
  bank::Blueprint blueprint = blueprint_of({section("roof", 2)});
  blueprint.same_items = false;
  const Maker maker(bank, blueprint, settings_of());
  std::set<std::vector<std::string>> chosen;
  for (int seat = 0; seat < 40; ++seat) {
    const auto ids = items_of(maker.sheet(seat));
    EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), 2u);
    chosen.insert(ids);
  }
  EXPECT_GT(chosen.size(), 3u);
}

TEST(Maker, MakesASheetTheSameWhateverWasMadeBefore) {
  const bank::Bank bank = bank_with_items();
  bank::Blueprint blueprint = blueprint_of({section("roof", 3), section("swing", 1)});
  for (const bool same : {true, false}) {
    blueprint.same_items = same;
    const Maker forwards(bank, blueprint, settings_of());
    const Maker alone(bank, blueprint, settings_of());
    Sheet last;
    for (int seat = 0; seat <= 7; ++seat) last = forwards.sheet(seat);
    const Sheet only = alone.sheet(7);
    ASSERT_EQ(items_of(last), items_of(only));
    for (std::size_t i = 0; i < only.questions.size(); ++i) {
      EXPECT_EQ(last.questions[i].stem, only.questions[i].stem);
      EXPECT_EQ(last.questions[i].answer->number, only.questions[i].answer->number);
    }
  }
}

TEST(Maker, FillsSectionsThatShareItems) {
  // Whatever the first section draws, the second one needs the only item of level 3.
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("roof", 4), section("roof", 1, {3})});
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    Settings settings = settings_of();
    settings.seed = seed;
    const auto ids = items_of(Maker(bank, blueprint, settings).sheet(0));
    EXPECT_EQ(std::set<std::string>(ids.begin(), ids.end()).size(), 5u);
  }
}

TEST(Maker, RefusesABlueprintThatAsksForTooMuch) {
  const bank::Bank bank = bank_with_items();
  EXPECT_EQ(refusal_of_quiz(bank, blueprint_of({section("swing", 2)})),
            "blueprint.xml:7: the section \"swing\" asks for 2 questions, but the bank has 1 that "
            "fit");
  EXPECT_EQ(
      refusal_of_quiz(bank, blueprint_of({section("roof", 5)}), settings_of(notation::System::si)),
      "blueprint.xml:7: the section \"roof\" asks for 5 questions, but the bank has 4 that "
      "fit (1 more need a limit that the rule set \"test\" does not give in SI units)");
  EXPECT_EQ(refusal_of_quiz(bank, blueprint_of({section("roof", 3), section("roof", 3)})),
            "blueprint.xml:7: the section \"roof\" asks for 3 questions, but the bank has 5 that "
            "fit, and other sections need some of them");
  Settings settings = settings_of();
  settings.rules = "tests";
  EXPECT_EQ(refusal_of_quiz(bank, blueprint_of({section("roof", 1)}), settings),
            "blueprint.xml:1: unknown rule set \"tests\"; did you mean \"test\"?");
}

TEST(Maker, GivesPointsByItemSectionOrShareOfTheQuizsTotal) {
  const bank::Bank bank = bank_with_items();
  bank::Blueprint blueprint = blueprint_of({section("roof", 2), section("swing", 1)});
  const auto points = [&] {
    std::vector<int> all;
    const Sheet sheet = Maker(bank, blueprint, settings_of()).sheet(0);
    for (const Question& question : sheet.questions) all.push_back(question.points);
    EXPECT_EQ(sheet.points, std::accumulate(all.begin(), all.end(), 0));
    return all;
  };
  EXPECT_EQ(points(), (std::vector<int>{1, 1, 1}));
  blueprint.sections[1].points = 3;
  EXPECT_EQ(points(), (std::vector<int>{1, 1, 3}));
  blueprint.points = 11;  // 2.2, 2.2 and 6.6
  EXPECT_EQ(points(), (std::vector<int>{2, 2, 7}));
  blueprint.points = 3;
  blueprint.sections[1].points = 50;
  EXPECT_EQ(points(), (std::vector<int>{1, 1, 1}));
}

TEST(Maker, LeavesOutItemsWhoseLimitIsNotGiven) {
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("roof", 4)});
  const Maker maker(bank, blueprint, settings_of(notation::System::si));
  for (const std::string& id : items_of(maker.sheet(0))) EXPECT_NE(id, "limited");
}

TEST(Maker, NamesSeatsSheetsAndPeople) {
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("roof", 1)});
  Settings settings = settings_of();
  settings.names = {"Ana"};
  const Maker maker(bank, blueprint, settings);
  EXPECT_EQ(maker.sheet(0).name, "Ana");
  EXPECT_EQ(maker.sheet(1).name, "");
  EXPECT_EQ(maker.sheet(27).seat, "AB");
  EXPECT_EQ(maker.sheet(1).code, maker.header().code + "-B");
  EXPECT_EQ(seat_name(0), "A");
  EXPECT_EQ(seat_name(25), "Z");
  EXPECT_EQ(seat_name(26), "AA");
  EXPECT_EQ(seat_name(701), "ZZ");
  EXPECT_EQ(seat_name(702), "AAA");
}

TEST(Header, CodeHasFiveDigitsAndDependsOnWhatMakesTheQuizButNotOnTheProgram) {
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("roof", 1)});
  const auto code = [&](const Settings& settings) {
    return Maker(bank, blueprint, settings).header().code;
  };
  Settings settings = settings_of();
  const std::string before = code(settings);
  EXPECT_EQ(before.size(), 5u);
  EXPECT_EQ(before.find_first_not_of("0123456789ABCDEFGHJKMNPQRSTVWXYZ"), before.npos);
  settings.program = "9.9";
  settings.sheets = 30;
  EXPECT_EQ(code(settings), before);
  settings.seed = 2;
  EXPECT_NE(code(settings), before);
  settings = settings_of();
  settings.date = "2026-01-05";
  EXPECT_NE(code(settings), before);
  settings = settings_of();
  settings.before = {{"7K3QX", "", {"sum-1"}}};
  EXPECT_NE(code(settings), before);
  settings = settings_of();
  settings.topics = {"roof"};
  EXPECT_NE(code(settings), before);
  settings = settings_of();
  settings.course_plan = "course";
  settings.week = 2;
  EXPECT_NE(code(settings), before);
}

TEST(Header, IsInTheQuizsLanguage) {
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("roof", 1)});
  const Maker maker(bank, blueprint, settings_of(notation::System::us, engine::Language::spanish));
  EXPECT_EQ(maker.header().title, "Breve");
  EXPECT_EQ(maker.header().course, "Curso");
  EXPECT_EQ(maker.header().rules_title, "Reglas de prueba");
}

TEST(ReferenceBox, HasEachFormulaSymbolAndLimitOnceAndNoLets) {
  bank::Bank bank = small_bank();
  const auto fall = [](const std::string& id) {
    return item_of(item_xml("number",
                            draw_xml("slope", 12, 24, "L") + "<limit name=\"height\"/>\n" +
                                R"(<calculation of="edge-fall" name="fall">
<input name="slope-length" value="slope"/><input name="pitch" value="6 pitch"/>
<input name="d-ring-height" value="5 ft"/><input name="slack" value="2 ft"/></calculation>
<let name="spare" symbol="Q" value="limit.height - fall.free-fall"><meaning><en>a</en><es>b</es></meaning>
<us unit="ft" places="1"/><si unit="m" places="2"/></let>
)" + stem_xml("s") + answer_xml("spare") +
                                "<step of=\"fall\"/>\n<step of=\"spare\"/>\n",
                            id));
  };
  bank.items = {fall("one"), fall("two")};
  const bank::Blueprint blueprint = blueprint_of({section("roof", 2)});
  const ReferenceBox box = Maker(bank, blueprint, settings_of()).sheet(0).box;
  ASSERT_EQ(box.formulas.size(), 1u);
  EXPECT_EQ(box.formulas[0].title, "Fall over the eave, straight down");
  std::vector<std::string> lines;
  for (const FormulaLine& line : box.formulas[0].lines)
    lines.push_back(notation::to_text(line.formula));
  EXPECT_EQ(lines, (std::vector<std::string>{"d₀ = √((L cos θ)² + (h − L sin θ)²)", "l = d₀ + σ",
                                             "b = l − L", "FF = h + b"}));
  std::set<std::string> symbols;
  for (const SymbolLine& line : box.formulas[0].symbols)
    symbols.insert(notation::to_text(line.symbol));
  EXPECT_EQ(symbols.size(), box.formulas[0].symbols.size());
  EXPECT_EQ(symbols, (std::set<std::string>{"d₀", "L", "θ", "h", "l", "σ", "b", "FF"}));
  ASSERT_EQ(box.limits.size(), 1u);
  EXPECT_EQ(box.limits[0].text, "6\u00a0ft");
}

TEST(ReferenceBox, LeavesTheLimitThatAQuestionInWordsAsksForToTheKey) {
  bank::Bank bank = small_bank();
  bank.items = {item_of(item_xml(
      "one-of", "<limit name=\"height\"/>\n" + stem_xml("How high?") + "<options>\n" +
                    option_xml("right", "right=\"true\"", "{limit.height}") +
                    option_xml("low", "right=\"false\"", "half of that") +
                    option_xml("high", "right=\"false\"", "twice that") + "</options>\n"))};
  const bank::Blueprint blueprint = blueprint_of({section("roof", 1)});
  const Sheet sheet = Maker(bank, blueprint, settings_of()).sheet(0);
  EXPECT_TRUE(sheet.box.limits.empty());
  ASSERT_EQ(sheet.questions.at(0).limits.size(), 1u);
  EXPECT_EQ(sheet.questions.at(0).limits[0].text, "6\u00a0ft");
}

TEST(Secret, ChangesDrawsAndCodeAndHidesTheSeed) {
  const bank::Bank bank = bank_with_items();
  const bank::Blueprint blueprint = blueprint_of({section("roof", 3)});
  const auto make = [&](std::uint64_t seed, const std::string& secret) {
    Settings settings = settings_of();
    settings.seed = seed;
    settings.secret = secret;
    const Maker maker(bank, blueprint, settings);
    std::string all = maker.header().code;
    for (const Question& question : maker.sheet(0).questions) all += " " + question.stem;
    return all;
  };
  const std::string secret(32, 'a');
  EXPECT_EQ(make(5, secret), make(5, secret));
  EXPECT_NE(make(5, secret), make(5, std::string(32, 'b')));
  EXPECT_NE(make(5, secret), make(6, secret));
  // Whoever guesses the seed alone has neither the code nor the questions.
  EXPECT_NE(make(5, secret).substr(0, 5), make(5, "").substr(0, 5));
  EXPECT_NE(make(5, secret).substr(5), make(5, "").substr(5));
}

TEST(Accommodations, ASeatHasItsLanguageAndTheWordsOfTheClass) {
  const bank::ReadBank read =
      bank::read_bank(std::filesystem::path(FOOTROOM_SOURCE_DIR) / "questionbank");
  Settings settings = settings_of();
  settings.rules = "us-construction";
  settings.sheets = 2;
  settings.accommodations.resize(2);
  settings.accommodations[1].language = engine::Language::spanish;
  settings.accommodations[1].extra_percent = 50;
  settings.accommodations[1].extra_minutes = 1;
  const Maker maker(read.bank, read.bank.blueprints.at("weekly"), settings);
  settings.accommodations.clear();
  const Maker english(read.bank, read.bank.blueprints.at("weekly"), settings);
  settings.style.language = engine::Language::spanish;
  const Maker spanish(read.bank, read.bank.blueprints.at("weekly"), settings);

  EXPECT_FALSE(maker.sheet(0).accommodations.language);
  const Sheet mixed = maker.sheet(1);
  const Sheet in_english = english.sheet(1);
  const Sheet in_spanish = spanish.sheet(1);
  EXPECT_EQ(items_of(mixed), items_of(in_english));
  EXPECT_EQ(mixed.accommodations.extra_minutes, (mixed.minutes + 1) / 2 + 1);
  EXPECT_EQ(header_of(maker.header(), mixed).title, spanish.header().title);
  EXPECT_EQ(header_of(maker.header(), mixed).rules_title, spanish.header().rules_title);
  EXPECT_EQ(header_of(maker.header(), maker.sheet(0)).title, english.header().title);
  ASSERT_EQ(mixed.questions.size(), in_english.questions.size());
  for (std::size_t i = 0; i < mixed.questions.size(); ++i) {
    const Question& question = mixed.questions[i];
    EXPECT_EQ(question.stem, in_spanish.questions[i].stem);
    ASSERT_TRUE(question.class_words);
    EXPECT_EQ(question.class_words->title, in_english.questions[i].title);
    EXPECT_EQ(question.class_words->topic_title, in_english.questions[i].topic_title);
    for (const Mistake& mistake : in_english.questions[i].mistakes)
      EXPECT_EQ(question.class_words->says.at(mistake.id), mistake.says);
    EXPECT_FALSE(in_english.questions[i].class_words);
  }
}

TEST(WeeklyQuiz, IsMadeInBothSystemsAndLanguagesForAClass) {
  const bank::ReadBank read =
      bank::read_bank(std::filesystem::path(FOOTROOM_SOURCE_DIR) / "questionbank");
  for (const auto system : {notation::System::us, notation::System::si})
    for (const auto language : {engine::Language::english, engine::Language::spanish}) {
      Settings settings = settings_of(system, language);
      settings.rules = "us-construction";
      const Maker maker(read.bank, read.bank.blueprints.at("weekly"), settings);
      for (int seat = 0; seat < 3; ++seat) EXPECT_EQ(maker.sheet(seat).questions.size(), 12u);
    }
}

}  // namespace
}  // namespace footroom::quiz
