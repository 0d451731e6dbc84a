#include <array>

#include "render/escape.hpp"
#include "render/render.hpp"

namespace footroom::render {
namespace {

using notation::Math;

// Names of functions are upright and stand close to a parenthesis, with a thin space before
// anything else.
bool is_function(const Math& math) {
  constexpr std::array<std::string_view, 16> names{
      "sin",  "cos", "tan", "arcsin", "arccos", "arctan", "asin",  "acos",
      "atan", "exp", "log", "ln",     "min",    "max",    "floor", "ceil"};
  if (math.kind != Math::Kind::sign) return false;
  for (const auto name : names)
    if (math.text == name) return true;
  return false;
}

void write(const Math& math, std::string& out);

void write_tagged(std::string_view tag, const std::vector<Math>& parts, std::string& out) {
  out += '<';
  out += tag;
  out += '>';
  for (const Math& part : parts) write(part, out);
  out += "</";
  out += tag;
  out += '>';
}

void write_row(const std::vector<Math>& parts, std::string& out) {
  out += "<mrow>";
  for (std::size_t i = 0; i < parts.size(); ++i) {
    write(parts[i], out);
    const bool argument_follows = i + 1 < parts.size() && parts[i + 1].kind != Math::Kind::fence;
    if (is_function(parts[i]) && argument_follows) out += "<mspace width=\"0.17em\"/>";
  }
  out += "</mrow>";
}

void write_fence(const Math& fence, std::string& out) {
  const bool bars = fence.text == "|";
  const std::string_view opening = bars ? "|" : "(";
  const std::string_view closing = bars ? "|" : ")";
  out += "<mrow><mo fence=\"true\" form=\"prefix\" stretchy=\"true\">";
  out += opening;
  out += "</mo>";
  write_row(fence.parts, out);
  out += "<mo fence=\"true\" form=\"postfix\" stretchy=\"true\">";
  out += closing;
  out += "</mo></mrow>";
}

void write(const Math& math, std::string& out) {
  switch (math.kind) {
    case Math::Kind::row:
      return write_row(math.parts, out);
    case Math::Kind::identifier:
      out += "<mi>" + escape_xml(math.text) + "</mi>";
      return;
    case Math::Kind::number:
      out += "<mn>" + escape_xml(math.text) + "</mn>";
      return;
    case Math::Kind::sign:
      if (is_function(math))
        out += "<mi>" + escape_xml(math.text) + "</mi>";
      else
        out += "<mo>" + escape_xml(math.text) + "</mo>";
      return;
    case Math::Kind::fraction:
      return write_tagged("mfrac", math.parts, out);
    case Math::Kind::root:
      return write_tagged("msqrt", math.parts, out);
    case Math::Kind::power:
      return write_tagged("msup", math.parts, out);
    case Math::Kind::subscript:
      return write_tagged("msub", math.parts, out);
    case Math::Kind::fence:
      return write_fence(math, out);
  }
}

}  // namespace

std::string mathml(const Math& math) {
  std::string out = "<math xmlns=\"http://www.w3.org/1998/Math/MathML\" displaystyle=\"true\">";
  write(math, out);
  return out + "</math>";
}

}  // namespace footroom::render
