// Certificates and the record of a person, in HTML and Markdown.

#include "render/record_pages.hpp"

#include <cmark.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <pugixml.hpp>
#include <string>

#include "sample.hpp"

namespace footroom::render {
namespace {

using engine::Language;
using sample::hostile_name;

const Templates& templates() {
  static const Templates read(FOOTROOM_SOURCE_DIR "/templates");
  return read;
}

/// Every text from outside is the hostile one, and every part is there.
Certificate certificate() {
  Certificate one;
  one.number = "12";
  one.recorded = "2026-03-03";
  one.name = one.identity = one.employer = one.employer_place = one.course = one.place =
      one.trainer = one.signer = one.next_reason = hostile_name;
  one.days = {"2026-03-02", "2026-03-03"};
  one.tests = {{hostile_name, "2026-03-03", "2.5", "3", "83.3%"}};
  one.topics = {{hostile_name, "2.5", "3"}};
  one.retrainings = {{hostile_name, "2026-02-01"}};
  one.next = NextTraining::refresher;
  one.next_day = "2027-03-03";
  return one;
}

PersonRecord person_record() {
  return {hostile_name,
          {{hostile_name, hostile_name}},
          {{hostile_name, {hostile_name, "B"}, {{hostile_name, "1"}, {"2", "3"}}}},
          "12:9f86d0"};
}

void text_of(const pugi::xml_node& node, std::string& text) {
  for (const auto child : node.children()) {
    if (child.type() == pugi::node_pcdata) text += child.value();
    text_of(child, text);
  }
}

/// What a browser shows of a page, which must be well-formed; a script in it fails the test.
std::string shown(const std::string& html) {
  pugi::xml_document document;
  const auto read = document.load_string(html.c_str(), pugi::parse_full | pugi::parse_ws_pcdata);
  EXPECT_TRUE(read) << read.description();
  EXPECT_TRUE(document.select_nodes("//script").empty());
  std::string text;
  text_of(document.child("html").child("body"), text);
  return text;
}

/// What Markdown shows, tables as they are.
std::string shown_markdown(const std::string& markdown) {
  char* html = cmark_markdown_to_html(markdown.data(), markdown.size(), CMARK_OPT_DEFAULT);
  std::string page = std::string("<html><body>") + html + "</body></html>";
  std::free(html);
  EXPECT_EQ(page.find("raw HTML omitted"), std::string::npos);
  EXPECT_EQ(page.find("<em>"), std::string::npos);
  return shown(page);
}

std::size_t count(const std::string& text, const std::string& part) {
  std::size_t found = 0;
  for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + part.size()))
    ++found;
  return found;
}

std::string on_one_line(std::string text) {
  for (char& c : text)
    if (c == '\n') c = ' ';
  return text;
}

TEST(CertificatePage, HostileTextsStayText) {
  for (const auto language : {Language::english, Language::spanish}) {
    const RecordPage page{language, quiz::Paper::letter};
    const auto html = certificate_html_page(templates(), page, certificate());
    EXPECT_EQ(count(shown(html), hostile_name), 12U);
    const auto markdown = certificate_markdown(templates(), page, certificate());
    EXPECT_EQ(count(on_one_line(shown_markdown(markdown)),
                    on_one_line("O'Neil <script>alert(\"1\")</script> |")),
              11U);
  }
}

TEST(CertificatePage, CarriesWhatTheRegulationAsksAndTheCautions) {
  const auto text = on_one_line(
      shown(certificate_html_page(templates(), {Language::english, {}}, certificate())));
  for (const auto* part :
       {"Certificate of training", "Person trained", "Dates of the training",
        "March 2, 2026March 3, 2026", "Signature of the person who conducted the training",
        "Date signed", "29 CFR 1926.503(b)(1)", "Not complete without a signature.",
        "practice never counts as a test", "March 3, 2027, refresher by the employer’s policy",
        "Retraining29 CFR 1926.503(c)", "since February 1, 2026", "83.3%",
        "It makes nobody a competent or qualified person.",
        "follow the manufacturer’s instructions, local codes, and a competent or qualified person",
        "Entry 12, recorded on March 3, 2026"})
    EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << text;
  const auto spanish = on_one_line(
      shown(certificate_html_page(templates(), {Language::spanish, {}}, certificate())));
  for (const auto* part :
       {"Certificado de capacitación", "2 de marzo de 2026", "la práctica nunca cuenta como examen",
        "Firma de la persona que impartió la capacitación", "Sin firma no está completo."})
    EXPECT_NE(spanish.find(part), std::string::npos) << part << "\n" << spanish;
}

TEST(CertificatePage, SaysOnlyWhatIsKnown) {
  Certificate bare;
  bare.number = "7";
  bare.recorded = "2026-03-03";
  bare.name = "Ana Ejemplo";
  bare.course = "Fall protection";
  bare.days = {"2026-03-02"};
  bare.employer_signs = true;
  EXPECT_EQ(
      certificate_markdown(templates(), {}, bare),
      "# Certificate of training\n\n**Training:** Fall protection\n\n**Person trained:** Ana "
      "Ejemplo\n\n- **Date of the training:** March 2, 2026\n\nNo test is recorded for this "
      "training. Practice never counts as a test.\n\n---\n\nSignature for the employer: "
      "\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\n\nName: "
      "\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\n\nDate signed: "
      "\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\n\nWritten certification record under 29 CFR "
      "1926.503(b)(1): the identity of the person trained, the dates of the training, and the "
      "signature of the person who conducted it or of the employer. Not complete without a "
      "signature.\n\n> **Caution.** It tells which training was given and what was tested with a "
      "training aid. It makes nobody a competent or qualified person. On a real roof, follow the "
      "manufacturer’s instructions, local codes, and a competent or qualified person.\n\nEntry 7, "
      "recorded on March 3, 2026\n");
  const auto text = on_one_line(shown(certificate_html_page(templates(), {}, bare)));
  EXPECT_EQ(text.find("Next training"), std::string::npos);
  bare.prior_training = true;
  bare.next = NextTraining::no_interval;
  const auto prior = on_one_line(shown(certificate_html_page(templates(), {}, bare)));
  EXPECT_NE(prior.find("Date the employer found earlier training adequateMarch 2, 2026"),
            std::string::npos);
  EXPECT_NE(prior.find("The employer has set no interval."), std::string::npos);
  bare.next = NextTraining::retraining;
  bare.next_day = "2026-05-01";
  bare.next_reason = "equipment changed";
  EXPECT_NE(on_one_line(shown(certificate_html_page(templates(), {}, bare)))
                .find("Next trainingequipment changed, since May 1, 2026"),
            std::string::npos);
}

TEST(CertificatePage, KnowsThePaperAndSeveralStandInOneFile) {
  EXPECT_NE(certificate_html_page(templates(), {{}, quiz::Paper::letter}, certificate())
                .find("@page { size: letter; }"),
            std::string::npos);
  const RecordPage a4{Language::spanish, quiz::Paper::a4};
  EXPECT_NE(certificate_html_page(templates(), a4, certificate()).find("@page { size: A4; }"),
            std::string::npos);
  auto other = certificate();
  other.number = "13";
  const auto all = certificates_html_start(templates(), a4) +
                   certificates_html_part(templates(), a4, certificate()) +
                   certificates_html_part(templates(), a4, other) +
                   certificates_html_end(templates(), a4);
  EXPECT_EQ(count(shown(all), "Certificado de capacitación"), 2U);
}

TEST(PersonRecordPage, HostileTextsStayText) {
  const RecordPage page{Language::spanish, quiz::Paper::a4};
  const auto html = person_record_html(templates(), page, person_record());
  EXPECT_EQ(count(shown(html), hostile_name), 6U);
  EXPECT_NE(shown(html).find("Estado de los registros: 12:9f86d0"), std::string::npos);
  const auto markdown = person_record_markdown(templates(), page, person_record());
  EXPECT_EQ(count(on_one_line(shown_markdown(markdown)),
                  on_one_line("O'Neil <script>alert(\"1\")</script> |")),
            6U);
}

TEST(PersonRecordPage, IsThisMarkdown) {
  EXPECT_EQ(person_record_markdown(
                templates(), {},
                {"Ana Ejemplo",
                 {{"Number", "@4"}},
                 {{"Training", {"Entry", "Dates"}, {{"7", "2026-03-02"}, {"9", "2026-04-02"}}},
                  {"Results", {"Quiz"}, {{"7G2QK"}}}},
                 "12:9f86d0"}),
            "# Training record: Ana Ejemplo\n\n- **Number:** @4\n\nThis page names a person: keep "
            "it with the training records. Practice never counts as a test.\n\n## Training\n\n"
            "| Entry | Dates |\n|---|---|\n| 7 | 2026-03-02 |\n| 9 | 2026-04-02 |\n\n## Results\n\n"
            "| Quiz |\n|---|\n| 7G2QK |\n\nState of the records: 12:9f86d0\n");
  EXPECT_NE(person_record_markdown(templates(), {}, {"Ana", {}, {}, "0:0"})
                .find("Nothing is recorded yet."),
            std::string::npos);
}

}  // namespace
}  // namespace footroom::render
