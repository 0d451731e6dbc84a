#pragma once
// Pages from the training records: the certificate of a training and the record of a person. As
// with a quiz, nothing here computes; texts come in the page's language, days as YYYY-MM-DD.

#include <string>
#include <vector>

#include "engine/text.hpp"
#include "quiz/maker.hpp"
#include "render/render.hpp"

namespace footroom::render {

struct RecordPage {
  engine::Language language = engine::Language::english;
  quiz::Paper paper = quiz::Paper::letter;
};

struct CertificateTest {
  std::string quiz;  ///< code
  std::string day;
  std::string points;
  std::string possible;
  std::string percent;
};

struct CertificateTopic {
  std::string title;
  std::string points;
  std::string possible;
};

/// Why the person had to be trained again (29 CFR 1926.503(c)).
struct CertificateRetraining {
  std::string reason;
  std::string since;
};

/// What comes next for the person in this course.
enum class NextTraining {
  refresher,    ///< on `next_day`, by the employer's policy
  no_interval,  ///< the employer has set none
  retraining,   ///< asked for since `next_day`, for `next_reason`
  not_told,     ///< the person left, or was trained again since
};

/// The certification record of 29 CFR 1926.503(b)(1), to be signed by hand: the identity of the
/// person trained, the days of the training, the signature of the person who conducted it or of the
/// employer.
struct Certificate {
  std::string number;  ///< of its entry in the records
  std::string recorded;
  std::string name;
  std::string identity;        ///< may be empty
  std::string employer;        ///< may be empty
  std::string employer_place;  ///< may be empty
  std::string course;
  std::vector<std::string> days;
  /// Training by someone else: `days` tells when the employer found it adequate.
  bool prior_training = false;
  std::string place;    ///< may be empty
  std::string trainer;  ///< may be empty
  bool employer_signs = false;
  std::string signer;                  ///< name under the line; may be empty
  std::vector<CertificateTest> tests;  ///< never practice
  std::vector<CertificateTopic> topics;
  std::vector<CertificateRetraining> retrainings;
  NextTraining next = NextTraining::not_told;
  std::string next_day;
  std::string next_reason;
};

std::string certificate_markdown(const Templates&, const RecordPage&, const Certificate&);
/// A whole page, self-contained.
std::string certificate_html_page(const Templates&, const RecordPage&, const Certificate&);
/// all-certificates.html: a start, each certificate's part, an end.
std::string certificates_html_start(const Templates&, const RecordPage&);
std::string certificates_html_part(const Templates&, const RecordPage&, const Certificate&);
std::string certificates_html_end(const Templates&, const RecordPage&);

/// Rows under a title; each as long as `columns`.
struct RecordSection {
  std::string title;
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;
  bool by_entry = false;  ///< the first column is the number of an entry
};

struct PersonRecord {
  std::string name;
  std::vector<std::pair<std::string, std::string>> facts;  ///< what, and its text
  std::vector<RecordSection> sections;
  std::string head;  ///< state of the store, "12:9f86d0..."
};

std::string person_record_markdown(const Templates&, const RecordPage&, const PersonRecord&);
std::string person_record_html(const Templates&, const RecordPage&, const PersonRecord&);

}  // namespace footroom::render
