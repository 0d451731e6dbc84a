#include "practice/sitting.hpp"

#include <algorithm>
#include <iterator>

#include "draw/stream.hpp"
#include "grade/characters.hpp"
#include "grade/marking.hpp"
#include "quiz/limits.hpp"

namespace footroom::practice {
namespace {

// The streams of a sitting: the questions' draws, and the choice of their families.
constexpr std::uint32_t draws_stream = 0;
constexpr std::uint32_t families_stream = 1;

constexpr int most_level = 4;

quiz::Settings settings_for(const std::string& rules, notation::System system,
                            notation::Style style) {
  quiz::Settings settings;
  settings.system = system;
  settings.style = style;
  settings.rules = rules;
  return settings;
}

template <class T>
bool among(const std::vector<T>& wanted, const T& one) {
  return wanted.empty() || std::find(wanted.begin(), wanted.end(), one) != wanted.end();
}

int times_asked(const Progress& progress, const std::string& item) {
  const auto found = progress.families.find(item);
  return found == progress.families.end() ? 0 : found->second.asked;
}

std::optional<int> due(const Progress& progress, const std::string& item) {
  const auto found = progress.families.find(item);
  return found == progress.families.end() ? std::nullopt : found->second.due;
}

std::string say(notation::Style style, engine::Text text) {
  return std::string(text.in(style.language));
}

const bank::Item* choose(const Progress& progress, std::vector<const bank::Item*> items) {
  if (items.size() > 1 && progress.open)
    std::erase_if(items,
                  [&](const bank::Item* item) { return item->id == progress.open->asked.item; });
  const bank::Item* longest_due = nullptr;
  std::vector<const bank::Item*> resting;
  for (const bank::Item* item : items) {
    const auto at = due(progress, item->id);
    if (!at)
      resting.push_back(item);
    else if (!longest_due || *at < *due(progress, longest_due->id))
      longest_due = item;
  }
  const bool returned_last = progress.open && progress.open->returned;
  const bool is_due = longest_due && *due(progress, longest_due->id) <= progress.asked;
  if (resting.empty() || (is_due && !returned_last)) return longest_due;
  int least = times_asked(progress, resting.front()->id);
  for (const bank::Item* item : resting) least = std::min(least, times_asked(progress, item->id));
  std::erase_if(resting,
                [&](const bank::Item* item) { return times_asked(progress, item->id) > least; });
  draw::Stream stream(
      {progress.seed, families_stream, static_cast<std::uint32_t>(progress.position), 0});
  return resting[stream.below(static_cast<std::uint32_t>(resting.size()))];
}

}  // namespace

Progress Sitting::begin() const {
  Progress progress;
  progress.bank = bank_.digest;
  progress.rules = rules_;
  return progress;
}

std::vector<const bank::Item*> Sitting::askable(const Choice& choice,
                                                notation::System system) const {
  auto found = with_limits_.find(system);
  if (found == with_limits_.end()) {
    const auto settings = settings_for(rules_, system, {});
    std::vector<const bank::Item*> items;
    for (const bank::Item& item : bank_.items)
      if (quiz::can_be_asked(bank_, item, settings)) items.push_back(&item);
    found = with_limits_.emplace(system, std::move(items)).first;
  }
  std::vector<const bank::Item*> wanted;
  for (const bank::Item* item : found->second)
    if (among(choice.topics, item->topic) && among(choice.levels, item->level))
      wanted.push_back(item);
  return wanted;
}

void Sitting::next(Progress& progress, const Choice& choice, const Face& face,
                   std::uint64_t seed) const {
  const auto items = askable(choice, face.system);
  if (items.empty())
    throw CannotAsk(say(face.style, {"There is no question of this choice.",
                                     "No hay ninguna pregunta con esta selección."}));
  if (progress.sitting.size() >= longest_sitting)
    throw CannotAsk(
        say(face.style, {"This sitting is full: save its result and begin anew.",
                         "Esta sesión está llena: guarde su resultado y empiece otra."}));
  if (progress.open && !progress.open->answered) {
    progress.sitting.push_back(progress.open->asked);
    count(progress, false);
  }
  if (!progress.begun) {
    progress.begun = true;
    progress.seed = seed;
  }
  const bank::Item* item = choose(progress, items);
  Open open;
  open.asked = {item->id, progress.position, face, {}, 0};
  open.returned = due(progress, item->id).has_value();
  progress.open = open;
  ++progress.position;
  ++progress.asked;
}

quiz::Made make_again(const bank::Bank& bank, const std::string& rules, std::uint64_t seed,
                      const Asked& asked, notation::Style style, quiz::Figures figures) {
  const auto item = std::find_if(bank.items.begin(), bank.items.end(),
                                 [&](const bank::Item& one) { return one.id == asked.item; });
  if (item == bank.items.end()) throw std::out_of_range("no item " + asked.item);
  const quiz::CompiledItem compiled(bank, *item, settings_for(rules, asked.face.system, style));
  quiz::Made made = compiled.make(
      {seed, draws_stream, static_cast<std::uint32_t>(asked.position), 0}, nullptr, figures);
  made.question.number = asked.position + 1;
  return made;
}

quiz::Made Sitting::open_question(const Progress& progress, notation::Style style,
                                  quiz::Figures figures) const {
  return make_again(bank_, rules_, progress.seed, progress.open.value().asked, style, figures);
}

void Sitting::count(Progress& progress, bool right) const {
  Family& family = progress.families[progress.open->asked.item];
  ++family.asked;
  if (right) {
    ++family.right;
    ++progress.right;
    if (!family.due) return;
    ++family.stage;
  } else {
    family.stage = 0;
  }
  if (family.stage < static_cast<int>(std::size(returns_after)))
    family.due = progress.asked + returns_after[family.stage];
  else
    family.due.reset();
}

Marked Sitting::mark(Progress& progress, std::string_view typed, notation::Style style) const {
  Marked marked;
  marked.question = open_question(progress, style).question;
  marked.result = grade::mark(marked.question, typed, {}, style);
  Open& open = *progress.open;
  if (!open.answered && marked.result.outcome != grade::Outcome::unreadable) {
    marked.counted = true;
    open.answered = true;
    open.asked.face.style = style;
    open.asked.typed = grade::cut_short(typed, longest_typed);
    const bool full = marked.result.points == marked.result.possible &&
                      marked.result.outcome != grade::Outcome::empty;
    progress.sitting.push_back(open.asked);
    count(progress, full && open.asked.steps == 0);
  }
  if (const auto at = due(progress, open.asked.item); at && open.answered)
    marked.returns = *at - progress.asked;
  return marked;
}

std::size_t Sitting::show_step(Progress& progress, const quiz::Question& question,
                               notation::Style style) const {
  Open& open = progress.open.value();
  if (open.shown >= static_cast<int>(question.steps.size()))
    throw CannotAsk(say(style, {"There are no more steps.", "No hay más pasos."}));
  if (!open.answered) ++open.asked.steps;
  return static_cast<std::size_t>(open.shown++);
}

void Sitting::begin_anew(Progress& progress) const {
  progress.begun = false;
  progress.seed = 0;
  progress.position = 0;
  progress.right = 0;
  progress.sitting.clear();
  progress.open.reset();
}

std::vector<TopicCount> Sitting::topics(const Progress& progress, const Face& face) const {
  std::vector<TopicCount> counts;
  const auto items = askable({}, face.system);
  for (const bank::Topic& topic : bank_.topics) {
    const bool english = face.style.language == engine::Language::english;
    TopicCount count{topic.id, english ? topic.title.english : topic.title.spanish, 0, 0, 0, 0};
    for (const bank::Item* item : items) {
      if (item->topic != topic.id) continue;
      ++count.families;
      const auto found = progress.families.find(item->id);
      if (found == progress.families.end()) continue;
      count.asked += found->second.asked;
      count.right += found->second.right;
      count.returning += found->second.due.has_value();
    }
    if (count.families > 0) counts.push_back(std::move(count));
  }
  return counts;
}

std::vector<int> Sitting::levels(const Face& face) const {
  std::vector<int> counts(most_level, 0);
  for (const bank::Item* item : askable({}, face.system))
    ++counts.at(static_cast<std::size_t>(item->level - 1));
  return counts;
}

}  // namespace footroom::practice
