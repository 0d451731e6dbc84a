#include "quiz/maker.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <memory>

#include "bank/digest.hpp"
#include "engine/wording.hpp"
#include "quiz/apportion.hpp"
#include "quiz/blueprint.hpp"
#include "quiz/compiled_item.hpp"
#include "quiz/families.hpp"
#include "quiz/reference_box.hpp"
#include "quiz/short_code.hpp"
#include "quiz/swap.hpp"

namespace footroom::quiz {
namespace {

/// Where in the space of keys the families are drawn, apart from every question.
constexpr std::uint32_t families_position = 0x8000'0000;
constexpr std::uint32_t no_sheet = 0xFFFF'FFFF;

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

std::string code_from(std::string makes_it, const std::string& secret) {
  return short_code(secret.empty() ? std::move(makes_it) : "secret " + secret + "\n" + makes_it);
}

std::string written(const std::map<int, Swapped>& swaps) {
  std::string text;
  for (const auto& [number, swapped] : swaps)
    text += fmt::format("swap {} {} {}\n", number, swapped.item, swapped.draw);
  return text;
}

const std::string& in_language(const bank::Text& text, engine::Language language) {
  return language == engine::Language::english ? text.english : text.spanish;
}

Header make_header(const bank::Bank& bank, const bank::Blueprint& blueprint,
                   const Settings& settings) {
  const engine::Language language = settings.style.language;
  const bool us = settings.system == notation::System::us;
  Header header;
  std::string makes_it = fmt::format(
      "bank {}\nblueprint {}\nseed {}\ndate {}\nunits {}\nlanguage {}\ndecimal mark {}\nrules {}\n",
      bank.digest, blueprint.id, settings.seed, settings.date, us ? "us" : "si",
      language == engine::Language::english ? "en" : "es", settings.style.decimal_mark,
      settings.rules);
  if (!settings.course_plan.empty())
    makes_it += fmt::format("course {} week {}\n", settings.course_plan, settings.week);
  for (const std::string& topic : settings.topics) makes_it += fmt::format("topic {}\n", topic);
  for (const EarlierQuiz& quiz : settings.before)
    makes_it += fmt::format("after {}\n", fmt::join(quiz.items, " "));
  for (const auto& [item, level] : settings.levels)
    makes_it += fmt::format("level {} {}\n", item, level);
  header.swaps = outcome_of(settings.swaps);
  header.code = code_from(makes_it + written(header.swaps), settings.secret);
  header.program = settings.program;
  header.bank_digest = bank.digest;
  header.blueprint = blueprint.id;
  header.title = in_language(blueprint.title, language);
  header.course = in_language(blueprint.course, language);
  header.seed = settings.seed;
  header.secret = settings.secret;
  header.date = settings.date;
  header.system = settings.system;
  header.style = settings.style;
  header.rules = settings.rules;
  header.rules_title = in_language(rule_set(bank, blueprint, settings.rules).title, language);
  header.paper = settings.paper;
  header.sheets = settings.sheets;
  header.minutes = blueprint.minutes;
  header.course_plan = settings.course_plan;
  header.week = settings.week;
  header.topics = settings.topics;
  header.levels = settings.levels;
  header.accommodations =
      std::make_shared<const std::vector<Accommodations>>(settings.accommodations);
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

/// What all draws are keyed by. With a secret, these 64 bits say nothing of the seed.
std::uint64_t draw_seed(std::uint64_t seed, const std::string& secret) {
  if (secret.empty()) return seed;
  const std::string digest = bank::sha256(fmt::format("draws\nsecret {}\nseed {}\n", secret, seed));
  return std::stoull(digest.substr(0, 16), nullptr, 16);
}

/// The settings that an item's words follow from.
Settings for_items(const Settings& settings, engine::Language language) {
  Settings made;
  made.system = settings.system;
  made.style = settings.style;
  made.style.language = language;
  made.rules = settings.rules;
  return made;
}

ClassWords words_of(const Question& question) {
  ClassWords words{question.title,
                   question.topic_title,
                   question.answer ? question.answer->text : std::string(),
                   {}};
  for (const Option& option : question.options)
    if (!option.says.empty()) words.says[option.id] = option.says;
  for (const Mistake& mistake : question.mistakes) words.says[mistake.id] = mistake.says;
  return words;
}

}  // namespace

struct AskedItem {
  const bank::Item* item;
  std::uint32_t draw;
  int points;
};

namespace {

std::vector<AskedItem> asked_from(const std::vector<ChosenFamily>& families,
                                  const bank::Blueprint& blueprint) {
  const std::vector<int> points = points_of(families, blueprint);
  std::vector<AskedItem> asked;
  for (std::size_t i = 0; i < families.size(); ++i)
    asked.push_back({families[i].item, families[i].draw, points[i]});
  return asked;
}

Settings settings_from(const Header& header, const std::vector<Sheet>& made) {
  Settings settings;
  settings.seed = header.seed;
  settings.secret = header.secret;
  settings.sheets = static_cast<int>(made.size());
  settings.system = header.system;
  settings.style = header.style;
  settings.rules = header.rules;
  for (const Sheet& sheet : made) {
    settings.names.push_back(sheet.name);
    settings.accommodations.push_back(sheet.accommodations);
  }
  return settings;
}

std::vector<std::vector<AskedItem>> recorded_items(const bank::Bank& bank,
                                                   const std::vector<Sheet>& made,
                                                   const std::map<int, Swapped>& swaps) {
  std::map<std::string_view, const bank::Item*> items;
  for (const bank::Item& item : bank.items) items[item.id] = &item;
  std::vector<std::vector<AskedItem>> by_sheet;
  for (const Sheet& sheet : made) {
    if (sheet.seat != seat_name(static_cast<int>(by_sheet.size())))
      throw engine::InBothLanguages<CannotMakeAgain>(
          engine::Wording{fmt::format("has seat {} where {} was expected", sheet.seat,
                                      seat_name(static_cast<int>(by_sheet.size()))),
                          fmt::format("tiene el puesto {} donde se esperaba {}", sheet.seat,
                                      seat_name(static_cast<int>(by_sheet.size())))});
    auto& asked = by_sheet.emplace_back();
    for (const Question& question : sheet.questions) {
      const auto item = items.find(question.item);
      if (item == items.end())
        throw engine::InBothLanguages<CannotMakeAgain>(engine::Wording{
            fmt::format("seat {}, question {}: \"{}\" is no item of the bank", sheet.seat,
                        question.number, question.item),
            fmt::format("puesto {}, pregunta {}: «{}» no está en el banco de preguntas", sheet.seat,
                        question.number, question.item)});
      if (question.number != static_cast<int>(asked.size()) + 1)
        throw engine::InBothLanguages<CannotMakeAgain>(
            engine::Wording{fmt::format("seat {} has question {} where {} was expected", sheet.seat,
                                        question.number, asked.size() + 1),
                            fmt::format("el puesto {} tiene la pregunta {} donde se esperaba {}",
                                        sheet.seat, question.number, asked.size() + 1)});
      const auto swap = swaps.find(question.number);
      asked.push_back({item->second, swap == swaps.end() ? 0 : swap->second.draw, question.points});
    }
  }
  return by_sheet;
}

void swap_recorded(std::vector<std::vector<AskedItem>>& by_sheet, const bank::Bank& bank,
                   const Settings& settings) {
  const auto items = [](const std::vector<AskedItem>& asked) {
    std::vector<const bank::Item*> list;
    for (const AskedItem& one : asked) list.push_back(one.item);
    return list;
  };
  const bool same_items = std::all_of(by_sheet.begin(), by_sheet.end(), [&](const auto& asked) {
    return items(asked) == items(by_sheet.front());
  });
  for (auto& asked : by_sheet) {
    std::vector<ChosenFamily> families;
    for (const AskedItem& one : asked) families.push_back({one.item, 0, one.draw});
    families = swapped(std::move(families), same_items, bank, settings);
    for (std::size_t i = 0; i < asked.size(); ++i) {
      asked[i].item = families[i].item;
      asked[i].draw = families[i].draw;
    }
  }
}

}  // namespace

/// What is worked out once for all sheets.
struct Maker::Plan {
  std::vector<AskedItem> same;                   ///< of every sheet; empty where each has its own
  std::vector<std::vector<AskedItem>> by_sheet;  ///< of a quiz that is made again
  struct InLanguage {
    Settings settings;
    std::map<const bank::Item*, std::unique_ptr<const CompiledItem>> items = {};
    HeaderWords words = {};
  };
  std::map<engine::Language, InLanguage> languages;

  void add_languages(const Settings& settings) {
    const auto add = [&](engine::Language language) {
      languages.try_emplace(language, InLanguage{for_items(settings, language)});
    };
    add(settings.style.language);
    for (const Accommodations& seat : settings.accommodations)
      if (seat.language) add(*seat.language);
  }
};

Maker::Maker(const bank::Bank& bank, const bank::Blueprint& blueprint, Settings settings)
    : bank_(bank),
      blueprint_(settings.topics.empty() ? blueprint : restricted_to(blueprint, settings.topics)),
      settings_(std::move(settings)),
      draw_seed_(draw_seed(settings_.seed, settings_.secret)),
      header_(make_header(bank, blueprint_, settings_)),
      plan_(std::make_shared<Plan>()) {
  plan_->add_languages(settings_);
  for (auto& [language, in_it] : plan_->languages)
    in_it.words = {in_language(blueprint_.title, language),
                   in_language(blueprint_.course, language),
                   in_language(rule_set(bank, blueprint_, settings_.rules).title, language)};
  const auto families = families_of(blueprint_.same_items ? no_sheet : 0);
  remarks_ = remarks_on(families, bank_, blueprint_, settings_);
  if (blueprint_.same_items) {
    plan_->same = asked_from(families, blueprint_);
    for (const ChosenFamily& family : families) compile(*family.item);
  } else {
    for (const bank::Item* item : possible_families(bank_, blueprint_, settings_)) compile(*item);
  }
}

Maker::Maker(const bank::Bank& bank, Header header, const std::vector<Sheet>& made,
             const std::vector<Swap>& swaps)
    : bank_(bank),
      settings_(settings_from(header, made)),
      draw_seed_(draw_seed(header.seed, header.secret)),
      header_(std::move(header)),
      plan_(std::make_shared<Plan>()) {
  if (bank.digest != header_.bank_digest)
    throw engine::InBothLanguages<CannotMakeAgain>(engine::Wording{
        fmt::format("was made from another question bank (digest {}...; this one has {}...), from "
                    "which other sheets would come",
                    header_.bank_digest.substr(0, 12), bank.digest.substr(0, 12)),
        fmt::format(
            "se hizo con otro banco de preguntas (resumen {}...; este tiene {}...), del que "
            "saldrían otras hojas",
            header_.bank_digest.substr(0, 12), bank.digest.substr(0, 12))});
  settings_.swaps = swaps;
  plan_->add_languages(settings_);
  for (auto& [language, in_it] : plan_->languages)
    in_it.words = {header_.title, header_.course, header_.rules_title};
  for (const Sheet& sheet : made)
    if (sheet.words)
      plan_->languages.at(sheet.accommodations.language.value()).words = *sheet.words;
  plan_->by_sheet = recorded_items(bank, made, header_.swaps);
  swap_recorded(plan_->by_sheet, bank, settings_);
  if (!swaps.empty()) {
    header_.swaps = outcome_of(swaps, header_.swaps);
    header_.code =
        code_from("from " + header_.code + "\n" + written(outcome_of(swaps)), header_.secret);
  }
  for (const auto& asked : plan_->by_sheet)
    for (const AskedItem& one : asked) compile(*one.item);
}

void Maker::compile(const bank::Item& item) {
  for (auto& [language, in_it] : plan_->languages)
    if (!in_it.items.contains(&item))
      in_it.items[&item] = std::make_unique<CompiledItem>(bank_, item, in_it.settings);
}

std::vector<ChosenFamily> Maker::families_of(std::uint32_t sheet) const {
  return swapped(
      choose_families(bank_, blueprint_, settings_, {draw_seed_, sheet, families_position, 0}),
      blueprint_.same_items, bank_, settings_);
}

std::vector<AskedItem> Maker::asked_on(std::uint32_t sheet) const {
  if (!plan_->by_sheet.empty()) return plan_->by_sheet.at(sheet);
  return blueprint_.same_items ? plan_->same : asked_from(families_of(sheet), blueprint_);
}

Sheet Maker::sheet(int index) const {
  const auto number = static_cast<std::uint32_t>(index);
  Sheet sheet;
  sheet.seat = seat_name(index);
  if (number < settings_.names.size()) sheet.name = settings_.names[number];
  if (number < settings_.accommodations.size())
    sheet.accommodations = settings_.accommodations[number];
  sheet.code = header_.code + "-" + sheet.seat;
  const engine::Language of_class = settings_.style.language;
  const engine::Language language = sheet.accommodations.language.value_or(of_class);
  const Plan::InLanguage& in_language = plan_->languages.at(language);
  if (language != of_class)
    sheet.words = in_language.words;
  else
    sheet.accommodations.language.reset();

  std::vector<Made> made;
  const std::vector<AskedItem> asked = asked_on(number);
  for (std::uint32_t position = 0; position < asked.size(); ++position) {
    const AskedItem& one = asked[position];
    made.push_back(in_language.items.at(one.item)->make(
        {draw_seed_, number, position, one.draw * most_attempts}));
    Question& question = made.back().question;
    question.number = static_cast<int>(position) + 1;
    question.points = one.points;
    if (language != of_class) {
      const CompiledItem& for_class = *plan_->languages.at(of_class).items.at(one.item);
      const Made same = for_class.make(made.back().key, nullptr, Figures::left_out);
      // A draw that can be asked in one language only has no words in the other.
      if (same.key.attempt == made.back().key.attempt)
        question.class_words = words_of(same.question);
    }
    sheet.points += question.points;
    sheet.minutes += question.minutes;
  }
  Accommodations& special = sheet.accommodations;
  special.extra_minutes += (sheet.minutes * special.extra_percent + 99) / 100;
  special.extra_percent = 0;
  sheet.box = make_reference_box(made, in_language.settings);
  for (Made& one : made) sheet.questions.push_back(std::move(one.question));
  return sheet;
}

Header header_of(const Header& header, const Sheet& sheet) {
  Header made = header;
  if (sheet.accommodations.language) made.style.language = *sheet.accommodations.language;
  if (sheet.words) {
    made.title = sheet.words->title;
    made.course = sheet.words->course;
    made.rules_title = sheet.words->rules_title;
  }
  return made;
}

}  // namespace footroom::quiz
