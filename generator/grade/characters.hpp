#pragma once
// Characters of typed answers made plain.

#include <string>
#include <string_view>

namespace footroom::grade {

/// Spaces of any width become plain ones and characters without width vanish; minus signs and
/// dashes become hyphens, quotation marks and accents the marks of feet and inches; no space is
/// left around.
std::string plain_typing(std::string_view typed);

/// Capital letters A to Z and Á É Í Ó Ú Ü Ñ become small.
std::string lower_case(std::string_view text);

/// Nothing but spaces.
bool is_blank(std::string_view text);

bool is_digit(char c);
/// a to z, A to Z, or a part of a character beyond ASCII.
bool is_letter(char c);

/// At most `most` bytes, cut before a character, with "…" where something was cut off.
std::string cut_short(std::string_view text, std::size_t most);

}  // namespace footroom::grade
