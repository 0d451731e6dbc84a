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
  auto& [names, values] = std::get<Object>(value_);
  const std::uint64_t start = start_of(name);
  for (std::size_t i = 0; i < names.size(); ++i)
    if (names[i].start == start && names[i].text == name) {
      values[i] = std::move(value);
      return;
    }
  if (names.empty()) {
    names.reserve(8);
    values.reserve(8);
  }
  names.push_back({start, std::string(name)});
  values.push_back(std::move(value));
}

const Data* Data::find(std::string_view name) const {
  if (const auto* object = std::get_if<Object>(&value_)) {
    const std::uint64_t start = start_of(name);
    for (std::size_t i = 0; i < object->names.size(); ++i)
      if (object->names[i].start == start && object->names[i].text == name)
        return &object->values[i];
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
