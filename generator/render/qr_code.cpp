#include "render/qr_code.hpp"

#include <fmt/format.h>
#include <qrencode.h>

#include <memory>
#include <stdexcept>

#include "render/escape.hpp"

namespace footroom::render {
namespace {

constexpr int quiet_zone = 4;  // modules on each side, ISO/IEC 18004

struct FreeCode {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

}  // namespace

std::string qr_code(const std::string& text, const std::string& label) {
  const std::unique_ptr<QRcode, FreeCode> code(
      QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M));
  if (!code) throw std::runtime_error("no QR code can hold \"" + text + "\"");
  const int size = code->width + 2 * quiet_zone;
  std::string path;
  for (int y = 0; y < code->width; ++y) {
    for (int x = 0; x < code->width;) {
      int run = 0;
      while (x + run < code->width && (code->data[y * code->width + x + run] & 1)) ++run;
      if (run > 0)
        path += fmt::format("M{} {}h{}v1h-{}z", x + quiet_zone, y + quiet_zone, run, run);
      x += run > 0 ? run : 1;
    }
  }
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"qr\" viewBox=\"0 0 {0} {0}\" role=\"img\" "
      "aria-label=\"{1}\" shape-rendering=\"crispEdges\"><path fill=\"#fff\" d=\"M0 "
      "0h{0}v{0}H0z\"/>"
      "<path fill=\"#000\" d=\"{2}\"/></svg>",
      size, escape_xml(label), path);
}

}  // namespace footroom::render
