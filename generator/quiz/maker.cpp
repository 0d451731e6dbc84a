#include "quiz/maker.hpp"

#include <fmt/format.h>

#include <array>
#include <map>
#include <memory>

#include "bank/digest.hpp"
#include "quiz/apportion.hpp"
#include "quiz/blueprint.hpp"
#include "quiz/compiled_item.hpp"
#include "quiz/families.hpp"
#include "quiz/reference_box.hpp"
#include "quiz/swap.hpp"

namespace footroom::quiz {
namespace {

/// Where in the space of keys the families are drawn, apart from every question.
constexpr std::uint32_t families_position = 0x8000'0000;
constexpr std::uint32_t no_sheet = 0xFFFF'FFFF;

/// 25 bits of SHA-256 in five digits of base 32 without I, L, O and U, which are misread.
std::string short_code(const std::string& of) {
  constexpr std::string_view digits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  auto number = std::stoul(bank::sha256(of).substr(0, 8), nullptr, 16) >> 7;
  std::string code(5, '0');
  for (auto digit = code.rbegin(); digit != code.rend(); ++digit, number /= 32)
    *digit = digits[number % 32];
  return code;
}

const bank::RuleSet& rule_set(const bank::Bank& bank, const bank::Blueprint& blueprint,
                              const std::string& id) {
  const auto found = bank.rules.find(id);
  if (found != bank.rules.end()) return found->second;
  std::vector<std::string> ids;
  for (const auto& [one, rules] : bank.rules) ids.push_back(one);
  const auto near = notation::suggest(id, ids);
  throw CannotMake(blueprint.at, fmt::format("unknown rule set \"{}\"{}", id,
                                             near ? fmt::format("; did you mean \"{}\"?", *near)
                                                  : ", expected a file in rules/"));
}

Header make_header(const bank::Bank& bank, const bank::Blueprint& blueprint,
                   const Settings& settings) {
  const bool english = settings.style.language == engine::Language::english;
  const auto in_language = [&](const bank::Text& text) {
    return english ? text.english : text.spanish;
  };
  const bool us = settings.system == notation::System::us;
  Header header;
  std::string makes_it = fmt::format(
      "bank {}\nblueprint {}\nseed {}\ndate {}\nunits {}\nlanguage {}\ndecimal mark {}\nrules {}\n",
      bank.digest, blueprint.id, settings.seed, settings.date, us ? "us" : "si",
      english ? "en" : "es", settings.style.decimal_mark, settings.rules);
  if (!settings.course_plan.empty())
    makes_it += fmt::format("course {} week {}\n", settings.course_plan, settings.week);
  for (const std::string& topic : settings.topics) makes_it += fmt::format("topic {}\n", topic);
  for (const EarlierQuiz& quiz : settings.before)
    makes_it += fmt::format("after {}\n", fmt::join(quiz.items, " "));
  for (const auto& [item, level] : settings.levels)
    makes_it += fmt::format("level {} {}\n", item, level);
  header.swaps = outcome_of(settings.swaps);
  for (const auto& [number, swapped] : header.swaps)
    makes_it += fmt::format("swap {} {} {}\n", number, swapped.item, swapped.draw);
  header.code = short_code(makes_it);
  header.program = settings.program;
  header.bank_digest = bank.digest;
  header.blueprint = blueprint.id;
  header.title = in_language(blueprint.title);
  header.course = in_language(blueprint.course);
  header.seed = settings.seed;
  header.date = settings.date;
  header.system = settings.system;
  header.style = settings.style;
  header.rules = settings.rules;
  header.rules_title = in_language(rule_set(bank, blueprint, settings.rules).title);
  header.paper = settings.paper;
  header.sheets = settings.sheets;
  header.minutes = blueprint.minutes;
  header.course_plan = settings.course_plan;
  header.week = settings.week;
  header.topics = settings.topics;
  header.levels = settings.levels;
  for (const EarlierQuiz& quiz : settings.before) header.after.push_back(quiz.code);
  return header;
}

/// What each question of a sheet counts: what the section says or the item, in that proportion of
/// the quiz's points where the blueprint has them.
std::vector<int> points_of(const std::vector<ChosenFamily>& families,
                           const bank::Blueprint& blueprint) {
  std::vector<int> points;
  for (const ChosenFamily& family : families) {
    const int of_section = blueprint.sections[family.section].points;
    points.push_back(of_section > 0 ? of_section : family.item->points);
  }
  return blueprint.points > 0 ? apportion(blueprint.points, points, 1) : points;
}

}  // namespace

/// What is worked out once for all sheets.
struct Maker::Plan {
  std::vector<ChosenFamily> families;  ///< of every sheet; empty where each seat has its own
  std::map<const bank::Item*, std::unique_ptr<const CompiledItem>> compiled;
};

Maker::Maker(const bank::Bank& bank, const bank::Blueprint& blueprint, Settings settings)
    : bank_(bank),
      blueprint_(settings.topics.empty() ? blueprint : restricted_to(blueprint, settings.topics)),
      settings_(std::move(settings)),
      header_(make_header(bank, blueprint_, settings_)) {
  auto plan = std::make_shared<Plan>();
  const auto families = families_of(blueprint_.same_items ? no_sheet : 0);
  remarks_ = remarks_on(families, bank_, blueprint_, settings_);
  if (blueprint_.same_items) plan->families = families;
  const auto compile = [&](const bank::Item& item) {
    plan->compiled.emplace(&item, std::make_unique<CompiledItem>(bank_, item, settings_));
  };
  if (blueprint_.same_items) {
    for (const ChosenFamily& family : families) compile(*family.item);
  } else {
    for (const bank::Item* item : possible_families(bank_, blueprint_, settings_)) compile(*item);
  }
  plan_ = std::move(plan);
}

std::vector<ChosenFamily> Maker::families_of(std::uint32_t sheet) const {
  return swapped(
      choose_families(bank_, blueprint_, settings_, {settings_.seed, sheet, families_position, 0}),
      bank_, blueprint_, settings_);
}

Sheet Maker::sheet(int index) const {
  const auto number = static_cast<std::uint32_t>(index);
  const auto families = blueprint_.same_items ? plan_->families : families_of(number);
  Sheet sheet;
  sheet.seat = seat_name(index);
  if (number < settings_.names.size()) sheet.name = settings_.names[number];
  sheet.code = header_.code + "-" + sheet.seat;
  const std::vector<int> points = points_of(families, blueprint_);
  std::vector<Made> made;
  for (std::uint32_t position = 0; position < families.size(); ++position) {
    const ChosenFamily& family = families[position];
    made.push_back(plan_->compiled.at(family.item)
                       ->make({settings_.seed, number, position, family.draw * most_attempts}));
    made.back().question.number = static_cast<int>(position) + 1;
    made.back().question.points = points[position];
    sheet.points += made.back().question.points;
    sheet.minutes += made.back().question.minutes;
  }
  sheet.box = make_reference_box(made, settings_);
  for (Made& one : made) sheet.questions.push_back(std::move(one.question));
  return sheet;
}

std::string seat_name(int index) {
  std::string name;
  for (int rest = index; rest >= 0; rest = rest / 26 - 1)
    name.insert(name.begin(), static_cast<char>('A' + rest % 26));
  return name;
}

}  // namespace footroom::quiz
