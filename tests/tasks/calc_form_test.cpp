// The fields of a calculation's form, and plots of one result against one value.

#include "tasks/calc_form.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "tasks/bank_files.hpp"
#include "tasks/calc_plot.hpp"

namespace footroom::tasks {
namespace {

using engine::Language;
using notation::System;

class CalcForms : public ::testing::Test {
 protected:
  static const bank::RuleSet& rules(const std::string& name = "us-construction") {
    static const bank::Bank bank = [] {
      std::ostringstream defects;
      return read_sound_bank(FOOTROOM_SOURCE_DIR "/questionbank", defects);
    }();
    return find_rules(bank, name);
  }
  static CalcSetting setting(System system, Language language = Language::english,
                             char decimal_mark = '.') {
    return {system, {language, decimal_mark}, rules()};
  }
  static const engine::Calculation& calculation(std::string_view id) {
    return *engine::find_calculation(id);
  }
  static CalcForm example(std::string_view id, const CalcSetting& setting) {
    return fill_form(calculation(id), typed_example(calculation(id), setting), setting);
  }
  static double si(const ShownValues& values, std::string_view id) {
    return std::get<engine::Quantity>(values.find(id)->second.value).si;
  }
  static const CalcField& field(const CalcForm& form, std::string_view id) {
    for (const auto& one : form.fields)
      if (one.input->id == id) return one;
    throw std::logic_error("no field");
  }
  /// What `text` comes to in a field of a calculation, in SI units.
  static double read(std::string_view id, std::string_view input, const std::string& text,
                     const CalcSetting& setting) {
    const auto read = read_input(*calculation(id).find_input(input), text, setting);
    EXPECT_TRUE(read.quantity) << text << ": " << read.text;
    return read.quantity ? read.quantity->si : std::nan("");
  }
  static figure::Curve curve(const std::variant<figure::Plot, std::string>& plot) {
    if (const auto* why = std::get_if<std::string>(&plot)) throw std::runtime_error(*why);
    return std::get<figure::Plot>(plot).panels.at(0).curves.at(0);
  }
};

TEST_F(CalcForms, ReadWhatPeopleType) {
  const auto us = setting(System::us);
  for (const char* text : {"4.5", "4.5 ft", "4' 6\"", "4 ft 6 in", "4 1/2 ft", "4,5", "54 in"})
    EXPECT_DOUBLE_EQ(read("edge-fall", "slack", text, us), 4.5 * 0.3048) << text;
  EXPECT_DOUBLE_EQ(read("edge-fall", "slack", "1.4 m", us), 1.4);
  EXPECT_DOUBLE_EQ(read("edge-fall", "pitch", "6", us), std::atan(0.5));
  EXPECT_DOUBLE_EQ(read("edge-fall", "pitch", "6:12", us), std::atan(0.5));
  const auto si = setting(System::si, Language::spanish, ',');
  EXPECT_DOUBLE_EQ(read("edge-fall", "slack", "1,5", si), 1.5);
  EXPECT_DOUBLE_EQ(read("edge-fall", "slack", "5 pies", si), 5 * 0.3048);
  EXPECT_DOUBLE_EQ(read("absorber", "weight", "100 kg", si), 980.665);
}

TEST_F(CalcForms, TakeTheCommasAndPointsOfTheSetting) {
  EXPECT_DOUBLE_EQ(read("capstan", "force", "1,800 N", setting(System::si)), 1800);
  EXPECT_DOUBLE_EQ(read("capstan", "force", "1,800 N", setting(System::si, Language::spanish, ',')),
                   1.8);
}

TEST_F(CalcForms, RefuseBesideTheFieldInTheLanguage) {
  const auto& edge_fall = calculation("edge-fall");
  const Typed typed{
      {"slope-length", "20 kg"}, {"pitch", "steep"}, {"d-ring-height", ""}, {"slack", "2"}};
  const CalcForm english = fill_form(edge_fall, typed, setting(System::us));
  EXPECT_FALSE(english.outputs);
  EXPECT_EQ(field(english, "slope-length").fault, "is read as 20 kg; expected a value in ft");
  EXPECT_EQ(field(english, "pitch").fault, "cannot be read: there is no number in it");
  EXPECT_EQ(field(english, "d-ring-height").fault, "Write a value.");
  EXPECT_EQ(field(english, "slack").fault, "");
  const CalcForm spanish = fill_form(edge_fall, typed, setting(System::si, Language::spanish));
  EXPECT_EQ(field(spanish, "slope-length").fault, "se lee como 20 kg; se espera un valor en m");
  EXPECT_EQ(field(spanish, "pitch").fault, "no se puede leer: no tiene ningún número");
  EXPECT_EQ(field(spanish, "d-ring-height").fault, "Escriba un valor.");
}

TEST_F(CalcForms, SayWhatTheCalculationDeclines) {
  Typed typed = typed_example(calculation("edge-fall"), setting(System::us));
  typed.erase("slack");
  typed.emplace("slack", "-1");
  EXPECT_EQ(field(fill_form(calculation("edge-fall"), typed, setting(System::us)), "slack").fault,
            "is -1 ft, expected 0 ft to 98.4 ft");
  EXPECT_EQ(
      field(fill_form(calculation("edge-fall"), typed, setting(System::us, Language::spanish)),
            "slack")
          .fault,
      "es -1 ft; se espera 0 ft a 98.4 ft");
  Typed workers = typed_example(calculation("rope-passes"), setting(System::us));
  workers.erase("workers");
  workers.emplace("workers", "2.5");
  EXPECT_EQ(
      field(fill_form(calculation("rope-passes"), workers, setting(System::us, Language::spanish)),
            "workers")
          .fault,
      "es 2.5; se espera un número entero");
}

TEST_F(CalcForms, TakeTheLimitOfTheRuleSetForAnEmptyField) {
  const CalcForm form = example("largest-slack", setting(System::us));
  ASSERT_TRUE(form.outputs);
  EXPECT_DOUBLE_EQ(si(form.given.inputs, "free-fall-limit"), 6 * 0.3048);  // 29 CFR 1926.502(d)(16)
  const auto limits = limits_met(form, setting(System::us));
  ASSERT_EQ(limits.size(), 1U);
  EXPECT_EQ(limits[0].citation, "29 CFR 1926.502(d)(16)(iii)");
  EXPECT_EQ(limits[0].text, "6 ft");
  const CalcSetting european{System::us, {}, rules("european")};
  const CalcForm without = example("largest-slack", european);
  EXPECT_FALSE(without.outputs);
  EXPECT_EQ(field(without, "free-fall-limit").fault, "Write a value.");
}

TEST_F(CalcForms, SetTheLimitOnAResult) {
  const auto us = setting(System::us);
  const auto of_slack = [&](const std::string& slack) {
    const Typed typed{
        {"slope-length", "16"}, {"pitch", "6"}, {"d-ring-height", "5"}, {"slack", slack}};
    return limits_met(fill_form(calculation("edge-fall"), typed, us), us).at(0);
  };
  EXPECT_TRUE(of_slack("4").broken);  // 7.47 ft, as README.md works it out
  EXPECT_FALSE(of_slack("2").broken);
}

/// Free fall over the eave is h + b, and b grows with the slack foot by foot.
TEST_F(CalcForms, PlotAResultAgainstAValue) {
  const auto us = setting(System::us);
  const CalcForm form = example("edge-fall", us);
  const auto& slack = *calculation("edge-fall").find_input("slack");
  const auto& free_fall = *calculation("edge-fall").find_output("free-fall");
  const double base = si(*form.outputs, "free-fall") / 0.3048 - 2;  // the example has 2 ft
  const auto found = curve(plot_of(form.given, {&slack, &free_fall, 2 * 0.3048, 10 * 0.3048}, us));
  ASSERT_GT(found.points.size(), 200U);
  EXPECT_TRUE(found.breaks.empty());
  EXPECT_DOUBLE_EQ(found.points.front().x, 2);
  EXPECT_DOUBLE_EQ(found.points.back().x, 10);
  for (const auto point : found.points) EXPECT_NEAR(point.y, base + point.x, 1e-9);
}

TEST_F(CalcForms, BreakACurveWhereTheResultJumps) {
  const auto us = setting(System::us);
  const CalcForm form = example("rafters", us);
  const auto& length = *calculation("rafters").find_input("ridge-length");
  const auto& count = *calculation("rafters").find_output("count");
  const auto found = curve(plot_of(form.given, {&length, &count, 10 * 0.3048, 20 * 0.3048}, us));
  // First rafter at 3/4 in, the others every 16 in: one more at 0.75 in + n 16 in.
  std::vector<double> jumps;
  for (const std::size_t at : found.breaks) jumps.push_back(found.points.at(at).x);
  std::vector<double> expected;
  for (int n = 0; (0.75 + 16 * n) / 12 < 20; ++n)
    if ((0.75 + 16 * n) / 12 > 10) expected.push_back((0.75 + 16 * n) / 12);
  ASSERT_EQ(jumps.size(), expected.size());
  for (std::size_t i = 0; i < jumps.size(); ++i) EXPECT_NEAR(jumps[i], expected[i], 1e-6);
}

/// The line must reach over the rake: hypot(6, 10) ft in the example.
TEST_F(CalcForms, BeginACurveWhereTheCalculationTakesTheValue) {
  const auto us = setting(System::us);
  const CalcForm form = example("rake-swing", us);
  const auto& line = *calculation("rake-swing").find_input("line");
  const auto& drop = *calculation("rake-swing").find_output("free-fall");
  const auto found = curve(plot_of(form.given, {&line, &drop, 5 * 0.3048, 20 * 0.3048}, us));
  const double taut =
      std::hypot(6, 10 * std::cos(std::atan(0.5)), 5 - 10 * std::sin(std::atan(0.5)));
  EXPECT_NEAR(found.points.front().x, std::max(std::hypot(6, 10), taut), 1e-9);
  const auto nowhere = plot_of(form.given, {&line, &drop, 1 * 0.3048, 5 * 0.3048}, us);
  ASSERT_TRUE(std::holds_alternative<std::string>(nowhere));
  EXPECT_EQ(std::get<std::string>(nowhere),
            "Nothing can be worked out in this range: does not let the worker over the rake there: "
            "the fall ends on the roof.");
}

TEST_F(CalcForms, PlotWholeNumbersOneByOne) {
  const auto us = setting(System::us);
  const CalcForm form = example("anchor-strength", us);
  const auto& persons = *calculation("anchor-strength").find_input("persons");
  const auto& needed = *calculation("anchor-strength").find_output("strength-needed");
  const auto found = curve(plot_of(form.given, {&persons, &needed, 1, 4}, us));
  ASSERT_EQ(found.points.size(), 8U);
  for (std::size_t i = 0; i < 4; ++i)
    EXPECT_NEAR(found.points[2 * i].y, 5000.0 * double(i + 1), 1e-6);  // 29 CFR 1926.502(d)(15)
}

/// draw_plot() throws for a number that is not finite.
TEST_F(CalcForms, DrawEveryPlotOfTheCatalogue) {
  std::size_t drawn = 0;
  for (const System system : {System::us, System::si}) {
    const auto in = setting(system, system == System::us ? Language::english : Language::spanish);
    for (const auto* calculation : engine::catalogue()) {
      const CalcForm form = example(calculation->id, in);
      ASSERT_TRUE(form.outputs) << calculation->id;
      std::vector<const engine::Input*> across;
      std::vector<const engine::Output*> up;
      for (const auto& input : calculation->inputs)
        if (can_be_plotted(form.given.inputs.find(input.id)->second)) across.push_back(&input);
      for (const auto& output : calculation->outputs)
        if (can_be_plotted(form.outputs->find(output.id)->second)) up.push_back(&output);
      for (std::size_t i = 0; i < std::max(across.size(), up.size()); ++i) {
        if (across.empty() || up.empty()) break;
        const auto* input = across[i % across.size()];
        const auto* output = up[i % up.size()];
        auto asked = default_range(form.given, *input, *output);
        EXPECT_LT(asked.from, asked.to) << calculation->id << " " << input->id;
        for (const bool whole : {false, true}) {
          if (whole) {
            asked.from = input->domain.lowest;
            asked.to = std::min(input->domain.highest, 1e6);
          }
          const auto plot = plot_of(form.given, asked, in);
          if (!whole) {
            ASSERT_TRUE(std::holds_alternative<figure::Plot>(plot))
                << calculation->id << " " << input->id << ": " << std::get<std::string>(plot);
          }
          if (!std::holds_alternative<figure::Plot>(plot)) continue;
          EXPECT_NO_THROW(figure::draw_plot(std::get<figure::Plot>(plot)))
              << calculation->id << " " << input->id << " " << output->id;
          ++drawn;
        }
      }
    }
  }
  EXPECT_GT(drawn, 300U);
}

}  // namespace
}  // namespace footroom::tasks
