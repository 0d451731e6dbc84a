#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "desk/request.hpp"

namespace footroom::desk {

inline constexpr std::size_t most_fields = 2000;

/// The fields of a form (application/x-www-form-urlencoded, or multipart/form-data as RFC 7578
/// has it) from a body of bounded size. Nothing where it is none, breaks the format, or has more
/// than most_fields. The file names that a browser sends are left out.
///
/// The library's own reader of multipart matches header lines of any length with a recursive
/// regular expression, which a hostile line makes overflow the stack, so it never sees a body.
std::optional<Fields> read_form(std::string_view content_type, std::string_view body);

}  // namespace footroom::desk
