#pragma once
#include <string>

namespace footroom::records {

/// A file that is filled beside its place and gets its name only when whole. Mode 0600.
class PartialFile {
 public:
  /// Throws Refused where `file` exists, Unavailable where it cannot be made.
  explicit PartialFile(std::string file);
  PartialFile(const PartialFile&) = delete;
  PartialFile& operator=(const PartialFile&) = delete;
  /// Removes it unless it was published.
  ~PartialFile();

  const std::string& path() const { return path_; }
  /// Gives it its name; throws as the constructor does.
  void publish();

 private:
  [[noreturn]] void cannot(int error) const;

  std::string file_;
  std::string path_;
};

}  // namespace footroom::records
