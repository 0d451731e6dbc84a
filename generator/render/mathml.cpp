#include "render/escape.hpp"
#include "render/render.hpp"

namespace footroom::render {
namespace {

using notation::Math;

constexpr std::string_view function_application = "\u2061";
constexpr std::string_view invisible_times = "\u2062";
constexpr std::string_view thin_space = "<mspace width=\"0.17em\"/>";

bool is_sign(const Math& math, std::string_view text) {
  return math.kind == Math::Kind::sign && math.text == text;
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

// The invisible signs tell a screen reader what is meant; a reader's eye gets a thin space, except
// between a function and its parentheses.
void write_row(const std::vector<Math>& parts, std::string& out) {
  out += "<mrow>";
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const Math* next = i + 1 < parts.size() ? &parts[i + 1] : nullptr;
    if (next && is_sign(*next, function_application))
      out += "<mi>" + escape_xml(parts[i].text) + "</mi>";
    else
      write(parts[i], out);
    const bool argument =
        is_sign(parts[i], function_application) && next && next->kind != Math::Kind::fence;
    if (argument || is_sign(parts[i], invisible_times)) out += thin_space;
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
