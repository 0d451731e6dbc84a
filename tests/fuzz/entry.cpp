// The target as libFuzzer calls it.

#include <cstdint>

#include "fuzz/target.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  footroom::fuzz::try_input({reinterpret_cast<const char*>(bytes), size});
  return 0;
}
