#include "page/core.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "page/page_data.hpp"
#include "practice/the_bank.hpp"
#include "render/practice_view.hpp"
#include "render/templates.hpp"

namespace footroom::page {
namespace {

using Json = nlohmann::ordered_json;

Json data() {
  const std::string templates = FOOTROOM_SOURCE_DIR "/templates";
  auto labels = render::read_labels(templates + "/practice/labels.xml", {});
  const auto shared = render::read_labels(templates + "/labels.xml", render::labels_of_practice());
  for (const std::string& id : render::labels_of_practice())
    labels.add(id, shared.at(id, engine::Language::english),
               shared.at(id, engine::Language::spanish));
  return Json::parse(page_data(the_bank(), labels, {"us-construction", {}, {}, {}, {}, "test"}));
}

Json ask(const Json& data, Json request) {
  request.update({{"language", "es"}, {"units", "us"}});
  return Json::parse(Core(data.dump()).ask(request.dump()));
}

TEST(Core, RefusesInTheStudentsLanguageWhatAStudentCannotHave) {
  const Json reply = ask(data(), {{"ask", "question"}, {"seed", "1"}, {"topics", {"none-such"}}});
  EXPECT_EQ(reply, Json::object({{"error", "No hay ninguna pregunta con esta selección."}}));
}

TEST(Core, TellsTheLanguageOfWhatItRefusesOfARequest) {
  const Json reply = ask(data(), {{"ask", "question"}, {"seed", "one"}});
  EXPECT_EQ(reply, Json::object({{"error", "request: the whole: has a seed that is no number"},
                                 {"error-language", "en"}}));
  EXPECT_EQ(Json::parse(Core(data().dump()).ask("[")).at("error-language"), "en");
}

TEST(Core, RefusesAQuestionThatTheBankCannotMake) {
  Json changed = data();
  const Json asked = ask(changed, {{"ask", "question"}, {"seed", "1"}});
  const std::string item = asked.at("question").at("item");
  for (Json& one : changed.at("bank").at("items"))
    if (one.at("id") == item) one["limits"] = {"none-such"};
  const Json reply = ask(changed, {{"ask", "current"}, {"progress", asked.at("progress")}});
  EXPECT_EQ(reply.value("error-language", ""), "en") << reply;
  EXPECT_NE(reply.value("error", "").find("none-such"), std::string::npos) << reply;
}

// What goes wrong within the program must not pass for a refusal.
TEST(Core, TellsAFaultOfItsOwnFromARefusal) {
  Json without_label = data();
  without_label.at("labels").erase("level");
  EXPECT_EQ(ask(without_label, {{"ask", "topics"}}), Json::object({{"fault", "no label level"}}));
  Json without_weeks = data();
  without_weeks.erase("weeks");
  const Json reply = ask(without_weeks, {{"ask", "topics"}});
  EXPECT_TRUE(reply.contains("fault") && !reply.contains("error")) << reply;
}

}  // namespace
}  // namespace footroom::page
