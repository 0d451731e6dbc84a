#include "render/qr_code.hpp"

#include <gtest/gtest.h>
#include <qrencode.h>

#include <memory>
#include <pugixml.hpp>
#include <sstream>
#include <string>
#include <vector>

namespace footroom::render {
namespace {

/// The modules that a path of "Mx yhNv1h-Nz" runs paints.
std::vector<std::string> painted(const std::string& path, int size) {
  std::vector<std::string> rows(static_cast<std::size_t>(size),
                                std::string(static_cast<std::size_t>(size), '.'));
  std::istringstream in(path);
  char letter = 0;
  int x = 0, y = 0, run = 0, one = 0, back = 0;
  while (in >> letter >> x >> y >> letter >> run >> letter >> one >> letter >> back >> letter) {
    EXPECT_EQ(one, 1);
    EXPECT_EQ(back, -run);
    for (int i = 0; i < run; ++i)
      rows.at(static_cast<std::size_t>(y)).at(static_cast<std::size_t>(x + i)) = '#';
  }
  return rows;
}

TEST(QrCode, PaintsTheModulesInsideAQuietZoneOfFour) {
  const std::string svg = qr_code("7K3QX-A", "Code");
  pugi::xml_document document;
  ASSERT_TRUE(document.load_buffer(svg.data(), svg.size(), pugi::parse_full));
  const auto paper = document.child("svg").child("path");
  EXPECT_EQ(paper.attribute("fill").value(), std::string("#fff"));

  const std::unique_ptr<QRcode, void (*)(QRcode*)> code(
      QRcode_encodeString8bit("7K3QX-A", 0, QR_ECLEVEL_M), QRcode_free);
  ASSERT_TRUE(code);
  const int size = code->width + 8;
  EXPECT_EQ(document.child("svg").attribute("viewBox").value(),
            "0 0 " + std::to_string(size) + " " + std::to_string(size));
  const auto rows = painted(paper.next_sibling().attribute("d").value(), size);
  for (int y = 0; y < size; ++y)
    for (int x = 0; x < size; ++x) {
      const bool inside = x >= 4 && y >= 4 && x < size - 4 && y < size - 4;
      const bool black = inside && (code->data[(y - 4) * code->width + x - 4] & 1);
      EXPECT_EQ(rows[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)], black ? '#' : '.')
          << x << " " << y;
    }
}

TEST(QrCode, EscapesItsLabel) {
  EXPECT_NE(qr_code("A", "a \"b\" <c>").find("aria-label=\"a &quot;b&quot; &lt;c&gt;\""),
            std::string::npos);
}

TEST(QrCode, RefusesWhatNoCodeCanHold) {
  EXPECT_THROW(qr_code(std::string(5000, 'x'), "Code"), std::runtime_error);
}

}  // namespace
}  // namespace footroom::render
