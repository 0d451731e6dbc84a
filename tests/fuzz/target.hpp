#pragma once
// What the fuzz targets share. A target is one file NAME_target.cpp that defines try_input(); it
// is linked with libFuzzer or, in every build, with a main that tries it on files (README.md).

#include <cstdlib>
#include <iostream>
#include <string>
#include <string_view>

namespace footroom::fuzz {

/// Throws nothing and ends well for any input, unless the program breaks a promise.
void try_input(std::string_view input);

/// Ends the process as a crash does, so that the input is kept.
inline void require(bool kept, const std::string& promise) {
  if (kept) return;
  std::cerr << "broken: " << promise << '\n';
  std::abort();
}

/// The first line, which goes from `input`; behind it stands the rest.
inline std::string_view take_line(std::string_view& input) {
  const auto end = input.find('\n');
  const auto line = input.substr(0, end);
  input = end == std::string_view::npos ? std::string_view() : input.substr(end + 1);
  return line;
}

}  // namespace footroom::fuzz
