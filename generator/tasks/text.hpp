#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "bank/item.hpp"
#include "engine/text.hpp"

namespace footroom::tasks {

/// For terminals and JSON: plain spaces and hyphens, so that text can be searched and compared.
std::string plain(std::string text);

/// How many columns a UTF-8 text takes, and the text filled up with spaces.
std::size_t columns(std::string_view text);
std::string padded(std::string text, std::size_t width);

/// A table with a two-space margin; columns are as wide as their widest cell.
std::string table(const std::vector<std::vector<std::string>>& rows);

const std::string& in_language(const bank::Text& text, engine::Language language);

}  // namespace footroom::tasks
