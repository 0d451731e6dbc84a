#pragma once
// Runs the program as a user does, and a folder to run it in.

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace footroom::cli::testing {

namespace fs = std::filesystem;

inline std::string contents(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + file.string());
  return {std::istreambuf_iterator<char>(in), {}};
}

inline void put(const fs::path& file, const std::string& bytes) {
  fs::create_directories(file.parent_path());
  std::ofstream(file, std::ios::binary) << bytes;
}

/// Every file below a folder with its bytes.
inline std::map<std::string, std::string> contents_below(const fs::path& folder) {
  std::map<std::string, std::string> all;
  if (!fs::exists(folder)) return all;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file())
      all[entry.path().lexically_relative(folder).generic_string()] = contents(entry.path());
  return all;
}

/// A fresh folder that is removed again.
class Scratch {
 public:
  Scratch() {
    std::string name = (fs::temp_directory_path() / "footroom-XXXXXX").string();
    if (!::mkdtemp(name.data())) throw std::runtime_error("cannot make " + name);
    path = fs::canonical(name);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() { fs::remove_all(path); }
  fs::path path;
};

struct Ran {
  int code = 0;  ///< exit code, or minus the signal that ended it
  std::string out;
  std::string err;
};

class Program {
 public:
  fs::path folder;                   ///< where it runs
  rlim_t largest_file = 0;           ///< 0: no limit
  useconds_t killed_after = 0;       ///< 0: not killed
  int signal = SIGKILL;              ///< that kills it
  std::string standard_output = {};  ///< a file to write to; then Ran::out is empty

  Ran run(const std::vector<std::string>& arguments) const {
    const Scratch scratch;
    const fs::path out = standard_output.empty() ? scratch.path / "out" : fs::path(standard_output);
    const fs::path err = scratch.path / "err";
    std::vector<char*> words{const_cast<char*>(FOOTROOM_PROGRAM)};
    for (const auto& argument : arguments) words.push_back(const_cast<char*>(argument.c_str()));
    words.push_back(nullptr);
    const pid_t child = ::fork();
    if (child == 0) {
      const bool ready = ::chdir(folder.c_str()) == 0 && redirect(out, STDOUT_FILENO) &&
                         redirect(err, STDERR_FILENO) && limit();
      if (ready) ::execv(FOOTROOM_PROGRAM, words.data());
      ::_exit(127);
    }
    if (killed_after > 0) {
      ::usleep(killed_after);
      ::kill(child, signal);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    Ran ran;
    ran.code = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
    if (standard_output.empty()) ran.out = contents(out);
    ran.err = contents(err);
    return ran;
  }

 private:
  static bool redirect(const fs::path& file, int to) {
    const int opened = ::open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0666);
    return opened >= 0 && ::dup2(opened, to) >= 0;
  }
  bool limit() const {
    const rlimit bytes{largest_file, largest_file};
    return largest_file == 0 || ::setrlimit(RLIMIT_FSIZE, &bytes) == 0;
  }
};

inline Ran run_in(const fs::path& folder, const std::vector<std::string>& arguments) {
  return Program{folder}.run(arguments);
}

}  // namespace footroom::cli::testing
