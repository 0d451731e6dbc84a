#include "tasks/output_folder.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

#include "tasks/failure.hpp"

namespace footroom::tasks {
namespace {

namespace fs = std::filesystem;

const engine::Wording to_write{"cannot write", "no se puede escribir"};
const engine::Wording to_make_folder{"cannot make the folder", "no se puede crear la carpeta"};
const engine::Wording to_open_folder{"cannot open the folder", "no se puede abrir la carpeta"};

[[noreturn]] void cannot(const engine::Wording& what, const fs::path& where, int error) {
  throw system_failure(where.string(), what, error);
}

class Descriptor {
 public:
  explicit Descriptor(const fs::path& folder)
      : number_(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC)) {
    if (number_ < 0) cannot(to_open_folder, folder, errno);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() { ::close(number_); }
  int number() const { return number_; }

 private:
  int number_;
};

/// Renames and creations in `folder` are on the disk afterwards.
void flush_entries(const fs::path& folder) {
  const Descriptor open(folder);
  if (::fsync(open.number()) != 0) cannot(to_write, folder, errno);
}

/// Everything written to the file system of `folder` is on the disk afterwards.
void flush_all(const fs::path& folder) {
  const Descriptor open(folder);
  if (::syncfs(open.number()) != 0) cannot(to_write, folder, errno);
}

mode_t file_mask() {
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return mask;
}

/// The files below `folder`, as paths relative to it, in name order.
std::vector<std::string> files_below(const fs::path& folder) {
  std::vector<std::string> all;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_symlink() || !entry.is_directory())
      all.push_back(entry.path().lexically_relative(folder).generic_string());
  std::sort(all.begin(), all.end());
  return all;
}

bool holds(const fs::path& folder, const fs::path& inner) {
  const auto [end, ignored] =
      std::mismatch(folder.begin(), folder.end(), inner.begin(), inner.end());
  return end == folder.end();
}

/// Renames that are taken back unless kept.
class Moves {
 public:
  Moves() = default;
  Moves(const Moves&) = delete;
  Moves& operator=(const Moves&) = delete;
  ~Moves() {
    std::error_code ignored;
    for (auto move = done_.rbegin(); move != done_.rend(); ++move)
      fs::rename(move->second, move->first, ignored);
  }
  void move(const fs::path& from, const fs::path& to) {
    fs::create_directories(to.parent_path());
    fs::rename(from, to);
    done_.emplace_back(from, to);
  }
  void keep() { done_.clear(); }

 private:
  std::vector<std::pair<fs::path, fs::path>> done_;
};

}  // namespace

OutputFile::OutputFile(const fs::path& file, std::string shown)
    : shown_(std::move(shown)),
      descriptor_(::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666)) {
  if (descriptor_ < 0) cannot(to_write, shown_, errno);
}

OutputFile::OutputFile(int descriptor, std::string shown)
    : shown_(std::move(shown)), descriptor_(descriptor) {}

OutputFile::~OutputFile() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

void OutputFile::write(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) cannot(to_write, shown_, errno);
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
}

void OutputFile::close() {
  if (::close(std::exchange(descriptor_, -1)) != 0) cannot(to_write, shown_, errno);
}

OutputFolder::OutputFolder(fs::path folder, IsOurs is_ours)
    : shown_(std::move(folder)),
      target_(fs::weakly_canonical(fs::absolute(shown_))),
      is_ours_(std::move(is_ours)) {
  if (target_.filename().empty()) target_ = target_.parent_path();
  std::error_code error;
  const auto status = fs::status(target_, error);
  if (fs::exists(status) && !fs::is_directory(status))
    throw Failure(ExitCode::cannot_read_or_write,
                  shown_.string() + engine::Wording{": is a file, expected a folder",
                                                    ": es un archivo, se esperaba una carpeta"});

  for (auto parent = target_.parent_path();
       !fs::exists(parent, error) && parent.has_relative_path(); parent = parent.parent_path())
    made_parents_.push_back(parent);
  std::string partial = target_.string() + ".partial-XXXXXX";
  try {
    fs::create_directories(target_.parent_path(), error);
    if (error) cannot(to_make_folder, shown_, error.value());
    if (!::mkdtemp(partial.data())) cannot(to_make_folder, shown_, errno);
  } catch (...) {
    remove_partial();
    throw;
  }
  partial_ = partial;
  ::chmod(partial_.c_str(), 0777 & ~file_mask());
}

OutputFolder::~OutputFolder() {
  remove_partial();
}

void OutputFolder::remove_partial() {
  std::error_code ignored;
  if (!partial_.empty()) fs::remove_all(partial_, ignored);
  for (const auto& parent : made_parents_) fs::remove(parent, ignored);  // only where empty
}

OutputFile OutputFolder::file(const std::string& name) const {
  Unfinished::check();
  return {partial_ / name, (shown_ / name).string()};
}

void OutputFolder::open(const std::string& name, std::optional<OutputFile>& file) const {
  Unfinished::check();
  file.emplace(partial_ / name, (shown_ / name).string());
}

void OutputFolder::folder(const std::string& name) const {
  if (::mkdir((partial_ / name).c_str(), 0777) != 0) cannot(to_make_folder, shown_ / name, errno);
}

void OutputFolder::write(const std::string& name, std::string_view bytes) const {
  OutputFile out = file(name);
  out.write(bytes);
  out.close();
}

void OutputFolder::publish() {
  flush_all(partial_);
  if (!may_replace_whole() || !exchange()) move_one_by_one();
  flush_entries(target_.parent_path());
  remove_partial();
  made_parents_.clear();
}

bool OutputFolder::may_replace_whole() const {
  if (!fs::exists(target_)) return true;
  if (holds(target_, fs::current_path())) return false;
  // One by one: a hundred thousand sheets are millions of files.
  for (const auto& entry : fs::recursive_directory_iterator(target_))
    if ((entry.is_symlink() || !entry.is_directory()) &&
        !is_ours_(entry.path().lexically_relative(target_).generic_string()))
      return false;
  return true;
}

bool OutputFolder::exchange() {
  if (!fs::exists(target_)) {
    if (::rename(partial_.c_str(), target_.c_str()) != 0) cannot(to_write, shown_, errno);
    partial_.clear();
    return true;
  }
  fs::permissions(partial_, fs::status(target_).permissions());
  // From here on partial_ is the old folder.
  return ::renameat2(AT_FDCWD, partial_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) == 0;
}

void OutputFolder::move_one_by_one() {
  const auto fresh = files_below(partial_);
  const fs::path old = partial_ / "replaced";
  Moves moves;
  for (const auto& name : files_below(target_))
    if (is_ours_(name)) moves.move(target_ / name, old / name);
  for (const auto& name : fresh) {
    if (fs::exists(target_ / name))
      throw Failure(
          ExitCode::cannot_read_or_write,
          (shown_ / name).string() + engine::Wording{": is in the way, expected a file or nothing",
                                                     ": estorba, se esperaba un archivo o nada"});
    moves.move(partial_ / name, target_ / name);
  }
  moves.keep();
}

void write_whole_file(const fs::path& file, std::string_view bytes) {
  if (fs::is_directory(file))
    throw Failure(ExitCode::cannot_read_or_write,
                  file.string() + engine::Wording{": is a folder, expected a file",
                                                  ": es una carpeta, se esperaba un archivo"});
  const fs::path folder = file.has_parent_path() ? file.parent_path() : fs::path(".");
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) cannot(to_make_folder, folder, error.value());
  const Unfinished unfinished;
  std::string partial = file.string() + ".partial-XXXXXX";
  const int descriptor = ::mkstemp(partial.data());
  if (descriptor < 0) cannot(to_write, file, errno);
  try {
    OutputFile out(descriptor, file.string());
    out.write(bytes);
    if (::fchmod(descriptor, 0666 & ~file_mask()) != 0 || ::fsync(descriptor) != 0)
      cannot(to_write, file, errno);
    out.close();
    if (::rename(partial.c_str(), file.c_str()) != 0) cannot(to_write, file, errno);
  } catch (...) {
    ::unlink(partial.c_str());
    throw;
  }
  flush_entries(folder);
}

}  // namespace footroom::tasks
