#pragma once
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace footroom::bank {

/// SHA-256 of bytes that come piece by piece.
class Sha256 {
 public:
  Sha256();
  Sha256(Sha256&&) noexcept;
  ~Sha256();
  void add(std::string_view bytes);
  /// As 64 lower-case hexadecimal digits; the last call.
  std::string hexadecimal();

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
std::string sha256(std::string_view bytes);

/// SHA-256 over files as (name, bytes): for each, in name order, the name, a zero byte, the size in
/// decimal, a zero byte and the bytes. Any change to a name or to a byte changes it.
std::string digest_of_files(std::vector<std::pair<std::string, std::string>> files);

}  // namespace footroom::bank
