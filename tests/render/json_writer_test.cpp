// Held against the library's own printing of a tree.

#include "render/json_writer.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <nlohmann/json.hpp>

namespace footroom::render {
namespace {

void write(JsonWriter& to, const nlohmann::ordered_json& value) {
  if (value.is_object()) {
    to.begin_object();
    for (const auto& [name, one] : value.items()) {
      to.name(name);
      write(to, one);
    }
    to.end_object();
  } else if (value.is_array()) {
    to.begin_array();
    for (const auto& one : value) write(to, one);
    to.end_array();
  } else if (value.is_string()) {
    to.text(value.get<std::string>());
  } else if (value.is_boolean()) {
    to.truth(value.get<bool>());
  } else if (value.is_number_integer()) {
    to.number(value.get<int>());
  } else {
    to.number(value.get<double>());
  }
}

TEST(JsonWriter, PrintsAsTheLibraryDoes) {
  const nlohmann::ordered_json tree{
      {"empty", nlohmann::ordered_json::object()},
      {"none", nlohmann::ordered_json::array()},
      {"list", {1, -7, true, false, "", {{"deep", {{"er", nlohmann::ordered_json::array({1})}}}}}},
      {"texts", {"plain", "a\"b\\c/", "tab\tline\nbell\x07", "d₀ = 6′ ñ", "Bj\xF6rn", "\x7F"}},
      {"numbers",
       {0.0, -0.0, 1.0, 1.2192, -2.5, 1e-5, 1e21, 123456789012.0, 0.1, 5e-324,
        std::numeric_limits<double>::infinity(), std::nan("")}}};
  JsonWriter writer;
  write(writer, tree);
  EXPECT_EQ(writer.taken(),
            tree.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace));
}

}  // namespace
}  // namespace footroom::render
