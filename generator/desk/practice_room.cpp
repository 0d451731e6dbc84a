// The students' practice: the page itself, and how it is handed out.

#include <mutex>

#include "desk/room.hpp"
#include "tasks/bank_files.hpp"
#include "tasks/practice_page.hpp"
#include "tasks/text.hpp"

namespace footroom::desk {
namespace {

/// The page is large and changes with the preferences alone, so the last one is kept.
class KeptPage {
 public:
  std::string page(const Call& call) {
    const Preferences& now = call.preferences;
    const std::lock_guard lock(mutex_);
    if (!page_.empty() && same(now)) return page_;
    page::PageSettings settings;
    settings.face = {now.system, now.style};
    settings.program = call.house.program;
    settings.rules = tasks::find_rules(call.house.bank, now.rules).id;
    const auto course = call.house.bank.courses.find(now.course);
    if (course != call.house.bank.courses.end()) tasks::add_course(course->second, settings);
    page_ = tasks::practice_page(call.house.bank, call.house.template_folder,
                                 call.house.practice_core(), settings);
    made_for_ = now;
    return page_;
  }

 private:
  bool same(const Preferences& now) const {
    return now.style.language == made_for_.style.language &&
           now.style.decimal_mark == made_for_.style.decimal_mark &&
           now.system == made_for_.system && now.rules == made_for_.rules &&
           now.course == made_for_.course;
  }

  std::mutex mutex_;
  std::string page_;  ///< under the mutex, as what it was made for
  Preferences made_for_;
};

Response show(const Call& call) {
  const auto course = call.house.bank.courses.find(call.preferences.course);
  mustache::data data;
  data.set("asks-from", course == call.house.bank.courses.end()
                            ? call.say("course-none")
                            : tasks::in_language(course->second.title, call.language));
  return call.page({call.language, "practice", call.say("room-practice")}, "practice", data);
}

}  // namespace

void add_practice_room(Routes& routes) {
  const auto kept = std::make_shared<KeptPage>();
  routes.get("/practice", [kept](const Call& call) {
    Response response;
    response.policy = Policy::practice;
    response.body = kept->page(call);
    return response;
  });
  routes.get("/practice/file", [kept](const Call& call) {
    Response response;
    response.policy = Policy::practice;
    response.file_name = "practice.html";
    response.body = kept->page(call);
    return response;
  });
  routes.get("/practice/hand-out", show);
}

}  // namespace footroom::desk
