#include "tasks/zip_file.hpp"

#include <zip.h>

#include <memory>
#include <stdexcept>

namespace footroom::tasks {
namespace {

/// 1980-01-01, 00:00, as archives write it.
constexpr zip_uint16_t first_day = (1 << 5) | 1;
constexpr zip_uint16_t midnight = 0;
constexpr zip_uint32_t best_compression = 9;

struct FreeSource {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};
struct DiscardArchive {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};
using Source = std::unique_ptr<zip_source_t, FreeSource>;
using Archive = std::unique_ptr<zip_t, DiscardArchive>;

[[noreturn]] void fail(const std::string& what) {
  throw std::runtime_error("zip archive: " + what);
}

void add(zip_t* archive, const render::PackageFile& file) {
  zip_source_t* bytes = zip_source_buffer(archive, file.bytes.data(), file.bytes.size(), 0);
  if (!bytes) fail(zip_strerror(archive));
  const zip_int64_t added = zip_file_add(archive, file.path.c_str(), bytes, ZIP_FL_ENC_UTF_8);
  if (added < 0) {
    zip_source_free(bytes);
    fail(file.path + ": " + zip_strerror(archive));
  }
  const auto index = static_cast<zip_uint64_t>(added);
  if (zip_file_set_dostime(archive, index, midnight, first_day, 0) != 0 ||
      zip_set_file_compression(archive, index, ZIP_CM_DEFLATE, best_compression) != 0)
    fail(file.path + ": " + zip_strerror(archive));
}

std::string bytes_of(zip_source_t* source) {
  if (zip_source_open(source) != 0) fail("cannot be read back");
  std::string bytes;
  std::string piece(1 << 16, '\0');
  for (;;) {
    const zip_int64_t read = zip_source_read(source, piece.data(), piece.size());
    if (read < 0) fail("cannot be read back");
    if (read == 0) break;
    bytes.append(piece, 0, static_cast<std::size_t>(read));
  }
  zip_source_close(source);
  return bytes;
}

}  // namespace

std::string zip_of(const std::vector<render::PackageFile>& files) {
  zip_error_t error;
  zip_error_init(&error);
  const Source source(zip_source_buffer_create(nullptr, 0, 0, &error));
  if (!source) fail(zip_error_strerror(&error));
  Archive archive(zip_open_from_source(source.get(), ZIP_TRUNCATE, &error));
  if (!archive) fail(zip_error_strerror(&error));
  zip_source_keep(source.get());  // the archive gives its share back when it is closed
  for (const render::PackageFile& file : files) add(archive.get(), file);
  if (zip_close(archive.get()) != 0) fail(zip_strerror(archive.get()));
  static_cast<void>(archive.release());  // closed already
  return bytes_of(source.get());
}

}  // namespace footroom::tasks
