#include "render/data.hpp"

#include <algorithm>
#include <cstring>

namespace footroom::render {
namespace {

/// The first seven bytes and the size.
std::uint64_t start_of(std::string_view name) {
  std::uint64_t start = 0;
  std::memcpy(&start, name.data(), std::min<std::size_t>(name.size(), 7));
  return start << 8 | (name.size() & 0xFF);
}

}  // namespace

void Data::set(std::string_view name, Data value) {
  Object& entries = std::get<Object>(value_);
  const std::uint64_t start = start_of(name);
  for (Entry& entry : entries)
    if (entry.start == start && entry.name == name) {
      entry.value = std::move(value);
      return;
    }
  if (entries.empty()) entries.reserve(8);
  entries.push_back({start, std::string(name), std::move(value)});
}

const Data* Data::find(std::string_view name) const {
  if (const auto* entries = std::get_if<Object>(&value_)) {
    const std::uint64_t start = start_of(name);
    for (const Entry& entry : *entries)
      if (entry.start == start && entry.name == name) return &entry.value;
  } else if (const auto* shared = std::get_if<Shared>(&value_)) {
    const auto found = (*shared)->find(name);
    if (found != (*shared)->end()) return &found->second;
  }
  return nullptr;
}

bool Data::is_nothing() const {
  if (const auto* is = std::get_if<bool>(&value_)) return !*is;
  const auto* values = list();
  return values && values->empty();
}

}  // namespace footroom::render
