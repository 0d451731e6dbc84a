#include "cli/surroundings.hpp"

#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <ctime>
#include <system_error>

#include "cli/failure.hpp"

namespace footroom::cli {
namespace {

/// So many random bytes as hexadecimal digits.
template <std::size_t size>
std::string random_digits() {
  std::array<unsigned char, size> bytes{};
  if (::getentropy(bytes.data(), bytes.size()) != 0)
    throw Failure(ExitCode::cannot_read_or_write,
                  "random numbers of the system: " + std::generic_category().message(errno));
  constexpr const char* digits = "0123456789abcdef";
  std::string text;
  for (const auto byte : bytes) {
    text += digits[byte >> 4];
    text += digits[byte & 15];
  }
  return text;
}

}  // namespace

std::uint64_t random_seed() {
  std::uint64_t bits = 0;
  if (::getentropy(&bits, sizeof bits) != 0)
    throw Failure(ExitCode::cannot_read_or_write,
                  "random numbers of the system: " + std::generic_category().message(errno));
  return bits >> 11;
}

std::string random_salt() {
  return random_digits<32>();
}

std::string random_secret() {
  return random_digits<16>();
}

std::string today() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  std::tm local{};
  ::localtime_r(&now, &local);
  std::array<char, 16> text{};
  std::strftime(text.data(), text.size(), "%Y-%m-%d", &local);
  return text.data();
}

std::string program_name() {
  return "footroom " FOOTROOM_VERSION;
}

}  // namespace footroom::cli
