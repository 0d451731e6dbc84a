#include "render/data.hpp"

#include <algorithm>

namespace footroom::render {

Data& Data::operator<<(Data value) {
  // The library shows a list of ours only as constant, and would copy into it and whenever it
  // grows.
  auto& list = const_cast<kainjow::mustache::list&>(list_value());
  if (list.size() == list.capacity()) {
    kainjow::mustache::list larger;
    larger.reserve(std::max<std::size_t>(8, 2 * list.size()));
    for (Base& one : list) larger.push_back(type::invalid), larger.back() = std::move(one);
    list.swap(larger);
  }
  list.push_back(type::invalid);
  list.back() = std::move(value);
  return *this;
}

}  // namespace footroom::render
