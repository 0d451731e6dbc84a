// Requests of the practice page, one a line, each with the progress of the reply before unless it
// brings its own: each gets a reply, the same each time, whose markup is well-formed, or a refusal.

#include <nlohmann/json.hpp>

#include "fuzz/page_core.hpp"
#include "fuzz/pages.hpp"
#include "fuzz/target.hpp"

namespace footroom::fuzz {
namespace {

using Json = nlohmann::json;

void check_markup(const Json& json) {
  if (!json.is_structured()) return;
  for (const auto& [name, value] : json.items()) {
    if (json.is_object() && name.ends_with("-html") && value.is_string())
      require(read_markup(value.get<std::string>()).wrong.empty(), name + " is well-formed");
    check_markup(value);
  }
}

}  // namespace

void try_input(std::string_view input) {
  std::string progress;
  for (int i = 0; i < 5 && !input.empty(); ++i) {
    std::string request(take_line(input));
    auto json = Json::parse(request, nullptr, false);
    if (json.is_object() && !json.contains("progress")) {
      json["progress"] = progress;
      request = json.dump(-1, ' ', false, Json::error_handler_t::replace);
    }
    const std::string reply = the_core().ask(request);
    require(reply == the_core().ask(request), "a request has one reply");
    const auto read = Json::parse(reply, nullptr, false);
    require(read.is_object(), "a reply is an object");
    require(!read.contains("fault"), "no request makes the program fail: " + reply);
    require(!read.contains("error") || !read.at("error").get<std::string>().empty(),
            "an error says what is wrong");
    check_markup(read);
    if (read.contains("progress") && read.at("progress").is_string())
      progress = read.at("progress").get<std::string>();
  }
}

}  // namespace footroom::fuzz
