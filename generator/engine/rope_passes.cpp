#include "engine/rope_passes.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <numeric>
#include <optional>

#include "engine/told_refusal.hpp"

// Notation
//   n        ropes (strands), 2 to 8
//   s_i      generator: the rope at place i passes over the one at place i + 1; s_i^-1 under
//   Delta    the half twist: every rope crosses every other once, over
//   A        permutation braid: every two ropes cross at most once, all over; A[i] is the place at
//            the bottom of the rope at place i on top
//   S(A)     starting set: places i where A can begin with s_i
//   F(A)     finishing set: places i where A can end with s_i
//   normal form  Delta^k A_1 ... A_m with S(A_{j+1}) contained in F(A_j), no A_j trivial or Delta
// Places count from 0 in this file.

namespace footroom::engine {
namespace {

constexpr int most_workers = 8;
constexpr std::size_t most_passes = 64;
/// The search for a shortest undoing holds at most so many braids; a fraction of a second of work.
constexpr std::size_t most_braids_searched = 30'000;

using Permutation = std::array<std::uint8_t, most_workers>;

struct NormalForm {
  int n;
  int half_twists = 0;  // k
  std::vector<Permutation> factors = {};

  friend bool operator==(const NormalForm&, const NormalForm&) = default;
  friend bool operator<(const NormalForm& a, const NormalForm& b) {
    return std::tie(a.n, a.half_twists, a.factors) < std::tie(b.n, b.half_twists, b.factors);
  }
  bool trivial() const { return half_twists == 0 && factors.empty(); }
};

Permutation identity() {
  Permutation p{};
  std::iota(p.begin(), p.end(), std::uint8_t{0});
  return p;
}

Permutation half_twist(int n) {
  Permutation p = identity();
  std::reverse(p.begin(), p.begin() + n);
  return p;
}

Permutation inverse(const Permutation& a) {
  Permutation b{};
  for (std::uint8_t i = 0; i < most_workers; ++i) b[a[i]] = i;
  return b;
}

/// Delta^-1 A Delta: the same braid seen from behind.
Permutation mirrored(const Permutation& a, int n) {
  Permutation b = identity();
  for (int i = 0; i < n; ++i) b[i] = static_cast<std::uint8_t>(n - 1 - a[n - 1 - i]);
  return b;
}

bool starts_with(const Permutation& a, int i) {
  return a[i] > a[i + 1];
}

bool ends_with(const Permutation& a, int i) {
  return starts_with(inverse(a), i);
}

Permutation without_start(Permutation a, int i) {
  std::swap(a[i], a[i + 1]);
  return a;
}

/// A s_i, or A s_i^-1: the ropes that are at places i and i + 1 below change places.
Permutation crossed_at_end(const Permutation& a, int i) {
  return inverse(without_start(inverse(a), i));
}

/// Moves crossings from the start of `right` to the end of `left` until none fits any more.
void make_left_weighted(Permutation& left, Permutation& right, int n) {
  for (int i = 0; i + 1 < n;) {
    if (starts_with(right, i) && !ends_with(left, i)) {
      left = crossed_at_end(left, i);
      right = without_start(right, i);
      i = 0;
    } else {
      ++i;
    }
  }
}

void append(NormalForm& form, const Permutation& factor) {
  form.factors.push_back(factor);
  for (std::size_t j = form.factors.size(); j-- > 1;)
    make_left_weighted(form.factors[j - 1], form.factors[j], form.n);
  const Permutation full = half_twist(form.n);
  const auto first_other = std::find_if(form.factors.begin(), form.factors.end(),
                                        [&](const Permutation& one) { return one != full; });
  form.half_twists += static_cast<int>(first_other - form.factors.begin());
  form.factors.erase(form.factors.begin(), first_other);
  while (!form.factors.empty() && form.factors.back() == identity()) form.factors.pop_back();
}

void append(NormalForm& form, RopePass pass) {
  const int i = pass.place - 1;
  if (pass.over) {
    append(form, without_start(identity(), i));
    return;
  }
  // s_i^-1 = Delta^-1 (Delta s_i^-1); moving Delta^-1 to the front mirrors what it passes.
  for (Permutation& factor : form.factors) factor = mirrored(factor, form.n);
  form.half_twists -= 1;
  append(form, crossed_at_end(half_twist(form.n), i));
}

NormalForm normal_form(int n, const RopePasses& passes) {
  NormalForm form{n};
  for (const RopePass& pass : passes) append(form, pass);
  return form;
}

RopePass reversed(RopePass pass) {
  return {pass.place, !pass.over};
}

RopePasses inverse(const RopePasses& passes) {
  RopePasses all;
  for (std::size_t i = passes.size(); i-- > 0;) all.push_back(reversed(passes[i]));
  return all;
}

RopePasses freely_reduced(const RopePasses& passes) {
  RopePasses all;
  for (const RopePass& pass : passes) {
    if (!all.empty() && all.back() == reversed(pass))
      all.pop_back();
    else
      all.push_back(pass);
  }
  return all;
}

RopePasses spelt_out(Permutation a, int n) {
  RopePasses all;
  for (int i = 0; i + 1 < n;) {
    if (starts_with(a, i)) {
      all.push_back({i + 1, true});
      a = without_start(a, i);
      i = 0;
    } else {
      ++i;
    }
  }
  return all;
}

void add(RopePasses& to, const RopePasses& more) {
  to.insert(to.end(), more.begin(), more.end());
}

/// The passes of a normal form. A negative power of Delta is used up against the first factors:
/// Delta^-1 A is the inverse of A^-1 Delta, which is shorter to spell.
RopePasses spelt_out(const NormalForm& form) {
  const int n = form.n;
  const Permutation full = half_twist(n);
  RopePasses all;
  int left = form.half_twists;
  for (; left > 0; --left) add(all, spelt_out(full, n));
  for (const Permutation& factor : form.factors) {
    if (left == 0) {
      add(all, spelt_out(factor, n));
      continue;
    }
    // Delta^left A = Delta^(left+1) Delta^-1 A; then Delta^-1 A moves to the front of
    // Delta^(left+1).
    const Permutation seen = (-left - 1) % 2 == 0 ? factor : mirrored(factor, n);
    Permutation rest = identity();
    const Permutation undone = inverse(seen);
    for (int i = 0; i < n; ++i) rest[i] = full[undone[i]];  // A^-1 Delta
    add(all, inverse(spelt_out(rest, n)));
    ++left;
  }
  for (; left < 0; ++left) add(all, inverse(spelt_out(full, n)));
  return all;
}

std::vector<RopePass> generators(int n) {
  std::vector<RopePass> all;
  for (int place = 1; place < n; ++place) {
    all.push_back({place, true});
    all.push_back({place, false});
  }
  return all;
}

/// Breadth-first search from the present braid and from the straight ropes at once.
class UndoingSearch {
 public:
  explicit UndoingSearch(NormalForm start)
      : generators_(generators(start.n)), sides_{Side{}, Side{}} {
    sides_[1].reached.emplace(NormalForm{start.n}, std::nullopt);
    sides_[1].frontier.push_back(NormalForm{start.n});
    sides_[0].reached.emplace(start, std::nullopt);
    sides_[0].frontier.push_back(std::move(start));
  }

  /// The shortest undoing, or nothing where the search would hold too many braids.
  std::optional<RopePasses> run() {
    if (auto meeting = met_at(sides_[0].frontier)) return path(*meeting);
    while (!sides_[0].frontier.empty() && !sides_[1].frontier.empty()) {
      const int smaller = sides_[0].frontier.size() <= sides_[1].frontier.size() ? 0 : 1;
      if (!advance(sides_[smaller])) return std::nullopt;
      if (auto meeting = met_at(sides_[smaller].frontier)) return path(*meeting);
    }
    return std::nullopt;
  }

 private:
  struct Side {
    std::map<NormalForm, std::optional<RopePass>> reached = {};  // by which last pass
    std::vector<NormalForm> frontier = {};
  };

  bool advance(Side& side) {
    std::vector<NormalForm> next;
    for (const NormalForm& form : side.frontier) {
      for (const RopePass& pass : generators_) {
        NormalForm neighbour = form;
        append(neighbour, pass);
        if (side.reached.try_emplace(neighbour, pass).second) next.push_back(std::move(neighbour));
      }
      if (sides_[0].reached.size() + sides_[1].reached.size() > most_braids_searched) return false;
    }
    side.frontier = std::move(next);
    return true;
  }

  std::optional<NormalForm> met_at(const std::vector<NormalForm>& fresh) const {
    for (const NormalForm& form : fresh)
      if (sides_[0].reached.contains(form) && sides_[1].reached.contains(form)) return form;
    return std::nullopt;
  }

  /// The passes by which `side` came to `form`, last first.
  RopePasses way_back(const Side& side, NormalForm form) const {
    RopePasses all;
    while (const auto last = side.reached.at(form)) {
      all.push_back(*last);
      append(form, reversed(*last));
    }
    return all;
  }

  RopePasses path(const NormalForm& meeting) const {
    RopePasses there = way_back(sides_[0], meeting);
    std::reverse(there.begin(), there.end());
    for (const RopePass& pass : way_back(sides_[1], meeting)) there.push_back(reversed(pass));
    return there;
  }

  std::vector<RopePass> generators_;
  std::array<Side, 2> sides_;
};

/// A pass changes the sum of signs by one, so no undoing is shorter than that sum.
std::size_t fewest_passes(const RopePasses& passes) {
  int sum = 0;
  for (const RopePass& pass : passes) sum += pass.over ? 1 : -1;
  return static_cast<std::size_t>(std::abs(sum));
}

[[noreturn]] void refuse(const std::string& quantity, const std::string& english,
                         const std::string& spanish) {
  throw ToldRefusal("rope-passes", quantity, english, spanish);
}

void refuse_faulty(const RopePassesCase& c) {
  if (c.workers < 2 || c.workers > most_workers)
    refuse("workers", "is " + std::to_string(c.workers) + ", expected a whole number from 2 to 8",
           "es " + std::to_string(c.workers) + "; se espera un número entero de 2 a 8");
  if (c.passes.size() > most_passes)
    refuse("passes", "has " + std::to_string(c.passes.size()) + " passes, expected at most 64",
           "tiene " + std::to_string(c.passes.size()) + " pasos; se esperan a lo más 64");
  for (const RopePass& pass : c.passes)
    if (pass.place < 1 || pass.place >= c.workers)
      refuse("passes",
             "names place " + std::to_string(pass.place) + ", expected 1 to " +
                 std::to_string(c.workers - 1) + " for " + std::to_string(c.workers) + " workers",
             "nombra el lugar " + std::to_string(pass.place) + "; con " +
                 std::to_string(c.workers) + " trabajadores se espera de 1 a " +
                 std::to_string(c.workers - 1));
}

using Def = Definition<RopePassesCase, RopePassesResult>;

const Def& definition() {
  static const Def made{
      "rope-passes",
      {"Ropes that cross", "Cuerdas que se cruzan"},
      {"Whether the lines of workers side by side are tangled after passes over and under a "
       "neighbour's line, and which passes free them.",
       "Si las cuerdas de trabajadores vecinos quedan enredadas después de pasar por encima o por "
       "debajo de la cuerda de otro, y qué pasos las liberan."},
      {
          input("workers", "n", {"workers, each with an own line", "trabajadores con línea propia"},
                &RopePassesCase::workers, {2, most_workers}, {"", 0, "", 0}),
          words_input("passes", {"passes, in order", "pasos, en orden"}, &RopePassesCase::passes,
                      "2-over"),
      },
      {
          word_output("state", {"the ropes", "las cuerdas"}, &RopePassesResult::state,
                      {{"free", {"free", "libres"}}, {"tangled", {"tangled", "enredadas"}}}),
          output("places", "",
                 {"rope at each place, from the left", "cuerda en cada lugar, desde la izquierda"},
                 &RopePassesResult::places, {"", 0, "", 0}),
          word_output(
              "home",
              {"workers below their own anchors", "trabajadores debajo de su propio anclaje"},
              &RopePassesResult::home,
              {{"all-home", {"all", "todos"}}, {"not-home", {"not all", "no todos"}}}),
          output("undoing", "", {"passes that free the ropes", "pasos que liberan las cuerdas"},
                 &RopePassesResult::undoing, {}),
          word_output(
              "length", {"is there a shorter way", "hay un camino más corto"},
              &RopePassesResult::length,
              {{"shortest", {"no", "no"}}, {"not-proven-shortest", {"not settled", "no se sabe"}}}),
      },
      {},
      {
          {"E. Artin, Theory of braids, Annals of Mathematics 48 (1947)",
           Status::from_memory,
           {"passes as generators of the braid group",
            "pasos como generadores del grupo de trenzas"}},
          {"D. B. A. Epstein et al., Word Processing in Groups (1992), ch. 9",
           Status::from_memory,
           {"normal form that decides", "forma normal que decide"}},
          {"29 CFR 1926.502(d)(10)(i)",
           Status::from_memory,
           {"each worker on a separate vertical lifeline",
            "cada trabajador en una línea de vida vertical propia"}},
      },
      {
          {"Ropes that cross can rub, trap a rope grab and pull a neighbour into a fall: keep "
           "lanes, "
           "and undo a pass at once.",
           "Las cuerdas que se cruzan pueden rozarse, trabar un agarracuerda y arrastrar al "
           "vecino: "
           "mantenga su carril y deshaga el paso de inmediato."},
      }};
  return made;
}

}  // namespace

const Calculation& rope_passes_calculation() {
  static const Calculation made = make_calculation(definition(), rope_passes);
  return made;
}

RopePassesResult rope_passes(const RopePassesCase& c) {
  refuse_faulty(c);
  RopePassesResult r{};
  const NormalForm form = normal_form(c.workers, c.passes);
  r.state = form.trivial() ? RopeState::free : RopeState::tangled;

  r.places.resize(static_cast<std::size_t>(c.workers));
  std::iota(r.places.begin(), r.places.end(), 1);
  for (const RopePass& pass : c.passes) std::swap(r.places[pass.place - 1], r.places[pass.place]);
  r.home =
      std::is_sorted(r.places.begin(), r.places.end()) ? RopeHome::all_home : RopeHome::not_home;

  r.length = UndoingLength::shortest;
  if (r.state == RopeState::free) return r;
  if (auto shortest = UndoingSearch(form).run()) {
    r.undoing = std::move(*shortest);
    return r;
  }
  const RopePasses back = inverse(c.passes);
  RopePasses reduced = freely_reduced(back);
  RopePasses normal = freely_reduced(spelt_out(normal_form(c.workers, back)));
  r.undoing = normal.size() < reduced.size() ? std::move(normal) : std::move(reduced);
  if (r.undoing.size() > fewest_passes(c.passes)) r.length = UndoingLength::not_proven_shortest;
  return r;
}

bool lie_alike(int workers, const RopePasses& one, const RopePasses& other) {
  return normal_form(workers, one) == normal_form(workers, other);
}

RopePasses read_passes(const Words& words) {
  RopePasses all;
  for (const Word& word : words) {
    const std::string& text = word.id;
    const bool over = text.size() == 6 && text.substr(1) == "-over";
    const bool under = text.size() == 7 && text.substr(1) == "-under";
    if (!(over || under) || text[0] < '1' || text[0] > '9')
      refuse("passes", "holds '" + text + "', expected a place and over or under, as 2-over",
             "contiene «" + text +
                 "»; se espera un lugar y over (por encima) o under (por debajo), como 2-over");
    all.push_back({text[0] - '0', over});
  }
  return all;
}

Words write_passes(const RopePasses& passes) {
  Words all;
  for (const RopePass& pass : passes)
    all.push_back({std::to_string(pass.place) + (pass.over ? "-over" : "-under")});
  return all;
}

}  // namespace footroom::engine
