#pragma once
#include <filesystem>
#include <string>

namespace footroom::tasks {

/// The bytes of a file. Throws Failure "FILE: cannot read: No such file or directory".
std::string file_text(const std::filesystem::path& file);

}  // namespace footroom::tasks
