#pragma once
// A worker at the eave to try things out with: what slack, pitch, place and gear do to free fall,
// force and clearance. Every number comes from calculations of the catalogue, every limit from the
// rule set.
//
// At `offset` along the eave the line runs down the diagonal, so the fall is that of edge-fall in
// the upright plane through anchor and worker; eave-swing adds what the swing back sets free. The
// line stretches over its whole length (elastic-line); arrest-in-time follows the stop; clearance
// adds up the room, below the D-ring before the fall.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "figure/drawing.hpp"
#include "practice/face.hpp"

namespace footroom::practice {

/// A slider.
struct BenchControl {
  std::string id;
  std::string symbol;  ///< may be empty
  std::string name;
  bool main = true;  ///< else of those that are seldom moved
  std::string unit;  ///< name of notation/unit.hpp
  std::string unit_text;
  double least = 0;
  double most = 0;
  double step = 0;
  double value = 0;  ///< in the unit
  std::string text;  ///< the value with its unit
};

struct BenchLine {
  std::string symbol;  ///< may be empty
  std::string name;
  std::string text;
};

struct BenchTerm {
  std::string name;
  std::string text;
  double share = 0;  ///< of the greater of needed and available
};

struct BenchStack {
  std::vector<BenchTerm> terms;  ///< from the D-ring before the fall downwards
  std::string needed;
  std::string available;
  double available_share = 0;
  bool broken = false;
  std::optional<figure::Drawing> drawing;
};

struct BenchLimit {
  std::string name;
  std::string text;        ///< the limit: "6 ft"
  std::string value_text;  ///< what happens here
  bool broken = false;
  std::string citation;
  std::string status;
};

struct BenchScene {
  std::string id;
  std::string title;
  figure::Drawing drawing;
};

struct Bench {
  std::vector<BenchControl> controls;
  std::string problem;  ///< why nothing can be worked out; then the rest is empty
  std::vector<BenchScene> scenes;
  std::optional<BenchStack> stack;  ///< absent where nobody falls below the edge
  std::optional<figure::Drawing> plot;
  std::vector<BenchLine> outputs;
  std::vector<BenchLimit> limits;
  std::vector<std::string> notes;
  std::vector<std::string> cautions;
};

/// By the id of a control: a number in its unit, taken to the nearest step within the slider. What
/// is absent or unknown stands at its start.
using BenchValues = std::map<std::string, double, std::less<>>;

Bench make_bench(const bank::Bank& bank, const std::string& rules, const Face& face,
                 const BenchValues& values);

/// The same settings for the other unit system, as near as its steps come.
BenchValues bench_values_in(notation::System system, const BenchValues& values,
                            notation::System from);

}  // namespace footroom::practice
