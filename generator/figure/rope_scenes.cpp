// Ropes side by side, from the ridge anchors down to the workers, as they cross after passes. A
// crossing is one pass; what lies below is broken. Distances are not meant, so there is no scale.

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "engine/rope_passes.hpp"
#include "figure/building.hpp"
#include "figure/lettering.hpp"
#include "figure/scenes.hpp"
#include "figure/words.hpp"
#include "figure/worker.hpp"

namespace footroom::figure {
namespace {

constexpr int most_ropes = 8;
constexpr std::size_t good_rows = 8;       // in a column
constexpr std::size_t high_rows = 12;      // beyond which ropes go nearer for more columns
constexpr double page_width = 126;         // mm, for the ropes
constexpr double readable_distance = 3.4;  // mm between ropes
constexpr double narrowest_distance = 2;   // mm: the numbers still stand apart
constexpr double row_share = 0.72;         // of a row's height to the distance of two ropes
constexpr double between_columns = 6;      // mm, and one and a half distances of ropes
constexpr double lead = 1.5;               // mm of straight rope above and below the crossings
constexpr double anchor_height = 4;        // mm above the first crossing's lead
constexpr double half_gap = 1.5;           // mm, along the broken rope
constexpr double largest_gap = 0.36;       // of the piece in a crossing, on either side
constexpr double person_share = 1.3;       // of a worker's D-ring height to the distance of ropes
constexpr double number_distance = 2.4;    // mm from a rope's end to the middle of its number
constexpr double longest_note = 70;        // mm

constexpr engine::Text rope_word{"rope", "cuerda"};
constexpr engine::Text place_word{"place", "lugar"};

class Strands {
 public:
  explicit Strands(Sketch& sketch) : sketch_(sketch), passes_(read(sketch)) {
    const double count = sketch.given("workers");
    ropes_ = count >= 2 && count <= most_ropes ? static_cast<std::size_t>(std::lround(count)) : 0;
    if (ropes_ == 0) throw std::invalid_argument("figure of rope-passes: workers are not 2 to 8");
    for (const auto& pass : passes_)
      if (pass.place < 1 || pass.place >= static_cast<int>(ropes_))
        throw std::invalid_argument("figure of rope-passes: a pass has no such place");
    // Short columns leave room below; as many as the page is wide, and four at least.
    std::size_t most = std::max<std::size_t>(4, columns_at(readable_distance));
    if (passes_.size() > most * high_rows) most = std::max(most, columns_at(narrowest_distance));
    columns_ = std::clamp<std::size_t>((passes_.size() + good_rows - 1) / good_rows, 1, most);
    rows_ = std::max<std::size_t>(2, (passes_.size() + columns_ - 1) / columns_);
    apart_ = std::max(sketch.mm(1), narrowest_distance);
    for (std::size_t slot = 0; slot < ropes_; ++slot) rope_at_.push_back(slot + 1);
  }

  void draw() {
    draw_anchors();
    for (std::size_t column = 0; column < columns_; ++column) draw_column(column);
    draw_workers();
  }

 private:
  static engine::RopePasses read(const Sketch& sketch) {
    return engine::read_passes(sketch.given_words("passes"));
  }

  std::size_t columns_at(double between_ropes) const {
    const double column = (double(ropes_) + 0.5) * between_ropes + between_columns;
    return static_cast<std::size_t>(page_width / column);
  }
  double row() const { return apart_ * row_share; }
  double left(std::size_t column) const {
    return double(column) * (double(ropes_ - 1) * apart_ + 1.5 * apart_ + between_columns);
  }
  Point at(std::size_t column, std::size_t slot, double level) const {
    return {left(column) + double(slot) * apart_, lead + level * row()};
  }
  double foot() const { return 2 * lead + double(rows_) * row(); }

  void number(Point middle, std::size_t value, bool bold) {
    const std::vector<Run> runs{{std::to_string(value)}};
    sketch_.fixed(middle - Point{runs_width(runs, word_size, bold) / 2, 0}, runs, word_size, bold);
  }

  void draw_anchors() {
    const double y = -anchor_height;
    sketch_.line({{left(0) - apart_ * 0.6, y}, {at(0, ropes_ - 1, 0).x + apart_ * 0.6, y}},
                 Pen::outline);
    for (std::size_t slot = 0; slot < ropes_; ++slot)
      number({at(0, slot, 0).x, y - number_distance - 1.6}, slot + 1, true);
    sketch_.word({left(0) - apart_ * 0.6, y}, words::ridge);
  }

  void draw_column(std::size_t column) {
    const bool first = column == 0;
    const bool last = column + 1 == columns_;
    std::vector<std::vector<Point>> pieces;
    for (std::size_t slot = 0; slot < ropes_; ++slot) {
      pieces.push_back({{at(column, slot, 0).x, first ? -anchor_height : 0}});
      if (!first) number({at(column, slot, 0).x, -number_distance}, slot + 1, false);
      if (!last) number({at(column, slot, 0).x, foot() + number_distance}, slot + 1, false);
    }
    const std::size_t begin = column * rows_;
    const std::size_t end = std::min(passes_.size(), begin + rows_);
    for (std::size_t i = begin; i < end; ++i) draw_pass(column, i, double(i - begin), pieces);
    for (std::size_t slot = 0; slot < ropes_; ++slot) {
      pieces[slot].push_back({at(column, slot, 0).x, foot()});
      sketch_.line(std::move(pieces[slot]), Pen::rope);
    }
    if (first)
      for (std::size_t slot = 0; slot < ropes_; ++slot)
        draw_ridge_anchor(sketch_, {at(0, slot, 0).x, -anchor_height}, 0);
  }

  void draw_pass(std::size_t column, std::size_t index, double level,
                 std::vector<std::vector<Point>>& pieces) {
    const auto slot = static_cast<std::size_t>(passes_[index].place - 1);
    const Point starts[] = {at(column, slot, level + 0.06), at(column, slot + 1, level + 0.06)};
    const Point ends[] = {at(column, slot + 1, level + 0.94), at(column, slot, level + 0.94)};
    const std::size_t below = passes_[index].over ? 1 : 0;
    for (const std::size_t side : {std::size_t{0}, std::size_t{1}}) {
      auto& piece = pieces[slot + side];
      piece.push_back(starts[side]);
      if (side == below) {
        const double whole = distance(starts[side], ends[side]);
        const double share = std::min(half_gap / whole, largest_gap);
        piece.push_back(between(starts[side], ends[side], 0.5 - share));
        sketch_.line(std::move(piece), Pen::rope);
        piece = {between(starts[side], ends[side], 0.5 + share)};
      }
      piece.push_back(ends[side]);
    }
    std::swap(pieces[slot], pieces[slot + 1]);
    std::swap(rope_at_[slot], rope_at_[slot + 1]);
    sketch_.mark("pass-" + std::to_string(index + 1), between(starts[0], ends[0], 0.5));
  }

  // Whose rope hangs where is told unless it is asked for.
  bool tells_ropes() const {
    for (const std::string_view id : {"places", "home"})
      if (sketch_.labels(id) && !sketch_.tells(id)) return sketch_.is_key();
    return true;
  }

  void draw_workers() {
    const double height = sketch_.mm(person_share);
    const std::size_t column = columns_ - 1;
    for (std::size_t slot = 0; slot < ropes_; ++slot) {
      const Point ring{at(column, slot, 0).x, foot()};
      draw_worker(sketch_, ring, height, {Pose::from_behind, Look::solid, false, 0});
      draw_ring(sketch_, ring);
    }
    const double right = at(column, ropes_ - 1, 0).x + apart_ * 0.5 + 1.5;
    double y = foot() + height + number_distance + 0.6;
    const auto line_of_numbers = [&](engine::Text word, bool ropes) {
      for (std::size_t slot = 0; slot < ropes_; ++slot)
        number({at(column, slot, 0).x, y}, ropes ? rope_at_[slot] : slot + 1, ropes);
      sketch_.fixed_word({right, y}, word);
      y += word_size * 1.25;
    };
    if (tells_ropes()) line_of_numbers(rope_word, true);
    line_of_numbers(place_word, false);
  }

  Sketch& sketch_;
  engine::RopePasses passes_;
  std::size_t ropes_ = 0;
  std::size_t columns_ = 1;
  std::size_t rows_ = 2;
  double apart_ = 0;
  std::vector<std::size_t> rope_at_;  ///< by place, after the passes drawn so far
};

}  // namespace

void draw_rope_passes(Sketch& sketch) {
  sketch.without_scale_bar();
  Strands(sketch).draw();
  for (const std::string_view id : {"workers", "state", "places", "home", "length"})
    sketch.note(id);
  // Long lists stand in the question's text.
  for (const std::string_view id : {"passes", "undoing"})
    if (runs_width(sketch.worded_tag({}, id), label_size, true) <= longest_note) sketch.note(id);
}

}  // namespace footroom::figure
