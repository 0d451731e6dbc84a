#pragma once
// The reference manual: every calculation with its figure, inputs, outputs, steps, sources and a
// worked example. As with a quiz, nothing here computes.

#include <optional>
#include <string>
#include <vector>

#include "engine/text.hpp"
#include "figure/drawing.hpp"
#include "notation/typeset.hpp"
#include "render/render.hpp"

namespace footroom::render {

/// An input or output.
struct ManualQuantity {
  std::string id;
  std::optional<notation::Math> symbol;
  std::string meaning;
  std::string unit;     ///< of plain numbers and words: empty
  std::string accepts;  ///< of an input: its range, and what it is if left out
  std::string example;  ///< its value in the worked example
};

struct ManualStep {
  std::string says;
  notation::Math formula;
  std::optional<notation::Math> when;
};

struct ManualSource {
  std::string citation;
  std::string status;  ///< in words
  std::string supports;
};

struct ManualEntry {
  std::string id;
  std::string title;
  std::string purpose;
  std::optional<figure::Drawing> drawing;  ///< of the worked example
  std::vector<ManualQuantity> inputs;
  std::vector<ManualQuantity> outputs;
  std::vector<ManualStep> steps;
  std::vector<notation::Math> example_steps;  ///< with the numbers put in
  std::vector<ManualSource> sources;
  std::vector<std::string> cautions;
  std::string command;  ///< that works out the example
};

struct Manual {
  engine::Language language = engine::Language::english;
  std::string rules_title;
  std::vector<ManualEntry> entries;
};

/// Markdown; drawings are links to figures/ID.svg.
std::string manual_markdown(const Templates&, const Manual&);
/// A whole HTML page, self-contained.
std::string manual_html(const Templates&, const Manual&);

}  // namespace footroom::render
