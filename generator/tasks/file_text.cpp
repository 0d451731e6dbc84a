#include "tasks/file_text.hpp"

#include <array>
#include <cerrno>
#include <cstdio>
#include <memory>

#include "tasks/failure.hpp"

namespace footroom::tasks {

std::string file_text(const std::filesystem::path& file) {
  const auto cannot = [&file] {
    const int error = errno;
    return system_failure(file.string(), {"cannot read", "no se puede leer"}, error);
  };
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> in(std::fopen(file.c_str(), "rb"),
                                                           &std::fclose);
  if (!in) throw cannot();
  std::string bytes;
  std::array<char, 65536> block{};
  while (const auto count = std::fread(block.data(), 1, block.size(), in.get()))
    bytes.append(block.data(), count);
  if (std::ferror(in.get())) throw cannot();
  return bytes;
}

}  // namespace footroom::tasks
