#pragma once
// The templates and labels of templates/desk/, and the frame that every page of the desk has.

#include <filesystem>
#include <functional>
#include <map>
#include <string>

#include "desk/form.hpp"
#include "desk/request.hpp"
#include "engine/text.hpp"
#include "render/templates.hpp"

namespace footroom::desk {

namespace mustache = render::mustache;

class Pages {
 public:
  /// `folder` is templates/. Throws std::runtime_error "file:line: ..." where a template or a label
  /// is missing or broken.
  explicit Pages(const std::filesystem::path& folder);

  /// A label, and one with {0}, {1} ... filled in.
  const std::string& say(std::string_view label, engine::Language language) const;
  template <class... Values>
  std::string say_with(std::string_view label, engine::Language language,
                       const Values&... values) const {
    return filled(say(label, language), {to_text(values)...});
  }

  struct Frame {
    engine::Language language;
    std::string room;        ///< the room in the list of rooms that this page belongs to
    std::string title;       ///< heading and title of the page
    std::string above = {};  ///< address of the page this one belongs under; may be empty
    std::string above_title = {};
    std::string told = {};  ///< what was just done; may be empty
    bool wide = false;
  };
  /// The page NAME.html within the frame. `data` may hold what templates mention, with forms from
  /// form_data().
  Response page(const Frame& frame, const std::string& name, mustache::data data) const;

  /// For {{> form.html}} inside {{#NAME}}...{{/NAME}}.
  mustache::data form_data(const Form& form, engine::Language language, const std::string& token,
                           const std::string& once) const;

  const std::string& style() const { return style_; }
  const std::string& script() const { return script_; }
  const std::string& icon() const { return icon_; }

 private:
  void set_doors(const Frame& frame, mustache::data& whole) const;
  static std::string to_text(const std::string& text) { return text; }
  static std::string to_text(const char* text) { return text; }
  static std::string to_text(std::size_t number) { return std::to_string(number); }
  static std::string to_text(int number) { return std::to_string(number); }
  static std::string filled(std::string text, const std::vector<std::string>& values);

  render::Labels labels_;
  mustache::data english_;
  mustache::data spanish_;
  std::map<std::string, render::Template, std::less<>> templates_;
  std::string style_;
  std::string script_;
  std::string icon_;
};

}  // namespace footroom::desk
