#pragma once
#include <string>

namespace footroom::render {

/// An SVG element with a QR code (ISO/IEC 18004, error correction M) of a short text, black on
/// white with its quiet zone whatever the page's colours. `label` is read out by a screen reader.
/// Throws std::runtime_error where the text is too long for a QR code.
std::string qr_code(const std::string& text, const std::string& label);

}  // namespace footroom::render
