#pragma once
#include <string>
#include <vector>

#include "engine/catalogue.hpp"

namespace footroom::engine {

/// Two neighbours change places along the eave. `place` is the left one of the two, from 1; over:
/// the rope of the worker coming from the left lies on top of the other (towards the sky).
struct RopePass {
  int place;
  bool over;

  friend bool operator==(const RopePass&, const RopePass&) = default;
};
using RopePasses = std::vector<RopePass>;

struct RopePassesCase {
  int workers;        ///< 2 to 8, each with an own line from an own ridge anchor
  RopePasses passes;  ///< up to 64, in the order in which they happened
};

enum class RopeState { free, tangled };
enum class RopeHome { all_home, not_home };
enum class UndoingLength { shortest, not_proven_shortest };

struct RopePassesResult {
  RopeState state;  ///< free: the ropes can be pulled straight with everybody where they are
  std::vector<int> places;  ///< which rope hangs at which place now, from the left; ropes from 1
  RopeHome home;            ///< whether everybody stands below their own anchor
  RopePasses undoing;       ///< passes that free every rope and bring everybody home
  UndoingLength length;     ///< whether no shorter undoing exists, or that was not settled
};

/// Returns whether the ropes are tangled, and passes that undo it.
///
/// Source: a pass is a generator of Artin's braid group on as many strands as there are workers
/// (anchors are the fixed upper ends): E. Artin, "Theory of braids", Annals of Mathematics 48
/// (1947). The decision is by the left normal form of permutation braids: D. B. A. Epstein et al.,
/// "Word Processing in Groups" (1992), chapter 9. Both citations are from memory.
/// Valid for ropes that are not tied into knots by themselves, with workers that stay attached, and
/// passes of neighbours only.
/// The undoing is searched from both ends for the shortest; where that search is cut off, it is the
/// shorter of the freely reduced inverse and the inverse's normal form.
/// Errors: Refusal naming `workers` or `passes`.
/// Checked: against Artin's action on the free group for all short words, the group's relations,
/// and breadth-first search for the shortest undoing (tests/engine/rope_passes_test.cpp).
RopePassesResult rope_passes(const RopePassesCase& c);

/// Whether two sequences of passes leave the ropes lying alike (equal as braids). No length limit.
bool lie_alike(int workers, const RopePasses& one, const RopePasses& other);

/// Reads "2-over", "3-under"; throws Refusal naming `passes` for any other word.
RopePasses read_passes(const Words& words);
Words write_passes(const RopePasses& passes);

template <>
struct Bridge<RopePasses> {
  static Value to_value(const RopePasses& passes) { return write_passes(passes); }
  static RopePasses from_value(const Value& value) { return read_passes(std::get<Words>(value)); }
};

const Calculation& rope_passes_calculation();

}  // namespace footroom::engine
