#pragma once
// A scene under way: metres become millimetres, shapes are put down, texts are asked for. finish()
// places the texts and cuts the page.

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/text.hpp"
#include "figure/drawing.hpp"
#include "figure/figure.hpp"
#include "figure/geometry.hpp"
#include "figure/placing.hpp"

namespace footroom::figure {

class Sketch {
 public:
  Sketch(const Request& request, double millimetres_per_metre)
      : request_(request), scale_(millimetres_per_metre) {}

  // ---- what was asked for ----------------------------------------------------------------------
  bool is_key() const { return request_.wanted == Request::For::key; }
  /// An input in SI units. Throws std::invalid_argument where it is missing or no number.
  double given(std::string_view id) const;
  double given_or(std::string_view id, double otherwise) const;
  std::string given_word(std::string_view id) const;
  /// An input that is a list of words; empty where it is missing or something else.
  engine::Words given_words(std::string_view id) const;
  /// An output. Only for a key: throws std::logic_error on a sheet, so that a sheet cannot show
  /// what is asked.
  double result(std::string_view id) const;
  std::string result_word(std::string_view id) const;
  bool labels(std::string_view id) const { return request_.labels.contains(id); }
  /// Labelled, and not with a question mark.
  bool tells(std::string_view id) const;

  // ---- places ----------------------------------------------------------------------------------
  /// Metres, y upwards, to paper.
  Point at(double x, double y) const { return {x * scale_, -y * scale_}; }
  double mm(double metres) const { return metres * scale_; }
  /// Metres that print as this many millimetres.
  double metres(double millimetres) const { return millimetres / scale_; }
  void mark(std::string_view name, Point p) { drawing_.marks.emplace(name, p); }

  // ---- shapes ----------------------------------------------------------------------------------
  void line(std::vector<Point> points, Pen pen);
  void area(std::vector<Point> points, Fill fill, Pen pen = Pen::none);
  void disc(Point centre, double radius, Pen pen, Fill fill = Fill::none);
  void arrow_head(Point tip, Point from);
  /// A line with an arrowhead at its last point.
  void arrow(std::vector<Point> points, Pen pen);
  /// On a circle, angles in radians counter-clockwise from the x axis as one looks at the paper.
  std::vector<Point> arc(Point centre, double radius, double start, double end) const;
  /// Labels keep away from this.
  void keep_clear(Point from, Point to, double half_width);

  // ---- texts -----------------------------------------------------------------------------------
  /// A dimension from `a` to `b`, its line `offset` mm away, to the left as one looks from a to b
  /// (negative: right), labelled with the tag of `id`; without a tag nothing is drawn.
  void dimension(Point a, Point b, double offset, std::string_view id);
  /// An arc between two directions, with arrowheads.
  void angle(Point vertex, double radius, double start, double end, std::string_view id);
  /// The tag of `id` near `p`, tied to it by a leader unless it stands beside it.
  void tag(Point p, std::string_view id);
  /// The tag of `id` along a line, to the left as one looks from a to b, else to the right.
  void tag_along(Point a, Point b, std::string_view id);
  /// The tag of `id` below the drawing; by its name where it has no symbol.
  void note(std::string_view id);
  /// A word naming a part. Left out where there is no room.
  void word(Point p, engine::Text text);
  /// A word that must stand.
  void needed_word(Point p, engine::Text text);
  /// An arrow of fixed length downwards for a fall whose end is not told.
  void open_fall(Point from, std::string_view id);
  /// A word to the right of the end of a level line.
  void level_word(Point p, engine::Text text);
  /// A text that begins at `p`, exactly there; its middle line runs through `p`.
  void fixed(Point p, const std::vector<Run>& runs, double size, bool bold = false);
  /// The same for a word.
  void fixed_word(Point p, engine::Text text);
  /// The tag of `id` as text with a word before it: "free fall FF = 6 ft"; the word alone where
  /// `id` is not labelled.
  std::vector<Run> worded_tag(engine::Text word, std::string_view id) const;

  /// Bounds of the shapes alone.
  const Bounds& bounds() const { return places_.bounds(); }
  /// For a scene whose distances are not meant.
  void without_scale_bar() { scale_bar_ = false; }
  Drawing finish();

 private:
  struct Wanted {
    std::vector<Run> runs;
    double size;
    bool bold;
    std::vector<Candidate> candidates;
    double dearest;
  };
  struct Note {
    std::vector<Run> runs;
    bool bold;
  };
  void ask(std::vector<Run> runs, double size, bool bold, std::vector<Candidate> candidates,
           double dearest = 1e9);
  void put(const std::vector<Run>& runs, double size, bool bold, const Box& box,
           Align align = Align::middle);
  void place_texts();
  void place_notes();
  void place_scale_bar();

  const Request& request_;
  double scale_;
  bool scale_bar_ = true;
  Drawing drawing_;
  Places places_;
  std::vector<Wanted> asked_;
  std::vector<Note> notes_;
};

}  // namespace footroom::figure
