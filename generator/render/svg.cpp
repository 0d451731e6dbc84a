// The only place that writes SVG. Every drawing carries its own patterns and attributes, so that
// any number of them can stand in one page, whatever the page's style.

#include <fmt/format.h>

#include <cmath>
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
std::string coordinate(double millimetres) {
  const double millionths = std::round(millimetres * 1e6);
  std::string text = fmt::format("{:.2f}", std::round(millionths / 1e4) / 100);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

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

std::string fill(Fill fill, const std::string& id) {
  switch (fill) {
    case Fill::none:
      return "";
    case Fill::paper:
      return " fill=\"#fff\"";
    case Fill::light:
      return " fill=\"#e8e8e8\"";
    case Fill::dark:
      return " fill=\"#000\"";
    case Fill::earth:
      return " fill=\"url(#" + id + "-earth)\"";
    case Fill::timber:
      return " fill=\"url(#" + id + "-timber)\"";
    case Fill::danger:
      return " fill=\"url(#" + id + "-danger)\"";
  }
  return "";
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

std::string points(const std::vector<Point>& all) {
  std::string text;
  for (const Point p : all) {
    if (!text.empty()) text += ' ';
    text += coordinate(p.x) + ',' + coordinate(p.y);
  }
  return text;
}

std::string path(const Path& path, const std::string& id) {
  const std::string_view element = path.closed ? "polygon" : "polyline";
  const std::string where = points(path.points);
  std::string text = fmt::format("<{} points=\"{}\"{}{}/>\n", element, where, stroke(path.pen),
                                 fill(path.fill, id));
  if (path.pen == Pen::rope)  // strands: a light broken core
    text += fmt::format(
        "<{} points=\"{}\" stroke=\"#fff\" stroke-width=\".5\" stroke-dasharray=\".85 .5\""
        " stroke-linecap=\"butt\"/>\n",
        element, where);
  return text;
}

std::string circle(const Circle& circle, const std::string& id) {
  return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}{}/>\n", coordinate(circle.centre.x),
                     coordinate(circle.centre.y), coordinate(circle.radius), stroke(circle.pen),
                     fill(circle.fill, id));
}

std::string run(const Run& run, const Label& label, bool after_index) {
  std::string attributes;
  if (run.italic) attributes += " font-style=\"italic\"";
  const double lowered_by = label.size * 0.2;
  if (run.lowered)
    attributes += fmt::format(" dy=\"{}\" font-size=\"{}\"", coordinate(lowered_by),
                              coordinate(label.size * 0.72));
  else if (after_index)
    attributes += fmt::format(" dy=\"{}\"", coordinate(-lowered_by));
  if (attributes.empty()) return escape_xml(run.text);
  return "<tspan" + attributes + ">" + escape_xml(run.text) + "</tspan>";
}

std::string label(const Label& label) {
  const std::string x = coordinate(label.at.x);
  const std::string y = coordinate(label.at.y);
  std::string attributes;
  if (label.align == figure::Align::start) attributes += " text-anchor=\"start\"";
  if (label.bold) attributes += " font-weight=\"bold\"";
  const std::string turn = coordinate(label.turn);
  if (turn != "0") attributes += fmt::format(" transform=\"rotate({} {} {})\"", turn, x, y);
  std::string text = fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}>", x, y,
                                 coordinate(label.size), attributes);
  bool after_index = false;
  for (const Run& one : label.runs) {
    text += run(one, label, after_index);
    after_index = one.lowered;
  }
  return text + "</text>\n";
}

bool uses(const Drawing& drawing, Fill wanted) {
  for (const auto& shape : drawing.shapes)
    if (std::visit([](const auto& s) { return s.fill; }, shape) == wanted) return true;
  return false;
}

std::string definitions(const Drawing& drawing, const std::string& id) {
  std::string all;
  for (const Hatch& hatch : hatches)
    if (uses(drawing, hatch.fill))
      all += fmt::format("<pattern id=\"{}-{}\" patternUnits=\"userSpaceOnUse\"{}</pattern>\n", id,
                         hatch.name, hatch.cell);
  return all.empty() ? all : "<defs>\n" + all + "</defs>\n";
}

}  // namespace

std::string svg_element(const figure::Drawing& drawing, const std::string& plain_id) {
  const std::string id = escape_xml(plain_id);
  const std::string width = coordinate(drawing.width);
  const std::string height = coordinate(drawing.height);
  std::string svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}mm\" height=\"{1}mm\""
      " viewBox=\"0 0 {0} {1}\" role=\"img\" aria-labelledby=\"{2}-title\""
      " aria-describedby=\"{2}-desc\">\n"
      "<title id=\"{2}-title\">{3}</title>\n"
      "<desc id=\"{2}-desc\">{4}</desc>\n",
      width, height, id, escape_xml(drawing.title), escape_xml(drawing.description));
  svg += definitions(drawing, id);
  // Its own paper, so that a dark page does not swallow the lines.
  svg += fmt::format("<rect width=\"{}\" height=\"{}\" fill=\"#fff\"/>\n", width, height);
  svg += "<g fill=\"none\" stroke=\"#000\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n";
  for (const auto& shape : drawing.shapes) {
    if (const auto* one = std::get_if<Path>(&shape))
      svg += path(*one, id);
    else
      svg += circle(std::get<Circle>(shape), id);
  }
  // A white halo under each text keeps it readable across a line.
  svg += fmt::format(
      "</g>\n<g font-family=\"{}\" text-anchor=\"middle\" fill=\"#000\" stroke=\"#fff\""
      " stroke-width=\".9\" stroke-linejoin=\"round\" paint-order=\"stroke\">\n",
      font);
  for (const Label& one : drawing.labels) svg += label(one);
  return svg + "</g>\n</svg>\n";
}

std::string svg_file(const figure::Drawing& drawing) {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" + svg_element(drawing, "figure");
}

}  // namespace footroom::render
