#pragma once
// What a student has practised: the model that the practice page keeps in the browser, as a text
// that only this part reads.
//
// A family that was missed returns after 3 other questions; answered right then, after 8 more, then
// after 20 more, and then it rests. Missed again, it begins anew. Missed is whatever did not earn
// all its points, and what was answered with worked steps on view. That what was missed should come
// back at growing intervals is common practice, no single source; so are these numbers.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "practice/face.hpp"

namespace footroom::practice {

inline constexpr int returns_after[] = {3, 8, 20};

/// How often a family was asked, and when it is to return.
struct Family {
  int asked = 0;
  int right = 0;
  std::optional<int> due = {};  ///< may be asked again once so many questions have been asked
  int stage = 0;                ///< index in returns_after of the wait for `due`
};

/// A question of a sitting, and what was typed.
struct Asked {
  std::string item;
  int position = 0;  ///< in the key of its draws
  Face face;
  std::string typed;  ///< empty: no answer
  int steps = 0;      ///< worked steps shown before the answer
};

/// The question that stands open, or was answered last.
struct Open {
  Asked asked;
  bool returned = false;  ///< asked because it was missed before
  bool answered = false;
  int shown = 0;  ///< worked steps shown so far, also after the answer
};

struct Progress {
  std::string bank;   ///< digest; of another bank nothing can be asked again
  std::string rules;  ///< id of the rule set
  std::uint64_t seed = 0;
  bool begun = false;                                   ///< a sitting has a seed
  int asked = 0;                                        ///< questions put, over all sittings
  int position = 0;                                     ///< questions put in this sitting
  int right = 0;                                        ///< of the answered ones of this sitting
  std::map<std::string, Family, std::less<>> families;  ///< by item
  std::vector<Asked> sitting;                           ///< answered or left, in order
  std::optional<Open> open;
};

/// The greatest seed: exact in JSON and JavaScript.
inline constexpr std::uint64_t greatest_seed = (std::uint64_t{1} << 53) - 1;
/// A sitting's answers are kept up to this many; whoever practises on saves a result first.
inline constexpr int longest_sitting = 1000;
inline constexpr int most_steps = 1000;
/// Of an answer that is kept, bytes.
inline constexpr std::size_t longest_typed = 200;

std::string text_of(const Progress& progress);
/// Nothing where the text is none of ours, or belongs to another bank or rule set, or names what
/// the bank does not have.
std::optional<Progress> read_progress(const std::string& text, const bank::Bank& bank,
                                      const std::string& rules);

}  // namespace footroom::practice
