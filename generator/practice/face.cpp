#include "practice/face.hpp"

#include "grade/names.hpp"

namespace footroom::practice {

void put_face(nlohmann::ordered_json& json, const Face& face) {
  json["units"] = grade::system_names()[static_cast<std::size_t>(face.system)];
  json["language"] = grade::language_names()[static_cast<std::size_t>(face.style.language)];
  json["decimal-mark"] = grade::decimal_mark_names()[face.style.decimal_mark == '.' ? 0 : 1];
}

Face read_face(const grade::JsonReader& at) {
  Face face;
  face.system = static_cast<notation::System>(at.choice("units", grade::system_names()));
  face.style.language =
      static_cast<engine::Language>(at.choice("language", grade::language_names()));
  face.style.decimal_mark = at.choice("decimal-mark", grade::decimal_mark_names()) == 0 ? '.' : ',';
  return face;
}

}  // namespace footroom::practice
