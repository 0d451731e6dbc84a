// From a quiz to the certificate and the refresher, as an instructor works. Invented people.

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "cli/invented_crew.hpp"
#include "cli/small_bank.hpp"

namespace footroom::cli {
namespace {

using testing::contents;
using testing::contents_below;
using testing::InventedCrew;
using testing::put;
using testing::small_bank;
using Json = nlohmann::json;
using Words = std::vector<std::string>;

class Certificate : public InventedCrew {
 protected:
  /// Session 7, of Ana (completed, entry 8) and Ben (not, entry 9).
  void session() {
    EXPECT_EQ(add({"add-session", "--course", "fall-protection", "--days", "2026-03-02,2026-03-03",
                   "--people", "A-1", "--not-completed", "A-2", "--trainer", "Theo Trainer",
                   "--place", "Yard"}),
              "Session 7, people: 2\n");
  }
  void results(const std::string& rows) {
    put(scratch.path / "results.csv",
        "identity,employer,quiz,date,occasion,topics,missed\n" + rows);
    add({"import", "results", "results.csv"});
  }
  std::string certificate(Words words) const {
    words.insert(words.begin(), "certificate");
    words.insert(words.end(), {"--out", "out", "--bank", small_bank.string()});
    return add(words);
  }
  void refused_certificate(Words words, int code, const std::string& says) const {
    words.insert(words.begin(), "certificate");
    words.insert(words.end(), {"--out", "out", "--bank", small_bank.string()});
    refused(of_record(words), code, says);
    EXPECT_FALSE(testing::fs::exists(scratch.path / "out"));
  }
  /// The page up to the line to sign.
  std::string page(const std::string& number) const {
    const auto text = contents(scratch.path / "out" / ("certificate-" + number + ".md"));
    return text.substr(0, text.find("\n---\n"));
  }
};

TEST_F(Certificate, OfAPersonWithTestsAndRetraining) {
  add({"retrain", "A-1", "--course", "fall-protection", "--reason", "equipment-changed", "--since",
       "2026-02-01"});
  EXPECT_EQ(add({"add-session", "--course", "fall-protection", "--days", "2026-03-02,2026-03-03",
                 "--people", "A-1", "--trainer", "Theo Trainer", "--place", "Yard"}),
            "Session 8, people: 1\n");
  results(
      "A-1,Invented Roofing,7G2QK,2026-03-03,test,roof=2.5/3 unheard-of=1/1,item-a\n"
      "A-1,Invented Roofing,PRACT,2026-03-03,practice,roof=0/3,\n"
      "A-1,Invented Roofing,EARLY,2026-03-01,test,roof=0/3,\n");
  EXPECT_EQ(certificate({"A-1", "--course", "fall-protection"}),
            "Certificates: 1\nTo print and sign: out/certificate-13.html\n");
  EXPECT_EQ(page("13"),
            "# Certificate of training\n\n"
            "**Training:** Fall protection\n\n"
            "**Person trained:** Ana Ejemplo\n\n"
            "- **Identity number:** A-1\n"
            "- **Employer:** Invented Roofing, Sampletown\n"
            "- **Date of the training:** March 2, 2026\n"
            "- **Date of the training:** March 3, 2026\n"
            "- **Place:** Yard\n"
            "- **Training conducted by:** Theo Trainer\n"
            "- **Retraining** (29 CFR 1926.503(c)): equipment changed, since February 1, 2026\n"
            "- **Next training:** March 3, 2027, refresher by the employer’s policy\n\n"
            "## Tests\n\n"
            "| Quiz code | Date | points | Percent |\n"
            "|---|---|--:|--:|\n"
            "| 7G2QK | March 3, 2026 | 3.5 of 4 | 87.5% |\n\n"
            "## Topics tested\n\n"
            "| Topic | points |\n"
            "|---|--:|\n"
            "| The roof | 2.5 of 3 |\n"
            "| unheard-of | 1 of 1 |\n\n"
            "Only tests stand here: practice never counts as a test.\n");
  EXPECT_NE(record({"report", "A-1"}).find("\nCertificates\n  13  2026-03-02, 2026-03-03"),
            std::string::npos);
}

TEST_F(Certificate, PrintedAgainItIsNoNewEntryAndOtherPagesStay) {
  session();
  certificate({"A-1", "--course", "fall-protection"});
  const auto first = contents_below(scratch.path / "out");
  put(scratch.path / "out" / "certificate-99.html", "another's");
  certificate({"--session", "7", "A-1"});
  EXPECT_EQ(record({"report", "A-1"}).find("  11  2026-03-02"), std::string::npos);
  auto second = contents_below(scratch.path / "out");
  EXPECT_EQ(second["certificate-99.html"], "another's");
  second.erase("certificate-99.html");
  EXPECT_EQ(second, first);
  EXPECT_EQ(certificate({"A-1", "--course", "fall-protection", "--signer", "employer"}),
            "Certificates: 1\nTo print and sign: out/certificate-11.html\n");
  EXPECT_NE(contents(scratch.path / "out" / "certificate-11.md").find("Signature for the employer"),
            std::string::npos);
  record({"verify"});
}

TEST_F(Certificate, IsNotRecordedWhereThePageCannotBeWritten) {
  session();
  put(scratch.path / "file", "no folder");
  const auto ran =
      run(of_record({"certificate", "A-1", "--course", "fall-protection", "--date", "2026-03-04",
                     "--out", "file/out", "--bank", small_bank.string()}));
  EXPECT_EQ(ran.code, 3);
  EXPECT_EQ(record({"report", "A-1"}).find("Certificates"), std::string::npos);
  EXPECT_EQ(record({"verify"}).find("\n9:"), record({"verify"}).find('\n'));
}

TEST_F(Certificate, OfASessionInSpanishForWhoCompletedIt) {
  add({"add-person", "Cy Muestra", "--identity", "A-3"});
  EXPECT_EQ(add({"add-session", "--course", "fall-protection", "--days", "2026-03-02", "--people",
                 "A-1,A-3", "--not-completed", "A-2"}),
            "Session 8, people: 3\n");
  const auto ran =
      run(of_record({"certificate", "--session", "8", "--language", "es", "--paper", "a4", "--date",
                     "2026-03-04", "--out", "out", "--bank", small_bank.string()}));
  EXPECT_EQ(ran.err, "Ben Sample: did not complete session 8, so there is no certificate\n");
  EXPECT_EQ(ran.code, 0);
  EXPECT_EQ(ran.out, "Certificados: 2\nPara imprimir y firmar: out/all-certificates.html\n");
  std::set<std::string> names;
  for (const auto& [name, bytes] : contents_below(scratch.path / "out")) names.insert(name);
  EXPECT_EQ(names, (std::set<std::string>{"all-certificates.html", "certificate-12.html",
                                          "certificate-12.md", "certificate-13.html",
                                          "certificate-13.md"}));
  EXPECT_EQ(page("13"),
            "# Certificado de capacitación\n\n"
            "**Capacitación:** Protección contra caídas\n\n"
            "**Persona capacitada:** Cy Muestra\n\n"
            "- **Número de identificación:** A-3\n"
            "- **Fecha de la capacitación:** 2 de marzo de 2026\n\n"
            "No hay ningún examen registrado para esta capacitación. La práctica nunca cuenta como "
            "examen.\n");
  const auto all = contents(scratch.path / "out" / "all-certificates.html");
  EXPECT_NE(all.find("Ana Ejemplo"), std::string::npos);
  EXPECT_NE(all.find("Cy Muestra"), std::string::npos);
  EXPECT_EQ(all.find("Ben Sample"), std::string::npos);
  EXPECT_NE(all.find("@page { size: A4; }"), std::string::npos);
}

TEST_F(Certificate, TellsTheNextTrainingOnlyWhileThisIsTheLatest) {
  session();
  add({"add-session", "--course", "fall-protection", "--days", "2026-05-04", "--people", "A-1"});
  certificate({"A-1", "--course", "fall-protection", "--day", "2026-03-02"});
  EXPECT_EQ(page("12").find("Next training"), std::string::npos);
  certificate({"A-1", "--course", "fall-protection"});
  EXPECT_NE(page("13").find("**Next training:** May 4, 2027, refresher"), std::string::npos);
  add({"retrain", "A-1", "--course", "fall-protection", "--reason", "workplace-changed", "--since",
       "2026-06-01"});
  certificate({"A-1", "--course", "fall-protection"});
  EXPECT_NE(page("13").find("**Next training:** workplace changed, since June 1, 2026"),
            std::string::npos);
  EXPECT_EQ(page("13").find("**Retraining**"), std::string::npos);
  add({"correct", "4", "--left", "2026-07-01"});
  certificate({"A-1", "--course", "fall-protection"});
  EXPECT_EQ(page("13").find("Next training"), std::string::npos);
}

TEST_F(Certificate, OfTrainingElsewhereThatTheEmployerFoundAdequate) {
  EXPECT_EQ(certificate({"A-1", "--course", "fall-protection", "--prior-training", "2026-01-05"}),
            "Certificates: 1\nTo print and sign: out/certificate-7.html\n");
  EXPECT_NE(
      page("7").find("- **Date the employer found earlier training adequate:** January 5, 2026\n"
                     "- **Next training:** January 5, 2027, refresher by the employer’s policy\n"),
      std::string::npos);
  EXPECT_NE(record({"due", "--on", "2027-01-05"}).find("2027-01-05  Ana Ejemplo"),
            std::string::npos);
}

TEST_F(Certificate, TestsAreNamedByTheirCodesAndPracticeIsRefused) {
  session();
  results(
      "A-1,Invented Roofing,LATER,2026-03-09,test,roof=3/3,\n"
      "A-1,Invented Roofing,PRACT,2026-03-03,practice,roof=3/3,\n");
  refused_certificate({"--session", "7", "A-1", "--quiz", "PRACT"}, 1,
                      "--quiz: PRACT was practice, which never counts as a test");
  refused_certificate({"--session", "7", "A-1", "--quiz", "OTHER"}, 1,
                      "--quiz: nobody here has a result of OTHER");
  EXPECT_EQ(record({"report", "A-1"}).find("Certificates"), std::string::npos);
  certificate({"--session", "7", "A-1", "--quiz", "LATER"});
  EXPECT_NE(page("12").find("| LATER | March 9, 2026 | 3 of 3 | 100% |"), std::string::npos);
}

TEST_F(Certificate, ErasedPeopleAndOthersWithoutTrainingGetNone) {
  session();
  refused_certificate({"A-2", "--course", "fall-protection"}, 1,
                      "Ben Sample: no completed training in fall-protection is recorded, so there "
                      "is no certificate");
  refused_certificate({"A-1", "--course", "fall-protection", "--day", "2026-03-01"}, 1,
                      "Ana Ejemplo: no completed training in fall-protection on 2026-03-01 is "
                      "recorded, so there is no certificate");
  refused_certificate({"--session", "7", "Theo Trainer"}, 1,
                      "Theo Trainer: did not attend session 7, so there is no certificate");
  refused_certificate({"--session", "1"}, 1, "--session: entry 1 is no session");
  add({"erase", "A-1", "--confirm"});
  refused_certificate({"@4", "--course", "fall-protection"}, 1,
                      "@4: the personal data was erased, so there is no certificate");
  refused_certificate({"--session", "7"}, 1,
                      "@4: the personal data was erased, so there is no certificate\n"
                      "Ben Sample: did not complete session 7, so there is no certificate\n"
                      "session 7: nobody completed it, so there is no certificate");
}

TEST_F(Certificate, WrongCommandLines) {
  refused_certificate({}, 2,
                      "PERSON: is missing, expected identity, name or @NUMBER, or --session N");
  refused_certificate({"A-1"}, 2, "--course: is missing, expected CODE");
  refused_certificate({"--session", "7", "--course", "fall-protection"}, 2,
                      "--course: cannot stand beside --session");
  refused_certificate({"A-1", "--course", "fall-protection", "--prior-training", "2026-01-05",
                       "--day", "2026-01-05"},
                      2, "--day: cannot stand beside --prior-training");
  refused_certificate({"A-1", "--course", "fall-protection", "--signer", "me"}, 2,
                      "--signer: is me, expected trainer or employer");
  refused_certificate({"A-1", "--course", "fall-protection", "--paper", "a5"}, 2,
                      "--paper: is a5, expected letter or a4");
  refused_certificate({"A-1", "--course", "fall-protection", "--prior-training", "May"}, 2,
                      "--prior-training: is May, expected a day of the calendar as YYYY-MM-DD");
}

TEST_F(Certificate, ThePageOfAPersonHasTheirHistory) {
  session();
  results("A-1,Invented Roofing,7G2QK,2026-03-03,test,roof=2.5/3 rules=1/1,item-a\n");
  EXPECT_EQ(record({"report", "A-1", "--out", "out", "--bank", small_bank.string()}),
            "To print: out/person-4.html\n");
  const std::string head = record({"verify"});
  EXPECT_EQ(contents(scratch.path / "out" / "person-4.md"),
            "# Training record: Ana Ejemplo\n\n- **Number:** @4\n- **Identity:** A-1\n"
            "- **Employer:** Invented Roofing\n\nThis page names a person: keep it with the "
            "training records. Practice never counts as a test.\n\n"
            "## Training due\n\n| Date | Course | Reason |\n|---|---|---|\n"
            "| 2027-03-03 | Fall protection | refresher interval passed |\n\n"
            "## Training\n\n| Entry | Dates | Course | Place | Completed |\n"
            "|---|---|---|---|---|\n"
            "| 8 | 2026-03-02, 2026-03-03 | Fall protection | Yard | completed |\n\n"
            "## Results\n\n| Entry | Date | Quiz | Occasion | Points |\n|---|---|---|---|---|\n"
            "| 10 | 2026-03-03 | 7G2QK | test | 3.5/4 |\n\n"
            "## Topics missed last\n\n| Topic |\n|---|\n| The roof |\n\n"
            "State of the records: " +
                head.substr(head.find('\n') + 1));
  EXPECT_NE(record({"report", "A-1"}).find("\nTopics missed last\n  roof\n"), std::string::npos);
  record({"report", "A-1", "--out", "out", "--language", "es", "--bank", small_bank.string()});
  EXPECT_NE(contents(scratch.path / "out" / "person-4.html").find("El techo"), std::string::npos);
}

/// The whole way: quiz, answers, grade, records, due list, certificate, refresher.
class Term : public Certificate {
 protected:
  /// Answers of the key, but Ana gets those of the topic "slack-and-free-fall" wrong.
  void quiz_and_grade() {
    put(scratch.path / "crew.csv", "name\nAna Ejemplo\nBen Sample\n");
    done({"quiz", "--bank", small_bank.string(), "--seed", "5", "--date", "2026-03-03", "--roster",
          "crew.csv", "--out", "quiz"});
    const Json quiz = Json::parse(contents(scratch.path / "quiz" / "quiz.json"));
    code = quiz["code"];
    std::string form = "seat,name,code";
    const Json& questions = quiz["sheets"][0]["questions"];
    for (std::size_t i = 0; i < questions.size(); ++i) form += "," + std::to_string(i + 1);
    for (const Json& sheet : quiz["sheets"]) {
      form += "\r\n" + sheet["seat"].get<std::string>() + ",," + sheet["code"].get<std::string>();
      for (const Json& question : sheet["questions"]) {
        const bool wrong = sheet["seat"] == "A" && question["topic"] == "slack-and-free-fall";
        form += ",\"" + (wrong ? std::string() : answer(question)) + "\"";
      }
    }
    put(scratch.path / "responses.csv", form + "\r\n");
    done({"grade", "quiz/quiz.json", "responses.csv", "--out", "graded"});
  }
  static std::string answer(const Json& question) {
    const Json& right = question["answer"];
    if (right.contains("text")) return right["text"];
    std::string letters;
    for (const auto& letter : right["right"]) letters += letter.get<std::string>();
    return letters;
  }
  std::string code;
};

TEST_F(Term, FromQuizToCertificateAndRefresher) {
  quiz_and_grade();
  add({"add-session", "--course", "fall-protection", "--days", "2026-03-02,2026-03-03", "--people",
       "A-1,A-2", "--trainer", "Theo Trainer", "--place", "Yard"});
  EXPECT_EQ(add({"add-results", "graded/results.json"}), "Quiz " + code + ", results: 2\n");
  EXPECT_EQ(record({"due", "--on", "2027-03-02"}), "Nobody is due on 2027-03-02.\n");
  const auto due = record({"due", "--on", "2027-03-03"});
  EXPECT_NE(due.find("2027-03-03  Ana Ejemplo"), std::string::npos);
  EXPECT_NE(due.find("2027-03-03  Ben Sample"), std::string::npos);

  EXPECT_EQ(certificate({"--session", "7"}),
            "Certificates: 2\nTo print and sign: out/all-certificates.html\n");
  const Json graded = Json::parse(contents(scratch.path / "graded" / "results.json"));
  const auto points = [](const Json& seat) {
    std::string text = seat["points"].dump();
    if (text.size() > 2 && text.substr(text.size() - 2) == ".0") text.resize(text.size() - 2);
    return text;
  };
  EXPECT_LT(graded["seats"][0]["points"], graded["seats"][0]["possible"]);
  EXPECT_NE(
      page("13").find("| " + code + " | March 3, 2026 | " + points(graded["seats"][0]) + " of "),
      std::string::npos)
      << page("13");
  EXPECT_NE(page("13").find("| Slack and free fall | 0 of 3 |"), std::string::npos) << page("13");
  EXPECT_NE(page("14").find("| 100% |"), std::string::npos) << page("14");

  const Words refresher{
      "quiz",       "--bank", small_bank.string(), "--blueprint", "weekly", "--store",
      "records.db", "--date", "2026-03-10",        "--seed",      "6",      "--out",
      "refresher",  "--for"};
  auto of_ana = refresher;
  of_ana.emplace_back("A-1");
  EXPECT_EQ(done(of_ana).find("Refresher for Ana Ejemplo: Slack and free fall\nQuiz "), 0U);
  const Json again = Json::parse(contents(scratch.path / "refresher" / "quiz.json"));
  ASSERT_EQ(again["sheets"].size(), 1U);
  EXPECT_EQ(again["sheets"][0]["name"], "Ana Ejemplo");
  ASSERT_FALSE(again["sheets"][0]["questions"].empty());
  for (const Json& question : again["sheets"][0]["questions"])
    EXPECT_EQ(question["topic"], "slack-and-free-fall");
  auto of_ben = refresher;
  of_ben.emplace_back("Ben Sample");
  refused(of_ben, 1, "--for: Ben Sample missed no topic in the latest results; leave --for out");
}

TEST_F(Term, ARefresherTakesItsBlueprintByItselfAndNamesWhatTheBankLacks) {
  results("A-1,Invented Roofing,7G2QK,2026-03-03,test,swing=0/3 roof=3/3 unheard-of=0/1,\n");
  const auto ran = run({"quiz", "--for", "A-1", "--store", "records.db", "--date", "2026-03-10",
                        "--seed", "6", "--out", "refresher", "--language", "es"});
  EXPECT_EQ(ran.err, "--for: the blueprint refresher does not have: unheard-of\n");
  EXPECT_EQ(ran.code, 0);
  EXPECT_EQ(ran.out.find("Repaso para Ana Ejemplo: Péndulo\nExamen "), 0U) << ran.out;
  const Json quiz = Json::parse(contents(scratch.path / "refresher" / "quiz.json"));
  EXPECT_EQ(quiz["blueprint"], "refresher");
  for (const Json& question : quiz["sheets"][0]["questions"]) EXPECT_EQ(question["topic"], "swing");
}

TEST_F(Term, ARefresherWithoutAnybodyToRefreshIsRefused) {
  const auto quiz = [](Words more) {
    Words words{"quiz", "--bank", small_bank.string(), "--for"};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  refused(quiz({"A-1"}), 2, "--store: is missing, expected FILE or postgresql://...");
  refused(quiz({"A-1", "--store", "records.db"}), 1,
          "--for: no results of Ana Ejemplo are recorded; leave --for out");
  refused(quiz({"A-9", "--store", "records.db"}), 1,
          "A-9: nobody in the store has this identity or name");
  refused(quiz({"A-1", "--store", "records.db", "--topics", "roof"}), 2,
          "--topics: cannot stand beside --for");
  results("A-1,Invented Roofing,7G2QK,2026-03-03,test,unheard-of=0/3,\n");
  refused(quiz({"A-1", "--store", "records.db", "--blueprint", "weekly"}), 1,
          "--for: the blueprint weekly does not have: unheard-of");
  add({"erase", "A-1", "--confirm"});
  refused(quiz({"@4", "--store", "records.db"}), 1, "--for: the personal data of @4 was erased");
}

}  // namespace
}  // namespace footroom::cli
