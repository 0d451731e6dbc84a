#include "quiz/swap.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "engine/wording.hpp"
#include "quiz/limits.hpp"

namespace footroom::quiz {
namespace {

/// Each attempt has a number of 32 bits, and a draw takes up to most_attempts of them.
constexpr std::uint32_t most_draws = 1000;

class Swapper {
 public:
  Swapper(std::vector<ChosenFamily> chosen, bool same_items, const bank::Bank& bank,
          const Settings& settings)
      : chosen_(std::move(chosen)), same_items_(same_items), bank_(bank), settings_(settings) {}

  void apply(const Swap& swap) {
    number_ = swap.number;
    if (number_ < 1 || number_ > static_cast<int>(chosen_.size()))
      refuse({fmt::format("is not in the quiz, expected 1 to {}", chosen_.size()),
              fmt::format("no está en el examen, se esperaba de 1 a {}", chosen_.size())});
    ChosenFamily& place = chosen_[static_cast<std::size_t>(number_) - 1];
    if (!swap.item.empty()) {
      place.item = &find_item(swap.item, place);
      place.draw = 0;
    } else if (++place.draw > most_draws) {
      refuse({fmt::format("is drawn anew {} times, expected at most {}", place.draw, most_draws),
              fmt::format("se sorteó de nuevo {} veces, se esperaban como máximo {}", place.draw,
                          most_draws)});
    }
  }

  std::vector<ChosenFamily> result() { return std::move(chosen_); }

 private:
  [[noreturn]] void refuse(const engine::Wording& why) const {
    const std::string number = std::to_string(number_);
    throw engine::InBothLanguages<CannotSwap>(
        engine::Wording{"question " + number + ": ", "pregunta " + number + ": "} + why);
  }

  std::vector<ChosenFamily>::const_iterator find_asked(const bank::Item& item) const {
    return std::find_if(chosen_.begin(), chosen_.end(),
                        [&](const ChosenFamily& one) { return one.item == &item; });
  }

  const bank::Item& find_item(const std::string& id, const ChosenFamily& place) const {
    if (!same_items_)
      refuse(
          {"differs from seat to seat in this quiz, so no item can stand in for all; leave the "
           "item out for other values",
           "es distinta en cada puesto de este examen, así que ninguna puede reemplazarla en "
           "todos; "
           "solo se le pueden dar otros valores"});
    const auto found = std::find_if(bank_.items.begin(), bank_.items.end(),
                                    [&](const bank::Item& item) { return item.id == id; });
    const engine::Wording expected = expected_instead_of(place);
    if (found == bank_.items.end()) {
      std::vector<std::string> ids;
      for (const bank::Item& item : bank_.items) ids.push_back(item.id);
      const auto near = notation::suggest(id, ids);
      refuse(engine::Wording{fmt::format("\"{}\" is no item of the bank", id),
                             fmt::format("«{}» no está en el banco de preguntas", id)} +
             (near ? engine::Wording{fmt::format("; did you mean \"{}\"?", *near),
                                     fmt::format("; ¿quiso decir «{}»?", *near)}
                   : expected));
    }
    if (found->topic != place.item->topic)
      refuse(engine::Wording{fmt::format("\"{}\" is of the topic \"{}\"", id, found->topic),
                             fmt::format("«{}» es del tema «{}»", id, found->topic)} +
             expected);
    if (const auto asked = find_asked(*found); asked != chosen_.end())
      refuse(engine::Wording{fmt::format("\"{}\" is question {} of the quiz already", id,
                                         asked - chosen_.begin() + 1),
                             fmt::format("«{}» ya es la pregunta {} del examen", id,
                                         asked - chosen_.begin() + 1)} +
             expected);
    if (!belongs_to(*found, settings_.rules))
      refuse(engine::Wording{
                 fmt::format("\"{}\" is about other rules than \"{}\"", id, settings_.rules),
                 fmt::format("«{}» trata de otras reglas que «{}»", id, settings_.rules)} +
             expected);
    if (!has_limits(bank_, *found, settings_)) {
      const bool us = settings_.system == notation::System::us;
      refuse(engine::Wording{
                 fmt::format("\"{}\" needs a limit that the rule set \"{}\" does not give in {} "
                             "units",
                             id, settings_.rules, us ? "US" : "SI"),
                 fmt::format("«{}» necesita un límite que las reglas «{}» no dan en unidades {}",
                             id, settings_.rules, us ? "de EE. UU." : "SI")} +
             expected);
    }
    return *found;
  }

  engine::Wording expected_instead_of(const ChosenFamily& place) const {
    std::vector<std::string> ids;
    for (const bank::Item& item : bank_.items)
      if (item.topic == place.item->topic && find_asked(item) == chosen_.end() &&
          can_be_asked(bank_, item, settings_))
        ids.push_back(item.id);
    const std::string& topic = place.item->topic;
    if (ids.empty())
      return {fmt::format("; no other item of \"{}\" is left", topic),
              fmt::format("; no queda otra pregunta de «{}»", topic)};
    return {fmt::format(", expected one of \"{}\" that is not in the quiz yet: {}", topic,
                        fmt::join(ids, ", ")),
            fmt::format(", se esperaba una de «{}» que aún no esté en el examen: {}", topic,
                        fmt::join(ids, ", "))};
  }

  std::vector<ChosenFamily> chosen_;
  bool same_items_;
  const bank::Bank& bank_;
  const Settings& settings_;
  int number_ = 1;  ///< of the question that is swapped
};

}  // namespace

std::map<int, Swapped> outcome_of(const std::vector<Swap>& swaps, std::map<int, Swapped> before) {
  for (const Swap& swap : swaps) {
    Swapped& question = before[swap.number];
    if (swap.item.empty())
      ++question.draw;
    else
      question = {swap.item, 0};
  }
  return before;
}

std::vector<ChosenFamily> swapped(std::vector<ChosenFamily> chosen, bool same_items,
                                  const bank::Bank& bank, const Settings& settings) {
  Swapper swapper(std::move(chosen), same_items, bank, settings);
  for (const Swap& swap : settings.swaps) swapper.apply(swap);
  return swapper.result();
}

}  // namespace footroom::quiz
