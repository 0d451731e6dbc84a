#include "desk/request.hpp"

#include <utility>

namespace footroom::desk {

std::string first_of(const Fields& fields, std::string_view name) {
  const auto found = fields.find(name);
  return found == fields.end() ? std::string() : found->second;
}

Response see_other(std::string location) {
  Response response;
  response.status = 303;
  response.location = std::move(location);
  return response;
}

}  // namespace footroom::desk
