#include "desk/multipart.hpp"

#include <algorithm>
#include <utility>

namespace footroom::desk {
namespace {

constexpr std::size_t longest_part_head = 1000;

std::optional<unsigned> hexadecimal(char c) {
  if (c >= '0' && c <= '9') return static_cast<unsigned>(c - '0');
  if (c >= 'a' && c <= 'f') return static_cast<unsigned>(c - 'a' + 10);
  if (c >= 'A' && c <= 'F') return static_cast<unsigned>(c - 'A' + 10);
  return std::nullopt;
}

std::optional<std::string> decoded(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '+') {
      out += ' ';
    } else if (text[i] != '%') {
      out += text[i];
    } else {
      if (i + 2 >= text.size()) return std::nullopt;
      const auto high = hexadecimal(text[i + 1]);
      const auto low = hexadecimal(text[i + 2]);
      if (!high || !low) return std::nullopt;
      out += static_cast<char>(*high * 16 + *low);
      i += 2;
    }
  }
  return out;
}

std::optional<Fields> read_encoded(std::string_view body) {
  Fields fields;
  while (!body.empty()) {
    const auto end = std::min(body.find('&'), body.size());
    const auto pair = body.substr(0, end);
    body.remove_prefix(std::min(end + 1, body.size()));
    if (pair.empty()) continue;
    const auto equals = std::min(pair.find('='), pair.size());
    auto name = decoded(pair.substr(0, equals));
    auto value = decoded(equals < pair.size() ? pair.substr(equals + 1) : std::string_view());
    if (!name || !value || fields.size() == most_fields) return std::nullopt;
    fields.emplace(std::move(*name), std::move(*value));
  }
  return fields;
}

std::string lower_case(std::string_view text) {
  std::string out(text);
  for (char& c : out)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return out;
}

/// `name` of `Content-Disposition: form-data; name="seat"`, as browsers write it.
std::optional<std::string> name_in(std::string_view head) {
  constexpr std::string_view start = "content-disposition: form-data; name=\"";
  while (!head.empty()) {
    const auto end = std::min(head.find("\r\n"), head.size());
    const auto line = head.substr(0, end);
    head.remove_prefix(std::min(end + 2, head.size()));
    if (!lower_case(line).starts_with(start)) continue;
    const auto close = line.find('"', start.size());
    if (close == std::string_view::npos) return std::nullopt;
    return std::string(line.substr(start.size(), close - start.size()));
  }
  return std::nullopt;
}

std::optional<Fields> read_parts(std::string_view boundary, std::string_view body) {
  const std::string line = "--" + std::string(boundary);
  const std::string between = "\r\n" + line;
  if (!body.starts_with(line)) return std::nullopt;
  body.remove_prefix(line.size());
  Fields fields;
  while (!body.starts_with("--")) {
    if (!body.starts_with("\r\n")) return std::nullopt;
    body.remove_prefix(2);
    const auto head_end = body.substr(0, longest_part_head).find("\r\n\r\n");
    if (head_end == std::string_view::npos) return std::nullopt;
    auto name = name_in(body.substr(0, head_end));
    body.remove_prefix(head_end + 4);
    const auto end = body.find(between);
    if (!name || end == std::string_view::npos || fields.size() == most_fields) return std::nullopt;
    fields.emplace(std::move(*name), std::string(body.substr(0, end)));
    body.remove_prefix(end + between.size());
  }
  return fields;
}

}  // namespace

std::optional<Fields> read_form(std::string_view content_type, std::string_view body) {
  const std::string type = lower_case(content_type.substr(0, content_type.find(';')));
  if (type == "application/x-www-form-urlencoded") return read_encoded(body);
  if (type != "multipart/form-data") return std::nullopt;
  constexpr std::string_view start = "boundary=";
  const auto at = content_type.find(start);
  if (at == std::string_view::npos) return std::nullopt;
  auto boundary = content_type.substr(at + start.size());
  if (boundary.size() >= 2 && boundary.front() == '"' && boundary.back() == '"')
    boundary = boundary.substr(1, boundary.size() - 2);
  if (boundary.empty() || boundary.size() > 70) return std::nullopt;  // RFC 2046, 5.1.1
  return read_parts(boundary, body);
}

}  // namespace footroom::desk
