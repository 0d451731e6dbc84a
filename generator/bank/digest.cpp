#include "bank/digest.hpp"

#include <openssl/evp.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>

namespace footroom::bank {
struct Sha256::State {
  std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context{EVP_MD_CTX_new(),
                                                                  &EVP_MD_CTX_free};
};

Sha256::Sha256() : state_(std::make_unique<State>()) {
  if (!state_->context || EVP_DigestInit_ex(state_->context.get(), EVP_sha256(), nullptr) != 1)
    throw std::runtime_error("SHA-256 is not available");
}
Sha256::Sha256(Sha256&&) noexcept = default;
Sha256::~Sha256() = default;

void Sha256::add(std::string_view bytes) {
  if (EVP_DigestUpdate(state_->context.get(), bytes.data(), bytes.size()) != 1)
    throw std::runtime_error("SHA-256 failed");
}

std::string Sha256::hexadecimal() {
  std::array<unsigned char, EVP_MAX_MD_SIZE> raw{};
  unsigned int size = 0;
  if (EVP_DigestFinal_ex(state_->context.get(), raw.data(), &size) != 1)
    throw std::runtime_error("SHA-256 failed");
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (unsigned int i = 0; i < size; ++i) {
    text += digits[raw[i] >> 4];
    text += digits[raw[i] & 15];
  }
  return text;
}

std::string sha256(std::string_view bytes) {
  Sha256 sum;
  sum.add(bytes);
  return sum.hexadecimal();
}

std::string digest_of_files(std::vector<std::pair<std::string, std::string>> files) {
  std::sort(files.begin(), files.end());
  constexpr std::string_view zero("\0", 1);
  Sha256 sum;
  for (const auto& [name, bytes] : files) {
    sum.add(name);
    sum.add(zero);
    sum.add(std::to_string(bytes.size()));
    sum.add(zero);
    sum.add(bytes);
  }
  return sum.hexadecimal();
}

}  // namespace footroom::bank
