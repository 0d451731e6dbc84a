#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "engine/text.hpp"

namespace footroom::render {

/// The words of a page that are no part of a question, in both languages.
class Labels {
 public:
  /// False where the id is there already.
  bool add(const std::string& id, const std::string& english, const std::string& spanish);
  bool has(std::string_view id) const { return texts_.count(id) > 0; }
  /// Throws std::out_of_range for an unknown id.
  const std::string& at(std::string_view id, engine::Language language) const;
  std::vector<std::string> ids() const;

 private:
  struct Both {
    std::string english;
    std::string spanish;
  };
  std::map<std::string, Both, std::less<>> texts_;
};

}  // namespace footroom::render
