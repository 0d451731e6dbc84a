#pragma once
// What a room is: addresses, and what is answered there.

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "desk/folder.hpp"
#include "desk/pages.hpp"
#include "desk/request.hpp"
#include "desk/shelf.hpp"
#include "desk/work.hpp"
#include "render/render.hpp"

namespace footroom::desk {

/// What the rooms share.
struct House {
  const Folder& folder;
  const bank::Bank& bank;
  const render::Templates& templates;
  const Shelf& shelf;
  const Pages& pages;
  std::filesystem::path template_folder;
  std::function<std::filesystem::path()> practice_core;  ///< throws Failure where it is not there
  Work& work;
  std::function<std::string()> today;
  std::function<std::string()> random;  ///< hexadecimal digits
  std::function<std::uint64_t()> seed;
  std::string program;
  std::string token;  ///< of the forms
};

/// A request at an address of a room.
class Call {
 public:
  Call(const House& from, const Request& asked, std::vector<std::string> parts);

  const House& house;
  const Request& request;
  const std::vector<std::string> parts;  ///< what stands at the places of the address, in order
  const Preferences preferences;
  const engine::Language language;

  /// Place `index`, where the address has {number}.
  int number(std::size_t index) const;
  std::string query(std::string_view name) const { return first_of(request.query, name); }
  std::string sent(std::string_view name) const { return first_of(request.form, name); }
  const std::string& say(std::string_view label) const { return house.pages.say(label, language); }
  template <class... Values>
  std::string say_with(std::string_view label, const Values&... values) const {
    return house.pages.say_with(label, language, values...);
  }
  mustache::data form(const Form& form) const;
  /// `frame.language` is filled in.
  Response page(Pages::Frame frame, const std::string& name, mustache::data data) const;
};

/// There is nothing at this address.
struct NotThere {};

class Routes {
 public:
  using Handler = std::function<Response(const Call&)>;

  /// `pattern`: "/quizzes/{number}/seats/{word}". A number has 1 to 9 digits, a word letters,
  /// digits and hyphens.
  void get(const std::string& pattern, Handler handler);
  /// Answered one at a time, and for each form once. A response that goes elsewhere has done the
  /// work; any other shows the form again.
  void post(const std::string& pattern, Handler handler);

  struct Found {
    const Handler* handler = nullptr;
    std::vector<std::string> parts;
    bool other_method = false;  ///< there is something here, but not for this method
  };
  Found find(const std::string& method, const std::string& path) const;
  std::vector<Address> addresses() const;

 private:
  struct Row {
    std::string method;
    std::vector<std::string> pattern;
    Handler handler;
  };
  std::vector<Row> rows_;
};

// The rooms, one file each.
void add_start_room(Routes& routes);
void add_class_room(Routes& routes);
void add_quiz_room(Routes& routes);
void add_answer_room(Routes& routes);
void add_result_room(Routes& routes);
void add_people_room(Routes& routes);
void add_person_room(Routes& routes);
void add_due_room(Routes& routes);
void add_session_room(Routes& routes);
void add_certificate_room(Routes& routes);
void add_course_room(Routes& routes);
void add_store_room(Routes& routes);
void add_taken_room(Routes& routes);
void add_preferences_room(Routes& routes);
void add_calculation_room(Routes& routes);
void add_practice_room(Routes& routes);

}  // namespace footroom::desk
