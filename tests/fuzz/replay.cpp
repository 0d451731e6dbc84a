// Tries the target on files: each argument is one, or a folder of them, which may be missing.

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sstream>
#include <vector>

#include "fuzz/target.hpp"

namespace fs = std::filesystem;

namespace {

std::vector<fs::path> files_of(const std::vector<fs::path>& places) {
  std::vector<fs::path> files;
  for (const auto& place : places) {
    if (fs::is_regular_file(place)) files.push_back(place);
    if (!fs::is_directory(place)) continue;
    for (const auto& entry : fs::directory_iterator(place)) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace

int main(int count, char** words) {
  const auto files = files_of({words + 1, words + count});
  for (const auto& file : files) {
    std::ifstream in(file, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    std::cerr << file.filename().string() << '\n';  // the last one named is the one that failed
    footroom::fuzz::try_input(text.str());
  }
  std::cout << files.size() << " inputs\n";
  return files.empty() ? 1 : 0;
}
