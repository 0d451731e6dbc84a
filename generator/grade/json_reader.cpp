#include "grade/json_reader.hpp"

#include <algorithm>
#include <cmath>

namespace footroom::grade {

nlohmann::json parse_json(std::string_view text, const std::string& file) {
  try {
    return nlohmann::json::parse(text);
  } catch (const nlohmann::json::parse_error& error) {
    const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(error.byte, text.size()));
    throw FaultyFile(file + ":" + std::to_string(1 + std::count(text.begin(), end, '\n')) +
                     ": is no JSON, expected a file that footroom wrote");
  } catch (const nlohmann::json::exception&) {
    throw FaultyFile(file + ": holds a number that is too large");
  }
}

void JsonReader::refuse(const std::string& what) const {
  throw FaultyFile(file_ + ": " + (place_.empty() ? "the whole" : place_) + ": " + what);
}

bool JsonReader::has(const std::string& name) const {
  return value_.is_object() && value_.contains(name);
}

JsonReader JsonReader::member(const std::string& name) const {
  if (!value_.is_object()) refuse("is " + std::string(value_.type_name()) + ", expected an object");
  const auto found = value_.find(name);
  if (found == value_.end()) JsonReader(value_, file_, below(name)).refuse("is missing");
  return {*found, file_, below(name)};
}

std::vector<JsonReader> JsonReader::elements() const {
  if (!value_.is_array()) refuse("is " + std::string(value_.type_name()) + ", expected a list");
  std::vector<JsonReader> all;
  for (std::size_t i = 0; i < value_.size(); ++i)
    all.push_back(JsonReader(value_[i], file_, below(std::to_string(i))));
  return all;
}

std::vector<std::pair<std::string, JsonReader>> JsonReader::members() const {
  if (!value_.is_object()) refuse("is " + std::string(value_.type_name()) + ", expected an object");
  std::vector<std::pair<std::string, JsonReader>> all;
  for (auto at = value_.begin(); at != value_.end(); ++at)
    all.emplace_back(at.key(), JsonReader(at.value(), file_, below(at.key())));
  return all;
}

std::string JsonReader::text() const {
  if (!value_.is_string()) refuse("is " + std::string(value_.type_name()) + ", expected a text");
  return value_.get<std::string>();
}

double JsonReader::number() const {
  if (!value_.is_number()) refuse("is " + std::string(value_.type_name()) + ", expected a number");
  const double number = value_.get<double>();
  if (!std::isfinite(number)) refuse("is not finite, expected a number");
  return number;
}

int JsonReader::whole(int lowest, int highest) const {
  const double read = number();
  if (!(read >= lowest && read <= highest) || read != std::floor(read))
    refuse("is " + value_.dump() + ", expected a whole number from " + std::to_string(lowest) +
           " to " + std::to_string(highest));
  return static_cast<int>(read);
}

std::uint64_t JsonReader::natural() const {
  number();  // else what is refused may be a list of lists, too deep to be shown
  if (!value_.is_number_unsigned())
    refuse("is " + value_.dump() + ", expected a whole number, not negative");
  return value_.get<std::uint64_t>();
}

bool JsonReader::truth() const {
  if (!value_.is_boolean())
    refuse("is " + std::string(value_.type_name()) + ", expected true or false");
  return value_.get<bool>();
}

std::size_t JsonReader::choice(const std::string& name,
                               const std::vector<std::string>& words) const {
  const JsonReader at = member(name);
  const std::string word = at.text();
  const auto found = std::find(words.begin(), words.end(), word);
  if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
  std::string expected;
  for (std::size_t i = 0; i < words.size(); ++i)
    expected += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + words[i];
  at.refuse("is " + at.value_.dump() + ", expected " + expected);
}

}  // namespace footroom::grade
