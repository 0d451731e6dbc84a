#pragma once
// Draws the scene of a calculation to scale from its own inputs and outputs.

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "engine/catalogue.hpp"
#include "figure/drawing.hpp"
#include "notation/quantity_text.hpp"

namespace footroom::figure {

/// What a drawing may print beside a dimension line.
struct Tag {
  std::string symbol;  ///< plain text: "L", "θ", "d₀"
  std::string text;    ///< "16 ft"; empty: not told, a question mark stands there
};

struct Request {
  std::string_view calculation;
  engine::Values inputs;  ///< all of them
  engine::Values outputs;
  /// By input or output id; what is missing here is not labelled at all.
  std::map<std::string, Tag, std::less<>> labels;
  /// A sheet shows the situation before the fall; a key shows how it ends too.
  enum class For { sheet, key } wanted = For::sheet;
  engine::Language language = engine::Language::english;
  notation::System system = notation::System::us;  ///< of the scale bar
};

/// The drawing, or nothing where the calculation has none.
std::optional<Drawing> draw(const Request& request);
/// True where `calculation` has a drawing.
bool has_drawing(std::string_view calculation);

/// The width of a text as the drawing font sets it, in mm: generous, so that what does not overlap
/// here does not overlap in a browser.
double text_width(std::string_view text, double size);

}  // namespace footroom::figure
