// The employer's rooms about people: adding, importing, correcting, erasing, and who is due.

#include <gtest/gtest.h>

#include "desk/open_desk.hpp"
#include "records/store.hpp"

namespace footroom::desk::testing {
namespace {

namespace fs = std::filesystem;
using cli::testing::contents_below;

const std::string hostile = "<b>\"O'Neil\"</b> & co";
const std::string hostile_shown = "&lt;b&gt;";

class People : public ::testing::Test {
 protected:
  Scratch scratch;
  fs::path folder = scratch.path / "desk";
  OpenDesk desk{folder};
  Visitor visitor{desk};

  httplib::Result add(Visitor::Fields fields) {
    return visitor.send("/people/new", "/people/new", std::move(fields));
  }
  httplib::Result correct(int person, Visitor::Fields fields) {
    const std::string path = "/people/" + std::to_string(person) + "/correct";
    return visitor.send(path, path, std::move(fields));
  }
  httplib::Result import(const std::string& pasted, const std::string& file = "",
                         bool employers = true) {
    Visitor::Fields fields{{"pasted", pasted}, {"file", file}};
    if (employers) fields.emplace_back("add-employers", "yes");
    return visitor.send("/people/import", "/people/import", std::move(fields));
  }
  std::string page(const std::string& path) {
    const auto shown = visitor.get(path);
    EXPECT_EQ(shown->status, 200) << path;
    return shown->body;
  }
  bool says(const std::string& path, const std::string& text) {
    return page(path).find(text) != std::string::npos;
  }
  std::unique_ptr<records::Store> store() const {
    return records::Store::open((folder / "crew.db").string(), next_text);
  }
  records::Number entries() const {
    return fs::exists(folder / "crew.db") ? store()->head().number : 0;
  }
  void speak_spanish() {
    const auto saved = visitor.send("/preferences", "/preferences",
                                    {{"language", "es"},
                                     {"units", "us"},
                                     {"decimal-mark", "point"},
                                     {"paper", "letter"},
                                     {"rules", "us-construction"}});
    ASSERT_EQ(saved->status, 303);
  }
  /// Employer 1, Ana 2, a course 3 with an interval 4.
  void add_ana() {
    ASSERT_EQ(add({{"name", "Ana Ejemplo"},
                   {"identity", "A-1"},
                   {"employer", ""},
                   {"new-employer", "Invented Roofing"}})
                  ->get_header_value("Location"),
              "/people/2?told=added");
    const auto open = store();
    const auto writing = open->write(records::read_date("2026-03-02").value());
    const auto course = writing->add(
        records::Course{"fall-protection", "Fall protection", "Protección contra caídas"});
    writing->add(records::Policy{1, course, 12});
    writing->commit();
  }
};

TEST_F(People, AreAddedOneByOne) {
  EXPECT_TRUE(says("/people", "Begin with the people"));
  EXPECT_FALSE(fs::exists(folder / "crew.db"));
  add_ana();
  EXPECT_TRUE(says("/people", "Ana Ejemplo (A-1)"));
  EXPECT_TRUE(says("/people", "Invented Roofing"));
  EXPECT_TRUE(says("/people/2", "<h1>Ana Ejemplo</h1>"));
  const auto another = add({{"name", "Ben Sample"}, {"employer", "1"}, {"other", "yes"}});
  EXPECT_EQ(another->get_header_value("Location"), "/people/new?told=added");
  EXPECT_EQ(store()->report(5).employer->value.name, "Invented Roofing");
}

TEST_F(People, AreRefusedBesideTheField) {
  add_ana();
  const auto before = entries();
  const auto refused = [&](Visitor::Fields fields, const std::string& error) {
    const auto sent = add(std::move(fields));
    EXPECT_EQ(sent->status, 200);
    EXPECT_NE(sent->body.find(error), std::string::npos) << error << "\n" << sent->body;
  };
  refused({{"name", " "}}, "<p class=\"error\" id=\"name-error\">Write the name.</p>");
  refused({{"name", "Ben"}, {"identity", "A-1"}, {"employer", "1"}},
          "id=\"identity-error\">Belongs to Ana Ejemplo (A-1) already.");
  refused({{"name", "Ben"}, {"employer", "77"}}, "id=\"employer-error\">Choose one of these.");
  refused({{"name", "Ben"}, {"employer", "1"}, {"new-employer", "Other Roofing"}},
          "id=\"new-employer-error\">Choose one above or write a new one, not both.");
  refused({{"name", "Ben"}, {"new-employer", "Invented Roofing"}}, "Invented Roofing is taken");
  refused({{"name", "Ben\x01Sample"}}, "id=\"name-error\">Is not plain text on one line.");
  refused({{"name", std::string(400, 'n')}}, "id=\"name-error\">Is too long");
  EXPECT_EQ(entries(), before);
}

TEST_F(People, OfTheSameNameAreAskedAbout) {
  add_ana();
  const auto asked = add({{"name", "ÁNA ejemplo"}, {"employer", "1"}});
  EXPECT_EQ(asked->status, 200);
  EXPECT_NE(asked->body.find("Ana Ejemplo (A-1) is recorded already"), std::string::npos);
  EXPECT_NE(asked->body.find("name=\"another\""), std::string::npos);
  EXPECT_EQ(add({{"name", "ÁNA ejemplo"}, {"employer", "1"}, {"another", "yes"}})->status, 303);
  EXPECT_EQ(add({{"name", "Ana Ejemplo"}, {"employer", "1"}, {"identity", "A-9"}})->status, 303);
}

TEST_F(People, AreFoundWithoutCapitalsAndAccentsInPages) {
  std::string rows = "identity\tname\temployer\n";
  for (int i = 100; i < 220; ++i)
    rows += "B-" + std::to_string(i) + "\tWorker " + std::to_string(i) + "\tInvented Roofing\n";
  rows += "Z-1\tJosé Ñandú\tOther Roofing\n";
  EXPECT_EQ(import(rows)->get_header_value("Location"), "/people/import?added=121");
  EXPECT_TRUE(says("/people", "people: 121"));
  EXPECT_TRUE(says("/people", "page 1 of 3"));
  EXPECT_FALSE(says("/people", "Worker 199"));
  EXPECT_TRUE(says("/people?find=&page=3", "Worker 219"));
  EXPECT_TRUE(says("/people?find=&page=999999999", "page 3 of 3"));
  EXPECT_TRUE(says("/people?find=NANDU%20jose", "José Ñandú (Z-1)"));
  EXPECT_TRUE(says("/people?find=other%20roofing", "José Ñandú (Z-1)"));
  EXPECT_TRUE(says("/people?find=B-150", "people: 1<"));
  EXPECT_TRUE(says("/people?find=worker%20nobody", "Nobody has all these words"));
  EXPECT_TRUE(says("/people?find=%3Cscript%3E", "value=\"&lt;script&gt;\""));
}

TEST_F(People, ComeFromAListOrNobodyDoes) {
  add_ana();
  const auto before = entries();
  const std::string rows =
      "identity,name,employer,left\nA-2,Ben Sample,Invented Roofing,\n"
      "A-1,Twice Sample,Invented Roofing,\nA-3,,Invented Roofing,\nA-4,Cy Sample,Invented "
      "Rofing,\nA-5,Di Sample,Invented Roofing,May\n";
  const auto refused = import(rows, "", false);
  EXPECT_EQ(refused->status, 200);
  for (const char* fault :
       {"Rows that cannot be taken: 4", "line:3: identity: A-1 is taken", "line:4: name: is empty",
        "line:5: employer: the store has no employer named Invented Rofing; did you mean",
        "line:6: left: is May, expected a day"})
    EXPECT_NE(refused->body.find(fault), std::string::npos) << fault << refused->body;
  EXPECT_NE(refused->body.find("Twice Sample"), std::string::npos);
  const auto from_file = import("", rows, false);
  EXPECT_NE(from_file->body.find("A-5,Di Sample,Invented Roofing,May\n"), std::string::npos);
  EXPECT_NE(import(" \n")->body.find("There is nobody here yet."), std::string::npos);
  EXPECT_NE(import("nombre,apodo\nBen,B\n")->body.find("apodo: is no column"), std::string::npos);
  EXPECT_EQ(entries(), before);
  EXPECT_EQ(import("Ben Sample\nCy O'Sample\n")->get_header_value("Location"),
            "/people/import?added=2");
  EXPECT_EQ(import("", "Nombre;Identidad\nDi Sample;D-1\n")->get_header_value("Location"),
            "/people/import?added=1");
  EXPECT_EQ(import("[{\"name\": \"Ed Sample\"}]")->get_header_value("Location"),
            "/people/import?added=1");
  EXPECT_TRUE(says("/people", "Di Sample (D-1)"));
}

TEST_F(People, AreCorrectedByAnEntryThatCanBeUndone) {
  add_ana();
  EXPECT_NE(correct(2, {{"name", "Ana Ejemplo"}, {"identity", "A-1"}, {"employer", "1"}})
                ->body.find("Nothing is other than before."),
            std::string::npos);
  EXPECT_NE(correct(2, {{"name", "Ana Ejemplo"}, {"identity", "A-1"}, {"left", "May"}})
                ->body.find("id=\"left-error\">Is no day of the calendar"),
            std::string::npos);
  EXPECT_EQ(
      correct(
          2,
          {{"name", "Ana M. Ejemplo"}, {"identity", ""}, {"employer", ""}, {"left", "2026-04-01"}})
          ->get_header_value("Location"),
      "/people/2?told=corrected");
  EXPECT_TRUE(says("/people/2", "<h1>Ana M. Ejemplo</h1>"));
  EXPECT_TRUE(says("/people/2", "corrected by entry 5"));
  EXPECT_TRUE(says("/people/2", "stands in the place of entry 2"));
  EXPECT_TRUE(says("/people/2/entries/2", "corrected by entry 5"));
  EXPECT_EQ(page("/people/2/entries/2").find("action="), std::string::npos);
  const auto undone = visitor.send("/people/2/entries/5", "/people/2/entries/5", {});
  EXPECT_EQ(undone->get_header_value("Location"), "/people/2?told=undone");
  EXPECT_TRUE(says("/people/2", "<h1>Ana Ejemplo</h1>"));
  EXPECT_EQ(store()->report(2).person.value.employer, 1);
  EXPECT_EQ(entries(), 6);
  EXPECT_FALSE(store()->verify({}));
}

TEST_F(People, RecordedByMistakeAreStruckUnlessOtherEntriesNameThem) {
  add_ana();
  const std::string retrain = "/people/2/retrain";
  EXPECT_NE(visitor.send(retrain, retrain, {{"course", "3"}, {"since", ""}})
                ->body.find("id=\"reason-error\">Choose one of these."),
            std::string::npos);
  EXPECT_EQ(visitor
                .send(retrain, retrain,
                      {{"course", "3"},
                       {"reason", "equipment-changed"},
                       {"since", "2026-01-05"},
                       {"remark", "A new anchor"}})
                ->get_header_value("Location"),
            "/people/2?told=retrain");
  EXPECT_TRUE(says("/people/2", "A new anchor"));
  const std::string person = "/people/2/entries/2";
  EXPECT_NE(visitor.send(person, person, {{"remark", ""}})->body.find("Strike those first."),
            std::string::npos);
  const std::string retraining = "/people/2/entries/5";
  EXPECT_EQ(visitor.send(retraining, retraining, {{"remark", "wrong person"}})
                ->get_header_value("Location"),
            "/people/2?told=struck-entry");
  EXPECT_TRUE(says("/people/2", "struck by entry 6"));
  EXPECT_TRUE(says("/people/2", "Made by mistake: wrong person"));
  EXPECT_EQ(visitor.send(person, person, {{"remark", ""}})->get_header_value("Location"),
            "/people?told=struck");
  EXPECT_EQ(visitor.get("/people/2")->status, 404);
}

TEST_F(People, AreErasedOnlyWhereItIsMeant) {
  add_ana();
  const std::string erase = "/people/2/erase";
  EXPECT_TRUE(says(erase, "in all entries about this person: 1."));
  EXPECT_NE(visitor.send(erase, erase, {})->body.find("Nothing was erased."), std::string::npos);
  EXPECT_TRUE(says("/people/2", "Ana Ejemplo"));
  EXPECT_EQ(visitor.send(erase, erase, {{"sure", "yes"}})->get_header_value("Location"),
            "/people/2?told=erased");
  const std::string erased = page("/people/2");
  EXPECT_EQ(erased.find("Ana Ejemplo"), std::string::npos);
  EXPECT_NE(erased.find("<h1>(erased)</h1>"), std::string::npos);
  EXPECT_EQ(erased.find(erase), std::string::npos);
  for (const char* gone : {"/people/2/erase", "/people/2/correct", "/people/2/retrain"})
    EXPECT_EQ(visitor.get(gone)->status, 404) << gone;
  EXPECT_EQ(visitor.get("/people/2/print")->body.find("Ana Ejemplo"), std::string::npos);
  EXPECT_FALSE(store()->verify({}));
}

TEST_F(People, WhoAreDueAreListedByCourseAndSavedForACalendar) {
  EXPECT_TRUE(says("/due", "Nobody is due by November 23, 2026."));
  add_ana();
  EXPECT_TRUE(says("/due", "Ana Ejemplo (A-1)"));
  EXPECT_TRUE(says("/due", ">Fall protection</bdi></h2>"));
  EXPECT_TRUE(says("/due", "never trained · no training recorded"));
  EXPECT_TRUE(says("/due", "29 CFR 1926.503"));
  EXPECT_TRUE(says("/due?on=2020-01-01", "Nobody is due by January 1, 2020."));
  EXPECT_TRUE(says("/due?on=May", "id=\"on-error\">Is no day of the calendar"));
  EXPECT_TRUE(says("/due?employer=1&course=3", "Ana Ejemplo (A-1)"));
  EXPECT_TRUE(says("/due?employer=9", "id=\"employer-error\">Choose one of these."));
  const auto calendar = visitor.get("/due/calendar?on=2026-12-31&employer=&course=");
  EXPECT_EQ(calendar->get_header_value("Content-Type"), "text/calendar; charset=utf-8");
  EXPECT_NE(calendar->body.find("SUMMARY:Training due: Ana Ejemplo\\, Fall protection\r\n"),
            std::string::npos)
      << calendar->body;
  EXPECT_EQ(visitor.get("/due/calendar?on=2020-01-01")->status, 404);
  EXPECT_EQ(visitor.get("/due/calendar?on=May")->status, 404);
}

TEST_F(People, WithHostileNamesStayTextEverywhere) {
  add_ana();
  ASSERT_EQ(correct(2, {{"name", hostile}, {"identity", hostile}, {"employer", "1"}})->status, 303);
  for (const char* path : {"/people", "/people/2", "/people/2/correct", "/people/2/erase",
                           "/people/2/retrain", "/people/2/entries/5", "/people/2/print", "/due"}) {
    const std::string body = page(path);
    EXPECT_EQ(body.find("<b>"), std::string::npos) << path;
    EXPECT_NE(body.find(hostile_shown), std::string::npos) << path;
  }
}

TEST_F(People, StayAsTheyAreWhateverIsAskedByGet) {
  add_ana();
  const auto before = contents_below(folder);
  const auto head = store()->head();
  for (const char* path :
       {"/people?name=Mine", "/people/new?name=Mine", "/people/import?pasted=name", "/people/2",
        "/people/2/correct?name=Mine", "/people/2/erase?sure=yes", "/people/2/entries/2?remark=x",
        "/people/2/retrain?reason=interval-passed", "/people/2/print", "/due?on=2030-01-01",
        "/due/calendar?on=2030-01-01"})
    EXPECT_EQ(visitor.get(path)->status, 200) << path;
  EXPECT_EQ(store()->head(), head);
  EXPECT_EQ(contents_below(folder).size(), before.size());
}

TEST_F(People, AreDoneOnceWhereAFormIsSentTwice) {
  const auto form = visitor.get("/people/new");
  const auto fields = Visitor::with_hidden(form->body, "/people/new", {{"name", "Ana Ejemplo"}});
  const auto first = visitor.post("/people/new", fields);
  const auto second = visitor.post("/people/new", fields);
  EXPECT_EQ(first->get_header_value("Location"), "/people/1?told=added");
  EXPECT_EQ(second->get_header_value("Location"), "/people/1?told=added");
  EXPECT_EQ(entries(), 1);
}

TEST_F(People, AreNotThereUnderOtherNumbers) {
  EXPECT_EQ(visitor.get("/people/1")->status, 404);
  add_ana();
  for (const char* path : {"/people/1", "/people/3", "/people/99", "/people/2/entries/1",
                           "/people/2/entries/99", "/people/x", "/people/1234567890"})
    EXPECT_EQ(visitor.get(path)->status, 404) << path;
}

TEST_F(People, AreSpokenOfInSpanish) {
  speak_spanish();
  add_ana();
  EXPECT_NE(add({{"name", ""}})->body.find("Escriba el nombre."), std::string::npos);
  EXPECT_NE(add({{"name", "Ben"}, {"identity", "A-1"}, {"employer", "1"}})
                ->body.find("Ya pertenece a Ana Ejemplo (A-1)."),
            std::string::npos);
  const auto list = import(
      "identidad;nombre;empleador;salida\nA-1;Ben;Invented Roofing;\nA-2;Cy;Invented Rofing;\n"
      "A-3;;;\nA-4;Di;;mayo\n",
      "", false);
  for (const char* fault :
       {"línea:2: identidad: A-1 ya es de la persona 2",
        "línea:3: empleador: no hay en el registro un empleador llamado Invented "
        "Rofing; ¿quiso decir Invented Roofing?",
        "línea:4: nombre: está vacío, se esperaba un texto",
        "línea:5: salida: es mayo, se esperaba un día como AAAA-MM-DD"})
    EXPECT_NE(list->body.find(fault), std::string::npos) << fault << list->body;
  EXPECT_NE(import("nombre;apodo\nBen;B\n")->body.find("línea:1: apodo: no es una columna"),
            std::string::npos);
  EXPECT_TRUE(says("/people/2", "Todas las anotaciones"));
  EXPECT_TRUE(says("/people/2", "Persona: Ana Ejemplo, A-1"));
  EXPECT_TRUE(says("/due", "nunca capacitado · sin capacitación registrada"));
  EXPECT_TRUE(says("/due?on=May", "No es un día del calendario"));
  EXPECT_NE(visitor.get("/due/calendar")->body.find("Capacitación pendiente: Ana Ejemplo"),
            std::string::npos);
}

}  // namespace
}  // namespace footroom::desk::testing
