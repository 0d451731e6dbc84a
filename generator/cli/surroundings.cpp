#include "cli/surroundings.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <ctime>
#include <system_error>

#include "tasks/failure.hpp"

namespace footroom::cli {
namespace {

void fill_randomly(void* to, std::size_t size) {
  if (::getentropy(to, size) != 0)
    throw tasks::Failure(tasks::ExitCode::cannot_read_or_write,
                         "random numbers of the system: " + std::generic_category().message(errno));
}

/// So many random bytes as hexadecimal digits.
template <std::size_t size>
std::string random_digits() {
  std::array<unsigned char, size> bytes{};
  fill_randomly(bytes.data(), bytes.size());
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
  fill_randomly(&bits, sizeof bits);
  return bits >> 11;
}

std::string random_salt() {
  return random_digits<32>();
}

std::string random_secret() {
  return random_digits<16>();
}

void open_in_browser(const std::string& address) {
  const pid_t child = ::fork();
  if (child < 0) return;
  if (child > 0) {
    ::waitpid(child, nullptr, 0);
    return;
  }
  // The grandchild belongs to nobody, so nobody has to wait for it.
  if (::fork() != 0) ::_exit(0);
  ::setsid();
  sigset_t none;
  sigemptyset(&none);
  pthread_sigmask(SIG_SETMASK, &none, nullptr);
  const int nowhere = ::open("/dev/null", O_RDWR);
  for (const int stream : {0, 1, 2}) ::dup2(nowhere, stream);
  ::execlp("xdg-open", "xdg-open", address.c_str(), nullptr);
  ::_exit(127);
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
