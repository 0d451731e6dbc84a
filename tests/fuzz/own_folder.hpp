#pragma once
// A folder for what a target writes.

#include <cstdlib>
#include <filesystem>
#include <initializer_list>
#include <string>

#include "fuzz/target.hpp"

namespace footroom::fuzz {

/// A new folder with folders in it, which goes with the object.
class OwnFolder {
 public:
  explicit OwnFolder(std::initializer_list<const char*> inner = {}) {
    std::string name = (std::filesystem::temp_directory_path() / "footroom-fuzz-XXXXXX").string();
    require(mkdtemp(name.data()) != nullptr, "there is a folder to write in");
    path_ = name;
    for (const char* one : inner) std::filesystem::create_directory(path_ / one);
  }
  OwnFolder(const OwnFolder&) = delete;
  OwnFolder& operator=(const OwnFolder&) = delete;
  ~OwnFolder() { std::filesystem::remove_all(path_); }

  const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

}  // namespace footroom::fuzz
