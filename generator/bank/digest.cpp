#include "bank/digest.hpp"

#include <openssl/evp.h>

#include <algorithm>
#include <array>
#include <memory>
#include <stdexcept>

namespace footroom::bank {
namespace {

class Sha256 {
 public:
  Sha256() : context_(EVP_MD_CTX_new(), &EVP_MD_CTX_free) {
    if (!context_ || EVP_DigestInit_ex(context_.get(), EVP_sha256(), nullptr) != 1)
      throw std::runtime_error("SHA-256 is not available");
  }

  void add(std::string_view bytes) {
    if (EVP_DigestUpdate(context_.get(), bytes.data(), bytes.size()) != 1)
      throw std::runtime_error("SHA-256 failed");
  }

  std::string hexadecimal() {
    std::array<unsigned char, EVP_MAX_MD_SIZE> raw{};
    unsigned int size = 0;
    if (EVP_DigestFinal_ex(context_.get(), raw.data(), &size) != 1)
      throw std::runtime_error("SHA-256 failed");
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (unsigned int i = 0; i < size; ++i) {
      text += digits[raw[i] >> 4];
      text += digits[raw[i] & 15];
    }
    return text;
  }

 private:
  std::unique_ptr<EVP_MD_CTX, decltype(&EVP_MD_CTX_free)> context_;
};

}  // namespace

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
