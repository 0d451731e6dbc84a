// Where the week begins: what is there, and what comes next.

#include "desk/quiz_page.hpp"
#include "desk/room.hpp"
#include "render/page_data.hpp"

namespace footroom::desk {
namespace {

constexpr std::size_t most_recent = 6;

Response show(const Call& call) {
  const auto classes = call.house.folder.classes();
  mustache::data data;
  data.set("no-class", mustache::data(classes.empty()));
  data.set("has-class", mustache::data(!classes.empty()));
  mustache::data recent(mustache::data::type::list);
  auto quizzes = call.house.folder.quizzes();
  if (quizzes.size() > most_recent) quizzes.resize(most_recent);
  const auto unfinished = call.house.folder.unfinished_quizzes();
  for (const int quiz : unfinished) recent << unfinished_row(call, quiz);
  for (const int quiz : quizzes) recent << quiz_row(call, quiz);
  data.set("quizzes", recent);
  data.set("has-quizzes", mustache::data(!quizzes.empty() || !unfinished.empty()));
  data.set("today", render::long_date(call.house.templates.parts().labels, call.language,
                                      call.house.today()));
  return call.page({call.language, "start", call.say("start-title")}, "start", data);
}

}  // namespace

void add_start_room(Routes& routes) {
  routes.get("/", show);
}

}  // namespace footroom::desk
