// The employer's rooms of sessions, certificates and the store, through their forms. Invented
// people.

#include <gtest/gtest.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <zip.h>

#include "desk/open_desk.hpp"
#include "records/store.hpp"

namespace footroom::desk::testing {
namespace {

namespace fs = std::filesystem;
using cli::testing::contents;
using cli::testing::contents_below;
using cli::testing::put;

class CrewRooms : public ::testing::Test {
 protected:
  Scratch scratch;
  fs::path folder = scratch.path / "desk";
  OpenDesk desk{folder};
  Visitor visitor{desk};

  std::string body(const std::string& path) {
    const auto got = visitor.get(path);
    EXPECT_EQ(got->status, 200) << path << got->body;
    return got->body;
  }
  /// Where the form led to.
  std::string sent(const std::string& page, const std::string& action, Visitor::Fields fields) {
    const auto answer = visitor.send(page, action, std::move(fields));
    EXPECT_EQ(answer->status, 303) << action << answer->body;
    return answer->get_header_value("Location");
  }
  std::string refused(const std::string& page, const std::string& action, Visitor::Fields fields) {
    const std::string before = state();
    const auto answer = visitor.send(page, action, std::move(fields));
    EXPECT_EQ(answer->status, 200) << action;
    EXPECT_EQ(state(), before);
    return answer->body;
  }
  /// The head of the store, or nothing where there is none.
  std::string state() {
    static const std::regex head("[0-9]+:[0-9a-f]{64}");
    const std::string page = body("/records");
    std::smatch match;
    return std::regex_search(page, match, head) ? match.str() : std::string();
  }
  static bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
  }

  /// Entry 1 is the course, 2 the employer, 3 the interval.
  void course() {
    EXPECT_EQ(sent("/courses", "/courses",
                   {{"code", "fall-protection"},
                    {"english", "Fall protection"},
                    {"spanish", "Protección contra caídas"}}),
              "/courses/1?told=saved");
    EXPECT_EQ(sent("/courses", "/employers", {{"name", "Invented Roofing"}, {"place", "Yard"}}),
              "/courses?told=saved");
    EXPECT_EQ(sent("/courses/1", "/courses/1/interval", {{"employer", "2"}, {"months", "12"}}),
              "/courses/1?told=saved");
  }
  void school_class(const std::string& names = "Ana Ejemplo\nBen Sample\n") {
    sent("/classes", "/classes", {{"title", "Monday"}, {"names", names}});
  }
  Visitor::Fields session_of_class() {
    return {{"from", "class-1"}, {"course", "1"},         {"day", "2026-11-02"},
            {"more-days", ""},   {"trainer", ""},         {"new-trainer", "Theo Trainer"},
            {"place", "Yard"},   {"employer", "2"},       {"name-1-is", "new"},
            {"name-1", "came"},  {"name-1", "completed"}, {"name-2-is", "new"},
            {"name-2", "came"}};
  }
  /// Ana 4, Ben 5, Theo 6; the session is 7; Ana completed it, Ben did not.
  void session() {
    course();
    school_class();
    EXPECT_EQ(sent("/sessions/new?from=class-1", "/sessions/new", session_of_class()),
              "/sessions/7?told=recorded");
  }
};

TEST_F(CrewRooms, LookingMakesNoStore) {
  for (const char* path : {"/sessions", "/sessions/new", "/certificates", "/courses", "/records"})
    body(path);
  for (const char* path : {"/sessions/1", "/certificates/1", "/certificates/1/print",
                           "/certificates/of-session/1", "/courses/1", "/employers/1",
                           "/records/save/backup", "/records/work/verify", "/quizzes/1/record"})
    EXPECT_EQ(visitor.get(path)->status, 404) << path;
  EXPECT_FALSE(fs::exists(folder / "crew.db"));
}

TEST_F(CrewRooms, RecordsASessionOfAClassAndAddsItsPeople) {
  session();
  const std::string page = body("/sessions/7");
  EXPECT_TRUE(has(page, "Fall protection, November 2, 2026"));
  EXPECT_TRUE(has(page, "><bdi>Ana Ejemplo</bdi></a> <span>completed it"));
  EXPECT_TRUE(has(page, "><bdi>Ben Sample</bdi></a> <span>came, did not complete it"));
  EXPECT_TRUE(has(page, "<dd><bdi>Theo Trainer</bdi></dd>"));
  EXPECT_TRUE(has(body("/sessions"), "people: 2"));
  // The next time the names of the class mean those people.
  const std::string again = body("/sessions/new?from=class-1");
  EXPECT_TRUE(has(again, "<option value=\"4\" selected>Ana Ejemplo</option>"));
  EXPECT_TRUE(has(again, "<option value=\"5\" selected>Ben Sample</option>"));
  EXPECT_TRUE(has(body("/sessions/new?from=employer-2"), "name=\"person-4\""));
}

TEST_F(CrewRooms, SendsASessionTwiceAndRecordsItOnce) {
  course();
  school_class();
  const auto fields =
      Visitor::with_hidden(body("/sessions/new?from=class-1"), "/sessions/new", session_of_class());
  const auto first = visitor.post("/sessions/new", fields);
  const auto second = visitor.post("/sessions/new", fields);
  EXPECT_EQ(first->get_header_value("Location"), second->get_header_value("Location"));
  EXPECT_TRUE(state().starts_with("9:")) << state();
}

TEST_F(CrewRooms, SaysWhatIsWrongWithASession) {
  course();
  school_class("Ana Ejemplo\nAna Ejemplo\n");
  auto fields = session_of_class();
  const auto set = [&fields](const std::string& name, const std::string& value) {
    for (auto& field : fields)
      if (field.first == name) field.second = value;
  };
  const auto says = [&](const std::string& text) {
    return has(refused("/sessions/new?from=class-1", "/sessions/new", fields), text);
  };
  set("day", "2026-02-30");
  EXPECT_TRUE(says("Is no day of the calendar"));
  set("day", "");
  EXPECT_TRUE(says("Choose the day of the training."));
  set("day", "2026-11-02");
  set("more-days", "2026-11-03, May");
  EXPECT_TRUE(says("id=\"more-days-error\""));
  set("more-days", "");
  set("course", "2");
  EXPECT_TRUE(says("id=\"course-error\""));
  set("course", "1");
  set("name-1-is", "77");
  EXPECT_TRUE(says("Choose whom this name means."));
  set("name-1-is", "nobody");
  set("name-2-is", "nobody");
  EXPECT_TRUE(says("Tick at least one person who came."));
  set("name-1-is", "new");
  sent("/sessions/new?from=class-1", "/sessions/new", fields);
  set("name-1-is", "4");
  set("name-2-is", "4");
  set("new-trainer", "");
  EXPECT_TRUE(says("Is the same person as a name above."));
}

TEST_F(CrewRooms, AsksWhomANameMeansThatSeveralHave) {
  course();
  school_class("Ana Ejemplo\nAna Ejemplo\nana ejemplo\nAna Otra\n");
  sent("/sessions/new?from=class-1", "/sessions/new", session_of_class());
  const std::string page = body("/sessions/new?from=class-1");
  const auto chosen_for = [&page](const std::string& name) {
    const auto at = page.find("<option", page.find("id=\"" + name + "-is\""));
    return page.substr(at, page.find("</option>", at) - at);
  };
  EXPECT_EQ(chosen_for("name-1"),
            "<option value=\"\" selected>Several people have this name: choose");
  EXPECT_EQ(chosen_for("name-3"), chosen_for("name-1"));  // capitals make no other person
  // Who has a part of the name alone is offered, and not chosen.
  EXPECT_EQ(chosen_for("name-4"), "<option value=\"new\" selected>someone new: add to the people");
  auto fields = session_of_class();
  for (auto& field : fields)
    if (field.first == "name-1-is") field.second = "";
  EXPECT_TRUE(has(refused("/sessions/new?from=class-1", "/sessions/new", fields),
                  "Choose whom this name means."));
}

TEST_F(CrewRooms, CorrectsAndStrikesWithTheCertificatesThatDepend) {
  session();
  EXPECT_EQ(sent("/sessions/7", "/sessions/7/certificates", {}),
            "/certificates?session=7&told=issued");
  EXPECT_EQ(sent("/sessions/7/people/5", "/sessions/7/people/5/correct", {}),
            "/sessions/7?told=corrected");
  EXPECT_TRUE(has(body("/sessions/7"), "><bdi>Ben Sample</bdi></a> <span>completed it"));
  EXPECT_EQ(sent("/sessions/7", "/sessions/7/correct",
                 {{"day", "2026-11-09"},
                  {"more-days", "2026-11-10"},
                  {"trainer", "6"},
                  {"new-trainer", ""},
                  {"place", "Hall"}}),
            "/sessions/7?told=corrected");
  const std::string corrected = body("/sessions/7");
  EXPECT_TRUE(has(corrected, "November 9, 2026 · November 10, 2026"));
  EXPECT_FALSE(has(corrected, "Certificates of this session"));  // it told the earlier day
  sent("/sessions/7", "/sessions/7/certificates", {});
  EXPECT_TRUE(has(body("/sessions/7"), "Certificates of this session: 2"));
  EXPECT_EQ(sent("/sessions/7/people/5", "/sessions/7/people/5/strike", {{"remark", "was ill"}}),
            "/sessions/7?told=struck-person");
  EXPECT_TRUE(has(body("/sessions/7"), "Certificates of this session: 1"));
  EXPECT_EQ(visitor.get("/sessions/7/people/5")->status, 404);
  EXPECT_EQ(sent("/sessions/7", "/sessions/7/add", {{"person", "5"}, {"completed", "no"}}),
            "/sessions/7?told=added");
  EXPECT_EQ(sent("/sessions/7", "/sessions/7/strike", {{"remark", ""}}), "/sessions?told=struck");
  EXPECT_EQ(visitor.get("/sessions/7")->status, 404);
  EXPECT_TRUE(has(body("/certificates"), "No certificate was issued yet."));
  sent("/records", "/records/verify", {{"head", ""}});
  EXPECT_TRUE(has(body("/records"), "entries are as they were recorded"));
}

TEST_F(CrewRooms, LeavesEntriesAboutErasedPeopleAsTheyAre) {
  session();
  sent("/sessions/7", "/sessions/7/certificates", {});
  const auto store = records::Store::open((folder / "crew.db").string(), next_text);
  const auto writing = store->write(*records::read_date("2026-11-23"));
  writing->erase(4);
  writing->commit();
  const std::string page = body("/sessions/7/people/4");
  EXPECT_TRUE(has(page, "The data of this person was erased"));
  EXPECT_FALSE(has(page, "/sessions/7/people/4/strike"));
  EXPECT_FALSE(has(body("/sessions/7") + body("/certificates"), "Ana Ejemplo"));
  EXPECT_EQ(visitor.get("/certificates/10/print")->status, 404);
  EXPECT_EQ(visitor.get("/certificates/of-session/7")->status, 404);
  EXPECT_TRUE(has(refused("/sessions/7", "/sessions/7/strike", {{"remark", ""}}),
                  "The data of somebody who came was erased"));
  sent("/sessions/7", "/sessions/7/correct",
       {{"day", "2026-11-09"},
        {"more-days", ""},
        {"trainer", "6"},
        {"new-trainer", ""},
        {"place", "Hall"}});
  EXPECT_TRUE(has(body("/sessions/7"), "November 9, 2026"));
  sent("/records", "/records/verify", {{"head", ""}});
  EXPECT_TRUE(has(body("/records"), "entries are as they were recorded"));
}

TEST_F(CrewRooms, IssuesACertificateOnceAndPrintsIt) {
  session();
  const Visitor::Fields of_ana{
      {"person", "4"}, {"course", "1"}, {"kind", "session"}, {"day", ""}, {"signer", ""}};
  const std::string address = sent("/certificates", "/certificates", of_ana);
  EXPECT_EQ(address, "/certificates/10?told=issued");
  EXPECT_EQ(sent("/certificates", "/certificates", of_ana), address);
  EXPECT_TRUE(state().starts_with("10:")) << state();
  const auto page = visitor.get("/certificates/10/print");
  EXPECT_TRUE(has(page->body, "Ana Ejemplo"));
  EXPECT_TRUE(has(page->body, "November 2, 2026"));
  EXPECT_TRUE(has(page->body, "November 2, 2027"));  // the employer's interval
  EXPECT_FALSE(has(page->body, "<script"));
  EXPECT_TRUE(has(body("/certificates/of-session/7"), "Ana Ejemplo"));
  EXPECT_TRUE(has(
      refused("/certificates", "/certificates",
              {{"person", "5"}, {"course", "1"}, {"kind", "session"}, {"day", ""}, {"signer", ""}}),
      "No session in this course that the person completed"));
  EXPECT_TRUE(has(refused("/certificates", "/certificates",
                          {{"person", "5"},
                           {"course", "1"},
                           {"kind", "elsewhere"},
                           {"day", ""},
                           {"signer", "employer"}}),
                  "Choose the day on which the employer found it adequate."));
  EXPECT_EQ(sent("/certificates", "/certificates",
                 {{"person", "5"},
                  {"course", "1"},
                  {"kind", "elsewhere"},
                  {"day", "2026-11-03"},
                  {"signer", "employer"}}),
            "/certificates/11?told=issued");
  EXPECT_TRUE(has(body("/certificates/11"), "earlier training elsewhere"));
  EXPECT_EQ(sent("/certificates/10", "/certificates/10/strike", {{"remark", "wrong day"}}),
            "/certificates?told=struck");
  EXPECT_EQ(visitor.get("/certificates/10/print")->status, 404);
}

TEST_F(CrewRooms, SaysWhatIsWrongWithCoursesEmployersAndIntervals) {
  course();
  EXPECT_TRUE(has(refused("/courses", "/courses", {{"code", ""}, {"english", ""}, {"spanish", ""}}),
                  "Give the course a title."));
  EXPECT_TRUE(has(refused("/courses", "/courses",
                          {{"code", "fall-protection"}, {"english", "Again"}, {"spanish", ""}}),
                  "Another course has this short name."));
  EXPECT_TRUE(has(refused("/courses", "/employers", {{"name", "Invented Roofing"}, {"place", ""}}),
                  "Another employer has this name."));
  EXPECT_TRUE(has(refused("/courses", "/employers", {{"name", "A\nB"}, {"place", ""}}),
                  "Is not plain text on one line."));
  for (const char* months : {"", "-1", "601", "a year", "1.5"})
    EXPECT_TRUE(
        has(refused("/courses/1", "/courses/1/interval", {{"employer", "2"}, {"months", months}}),
            "Write a whole number from 0 to 600."))
        << months;
  sent("/courses/1", "/courses/1", {{"english", "Falls"}, {"spanish", ""}});
  sent("/employers/2", "/employers/2", {{"name", "Invented Roofs"}, {"place", ""}});
  const std::string page = body("/courses");
  EXPECT_TRUE(has(page, "><bdi>Falls</bdi></a>"));
  EXPECT_TRUE(has(page, "><bdi>Invented Roofs</bdi></a>"));
  EXPECT_TRUE(has(body("/courses/1"), "again after 12 months"));
}

TEST_F(CrewRooms, EscapesWhatWasTyped) {
  const std::string evil = "<script>alert(1)</script>\" onload='x' &amp;";
  sent("/courses", "/courses", {{"code", evil}, {"english", evil}, {"spanish", ""}});
  sent("/courses", "/employers", {{"name", evil}, {"place", evil}});
  sent("/courses/1", "/courses/1/interval", {{"employer", "2"}, {"months", "0"}});
  school_class("<img src=x>\n");
  sent("/sessions/new?from=class-1", "/sessions/new",
       {{"from", "class-1"},
        {"course", "1"},
        {"day", "2026-11-02"},
        {"more-days", ""},
        {"trainer", ""},
        {"new-trainer", evil},
        {"place", evil},
        {"employer", "2"},
        {"name-1-is", "new"},
        {"name-1", "completed"}});
  sent("/sessions/6", "/sessions/6/certificates", {});
  for (const char* path :
       {"/courses", "/courses/1", "/employers/2", "/sessions", "/sessions/6",
        "/sessions/6/people/4", "/sessions/new?from=class-1", "/certificates", "/certificates/8",
        "/certificates/8/print", "/certificates/of-session/6"}) {
    const std::string page = body(path);
    EXPECT_FALSE(has(page, "<script>alert")) << path;
    EXPECT_FALSE(has(page, "<img src=x>")) << path;
  }
}

TEST_F(CrewRooms, ChangesNothingByGet) {
  session();
  const std::string before = state();
  for (const char* path :
       {"/sessions/7/strike", "/sessions/7/correct", "/sessions/7/add", "/sessions/7/certificates",
        "/sessions/7/people/4/strike", "/courses/1/interval", "/employers", "/records/verify",
        "/records/make/backup"})
    EXPECT_EQ(visitor.get(path)->status, 405) << path;
  for (const char* path : {"/sessions/new?course=1&day=2026-11-02&person-4=came",
                           "/certificates?person=4&course=1", "/courses?code=x&english=x"})
    body(path);
  EXPECT_EQ(state(), before);
}

TEST_F(CrewRooms, ChecksTheStoreAndNamesTheEntryThatIsBad) {
  session();
  const std::string kept = state();
  EXPECT_TRUE(
      has(refused("/records", "/records/verify", {{"head", "12"}}), "Is no state of records"));
  sent("/records", "/records/verify", {{"head", kept}});
  EXPECT_TRUE(has(body("/records"), "All 9 entries are as they were recorded"));
  std::string wrong = kept;
  wrong.back() = wrong.back() == '0' ? '1' : '0';
  sent("/records", "/records/verify", {{"head", wrong}});
  const std::string page = body("/records");
  EXPECT_TRUE(has(page, "Entry 9 is not as it was recorded."));
  EXPECT_TRUE(has(page, "its digest is not the one of the head kept elsewhere"));
  EXPECT_TRUE(has(page, "If only the state was mistyped"));
  EXPECT_FALSE(has(page, "All 9 entries"));
}

/// Changes the store behind its back: its triggers are put aside meanwhile.
void tamper(const fs::path& store, const std::string& statement) {
  soci::session sql(soci::sqlite3, store.string());
  std::vector<std::string> made(10);
  std::vector<std::string> names(10);
  sql << "SELECT name, sql FROM sqlite_master WHERE type = 'trigger'", soci::into(names),
      soci::into(made);
  for (const auto& name : names) sql << "DROP TRIGGER " + name;
  sql << statement;
  for (const auto& one : made) sql << one;
}

TEST_F(CrewRooms, NamesTheEntryThatSomebodyChanged) {
  session();
  tamper(folder / "crew.db", "UPDATE entry SET day = '2026-01-01' WHERE number = 7");
  sent("/records", "/records/verify", {{"head", ""}});
  const std::string page = body("/records");
  EXPECT_TRUE(has(page, "Entry 7 is not as it was recorded."));
  EXPECT_TRUE(has(page, "the digest is not that of its content and the entry before"));
}

/// The files of a zip archive.
std::map<std::string, std::string> unzipped(const std::string& bytes) {
  zip_error_t error;
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, &error);
  zip_t* archive = zip_open_from_source(source, ZIP_RDONLY, &error);
  std::map<std::string, std::string> files;
  for (zip_int64_t i = 0; archive && i < zip_get_num_entries(archive, 0); ++i) {
    zip_stat_t about;
    zip_stat_index(archive, static_cast<zip_uint64_t>(i), 0, &about);
    std::string text(about.size, '\0');
    zip_file_t* file = zip_fopen_index(archive, static_cast<zip_uint64_t>(i), 0);
    zip_fread(file, text.data(), text.size());
    zip_fclose(file);
    files[about.name] = text;
  }
  if (archive) zip_close(archive);
  return files;
}

TEST_F(CrewRooms, SavesABackupAndExportsOfThisStateAlone) {
  session();
  for (const char* word : {"backup", "tables", "json"}) {
    EXPECT_EQ(visitor.get("/records/save/" + std::string(word))->status, 404);
    sent("/records", "/records/make/" + std::string(word), {});
  }
  const auto backup = visitor.get("/records/save/backup");
  EXPECT_EQ(backup->get_header_value("Content-Disposition"),
            "attachment; filename=\"crew-backup.db\"");
  put(scratch.path / "copy.db", backup->body);
  EXPECT_EQ(records::Store::open((scratch.path / "copy.db").string(), next_text)->head().text(),
            state());
  const auto tables = unzipped(visitor.get("/records/save/tables")->body);
  ASSERT_EQ(tables.count("people.csv"), 1U);
  EXPECT_EQ(tables.at("people.csv"),
            "identity,name,employer,left\r\n,Ana Ejemplo,Invented Roofing,\r\n"
            ",Ben Sample,Invented Roofing,\r\n,Theo Trainer,,\r\n");
  EXPECT_EQ(tables.count("results.csv"), 1U);
  EXPECT_TRUE(
      has(unzipped(visitor.get("/records/save/json")->body)["people.json"], "\"Ana Ejemplo\""));
  EXPECT_EQ(visitor.get("/records/save/crew")->status, 404);
  sent("/sessions/7/people/5", "/sessions/7/people/5/strike", {{"remark", ""}});
  EXPECT_EQ(visitor.get("/records/save/backup")->status, 404);  // it is of an earlier state
}

TEST(CrewDownloads, GoWithTheDesk) {
  const Scratch scratch;
  const fs::path folder = scratch.path / "desk";
  const fs::path left = folder / "download-backup.partial-000000";
  fs::create_directories(folder);
  put(left, "by a desk that was killed");
  {
    OpenDesk desk(folder);
    EXPECT_FALSE(fs::exists(left));
    Visitor visitor(desk);
    visitor.send("/courses", "/employers", {{"name", "Invented Roofing"}, {"place", ""}});
    visitor.send("/records", "/records/make/backup", {});
    EXPECT_TRUE(fs::exists(left));
  }
  EXPECT_FALSE(fs::exists(left));
}

TEST_F(CrewRooms, TakesOverResultsAsTheyWereExportedOrNothing) {
  session();
  const std::string head = "identity,name,employer,quiz,date,occasion,topics,missed\r\n";
  const std::string ana =
      ",Ana Ejemplo,Invented Roofing,7G2QK,2026-11-02,test,roof=2.5/3,item-a\r\n";
  EXPECT_TRUE(has(refused("/records", "/records/import", {{"file", ""}}),
                  "Choose a file that has results in it."));
  const std::string before = state();
  EXPECT_EQ(sent("/records", "/records/import",
                 {{"file", head + ana + ",<b>Nobody</b>,,7G2QK,2026-11-02,test,roof=1/3,\r\n"}}),
            "/records?told=imported");
  const std::string faults = body("/records?told=imported");
  EXPECT_TRUE(has(faults, "Nothing was recorded. Rows that cannot be taken: 1"));
  EXPECT_TRUE(has(faults, "file:3: name: &lt;b&gt;Nobody&lt;/b&gt; is nobody in the store"));
  EXPECT_EQ(state(), before);
  sent("/records", "/records/import", {{"file", head + ana}});
  EXPECT_TRUE(has(body("/records?told=imported"), "Results recorded: 1"));
  sent("/records", "/records/make/json", {});
  const std::string json = unzipped(visitor.get("/records/save/json")->body)["results.json"];
  EXPECT_TRUE(has(json, "7G2QK"));
  sent("/records", "/records/import", {{"file", json}});  // the test is there already
  EXPECT_TRUE(has(body("/records?told=imported"), "Rows that cannot be taken: 1"));
}

TEST_F(CrewRooms, SpeaksSpanish) {
  session();
  sent("/preferences", "/preferences",
       {{"language", "es"},
        {"units", "us"},
        {"decimal-mark", "point"},
        {"paper", "letter"},
        {"rules", "us-construction"}});
  EXPECT_TRUE(has(body("/sessions/7"), "Protección contra caídas, 2 de noviembre de 2026"));
  EXPECT_TRUE(has(refused("/courses", "/courses", {{"code", ""}, {"english", ""}, {"spanish", ""}}),
                  "Póngale un título al curso."));
  sent("/sessions/7", "/sessions/7/certificates", {});
  EXPECT_TRUE(has(body("/certificates/of-session/7"), "Certificado de capacitación"));
}

/// With a quiz that was graded.
class CrewResults : public CrewRooms {
 protected:
  void graded_quiz() {
    sent("/quizzes/new?class=1", "/quizzes/new",
         {{"class", "1"},
          {"made-of", "weekly"},
          {"date", "2026-11-02"},
          {"language", "en"},
          {"units", "us"},
          {"fresh", "yes"}});
    while (has(body("/quizzes/1/work"), "\"running\":true"))
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    for (const char* seat : {"A", "B"}) {
      const std::string path = "/quizzes/1/answers/" + std::string(seat);
      sent(path, path, {{"answer-1", "12 ft"}});
    }
    sent("/quizzes/1/answers", "/quizzes/1/grade", {});
  }
};

TEST_F(CrewResults, GoIntoTheRecordsOnceAndOntoTheCertificate) {
  session();
  graded_quiz();
  const std::string page = body("/quizzes/1/record");
  EXPECT_TRUE(has(page, "<option value=\"4\" selected>Ana Ejemplo</option>"));
  const Visitor::Fields taken{
      {"occasion", "test"}, {"employer", ""}, {"seat-A", "4"}, {"seat-B", "5"}};
  EXPECT_EQ(sent("/quizzes/1/record", "/quizzes/1/record", taken),
            "/quizzes/1/record?told=recorded&added=2&corrected=0");
  EXPECT_EQ(sent("/quizzes/1/record", "/quizzes/1/record", taken),
            "/quizzes/1/record?told=recorded&added=0&corrected=0");
  sent("/sessions/7", "/sessions/7/certificates", {});
  const std::string certificate = body("/certificates/of-session/7");
  std::smatch code;
  ASSERT_TRUE(std::regex_search(page, code, std::regex("Results of quiz ([0-9A-Z]+) of")));
  EXPECT_TRUE(has(certificate, code[1].str()));
}

TEST_F(CrewResults, ThatWereGradedAnewAreCorrected) {
  session();
  graded_quiz();
  const Visitor::Fields taken{
      {"occasion", "test"}, {"employer", ""}, {"seat-A", "4"}, {"seat-B", "5"}};
  sent("/quizzes/1/record", "/quizzes/1/record", taken);
  const std::string quiz = body("/quizzes/1");
  std::smatch right;
  ASSERT_TRUE(
      std::regex_search(quiz, right, std::regex("class=\"answer\">.*?<strong>([^<]+)</strong>")));
  sent("/quizzes/1/answers/A", "/quizzes/1/answers/A", {{"answer-1", right[1].str()}});
  sent("/quizzes/1/answers", "/quizzes/1/grade", {});
  EXPECT_EQ(sent("/quizzes/1/record", "/quizzes/1/record", taken),
            "/quizzes/1/record?told=recorded&added=0&corrected=1");
}

TEST_F(CrewResults, OfPracticeStandOnNoCertificateAndNamesCanBeLeftOut) {
  session();
  graded_quiz();
  const std::string page = body("/quizzes/1/record");
  EXPECT_TRUE(
      has(refused("/quizzes/1/record", "/quizzes/1/record",
                  {{"occasion", "test"}, {"employer", ""}, {"seat-A", "4"}, {"seat-B", "4"}}),
          "Is the same person as a name above."));
  EXPECT_TRUE(
      has(refused("/quizzes/1/record", "/quizzes/1/record",
                  {{"occasion", "exam"}, {"employer", ""}, {"seat-A", "4"}, {"seat-B", "nobody"}}),
          "Choose one of these."));
  EXPECT_EQ(
      sent("/quizzes/1/record", "/quizzes/1/record",
           {{"occasion", "practice"}, {"employer", ""}, {"seat-A", "4"}, {"seat-B", "nobody"}}),
      "/quizzes/1/record?told=recorded&added=1&corrected=0");
  sent("/sessions/7", "/sessions/7/certificates", {});
  std::smatch code;
  ASSERT_TRUE(std::regex_search(page, code, std::regex("Results of quiz ([0-9A-Z]+) of")));
  EXPECT_FALSE(has(body("/certificates/of-session/7"), code[1].str()));
}

}  // namespace
}  // namespace footroom::desk::testing
