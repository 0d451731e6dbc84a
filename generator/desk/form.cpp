#include "desk/form.hpp"

#include <algorithm>
#include <stdexcept>

namespace footroom::desk {

void Form::fill(const Fields& sent) {
  for (Field& field : fields) {
    if (field.kind == Field::Kind::several_of) {
      field.chosen.clear();
      const auto [begin, end] = sent.equal_range(field.name);
      for (auto one = begin; one != end; ++one) field.chosen.insert(one->second);
      if (!field.means.empty()) field.meant = first_of(sent, field.name + "-is");
    } else if (field.kind != Field::Kind::file && sent.count(field.name) > 0) {
      field.value = first_of(sent, field.name);
    }
  }
}

void Form::refuse(std::string_view name, const std::string& why) {
  Field& field = at(name);
  if (field.error.empty()) field.error = why;
}

bool Form::sound() const {
  return error.empty() && std::all_of(fields.begin(), fields.end(),
                                      [](const Field& field) { return field.error.empty(); });
}

Field& Form::at(std::string_view name) {
  const auto found = std::find_if(fields.begin(), fields.end(),
                                  [&](const Field& field) { return field.name == name; });
  if (found == fields.end()) throw std::logic_error("no field " + std::string(name));
  return *found;
}

std::string trimmed(std::string_view text) {
  constexpr std::string_view spaces = " \t\r\n";
  const auto begin = text.find_first_not_of(spaces);
  if (begin == std::string_view::npos) return {};
  return std::string(text.substr(begin, text.find_last_not_of(spaces) - begin + 1));
}

}  // namespace footroom::desk
