#include "quiz/short_code.hpp"

#include <string_view>

#include "bank/digest.hpp"

namespace footroom::quiz {

std::string short_code(const std::string& of) {
  constexpr std::string_view digits = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  auto number = std::stoul(bank::sha256(of).substr(0, 8), nullptr, 16) >> 7;
  std::string code(5, '0');
  for (auto digit = code.rbegin(); digit != code.rend(); ++digit, number /= 32)
    *digit = digits[number % 32];
  return code;
}

}  // namespace footroom::quiz
