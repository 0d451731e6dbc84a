// Geometry of thousands of drawings: every calculation of the catalogue that has a scene, over its
// whole domain, both faces, both languages, both unit systems.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <random>
#include <set>

#include "figure/figure.hpp"

namespace footroom::figure {
namespace {

using engine::Calculation;
using engine::Quantity;
using engine::Value;
using engine::Values;
using engine::Word;

constexpr double widest_page = 165;  // mm, the column of a sheet
constexpr double highest_page = 75;
// The drawing language has two sizes of letters.
constexpr double values_size = 3.4;  // mm
constexpr double names_size = 3.1;

using Corners = std::array<Point, 4>;

// The box of a label, derived here anew from what the contract says.
Corners corners_of(const Label& label) {
  double width = 0;
  for (const Run& run : label.runs)
    width += text_width(run.text, run.lowered ? label.size * 0.72 : label.size);
  if (label.bold) width *= 1.08;
  const double left = label.align == Align::start ? 0 : -width / 2;
  const double top = -0.78 * label.size;
  const double bottom = 0.22 * label.size;
  const double c = std::cos(label.turn * M_PI / 180);
  const double s = std::sin(label.turn * M_PI / 180);
  Corners corners;
  const Point upright[] = {
      {left, top}, {left + width, top}, {left + width, bottom}, {left, bottom}};
  for (std::size_t i = 0; i < 4; ++i)
    corners[i] = {label.at.x + upright[i].x * c - upright[i].y * s,
                  label.at.y + upright[i].x * s + upright[i].y * c};
  return corners;
}

// Two convex shapes are apart where some edge's normal tells them apart.
bool told_apart_by_edges(const Corners& a, const Corners& b) {
  for (std::size_t i = 0; i < 4; ++i) {
    const Point from = a[i];
    const Point to = a[(i + 1) % 4];
    const Point normal{to.y - from.y, from.x - to.x};
    double inside = -1e300;
    double other = 1e300;
    const auto project = [&](Point p) { return p.x * normal.x + p.y * normal.y; };
    for (const Point p : a) inside = std::max(inside, project(p));
    for (const Point p : b) other = std::min(other, project(p));
    if (other >= inside - 1e-9) return true;
  }
  return false;
}
bool apart(const Corners& a, const Corners& b) {
  return told_apart_by_edges(a, b) || told_apart_by_edges(b, a);
}

std::string text_of(const Label& label) {
  std::string text;
  for (const Run& run : label.runs) text += run.text;
  return text;
}

void expect_sound(const Drawing& drawing) {
  EXPECT_TRUE(drawing.width > 10 && drawing.width <= widest_page) << drawing.width;
  EXPECT_TRUE(drawing.height > 5 && drawing.height <= highest_page) << drawing.height;
  EXPECT_GT(drawing.scale, 0);
  const auto inside = [&](Point p, double around) {
    return p.x - around >= 0 && p.y - around >= 0 && p.x + around <= drawing.width &&
           p.y + around <= drawing.height;  // false for NaN too
  };
  for (const Shape& shape : drawing.shapes) {
    if (const auto* path = std::get_if<Path>(&shape)) {
      ASSERT_GE(path->points.size(), 2u);
      for (const Point p : path->points) ASSERT_TRUE(inside(p, 0)) << p.x << ' ' << p.y;
    } else {
      const auto& circle = std::get<Circle>(shape);
      ASSERT_TRUE(inside(circle.centre, circle.radius));
    }
  }
  std::vector<Corners> boxes;
  for (const Label& label : drawing.labels) {
    EXPECT_TRUE(label.size == values_size || label.size == names_size) << label.size;
    boxes.push_back(corners_of(label));
    for (const Point p : boxes.back()) EXPECT_TRUE(inside(p, 0)) << text_of(label) << " is cut";
  }
  for (std::size_t i = 0; i < boxes.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      EXPECT_TRUE(apart(boxes[i], boxes[j]))
          << text_of(drawing.labels[i]) << " on " << text_of(drawing.labels[j]);
  EXPECT_FALSE(drawing.title.empty());
  EXPECT_FALSE(drawing.description.empty());
}

struct Rectangle {
  double left = 1e300;
  double right = -1e300;
  double top = 1e300;
  double bottom = -1e300;
  Fill fill = Fill::none;
};
std::vector<Rectangle> rectangles_of(const Drawing& drawing) {
  std::vector<Rectangle> all;
  for (const Shape& shape : drawing.shapes) {
    const auto* path = std::get_if<Path>(&shape);
    if (!path || !path->closed || path->points.size() != 4 || path->pen != Pen::thin) continue;
    Rectangle one;
    one.fill = path->fill;
    for (const Point p : path->points) {
      one.left = std::min(one.left, p.x);
      one.right = std::max(one.right, p.x);
      one.top = std::min(one.top, p.y);
      one.bottom = std::max(one.bottom, p.y);
    }
    all.push_back(one);
  }
  return all;
}

// A length like "5 ft" in metres; 0 for any other text.
double metres_of(std::string_view text) {
  constexpr std::pair<std::string_view, double> units[] = {
      {"\u00a0in", 0.0254}, {"\u00a0ft", 0.3048}, {"\u00a0cm", 0.01}, {"\u00a0m", 1}};
  for (const auto& [unit, metres] : units)
    if (text.ends_with(unit)) {
      const std::string number(text.substr(0, text.size() - unit.size()));
      if (!number.empty() && number.find_first_not_of("0123456789") == std::string::npos)
        return std::stod(number) * metres;
    }
  return 0;
}

// A dark and a light half, before a text that says how long both together are.
bool has_true_scale_bar(const Drawing& drawing) {
  const auto rectangles = rectangles_of(drawing);
  for (const Label& label : drawing.labels) {
    const double wanted = metres_of(text_of(label)) * drawing.scale;
    if (wanted == 0) continue;
    for (const Rectangle& dark : rectangles)
      for (const Rectangle& light : rectangles)
        if (dark.fill == Fill::dark && light.fill == Fill::paper && dark.right == light.left &&
            dark.top == light.top && light.right < label.at.x && label.at.x - light.right < 2 &&
            dark.top < label.at.y && dark.top > label.at.y - values_size &&
            std::abs(light.right - dark.left - wanted) < 1e-6)
          return true;
  }
  return false;
}

// Some scenes count workers or crossings.
bool distances_are_meant(std::string_view calculation) {
  return calculation != "rope-passes" && calculation != "anchor-strength";
}

bool same(Point a, Point b) {
  return a.x == b.x && a.y == b.y;
}
bool same(const Drawing& a, const Drawing& b) {
  if (a.shapes.size() != b.shapes.size() || a.labels.size() != b.labels.size() ||
      a.width != b.width || a.height != b.height || a.title != b.title ||
      a.description != b.description)
    return false;
  for (std::size_t i = 0; i < a.shapes.size(); ++i) {
    const auto* p = std::get_if<Path>(&a.shapes[i]);
    const auto* q = std::get_if<Path>(&b.shapes[i]);
    if (!p != !q) return false;
    if (!p) continue;
    if (p->points.size() != q->points.size()) return false;
    for (std::size_t k = 0; k < p->points.size(); ++k)
      if (!same(p->points[k], q->points[k])) return false;
  }
  for (std::size_t i = 0; i < a.labels.size(); ++i)
    if (!same(a.labels[i].at, b.labels[i].at) || text_of(a.labels[i]) != text_of(b.labels[i]))
      return false;
  return true;
}

class Numbers {
 public:
  explicit Numbers(std::uint32_t seed) : engine_(seed) {}
  std::uint32_t below(std::size_t count) { return static_cast<std::uint32_t>(engine_() % count); }
  // Ends are drawn often: that is where drawings break.
  double in(double low, double high) {
    if (below(12) == 0) return low;
    if (below(12) == 0) return high;
    return low + (high - low) * below(1 << 20) / double(1 << 20);
  }

 private:
  std::mt19937 engine_;
};

// Passes of ropes for any number of workers; more places than ropes are refused. Most of a long
// list undoes itself, so that the search for an undoing is short.
engine::Words draw_passes(Numbers& numbers) {
  const std::uint32_t places = 1 + numbers.below(7);
  const auto pass = [&](std::uint32_t place, bool over) {
    return Word{std::to_string(place) + (over ? "-over" : "-under")};
  };
  std::vector<std::pair<std::uint32_t, bool>> there;
  // One after the other: in which order arguments are worked out is a compiler's choice.
  const auto draw_pass = [&] {
    const std::uint32_t place = 1 + numbers.below(places);
    return std::pair(place, numbers.below(2) == 1);
  };
  for (std::uint32_t left = numbers.below(31); left > 0; --left) there.push_back(draw_pass());
  engine::Words passes;
  for (const auto& [place, over] : there) passes.push_back(pass(place, over));
  for (std::size_t i = there.size(); i-- > 0;)
    passes.push_back(pass(there[i].first, !there[i].second));
  for (std::uint32_t left = numbers.below(4); left > 0; --left) {
    const auto [place, over] = draw_pass();
    passes.push_back(pass(place, over));
  }
  return passes;
}

Value draw_value(const engine::Input& input, Numbers& numbers) {
  if (!input.word_example.empty()) return draw_passes(numbers);
  if (!input.choices.empty())
    return Word{std::string(input.choices[numbers.below(input.choices.size())].id)};
  double low = input.domain.lowest;
  double high = input.domain.highest;
  // Half of the cases as on a sheet: lengths of a house, not of a hall.
  if (input.dimension == engine::dimension::length && numbers.below(2)) high = std::min(high, 9.0);
  double value = numbers.in(low, high);
  if (value == low && !input.domain.includes_lowest) value = low + (high - low) * 0.01;
  if (value == high && !input.domain.includes_highest) value = high - (high - low) * 0.01;
  if (input.id == "persons" || input.id == "workers") value = std::round(value);
  return Quantity{input.dimension, value};
}

struct DrawnCase {
  Values inputs;
  Values outputs;
};
std::optional<DrawnCase> draw_case(const Calculation& calculation, Numbers& numbers) {
  DrawnCase made;
  for (const auto& input : calculation.inputs)
    made.inputs[std::string(input.id)] =
        input.fallback && numbers.below(2) ? *input.fallback : draw_value(input, numbers);
  try {
    made.outputs = calculation.run(made.inputs);
  } catch (const engine::Refusal&) {
    return std::nullopt;
  }
  return made;
}

Request request_of(const Calculation& calculation, const DrawnCase& drawn, Numbers& numbers) {
  Request request;
  request.calculation = calculation.id;
  request.inputs = drawn.inputs;
  request.outputs = drawn.outputs;
  request.language = numbers.below(2) ? engine::Language::spanish : engine::Language::english;
  request.system = numbers.below(2) ? notation::System::si : notation::System::us;
  constexpr std::array<std::string_view, 3> texts = {"4 ft", "12.25\u00a0ft", "1,800\u00a0lbf"};
  for (const auto& input : calculation.inputs)
    if (numbers.below(6))
      request.labels[std::string(input.id)] = {std::string(input.symbol),
                                               std::string(texts[numbers.below(texts.size())])};
  return request;
}

std::vector<const Calculation*> drawn_calculations() {
  std::vector<const Calculation*> all;
  for (const Calculation* calculation : engine::catalogue())
    if (has_drawing(calculation->id)) all.push_back(calculation);
  return all;
}

class EveryScene : public testing::TestWithParam<const Calculation*> {};

TEST_P(EveryScene, IsSoundOverItsWholeDomain) {
  const Calculation& calculation = *GetParam();
  Numbers numbers(1926);
  int drawn = 0;
  for (int i = 0; i < 1500 && drawn < 250; ++i) {
    const auto made = draw_case(calculation, numbers);
    if (!made) continue;
    ++drawn;
    Request request = request_of(calculation, *made, numbers);
    const auto& asked = calculation.outputs[numbers.below(calculation.outputs.size())];
    const std::string id(asked.id);
    request.labels[id] = {std::string(asked.symbol), ""};
    const auto sheet = draw(request);
    ASSERT_TRUE(sheet);
    expect_sound(*sheet);
    EXPECT_EQ(has_true_scale_bar(*sheet), distances_are_meant(calculation.id));

    // A sheet is drawn without the outputs: nothing in it can give them away.
    Request blind = request;
    blind.outputs.clear();
    EXPECT_TRUE(same(*sheet, *draw(blind)));

    request.wanted = Request::For::key;
    for (const auto& output : calculation.outputs)
      if (numbers.below(3))
        request.labels[std::string(output.id)] = {std::string(output.symbol), "−12.5\u00a0ft"};
    const auto key = draw(request);
    ASSERT_TRUE(key);
    expect_sound(*key);
    if (HasFailure()) {
      for (const auto& [name, value] : made->inputs)
        if (const auto* quantity = std::get_if<Quantity>(&value))
          ADD_FAILURE() << name << " = " << quantity->si;
      return;
    }
  }
  EXPECT_GE(drawn, 100);
}

TEST_P(EveryScene, TellsWhatIsGivenAndAskedInBothLanguages) {
  const Calculation& calculation = *GetParam();
  Numbers numbers(7);
  std::optional<DrawnCase> made;
  while (!made) made = draw_case(calculation, numbers);
  Request request;
  request.calculation = calculation.id;
  request.inputs = made->inputs;
  request.outputs = made->outputs;
  const auto& input = calculation.inputs.front();
  const auto& output = calculation.outputs.front();
  request.labels[std::string(input.id)] = {"q", "77 units"};
  request.labels[std::string(output.id)] = {"w", ""};
  const auto contains = [](const std::string& text, std::string_view part) {
    return text.find(part) != std::string::npos;
  };
  for (const auto language : {engine::Language::english, engine::Language::spanish}) {
    request.language = language;
    request.wanted = Request::For::sheet;
    request.labels[std::string(output.id)].text = "";
    const std::string sheet = draw(request)->description;
    EXPECT_TRUE(contains(sheet, input.name.in(language))) << sheet;
    EXPECT_TRUE(contains(sheet, "q: 77 units")) << sheet;
    EXPECT_TRUE(contains(sheet, language == engine::Language::english ? "Asked: " : "Se pide: "))
        << sheet;
    request.wanted = Request::For::key;
    request.labels[std::string(output.id)].text = "88 units";
    const std::string key = draw(request)->description;
    EXPECT_TRUE(contains(key, "w: 88 units")) << key;
  }
}

INSTANTIATE_TEST_SUITE_P(Catalogue, EveryScene, testing::ValuesIn(drawn_calculations()),
                         [](const auto& named) {
                           std::string name(named.param->id);
                           for (char& c : name)
                             if (c == '-') c = '_';
                           return name;
                         });

TEST(Draw, GivesNothingForACalculationWithoutAScene) {
  Request request;
  request.calculation = "nails-needed";
  EXPECT_FALSE(draw(request));
  EXPECT_FALSE(has_drawing("nails-needed"));
  EXPECT_TRUE(has_drawing("edge-fall"));
}

TEST(Draw, NamesAMissingInput) {
  Request request;
  request.calculation = "edge-fall";
  request.inputs["slope-length"] = Quantity{engine::dimension::length, 4};
  try {
    draw(request);
    FAIL() << "drew without a pitch";
  } catch (const std::invalid_argument& refused) {
    EXPECT_STREQ(refused.what(), "figure of edge-fall: pitch is missing or is no number");
  }
  request.inputs["pitch"] = Quantity{engine::dimension::angle, std::nan("")};
  EXPECT_THROW(draw(request), std::invalid_argument);
}

}  // namespace
}  // namespace footroom::figure
