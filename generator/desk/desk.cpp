#include "desk/desk.hpp"

#include <mutex>
#include <sstream>
#include <utility>

#include "bank/read.hpp"
#include "desk/room.hpp"
#include "desk/session.hpp"
#include "records/store.hpp"
#include "tasks/bank_files.hpp"
#include "tasks/failure.hpp"

namespace footroom::desk {
namespace {

bank::Bank sound_bank(const std::filesystem::path& folder) {
  std::ostringstream defects;
  try {
    return tasks::read_sound_bank(folder, defects);
  } catch (const tasks::Failure& failure) {
    throw tasks::Failure(failure.code, defects.str() + failure.what());
  }
}

Response plain(int status, const std::string& text) {
  Response response;
  response.status = status;
  response.type = "text/plain; charset=utf-8";
  response.body = text + "\n";
  return response;
}

Response file(const std::string& bytes, const char* type) {
  Response response;
  response.type = type;
  response.body = bytes;
  return response;
}

}  // namespace

struct Desk::Parts {
  explicit Parts(Settings given)
      : settings(std::move(given)),
        folder(settings.folder),
        bank(sound_bank(settings.bank)),
        templates(tasks::read_templates(settings.templates)),
        pages(settings.templates),
        gate([this](const Request& request) { return answer(request); }, settings.limits),
        port(gate.open(settings.port, folder.port_before())),
        session(port, settings.random),
        house{folder,
              bank,
              templates,
              shelf,
              pages,
              settings.templates,
              settings.practice_core,
              work,
              settings.today,
              settings.random,
              settings.seed,
              settings.program,
              session.form_token()},
        address(session.address()) {
    add_start_room(routes);
    add_class_room(routes);
    add_quiz_room(routes);
    add_answer_room(routes);
    add_result_room(routes);
    add_people_room(routes);
    add_person_room(routes);
    add_due_room(routes);
    add_session_room(routes);
    add_certificate_room(routes);
    add_course_room(routes);
    add_store_room(routes);
    add_taken_room(routes);
    add_preferences_room(routes);
    add_calculation_room(routes);
    add_practice_room(routes);
    if (port != folder.port_before()) folder.write_port(port);
    folder.write_address(address);
  }

  Response answer(const Request& request) noexcept {
    try {
      return checked(request);
    } catch (const std::exception& error) {
      return failed(request, engine::wording_of(error));
    }
  }

  /// What keeps a page from being made may keep this page from being made too.
  Response failed(const Request& request, const engine::Wording& what) const {
    try {
      return trouble(request, 500, what);
    } catch (const std::exception&) {
      return plain(500, what.english);
    }
  }

  Response checked(const Request& request) {
    if (!session.is_ours(request)) return plain(421, "This is not the desk that you look for.");
    if (request.method != "POST") {
      if (request.path == "/desk.css") return file(pages.style(), "text/css; charset=utf-8");
      if (request.path == "/desk.js") return file(pages.script(), "text/javascript; charset=utf-8");
      if (request.path == "/footroom.svg") return file(pages.icon(), "image/svg+xml");
      if (request.path == "/open") return open(request);
    }
    if (!session.has_cookie(request)) return trouble(request, 403, {});
    const auto found = routes.find(request.method, request.path);
    if (!found.handler)
      return found.other_method ? plain(405, "Nothing is done here in this way.")
                                : trouble(request, 404, {});
    const Call call(house, request, found.parts);
    try {
      return request.method == "POST" ? post(call, *found.handler) : (*found.handler)(call);
    } catch (const NotThere&) {
      return trouble(request, 404, {});
    }
  }

  Response open(const Request& request) const {
    const auto cookie = session.cookie_for(first_of(request.query, "key"));
    if (!cookie) return trouble(request, 403, {});
    Response response = see_other("/");
    response.cookie = *cookie;
    return response;
  }

  Response post(const Call& call, const Routes::Handler& handler) {
    if (!session.is_own_form(call.request))
      return plain(403, "This form was not sent by a page of the desk.");
    const std::string once = call.sent("once");
    const std::lock_guard lock(writing);
    if (const auto location = submissions.find(once)) return see_other(*location);
    Response response = handler(call);
    if (!response.location.empty()) submissions.add(once, response.location);
    return response;
  }

  /// A page that says what is the matter, in plain words.
  Response trouble(const Request& request, int status, const engine::Wording& what) const {
    const Call call(house, request, {});
    const std::string number = std::to_string(status);
    mustache::data data;
    data.set("says", call.say("trouble-" + number));
    data.set("what", what.in(call.language));
    data.set("has-what", mustache::data(!what.empty()));
    Response response =
        call.page({call.language, "", call.say("trouble-title-" + number)}, "trouble", data);
    response.status = status;
    return response;
  }

  Settings settings;
  Folder folder;
  bank::Bank bank;
  render::Templates templates;
  Pages pages;
  Shelf shelf;
  Work work;
  Routes routes;
  std::mutex writing;
  Submissions submissions;  ///< under the mutex
  Gate gate;
  int port = 0;
  Session session;
  House house;
  std::string address;
};

Desk::Desk(Settings settings) : parts_(std::make_unique<Parts>(std::move(settings))) {}

Desk::~Desk() = default;

const std::string& Desk::address() const {
  return parts_->address;
}

std::vector<Address> Desk::addresses() const {
  return parts_->routes.addresses();
}

void Desk::serve() {
  parts_->gate.serve();
}

void Desk::close() {
  parts_->gate.close();
}

}  // namespace footroom::desk
