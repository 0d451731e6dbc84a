#include "render/labels.hpp"

#include <stdexcept>

namespace footroom::render {

bool Labels::add(const std::string& id, const std::string& english, const std::string& spanish) {
  return texts_.emplace(id, Both{english, spanish}).second;
}

const std::string& Labels::at(std::string_view id, engine::Language language) const {
  const auto found = texts_.find(id);
  if (found == texts_.end()) throw std::out_of_range("no label " + std::string(id));
  return language == engine::Language::english ? found->second.english : found->second.spanish;
}

std::vector<std::string> Labels::ids() const {
  std::vector<std::string> all;
  for (const auto& [id, texts] : texts_) all.push_back(id);
  return all;
}

}  // namespace footroom::render
