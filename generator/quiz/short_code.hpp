#pragma once
#include <string>

namespace footroom::quiz {

/// Five digits of base 32 (without I, L, O, U) from SHA-256 over `of`. It tells things apart and
/// hides nothing: it has 25 bits.
std::string short_code(const std::string& of);

}  // namespace footroom::quiz
