// A form as a browser sends it: its type in the first line, then its body. No more fields than may
// be, and what was read, sent again, reads as the same.

#include <fmt/format.h>

#include "desk/multipart.hpp"
#include "fuzz/target.hpp"

namespace footroom::fuzz {
namespace {

std::string encoded(const std::string& text) {
  std::string all;
  for (const char c : text) all += fmt::format("%{:02X}", static_cast<unsigned char>(c));
  return all;
}

void try_encoded(const desk::Fields& fields) {
  std::string body;
  for (const auto& [name, value] : fields)
    body += (body.empty() ? "" : "&") + encoded(name) + "=" + encoded(value);
  require(desk::read_form("application/x-www-form-urlencoded", body) == fields,
          "fields read as they are encoded");
}

void try_parts(const desk::Fields& fields) {
  std::string boundary = "----invented-boundary";
  const auto stands_in = [&](const desk::Fields::value_type& field) {
    return field.first.find_first_of("\"\r\n") != std::string::npos || field.first.size() > 900 ||
           field.second.find(boundary) != std::string::npos;
  };
  if (std::any_of(fields.begin(), fields.end(), stands_in)) return;
  std::string body;
  for (const auto& [name, value] : fields)
    body += "--" + boundary + "\r\nContent-Disposition: form-data; name=\"" + name + "\"\r\n\r\n" +
            value + "\r\n";
  body += "--" + boundary + "--\r\n";
  require(desk::read_form("multipart/form-data; boundary=" + boundary, body) == fields,
          "fields read as they are sent in parts");
}

}  // namespace

void try_input(std::string_view input) {
  const auto type = take_line(input);
  const auto fields = desk::read_form(type, input);
  if (!fields) return;
  require(fields->size() <= desk::most_fields, "a form has no more fields than may be");
  try_encoded(*fields);
  try_parts(*fields);
}

}  // namespace footroom::fuzz
