#include "figure/sketch.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "figure/lettering.hpp"

namespace footroom::figure {
namespace {

constexpr double margin = 2;          // mm of paper around everything
constexpr double arrow_length = 2.2;  // mm
constexpr double arrow_half_width = 0.42;
constexpr double extension_gap = 0.8;  // between a point and its extension line
constexpr double extension_beyond = 1.0;
constexpr double beside = 0.8;  // between a text and the line it stands at
constexpr double steepest_text = 55 * M_PI / 180;
constexpr double open_fall_length = 9;

struct Look {
  double half_width;
  double weight;  // of a text across it
};
Look look_of(Pen pen) {
  switch (pen) {
    case Pen::none:
      return {0, 0};
    case Pen::outline:
      return {0.35, 8};
    case Pen::rope:
      return {0.5, 8};
    case Pen::edge:
    case Pen::rope_before:
    case Pen::limit:
    case Pen::hidden:
    case Pen::motion:
      return {0.15, 3};
    case Pen::dimension:
      return {0.1, 2.5};
    case Pen::thin:
    case Pen::extension:
    case Pen::strap:
      return {0.1, 1};
  }
  return {0, 0};
}

double quantity(const engine::Value* value, std::string_view calculation, std::string_view id) {
  const auto* number = value ? std::get_if<engine::Quantity>(value) : nullptr;
  if (!number || !std::isfinite(number->si))
    throw std::invalid_argument(
        fmt::format("figure of {}: {} is missing or is no number", calculation, id));
  return number->si;
}

const engine::Value* find(const engine::Values& values, std::string_view id) {
  const auto found = values.find(id);
  return found == values.end() ? nullptr : &found->second;
}

std::string word_in(const engine::Values& values, std::string_view id) {
  const engine::Value* value = find(values, id);
  const auto* found = value ? std::get_if<engine::Word>(value) : nullptr;
  return found ? found->id : std::string{};
}

// Text along a line reads from left to right.
double reading_turn(Point along) {
  double turn = std::atan2(along.y, along.x);
  if (turn > M_PI / 2) turn -= M_PI;
  if (turn <= -M_PI / 2) turn += M_PI;
  return turn;
}

// What is asked stands out.
bool is_asked(const Tag& tag) {
  return tag.text.empty();
}

struct Size {
  double width;
  double height;
};
Size size_of(const std::vector<Run>& runs, double size, bool bold) {
  return {runs_width(runs, size, bold), size};
}

// A box of upright text that touches `p` on the side of `away`.
Box standing_off(Point p, Point away, Size size, double gap) {
  const double reach = std::abs(away.x) * size.width / 2 + std::abs(away.y) * size.height / 2 + gap;
  return {p + away * reach, size.width / 2, size.height / 2, 0};
}

/// Sixteen directions all around.
const std::array<Point, 16>& directions() {
  static const std::array<Point, 16> all = [] {
    std::array<Point, 16> made{};
    for (int i = 0; i < 16; ++i) made[static_cast<std::size_t>(i)] = direction(i * M_PI / 8);
    return made;
  }();
  return all;
}

constexpr std::size_t most_candidates = 180;

void add_leaders(std::vector<Candidate>& all, Point p, Size size, double nearest) {
  for (const double far : {4.0, 6.5, 9.5, 13.0, 18.0, 25.0, 34.0, 45.0, 60.0}) {
    if (far < nearest - hair) continue;
    for (const Point away : directions())
      all.push_back({standing_off(p, away, size, far), 2.5 + far * 0.25, p});
  }
}

std::vector<Candidate> around_line(Point a, Point b, Point outwards, Size size) {
  std::vector<Candidate> all;
  all.reserve(most_candidates);
  const double turn = reading_turn(b - a);
  const bool along = std::abs(turn) <= steepest_text + hair;
  const double long_enough = distance(a, b) >= size.width * 0.6 - hair ? 0 : 1.5;
  for (const double t : {0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78}) {
    const Point p = between(a, b, t);
    const double off_middle = std::abs(t - 0.5) * 2;
    for (const double side : {1.0, -1.0}) {
      const double cost = off_middle + (side < 0 ? 1.0 : 0);
      const Point away = outwards * side;
      if (along)
        all.push_back(
            {{p + away * (size.height / 2 + beside - 0.2), size.width / 2, size.height / 2, turn},
             cost + long_enough,
             {}});
      if (!along || std::abs(turn) > 0.3 + hair)
        all.push_back({standing_off(p, away, size, beside), cost + (along ? 1.5 : 0), {}});
    }
    if (!along && distance(a, b) > 3 * size.height + hair)
      all.push_back({{p, size.width / 2, size.height / 2, 0}, off_middle + 1, {}});
  }
  for (const double past : {1.0, 0.0}) {  // beyond an end of a short line
    const Point end = past > 0 ? b : a;
    const Point onwards = unit(past > 0 ? b - a : a - b);
    all.push_back({standing_off(end, onwards, size, arrow_length * 2 + 0.6), 2.2, {}});
  }
  add_leaders(all, between(a, b, 0.5), size, 4);
  return all;
}

std::vector<Candidate> around_point(Point p, Size size, double nearest) {
  std::vector<Candidate> all;
  all.reserve(most_candidates);
  constexpr std::array<int, 16> order = {0, 8, 2, 6, 10, 14, 4, 12, 1, 7, 9, 15, 3, 5, 11, 13};
  double cost = 0;
  for (const int i : order) {
    const Point away = directions()[static_cast<std::size_t>((16 - i) % 16)];
    all.push_back({standing_off(p, away, size, nearest), cost, {}});
    all.push_back({standing_off(p, away, size, nearest + 1.2), cost + 0.5, {}});
    cost += 0.05;
  }
  add_leaders(all, p, size, nearest);
  return all;
}

}  // namespace

// ---- what was asked for
// --------------------------------------------------------------------------

double Sketch::given(std::string_view id) const {
  return quantity(find(request_.inputs, id), request_.calculation, id);
}
double Sketch::given_or(std::string_view id, double otherwise) const {
  return find(request_.inputs, id) ? given(id) : otherwise;
}
std::string Sketch::given_word(std::string_view id) const {
  return word_in(request_.inputs, id);
}
engine::Words Sketch::given_words(std::string_view id) const {
  const engine::Value* value = find(request_.inputs, id);
  const auto* words = value ? std::get_if<engine::Words>(value) : nullptr;
  return words ? *words : engine::Words{};
}

double Sketch::result(std::string_view id) const {
  if (!is_key()) throw std::logic_error(fmt::format("a sheet's figure asks for {}", id));
  return quantity(find(request_.outputs, id), request_.calculation, id);
}
std::string Sketch::result_word(std::string_view id) const {
  if (!is_key()) throw std::logic_error(fmt::format("a sheet's figure asks for {}", id));
  return word_in(request_.outputs, id);
}

bool Sketch::tells(std::string_view id) const {
  const auto found = request_.labels.find(id);
  return found != request_.labels.end() && !found->second.text.empty();
}

// ---- shapes
// --------------------------------------------------------------------------------------

void Sketch::line(std::vector<Point> points, Pen pen) {
  const Look look = look_of(pen);
  for (std::size_t i = 1; i < points.size(); ++i)
    places_.add(Obstacle{points[i - 1], points[i], look.half_width, look.weight});
  drawing_.shapes.push_back(Path{std::move(points), false, pen, Fill::none});
}

void Sketch::area(std::vector<Point> points, Fill fill, Pen pen) {
  const Look look = look_of(pen);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const Point next = points[(i + 1) % points.size()];
    if (pen == Pen::none)
      places_.include(points[i], 0);
    else
      places_.add(Obstacle{points[i], next, look.half_width, look.weight});
  }
  drawing_.shapes.push_back(Path{std::move(points), true, pen, fill});
}

void Sketch::disc(Point centre, double radius, Pen pen, Fill fill) {
  places_.add(Obstacle{centre, centre, radius, 4});
  drawing_.shapes.push_back(Circle{centre, radius, pen, fill});
}

void Sketch::arrow_head(Point tip, Point from) {
  const Point back = unit(from - tip) * arrow_length;
  const Point aside = turned(unit(from - tip), M_PI / 2) * arrow_half_width;
  area({tip, tip + back + aside, tip + back - aside}, Fill::dark);
}

void Sketch::arrow(std::vector<Point> points, Pen pen) {
  const Point tip = points.back();
  // The direction a little way back: the last piece of a curve may be very short.
  Point from = points.front();
  for (auto p = points.rbegin(); p != points.rend(); ++p)
    if (distance(*p, tip) >= arrow_length * 0.8 - hair) {
      from = *p;
      break;
    }
  line(std::move(points), pen);
  if (distance(from, tip) > 0) arrow_head(tip, from);
}

std::vector<Point> Sketch::arc(Point centre, double radius, double start, double end) const {
  const int pieces = std::max(2, static_cast<int>(std::ceil(std::abs(end - start) / 0.06 - hair)));
  std::vector<Point> points;
  for (int i = 0; i <= pieces; ++i)
    points.push_back(centre + direction(-(start + (end - start) * i / pieces)) * radius);
  return points;
}

void Sketch::keep_clear(Point from, Point to, double half_width) {
  places_.add(Obstacle{from, to, half_width, 8});
}

// ---- texts
// ---------------------------------------------------------------------------------------

void Sketch::ask(std::vector<Run> runs, double size, bool bold, std::vector<Candidate> candidates,
                 double dearest) {
  asked_.push_back({std::move(runs), size, bold, std::move(candidates), dearest});
}

void Sketch::dimension(Point a, Point b, double offset, std::string_view id) {
  const auto found = request_.labels.find(id);
  if (found == request_.labels.end()) return;
  const auto runs = tag_runs(found->second);
  const bool bold = is_asked(found->second);
  const Size size = size_of(runs, label_size, bold);
  const double span = distance(a, b);
  if (span < 0.3 - hair) {  // nothing to draw it along
    ask(runs, label_size, bold, around_point(a, size, 2));
    return;
  }
  const Point out = left_of(a, b) * (offset < 0 ? -1.0 : 1.0);
  const double away = std::abs(offset);
  const Point from = a + out * away;
  const Point to = b + out * away;
  if (away > extension_gap + hair) {
    line({a + out * extension_gap, from + out * extension_beyond}, Pen::extension);
    line({b + out * extension_gap, to + out * extension_beyond}, Pen::extension);
  }
  if (span >= arrow_length * 2.6 - hair) {
    line({from, to}, Pen::dimension);
    arrow_head(from, to);
    arrow_head(to, from);
  } else {  // arrowheads from outside
    const Point d = unit(to - from);
    line({from - d * (arrow_length * 1.8), to + d * (arrow_length * 1.8)}, Pen::dimension);
    arrow_head(from, from - d);
    arrow_head(to, to + d);
  }
  ask(runs, label_size, bold, around_line(from, to, out, size));
}

void Sketch::angle(Point vertex, double radius, double start, double end, std::string_view id) {
  const auto found = request_.labels.find(id);
  if (found == request_.labels.end()) return;
  const auto points = arc(vertex, radius, start, end);
  line(points, Pen::dimension);
  if (radius * std::abs(end - start) > arrow_length * 2.6 + hair) {
    const std::size_t n = points.size();
    const double back = std::copysign(std::min(arrow_length / radius, 1.0), end - start);
    arrow_head(points[0], arc(vertex, radius, start, start + back).back());
    arrow_head(points[n - 1], arc(vertex, radius, end, end - back).back());
  }
  const auto runs = tag_runs(found->second);
  const bool bold = is_asked(found->second);
  const Size size = size_of(runs, label_size, bold);
  const double middle = (start + end) / 2;
  std::vector<Candidate> all;
  const Point away = direction(-middle);
  const Point p = vertex + away * radius;
  all.push_back({standing_off(p, away, size, beside), 0, {}});
  for (const double share : {0.35, 0.65, 0.2, 0.8, 0.0, 1.0}) {
    const Point aside = direction(-(start + (end - start) * share));
    all.push_back({standing_off(vertex + aside * radius, aside, size, beside), 0.5, {}});
  }
  all.push_back({standing_off(p, away * -1.0, size, beside), 1, {}});
  for (const double side : {start, end}) {
    const Point tip = vertex + direction(-side) * radius;
    const Point beyond = unit(tip - p);
    all.push_back({standing_off(tip, beyond, size, beside), 1.2, {}});
  }
  add_leaders(all, p, size, 4);
  ask(runs, label_size, bold, std::move(all));
}

void Sketch::tag(Point p, std::string_view id) {
  const auto found = request_.labels.find(id);
  if (found == request_.labels.end()) return;
  const auto runs = tag_runs(found->second);
  const bool bold = is_asked(found->second);
  ask(runs, label_size, bold, around_point(p, size_of(runs, label_size, bold), 1.4));
}

void Sketch::tag_along(Point a, Point b, std::string_view id) {
  const auto found = request_.labels.find(id);
  if (found == request_.labels.end()) return;
  const auto runs = tag_runs(found->second);
  const bool bold = is_asked(found->second);
  ask(runs, label_size, bold, around_line(a, b, left_of(a, b), size_of(runs, label_size, bold)));
}

void Sketch::note(std::string_view id) {
  const auto found = request_.labels.find(id);
  if (found == request_.labels.end()) return;
  const Tag& tag = found->second;
  auto runs = tag_runs(tag);
  if (tag.symbol.empty()) {
    const auto* calculation = engine::find_calculation(request_.calculation);
    const auto* input = calculation ? calculation->find_input(id) : nullptr;
    const auto* output = calculation ? calculation->find_output(id) : nullptr;
    const bool is_word = (input && !input->choices.empty()) || (output && !output->choices.empty());
    const engine::Text name = input ? input->name : output ? output->name : engine::Text{};
    if (is_word && is_asked(tag)) return;  // the question says it
    if (!name.english.empty())
      runs.insert(runs.begin(), {std::string(name.in(request_.language)) + ": "});
  }
  notes_.push_back({std::move(runs), is_asked(tag)});
}

void Sketch::word(Point p, engine::Text text) {
  const std::vector<Run> runs{{std::string(text.in(request_.language))}};
  ask(runs, word_size, false, around_point(p, size_of(runs, word_size, false), 1.2), 5);
}

void Sketch::needed_word(Point p, engine::Text text) {
  const std::vector<Run> runs{{std::string(text.in(request_.language))}};
  ask(runs, word_size, false, around_point(p, size_of(runs, word_size, false), 1.2));
}

void Sketch::level_word(Point p, engine::Text text) {
  const std::vector<Run> runs{{std::string(text.in(request_.language))}};
  const Size size = size_of(runs, word_size, false);
  std::vector<Candidate> all;
  for (int step = 0; step < 12; ++step) {
    const int line = (step + 1) / 2;  // away from the point, up and down in turn
    const double aside = line * (step % 2 ? -1.6 : 1.6);
    const Point middle = p + Point{1 + size.width / 2 + (step > 1 ? 3.0 : 0.0), aside};
    all.push_back({{middle, size.width / 2, size.height / 2, 0},
                   step * 0.5,
                   step > 1 ? std::optional<Point>(p) : std::nullopt});
  }
  ask(runs, word_size, false, std::move(all));
}

void Sketch::open_fall(Point from, std::string_view id) {
  const auto found = request_.labels.find(id);
  if (found == request_.labels.end()) return;
  const Point to = from + Point{0, open_fall_length};
  line({from - Point{2, 0}, from + Point{2, 0}}, Pen::dimension);
  arrow({from, to}, Pen::dimension);
  const auto runs = tag_runs(found->second);
  const bool bold = is_asked(found->second);
  ask(runs, label_size, bold, around_line(from, to, {1, 0}, size_of(runs, label_size, bold)));
}

void Sketch::put(const std::vector<Run>& runs, double size, bool bold, const Box& box,
                 Align align) {
  places_.add(box);
  // A box spans from ascender to descender; the baseline lies below its middle.
  const double from_middle = align == Align::start ? -box.half_width : 0;
  const Point baseline = box.centre + turned({from_middle, size * 0.28}, box.turn);
  drawing_.labels.push_back({baseline, runs, size, bold, align, box.turn * 180 / M_PI});
}

void Sketch::fixed(Point p, const std::vector<Run>& runs, double size, bool bold) {
  const double half = runs_width(runs, size, bold) / 2;
  put(runs, size, bold, {p + Point{half, 0}, half, size / 2, 0}, Align::start);
}

void Sketch::fixed_word(Point p, engine::Text text) {
  fixed(p, {{std::string(text.in(request_.language))}}, word_size);
}

std::vector<Run> Sketch::worded_tag(engine::Text word, std::string_view id) const {
  std::vector<Run> runs{{std::string(word.in(request_.language))}};
  const auto found = request_.labels.find(id);
  if (found == request_.labels.end()) return runs;
  runs.push_back({" "});
  for (Run& run : tag_runs(found->second)) runs.push_back(std::move(run));
  return runs;
}

void Sketch::place_texts() {
  // What has the fewest places of its own goes first: values before words that may stay away.
  std::stable_sort(asked_.begin(), asked_.end(),
                   [](const auto& a, const auto& b) { return a.dearest > b.dearest; });
  for (const Wanted& wanted : asked_) {
    const Candidate* best = places_.cheapest(wanted.candidates, wanted.dearest);
    if (!best) {
      if (wanted.dearest < 1e9) continue;
      notes_.push_back({wanted.runs, wanted.bold});
      continue;
    }
    if (best->leader) {
      const Point start = Places::leader_start(*best);
      line({start, *best->leader}, Pen::thin);
      disc(*best->leader, 0.35, Pen::none, Fill::dark);
    }
    put(wanted.runs, wanted.size, wanted.bold, best->box);
  }
}

// Texts without a point of their own stand in lines below the drawing.
void Sketch::place_notes() {
  const double left = bounds().low.x;
  const double room = std::max(bounds().width(), 60.0);
  double x = left;
  double y = bounds().high.y + 1.2 + label_size / 2;
  for (const auto& [runs, bold] : notes_) {
    const double width = runs_width(runs, label_size, bold);
    if (x > left && x + width > left + room + hair) {
      x = left;
      y += label_size * 1.35;
    }
    put(runs, label_size, bold, {{x + width / 2, y}, width / 2, label_size / 2, 0});
    x += width + 5;
  }
}

void Sketch::place_scale_bar() {
  struct Length {
    double metres;
    int number;
    std::string_view unit;
  };
  static constexpr Length us[] = {{0.0254, 1, "in"}, {0.1524, 6, "in"}, {0.3048, 1, "ft"},
                                  {0.6096, 2, "ft"}, {1.524, 5, "ft"},  {3.048, 10, "ft"},
                                  {6.096, 20, "ft"}, {15.24, 50, "ft"}, {30.48, 100, "ft"}};
  static constexpr Length si[] = {{0.01, 1, "cm"}, {0.1, 10, "cm"}, {0.5, 50, "cm"},
                                  {1, 1, "m"},     {2, 2, "m"},     {5, 5, "m"},
                                  {10, 10, "m"},   {20, 20, "m"},   {50, 50, "m"}};
  const auto& lengths = request_.system == notation::System::us ? us : si;
  const Length* chosen = std::begin(lengths);
  for (const Length& one : lengths)
    if (mm(one.metres) <= 22 + hair) chosen = &one;
  const double bar = mm(chosen->metres);
  const std::vector<Run> runs{{fmt::format("{}\u00a0{}", chosen->number, chosen->unit)}};
  const Size text = size_of(runs, word_size, false);
  const Size block{bar + 1 + text.width, word_size};
  std::vector<Candidate> all;
  const Bounds b = bounds();
  const auto offer = [&](double x, double y, double cost) {
    all.push_back({{{x, y}, block.width / 2 + 0.6, block.height / 2 + 0.3, 0}, cost, {}});
  };
  const double left = b.low.x + block.width / 2 + 0.6;
  const double right = b.high.x - block.width / 2 - 0.6;
  const double bottom = b.high.y - block.height / 2 - 0.3;
  const double top = b.low.y + block.height / 2 + 0.3;
  for (int i = 0; i <= 8; ++i) {
    const double x = left + (right - left) * i / 8;
    offer(x, bottom, 0.02 * i);
    offer(x, top, 2 + 0.02 * i);
    offer(left, bottom + (top - bottom) * i / 8, 0.2 * i);
    offer(right, bottom + (top - bottom) * i / 8, 0.2 * i);
  }
  offer(left, b.high.y + block.height / 2 + 1.2, 0);  // grows the page, which costs
  const Candidate* best = places_.cheapest(all);
  const Point start = best->box.centre - Point{block.width / 2, 0};
  const double high = 0.55;
  for (const int half : {0, 1}) {
    const double from = start.x + bar / 2 * half;
    area({{from, start.y - high},
          {from + bar / 2, start.y - high},
          {from + bar / 2, start.y + high},
          {from, start.y + high}},
         half ? Fill::paper : Fill::dark, Pen::thin);
  }
  fixed(start + Point{bar + 1, 0}, runs, word_size);
}

Drawing Sketch::finish() {
  place_texts();
  place_notes();
  if (scale_bar_) place_scale_bar();
  const Point shift = Point{margin, margin} - bounds().low;
  for (Shape& shape : drawing_.shapes) {
    if (auto* path = std::get_if<Path>(&shape))
      for (Point& p : path->points) p = p + shift;
    else
      std::get<Circle>(shape).centre = std::get<Circle>(shape).centre + shift;
  }
  for (Label& label : drawing_.labels) label.at = label.at + shift;
  for (auto& [name, p] : drawing_.marks) p = p + shift;
  drawing_.width = bounds().width() + 2 * margin;
  drawing_.height = bounds().height() + 2 * margin;
  drawing_.scale = scale_;
  return std::move(drawing_);
}

}  // namespace footroom::figure
