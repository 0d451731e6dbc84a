#include "desk/room.hpp"

#include <algorithm>
#include <utility>

namespace footroom::desk {
namespace {

std::vector<std::string> segments(const std::string& path) {
  std::vector<std::string> all;
  for (std::size_t at = 1; at <= path.size();) {
    const auto end = std::min(path.find('/', at), path.size());
    all.push_back(path.substr(at, end - at));
    at = end + 1;
  }
  return all;
}

bool is_number(const std::string& text) {
  return !text.empty() && text.size() <= 9 &&
         text.find_first_not_of("0123456789") == std::string::npos;
}

bool is_word(const std::string& text) {
  return !text.empty() && text.size() <= 60 && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
  });
}

Preferences chosen(const House& house, const Request& request) {
  if (const auto preferences = house.folder.preferences()) return *preferences;
  Preferences preferences;
  if (request.languages.starts_with("es")) preferences.style.language = engine::Language::spanish;
  return preferences;
}

}  // namespace

Call::Call(const House& from, const Request& asked, std::vector<std::string> at)
    : house(from),
      request(asked),
      parts(std::move(at)),
      preferences(chosen(from, asked)),
      language(preferences.style.language) {}

int Call::number(std::size_t index) const {
  return std::stoi(parts.at(index));
}

mustache::data Call::form(const Form& form) const {
  return house.pages.form_data(form, language, house.token, house.random());
}

Response Call::page(Pages::Frame frame, const std::string& name, mustache::data data) const {
  frame.language = language;
  return house.pages.page(frame, name, std::move(data));
}

void Routes::get(const std::string& pattern, Handler handler) {
  rows_.push_back({"GET", segments(pattern), std::move(handler)});
}

void Routes::post(const std::string& pattern, Handler handler) {
  rows_.push_back({"POST", segments(pattern), std::move(handler)});
}

Routes::Found Routes::find(const std::string& method, const std::string& path) const {
  const auto asked = segments(path);
  const std::string wanted = method == "HEAD" ? "GET" : method;
  Found found;
  for (const Row& row : rows_) {
    if (row.pattern.size() != asked.size()) continue;
    std::vector<std::string> parts;
    bool fits = true;
    for (std::size_t i = 0; fits && i < asked.size(); ++i) {
      const bool number = row.pattern[i] == "{number}";
      const bool word = row.pattern[i] == "{word}";
      fits = number ? is_number(asked[i]) : word ? is_word(asked[i]) : row.pattern[i] == asked[i];
      if (number || word) parts.push_back(asked[i]);
    }
    if (!fits) continue;
    if (row.method == wanted) return {&row.handler, std::move(parts), false};
    found.other_method = true;
  }
  return found;
}

std::vector<Address> Routes::addresses() const {
  std::vector<Address> all;
  for (const Row& row : rows_) {
    std::string pattern;
    for (const auto& part : row.pattern) pattern += "/" + part;
    all.push_back({row.method, pattern});
  }
  return all;
}

}  // namespace footroom::desk
