#include <gtest/gtest.h>

#include "render/render.hpp"
#include "sample.hpp"

namespace footroom::render {
namespace {

using sample::fence;
using sample::fraction;
using sample::identifier;
using sample::index;
using sample::number;
using sample::root;
using sample::row;
using sample::sign;
using sample::square;

std::string inside(const notation::Math& math) {
  const std::string start =
      "<math xmlns=\"http://www.w3.org/1998/Math/MathML\" displaystyle=\"true\">";
  const std::string end = "</math>";
  const std::string whole = mathml(math);
  EXPECT_EQ(whole.substr(0, start.size()), start);
  EXPECT_EQ(whole.substr(whole.size() - end.size()), end);
  return whole.substr(start.size(), whole.size() - start.size() - end.size());
}

TEST(MathMl, SetsEveryKindOfBox) {
  EXPECT_EQ(inside(identifier("L")), "<mi>L</mi>");
  EXPECT_EQ(inside(number("16\u00A0ft")), "<mn>16\u00A0ft</mn>");
  EXPECT_EQ(inside(sign("+")), "<mo>+</mo>");
  EXPECT_EQ(inside(fraction(number("1"), number("2"))), "<mfrac><mn>1</mn><mn>2</mn></mfrac>");
  EXPECT_EQ(inside(root(identifier("x"))), "<msqrt><mi>x</mi></msqrt>");
  EXPECT_EQ(inside(square(identifier("x"))), "<msup><mi>x</mi><mn>2</mn></msup>");
  EXPECT_EQ(inside(index("d", "0")), "<msub><mi>d</mi><mi>0</mi></msub>");
  EXPECT_EQ(inside(fence({identifier("x")})),
            "<mrow><mo fence=\"true\" form=\"prefix\" stretchy=\"true\">(</mo>"
            "<mrow><mi>x</mi></mrow>"
            "<mo fence=\"true\" form=\"postfix\" stretchy=\"true\">)</mo></mrow>");
  EXPECT_EQ(inside({notation::Math::Kind::fence, "|", {identifier("x")}}),
            "<mrow><mo fence=\"true\" form=\"prefix\" stretchy=\"true\">|</mo>"
            "<mrow><mi>x</mi></mrow>"
            "<mo fence=\"true\" form=\"postfix\" stretchy=\"true\">|</mo></mrow>");
}

TEST(MathMl, SetsFunctionsUprightWithAThinSpaceBeforeABareArgument) {
  const auto cosine = sign("cos");
  const auto apply = sign(sample::function_application);
  EXPECT_EQ(inside(row({cosine, apply, identifier("θ")})),
            "<mrow><mi>cos</mi><mo>\u2061</mo><mspace width=\"0.17em\"/><mi>θ</mi></mrow>");
  EXPECT_EQ(inside(row({cosine, apply, fence({identifier("θ")})})).find("mspace"),
            std::string::npos);
}

TEST(MathMl, KeepsFactorsApart) {
  EXPECT_EQ(inside(row({identifier("W"), sign(sample::invisible_times), identifier("FF")})),
            "<mrow><mi>W</mi><mo>\u2062</mo><mspace width=\"0.17em\"/><mi>FF</mi></mrow>");
}

TEST(MathMl, EscapesText) {
  EXPECT_EQ(inside(number("a<b & \"c\"")), "<mn>a&lt;b &amp; &quot;c&quot;</mn>");
  EXPECT_EQ(inside(sign("<")), "<mo>&lt;</mo>");
}

}  // namespace
}  // namespace footroom::render
