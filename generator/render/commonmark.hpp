#pragma once
#include <string>
#include <string_view>

namespace footroom::render {

/// HTML (well-formed as XML) of a text of the bank. Raw HTML in it is left out, and so is the
/// target of a dangerous link.
std::string html_of_markdown(std::string_view markdown);

}  // namespace footroom::render
