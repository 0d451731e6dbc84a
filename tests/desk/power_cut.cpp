// Preloaded into a program, this cuts its power in the middle of writing: at the file operation
// that the test asks for, what had not reached the disk by an fsync is taken away again, and the
// process is killed. So every moment between two operations is tried, whatever the machine's speed.
//
//   POWER_CUT_CONTROL   a file of two 64-bit numbers, mapped by test and program: how many
//                       operations are left (below zero: no cut), and how many there were
//   POWER_CUT_UNDER     the folder whose operations count
//   POWER_CUT_SAVED     a folder on the same file system, for files that a rename replaces
//
// Lost at a cut are bytes that were written behind the size of the last fsync (or of before the
// program), and renames whose folder was not synced since. Creating and removing are taken to last.

#include <dlfcn.h>
#include <fcntl.h>
#include <linux/fs.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <climits>
#include <csignal>
#include <cstdarg>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <mutex>
#include <string>
#include <vector>

namespace {

struct Control {
  std::atomic<std::int64_t> left;
  std::atomic<std::int64_t> seen;
};

template <class Function>
Function real(const char* name) {
  return reinterpret_cast<Function>(::dlsym(RTLD_NEXT, name));
}

struct Rename {
  std::string from;
  std::string to;
  bool exchange;
  std::string saved;  ///< what stood at `to`; empty: nothing
};

class PowerCut {
 public:
  static PowerCut& get() {
    static auto* one = new PowerCut;  // never destroyed: others may still write
    return *one;
  }

  bool counts(const std::string& path) const {
    return control_ && path.starts_with(under_) &&
           (path.size() == under_.size() || path[under_.size()] == '/');
  }

  /// Before an operation: counts it, and cuts where it is the one.
  void step() {
    control_->seen.fetch_add(1);
    if (control_->left.load() < 0) return;
    if (control_->left.fetch_sub(1) == 0) cut();
  }

  void writes(const std::string& path, std::int64_t size_on_disk) {
    unsynced_.try_emplace(path, size_on_disk);
  }
  void synced(const std::string& path) {
    unsynced_.erase(path);
    std::erase_if(renames_, [&](const Rename& one) {
      if (parent(one.to) != path) return false;
      if (!one.saved.empty()) real<int (*)(const char*)>("unlink")(one.saved.c_str());
      return true;
    });
  }
  void all_synced() {
    unsynced_.clear();
    renames_.clear();
  }
  void removed(const std::string& path) { unsynced_.erase(path); }

  /// Before a rename onto `to`.
  std::string save(const std::string& to) {
    struct stat there {};
    if (::lstat(to.c_str(), &there) != 0 || !S_ISREG(there.st_mode)) return {};
    const std::string saved = saved_ + "/" + std::to_string(++saves_);
    ::link(to.c_str(), saved.c_str());
    return saved;
  }
  void renamed(const Rename& one) {
    renames_.push_back(one);
    std::map<std::string, std::int64_t> moved;
    for (const auto& [path, size] : unsynced_) {
      const auto below = [&path = path](const std::string& folder) {
        return path == folder || path.starts_with(folder + "/");
      };
      if (below(one.from))
        moved.emplace(one.to + path.substr(one.from.size()), size);
      else if (one.exchange && below(one.to))
        moved.emplace(one.from + path.substr(one.to.size()), size);
      else if (!below(one.to))
        moved.emplace(path, size);
    }
    unsynced_ = std::move(moved);
  }

  std::mutex mutex;

 private:
  PowerCut() {
    const char* control = std::getenv("POWER_CUT_CONTROL");
    const char* under = std::getenv("POWER_CUT_UNDER");
    const char* saved = std::getenv("POWER_CUT_SAVED");
    if (!control || !under || !saved) return;
    const int file = real<int (*)(const char*, int, ...)>("open")(control, O_RDWR | O_CLOEXEC);
    void* mapped = ::mmap(nullptr, sizeof(Control), PROT_READ | PROT_WRITE, MAP_SHARED, file, 0);
    if (mapped == MAP_FAILED) std::abort();
    under_ = under;
    saved_ = saved;
    control_ = static_cast<Control*>(mapped);
  }

  static std::string parent(const std::string& path) { return path.substr(0, path.rfind('/')); }

  [[noreturn]] void cut() {
    for (const auto& [path, size] : unsynced_)
      if (struct stat now{}; ::stat(path.c_str(), &now) == 0 && now.st_size > size)
        (void)!real<int (*)(const char*, off_t)>("truncate")(path.c_str(), size);
    const auto rename = real<int (*)(const char*, const char*)>("rename");
    for (auto one = renames_.rbegin(); one != renames_.rend(); ++one) {
      if (one->exchange) {
        real<int (*)(int, const char*, int, const char*, unsigned)>("renameat2")(
            AT_FDCWD, one->to.c_str(), AT_FDCWD, one->from.c_str(), RENAME_EXCHANGE);
        continue;
      }
      rename(one->to.c_str(), one->from.c_str());
      if (!one->saved.empty()) rename(one->saved.c_str(), one->to.c_str());
    }
    ::kill(::getpid(), SIGKILL);
    for (;;) ::pause();
  }

  Control* control_ = nullptr;
  std::string under_;
  std::string saved_;
  int saves_ = 0;
  std::map<std::string, std::int64_t> unsynced_;  ///< by path: how much of it is on the disk
  std::vector<Rename> renames_;                   ///< that are not on the disk
};

std::string absolute(int folder, const char* path) {
  if (path[0] == '/') return path;
  char base[PATH_MAX];
  if (folder == AT_FDCWD) return std::string(::getcwd(base, sizeof base) ? base : "") + "/" + path;
  const std::string link = "/proc/self/fd/" + std::to_string(folder);
  const auto size = ::readlink(link.c_str(), base, sizeof base);
  return (size > 0 ? std::string(base, static_cast<std::size_t>(size)) : "") + "/" + path;
}

std::string path_of(int descriptor) {
  char path[PATH_MAX];
  const std::string link = "/proc/self/fd/" + std::to_string(descriptor);
  const auto size = ::readlink(link.c_str(), path, sizeof path);
  return size > 0 ? std::string(path, static_cast<std::size_t>(size)) : std::string();
}

std::int64_t size_of(const std::string& path) {
  struct stat there {};
  return ::stat(path.c_str(), &there) == 0 ? there.st_size : 0;
}

/// One operation on a path, counted where it is below the folder.
template <class Do, class After>
auto operation(const std::string& path, Do what, After after) {
  auto& power = PowerCut::get();
  if (!power.counts(path)) return what();
  const std::lock_guard lock(power.mutex);
  power.step();
  const auto result = what();
  if (result >= 0) after(power);
  return result;
}

int open_at(const char* name, int folder, const char* path, int flags, mode_t mode) {
  const auto what = [&] {
    return std::string_view(name).find("at") == std::string_view::npos
               ? real<int (*)(const char*, int, ...)>(name)(path, flags, mode)
               : real<int (*)(int, const char*, int, ...)>(name)(folder, path, flags, mode);
  };
  if (!(flags & (O_CREAT | O_TRUNC))) return what();
  const std::string whole = absolute(folder, path);
  const bool fresh = ::access(whole.c_str(), F_OK) != 0 || (flags & O_TRUNC);
  return operation(whole, what, [&](PowerCut& power) {
    if (fresh) power.writes(whole, 0);
  });
}

mode_t mode_in(int flags, va_list arguments) {
  return flags & O_CREAT ? static_cast<mode_t>(va_arg(arguments, unsigned)) : 0;
}

/// Writing in any form: what is on the disk is what was there before the first of it.
template <class Do>
auto writing(int descriptor, Do what) {
  const std::string path = path_of(descriptor);
  const std::int64_t before = PowerCut::get().counts(path) ? size_of(path) : 0;
  return operation(path, what, [&](PowerCut& power) { power.writes(path, before); });
}

int rename_at(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) {
  const std::string old_path = absolute(from_folder, from);
  const std::string new_path = absolute(to_folder, to);
  const bool exchange = flags & RENAME_EXCHANGE;
  std::string saved;
  return operation(
      new_path,
      [&] {
        if (!exchange) saved = PowerCut::get().save(new_path);
        return real<int (*)(int, const char*, int, const char*, unsigned)>("renameat2")(
            from_folder, from, to_folder, to, flags);
      },
      [&](PowerCut& power) {
        power.renamed({old_path, new_path, exchange, saved});
      });
}

int remove_at(const char* name, int folder, const char* path, int flags) {
  const std::string whole = absolute(folder, path);
  return operation(
      whole,
      [&] {
        return std::string_view(name) == "unlinkat"
                   ? real<int (*)(int, const char*, int)>(name)(folder, path, flags)
                   : real<int (*)(const char*)>(name)(path);
      },
      [&](PowerCut& power) { power.removed(whole); });
}

int make_temporary(const char* name, char* path, int flags) {
  auto& power = PowerCut::get();
  const auto what = [&] {
    return flags < 0 ? real<int (*)(char*)>(name)(path)
                     : real<int (*)(char*, int)>(name)(path, flags);
  };
  if (!power.counts(absolute(AT_FDCWD, path))) return what();
  const std::lock_guard lock(power.mutex);
  power.step();
  const int file = what();
  if (file >= 0) power.writes(absolute(AT_FDCWD, path), 0);
  return file;
}

}  // namespace

extern "C" {

int open(const char* path, int flags, ...) {
  va_list arguments;
  va_start(arguments, flags);
  const mode_t mode = mode_in(flags, arguments);
  va_end(arguments);
  return open_at("open", AT_FDCWD, path, flags, mode);
}
int open64(const char* path, int flags, ...) {
  va_list arguments;
  va_start(arguments, flags);
  const mode_t mode = mode_in(flags, arguments);
  va_end(arguments);
  return open_at("open64", AT_FDCWD, path, flags, mode);
}
int openat(int folder, const char* path, int flags, ...) {
  va_list arguments;
  va_start(arguments, flags);
  const mode_t mode = mode_in(flags, arguments);
  va_end(arguments);
  return open_at("openat", folder, path, flags, mode);
}
int mkstemp(char* path) {
  return make_temporary("mkstemp", path, -1);
}
int mkstemp64(char* path) {
  return make_temporary("mkstemp64", path, -1);
}
int mkostemp(char* path, int flags) {
  return make_temporary("mkostemp", path, flags);
}
char* mkdtemp(char* path) {
  char* made = nullptr;
  operation(
      absolute(AT_FDCWD, path),
      [&] {
        made = real<char* (*)(char*)>("mkdtemp")(path);
        return made ? 0 : -1;
      },
      [](PowerCut&) {});
  return made;
}

ssize_t write(int descriptor, const void* bytes, size_t count) {
  return writing(descriptor, [&] {
    return real<ssize_t (*)(int, const void*, size_t)>("write")(descriptor, bytes, count);
  });
}
ssize_t pwrite64(int descriptor, const void* bytes, size_t count, off64_t at) {
  return writing(descriptor, [&] {
    return real<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64")(descriptor, bytes,
                                                                            count, at);
  });
}
ssize_t pwrite(int descriptor, const void* bytes, size_t count, off_t at) {
  return writing(descriptor, [&] {
    return real<ssize_t (*)(int, const void*, size_t, off_t)>("pwrite")(descriptor, bytes, count,
                                                                        at);
  });
}
int ftruncate(int descriptor, off_t size) noexcept {
  return writing(descriptor,
                 [&] { return real<int (*)(int, off_t)>("ftruncate")(descriptor, size); });
}
int ftruncate64(int descriptor, off64_t size) noexcept {
  return writing(descriptor,
                 [&] { return real<int (*)(int, off64_t)>("ftruncate64")(descriptor, size); });
}

int rename(const char* from, const char* to) noexcept {
  return rename_at(AT_FDCWD, from, AT_FDCWD, to, 0);
}
int renameat2(int from_folder, const char* from, int to_folder, const char* to,
              unsigned flags) noexcept {
  return rename_at(from_folder, from, to_folder, to, flags);
}
int unlink(const char* path) noexcept {
  return remove_at("unlink", AT_FDCWD, path, 0);
}
int rmdir(const char* path) noexcept {
  return remove_at("rmdir", AT_FDCWD, path, 0);
}
int remove(const char* path) noexcept {
  return remove_at("remove", AT_FDCWD, path, 0);
}
int unlinkat(int folder, const char* path, int flags) noexcept {
  return remove_at("unlinkat", folder, path, flags);
}
int mkdir(const char* path, mode_t mode) noexcept {
  return operation(
      absolute(AT_FDCWD, path),
      [&] { return real<int (*)(const char*, mode_t)>("mkdir")(path, mode); }, [](PowerCut&) {});
}

int fsync(int descriptor) {
  const std::string path = path_of(descriptor);
  return operation(
      path, [&] { return real<int (*)(int)>("fsync")(descriptor); },
      [&](PowerCut& power) { power.synced(path); });
}
int fdatasync(int descriptor) {
  const std::string path = path_of(descriptor);
  return operation(
      path, [&] { return real<int (*)(int)>("fdatasync")(descriptor); },
      [&](PowerCut& power) { power.synced(path); });
}
int syncfs(int descriptor) noexcept {
  const std::string path = path_of(descriptor);
  return operation(
      path, [&] { return real<int (*)(int)>("syncfs")(descriptor); },
      [](PowerCut& power) { power.all_synced(); });
}
}
