#pragma once
// Reading a JSON file field by field, with messages that name the file and the place in it.

#include <cstdint>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace footroom::grade {

/// "FILE: sheets/0/seat: is missing".
class FaultyFile : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

nlohmann::json parse_json(std::string_view text, const std::string& file);

/// A value with its place in the file.
class JsonReader {
 public:
  JsonReader(const nlohmann::json& value, std::string file)
      : value_(value), file_(std::move(file)) {}

  JsonReader member(const std::string& name) const;
  bool has(const std::string& name) const;
  std::vector<JsonReader> elements() const;
  std::vector<std::pair<std::string, JsonReader>> members() const;

  std::string text() const;
  double number() const;
  int whole(int lowest, int highest) const;
  std::uint64_t natural() const;
  bool truth() const;

  std::string text(const std::string& name) const { return member(name).text(); }
  std::string text_or(const std::string& name, const std::string& otherwise) const {
    return has(name) ? text(name) : otherwise;
  }
  /// One of a closed list, by its place in the list.
  std::size_t choice(const std::string& name, const std::vector<std::string>& words) const;

  [[noreturn]] void refuse(const std::string& what) const;

 private:
  JsonReader(const nlohmann::json& value, std::string file, std::string place)
      : value_(value), file_(std::move(file)), place_(std::move(place)) {}
  std::string below(const std::string& name) const {
    return place_.empty() ? name : place_ + "/" + name;
  }

  const nlohmann::json& value_;
  std::string file_;
  std::string place_;
};

}  // namespace footroom::grade
