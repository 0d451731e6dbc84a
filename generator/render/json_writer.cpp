#include "render/json_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <nlohmann/json.hpp>

namespace footroom::render {
namespace {

constexpr std::array<bool, 256> plain = [] {
  std::array<bool, 256> all{};
  for (std::size_t byte = 0x20; byte < 0x80; ++byte) all[byte] = byte != '"' && byte != '\\';
  return all;
}();
bool is_plain(char c) {
  return plain[static_cast<unsigned char>(c)];
}

}  // namespace

void JsonWriter::new_line(std::size_t depth) {
  out_ += '\n';
  out_.append(depth, ' ');
}

void JsonWriter::before_value() {
  if (named_ || empty_.empty()) {
    named_ = false;
    return;
  }
  if (!empty_.back()) out_ += ',';
  empty_.back() = false;
  new_line(empty_.size());
}

void JsonWriter::name(std::string_view name) {
  before_value();
  quoted(name);
  out_ += ": ";
  named_ = true;
}

void JsonWriter::begin(char bracket) {
  before_value();
  out_ += bracket;
  empty_.push_back(true);
}

void JsonWriter::end(char bracket) {
  const bool empty = empty_.back();
  empty_.pop_back();
  if (!empty) new_line(empty_.size());
  out_ += bracket;
}

void JsonWriter::quoted(std::string_view text) {
  if (std::all_of(text.begin(), text.end(), is_plain)) {
    out_ += '"';
    out_ += text;
    out_ += '"';
    return;
  }
  // A name that is not UTF-8 must not stop a class: its bad bytes become U+FFFD.
  out_ += nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

void JsonWriter::text(std::string_view text) {
  before_value();
  quoted(text);
}

void JsonWriter::number(double number) {
  before_value();
  if (!std::isfinite(number)) {
    out_ += "null";
    return;
  }
  std::array<char, 64> digits{};
  out_.append(digits.data(),
              nlohmann::detail::to_chars(digits.data(), digits.data() + digits.size(), number));
}

void JsonWriter::number(int number) {
  before_value();
  const fmt::format_int digits(number);
  out_.append(digits.data(), digits.size());
}

void JsonWriter::truth(bool is) {
  before_value();
  out_ += is ? "true" : "false";
}

}  // namespace footroom::render
