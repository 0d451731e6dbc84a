// The floor under making a quiz: parse and render the Markdown of a finished quiz with cmark, and
// write the same bytes into the same number of files. See README.md.

#include <cmark.h>
#include <fcntl.h>
#include <sys/resource.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

struct Moment {
  std::chrono::steady_clock::time_point wall = std::chrono::steady_clock::now();
  rusage usage{};
  Moment() { ::getrusage(RUSAGE_SELF, &usage); }
};

double seconds(const timeval& time) {
  return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
}

void print(const char* what, const Moment& start, const Moment& end) {
  std::printf("%s %.6f %.6f\n", what, std::chrono::duration<double>(end.wall - start.wall).count(),
              seconds(end.usage.ru_utime) - seconds(start.usage.ru_utime) +
                  seconds(end.usage.ru_stime) - seconds(start.usage.ru_stime));
}

void write_file(const fs::path& name, const std::string& bytes) {
  const int file = ::open(name.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  for (std::size_t done = 0; done < bytes.size();) {
    const ssize_t written = ::write(file, bytes.data() + done, bytes.size() - done);
    if (written < 0) {
      std::perror(name.c_str());
      std::exit(3);
    }
    done += static_cast<std::size_t>(written);
  }
  ::close(file);
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) {
    std::fputs("Use: quiz_floor QUIZ-FOLDER NEW-FOLDER\n", stderr);
    return 2;
  }
  struct File {
    fs::path name;
    std::string bytes;
  };
  std::vector<File> files;
  for (const auto& entry : fs::recursive_directory_iterator(words[1])) {
    if (!entry.is_regular_file()) continue;
    std::ifstream in(entry.path(), std::ios::binary);
    files.push_back({entry.path().lexically_relative(words[1]),
                     {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()}});
  }
  const Moment start;
  for (const File& file : files)
    if (file.name.extension() == ".md")
      std::free(cmark_markdown_to_html(file.bytes.data(), file.bytes.size(), CMARK_OPT_SAFE));
  const Moment between;
  fs::create_directories(fs::path(words[2]) / "figures");
  for (const File& file : files) write_file(words[2] / file.name, file.bytes);
  const Moment end;
  print("markdown", start, between);
  print("writing", between, end);
  return 0;
}
