// The only place that writes SVG. Every drawing carries its own patterns and attributes, so that
// any number of them can stand in one page, whatever the page's style.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string_view>

#include "render/escape.hpp"
#include "render/render.hpp"

namespace footroom::render {
namespace {

using figure::Circle;
using figure::Drawing;
using figure::Fill;
using figure::Label;
using figure::Path;
using figure::Pen;
using figure::Point;
using figure::Run;

constexpr std::string_view font =
    "'Liberation Sans',Arial,Helvetica,'DejaVu Sans Condensed',sans-serif";

// At most two decimals, no trailing zeros, no "-0". Many coordinates stand on half a hundredth by
// design, give or take the last bit of a sine, which differs between mathematics libraries: that is
// rounded away first, so that the same drawing has the same text everywhere.
void add_coordinate(std::string& out, double millimetres) {
  constexpr double largest = 1e9;
  if (!(std::abs(millimetres) < largest)) {
    out += fmt::format("{}", std::round(millimetres * 100) / 100);
    return;
  }
  const bool negative = millimetres < 0;
  const auto millionths = std::int64_t{std::llround(std::abs(millimetres) * 1e6)};
  const std::int64_t hundredths = (millionths + 5000) / 10000;
  if (negative && hundredths != 0) out += '-';
  const fmt::format_int whole(hundredths / 100);
  char digits[24];
  char* end = std::copy_n(whole.data(), whole.size(), digits);
  if (const std::int64_t places = hundredths % 100; places != 0) {
    *end++ = '.';
    *end++ = static_cast<char>('0' + places / 10);
    if (places % 10 != 0) *end++ = static_cast<char>('0' + places % 10);
  }
  out.append(digits, end);
}

std::string coordinate(double millimetres) {
  std::string text;
  add_coordinate(text, millimetres);
  return text;
}

/// SVG as text that leaves room for the id of the drawing.
class Text {
 public:
  template <class Piece>
  Text& operator<<(const Piece& piece) {
    text_ += piece;
    return *this;
  }
  Text& operator<<(double millimetres) {
    add_coordinate(text_, millimetres);
    return *this;
  }
  Text& id() {
    ids_.push_back(text_.size());
    return *this;
  }

  std::string& text() { return text_; }
  std::vector<std::size_t>& ids() { return ids_; }

 private:
  std::string text_;
  std::vector<std::size_t> ids_;
};

std::string_view stroke(Pen pen) {
  switch (pen) {
    case Pen::none:
      return " stroke=\"none\"";
    case Pen::outline:
      return " stroke-width=\".7\"";
    case Pen::edge:
      return " stroke-width=\".3\"";
    case Pen::thin:
      return " stroke-width=\".16\"";
    case Pen::rope:
      return " stroke-width=\"1\"";
    case Pen::rope_before:
      return " stroke-width=\".3\" stroke-dasharray=\".9 .7\"";
    case Pen::dimension:
      return " stroke-width=\".2\"";
    case Pen::extension:
      return " stroke-width=\".13\"";
    case Pen::hidden:
      return " stroke-width=\".25\" stroke-dasharray=\"1.6 .9\"";
    case Pen::limit:
      return " stroke-width=\".3\" stroke-dasharray=\"4 .8 .5 .8\"";
    case Pen::motion:
      return " stroke-width=\".4\" stroke-dasharray=\".1 .9\"";
    case Pen::strap:
      return " stroke=\"#fff\" stroke-width=\".35\"";
  }
  return "";
}

void add_fill(Text& out, Fill fill) {
  const auto hatch = [&](std::string_view name) { (out << " fill=\"url(#").id() << name << ")\""; };
  switch (fill) {
    case Fill::none:
      return;
    case Fill::paper:
      out << " fill=\"#fff\"";
      return;
    case Fill::light:
      out << " fill=\"#e8e8e8\"";
      return;
    case Fill::dark:
      out << " fill=\"#000\"";
      return;
    case Fill::earth:
      return hatch("-earth");
    case Fill::timber:
      return hatch("-timber");
    case Fill::danger:
      return hatch("-danger");
  }
}

struct Hatch {
  Fill fill;
  std::string_view name;
  std::string_view cell;  ///< attributes of the pattern, and what it repeats
};
constexpr Hatch hatches[] = {
    {Fill::earth, "earth",
     " width=\"4\" height=\"4\"><path d=\"M0 2L2 0M.7 2.7L2.7.7M2 4L4 2M3.1 .5h.01M1 3.6h.01\""
     " fill=\"none\" stroke=\"#000\" stroke-width=\".18\" stroke-linecap=\"round\"/>"},
    {Fill::timber, "timber",
     " width=\"1.1\" height=\"1.1\" patternTransform=\"rotate(-45)\"><path d=\"M0 .5H1.1\""
     " fill=\"none\" stroke=\"#000\" stroke-width=\".13\"/>"},
    {Fill::danger, "danger",
     " width=\"1.2\" height=\"1.2\" patternTransform=\"rotate(45)\"><path d=\"M0 .6H1.2M.6 0V1.2\""
     " fill=\"none\" stroke=\"#000\" stroke-width=\".16\"/>"},
};

void add_points(Text& out, const std::vector<Point>& all) {
  out << " points=\"";
  bool first = true;
  for (const Point p : all) {
    if (!first) out << ' ';
    first = false;
    out << p.x << ',' << p.y;
  }
  out << '"';
}

void add(Text& out, const Path& path) {
  const std::string_view element = path.closed ? "<polygon" : "<polyline";
  out << element;
  add_points(out, path.points);
  out << stroke(path.pen);
  add_fill(out, path.fill);
  out << "/>\n";
  if (path.pen != Pen::rope) return;
  out << element;  // strands: a light broken core
  add_points(out, path.points);
  out << " stroke=\"#fff\" stroke-width=\".5\" stroke-dasharray=\".85 .5\""
         " stroke-linecap=\"butt\"/>\n";
}

void add(Text& out, const Circle& circle) {
  out << "<circle cx=\"" << circle.centre.x << "\" cy=\"" << circle.centre.y << "\" r=\""
      << circle.radius << '"' << stroke(circle.pen);
  add_fill(out, circle.fill);
  out << "/>\n";
}

void add(Text& out, const Run& run, const Label& label, bool after_index) {
  std::string attributes;
  if (run.italic) attributes += " font-style=\"italic\"";
  const double lowered_by = label.size * 0.2;
  if (run.lowered)
    attributes +=
        " dy=\"" + coordinate(lowered_by) + "\" font-size=\"" + coordinate(label.size * 0.72) + '"';
  else if (after_index)
    attributes += " dy=\"" + coordinate(-lowered_by) + '"';
  if (attributes.empty())
    out << escape_xml(run.text);
  else
    out << "<tspan" << attributes << ">" << escape_xml(run.text) << "</tspan>";
}

void add(Text& out, const Label& label) {
  out << "<text x=\"" << label.at.x << "\" y=\"" << label.at.y << "\" font-size=\"" << label.size
      << '"';
  if (label.align == figure::Align::start) out << " text-anchor=\"start\"";
  if (label.bold) out << " font-weight=\"bold\"";
  const std::string turn = coordinate(label.turn);
  if (turn != "0")
    out << " transform=\"rotate(" << turn << ' ' << label.at.x << ' ' << label.at.y << ")\"";
  out << '>';
  bool after_index = false;
  for (const Run& one : label.runs) {
    add(out, one, label, after_index);
    after_index = one.lowered;
  }
  out << "</text>\n";
}

bool uses(const Drawing& drawing, Fill wanted) {
  for (const auto& shape : drawing.shapes)
    if (std::visit([](const auto& s) { return s.fill; }, shape) == wanted) return true;
  return false;
}

void add_definitions(Text& out, const Drawing& drawing) {
  bool any = false;
  for (const Hatch& hatch : hatches) {
    if (!uses(drawing, hatch.fill)) continue;
    if (!any) out << "<defs>\n";
    any = true;
    (out << "<pattern id=\"").id() << '-' << hatch.name << "\" patternUnits=\"userSpaceOnUse\""
                                   << hatch.cell << "</pattern>\n";
  }
  if (any) out << "</defs>\n";
}

}  // namespace

Svg::Svg(const figure::Drawing& drawing) {
  Text out;
  out.text().reserve(1 << 14);
  const std::string width = coordinate(drawing.width);
  const std::string height = coordinate(drawing.height);
  out << "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" << width << "mm\" height=\"" << height
      << "mm\" viewBox=\"0 0 " << width << ' ' << height << "\" role=\"img\" aria-labelledby=\"";
  out.id() << "-title\" aria-describedby=\"";
  out.id() << "-desc\">\n<title id=\"";
  out.id() << "-title\">" << escape_xml(drawing.title) << "</title>\n<desc id=\"";
  out.id() << "-desc\">" << escape_xml(drawing.description) << "</desc>\n";
  add_definitions(out, drawing);
  // Its own paper, so that a dark page does not swallow the lines.
  out << "<rect width=\"" << width << "\" height=\"" << height << "\" fill=\"#fff\"/>\n";
  out << "<g fill=\"none\" stroke=\"#000\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n";
  for (const auto& shape : drawing.shapes) {
    if (const auto* one = std::get_if<Path>(&shape))
      add(out, *one);
    else
      add(out, std::get<Circle>(shape));
  }
  // A white halo under each text keeps it readable across a line.
  out << "</g>\n<g font-family=\"" << font
      << "\" text-anchor=\"middle\" fill=\"#000\" stroke=\"#fff\""
         " stroke-width=\".9\" stroke-linejoin=\"round\" paint-order=\"stroke\">\n";
  for (const Label& one : drawing.labels) add(out, one);
  out << "</g>\n</svg>\n";
  text_ = std::move(out.text());
  ids_ = std::move(out.ids());
}

std::string Svg::element(const std::string& plain_id) const {
  return whole({}, escape_xml(plain_id));
}

std::string Svg::file() const {
  return whole("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n", "figure");
}

std::string Svg::whole(std::string_view before, std::string_view id) const {
  std::string all;
  all.reserve(before.size() + text_.size() + ids_.size() * id.size());
  all += before;
  std::size_t done = 0;
  for (const std::size_t at : ids_) {
    all.append(text_, done, at - done);
    all += id;
    done = at;
  }
  return all.append(text_, done);
}

std::string svg_element(const figure::Drawing& drawing, const std::string& id) {
  return Svg(drawing).element(id);
}

std::string svg_file(const figure::Drawing& drawing) {
  return Svg(drawing).file();
}

}  // namespace footroom::render
