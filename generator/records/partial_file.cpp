#include "records/partial_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "records/failure.hpp"
#include "records/words.hpp"

namespace footroom::records {

PartialFile::PartialFile(std::string file)
    : file_(std::move(file)), path_(file_ + ".partial-XXXXXX") {
  if (::access(file_.c_str(), F_OK) == 0) cannot(EEXIST);
  const int opened = ::mkostemp(path_.data(), O_CLOEXEC);
  if (opened < 0) cannot(errno);
  ::close(opened);
}

PartialFile::~PartialFile() {
  if (path_.empty()) return;
  for (const auto* suffix : {"", "-wal", "-shm", "-journal"}) ::unlink((path_ + suffix).c_str());
}

void PartialFile::publish() {
  if (::renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, file_.c_str(), RENAME_NOREPLACE) != 0)
    cannot(errno);
  path_.clear();
  const auto folder = std::filesystem::absolute(file_).parent_path();
  const int opened = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  const bool written = opened >= 0 && ::fsync(opened) == 0;
  const int error = errno;
  if (opened >= 0) ::close(opened);
  if (!written) cannot(error);
}

void PartialFile::cannot(int error) const {
  if (error == EEXIST)
    throw Refused(file_ + worded({": exists already; it was left as it is",
                                  ": ya existe; quedó como estaba"}));
  throw Unavailable(file_ + ": cannot write: " + std::generic_category().message(error));
}

}  // namespace footroom::records
