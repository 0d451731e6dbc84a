#pragma once
// Certificates of training: what is certified, the entries of the store, and the pages to sign.

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "records/store.hpp"
#include "render/record_pages.hpp"
#include "render/render.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/told.hpp"

namespace footroom::tasks {

/// Who will sign; nothing: the trainer where one is recorded, else the employer.
using ChosenSigner = std::optional<records::Signer>;

// Each throws Failure "WHO: why, so there is no certificate" where there can be none.

/// The person's report; refused where the personal data was erased.
records::PersonReport report_to_certify(records::Store& store, records::Number person);
/// Of a session that the person completed. Throws Failure "--session: ..." where `session` is none.
records::Certificate certificate_of_session(records::Store& store,
                                            const records::PersonReport& report,
                                            records::Number session, ChosenSigner signer);
/// Of the latest session in the course that the person completed, on `day` where it is given.
/// `shown` names the course in messages.
records::Certificate certificate_of_course(const records::PersonReport& report,
                                           records::Number course, const std::string& shown,
                                           std::optional<records::Date> day, ChosenSigner signer);
/// The employer found training by someone else adequate on `day`.
records::Certificate certificate_of_prior_training(const records::PersonReport& report,
                                                   records::Number course, records::Date day,
                                                   ChosenSigner signer);
/// Of all who completed a session; why there is none for an attendance goes to `left_out`.
std::vector<records::Certificate> certificates_of_session(records::Store& store,
                                                          records::Number session,
                                                          ChosenSigner signer,
                                                          std::vector<std::string>& left_out);

/// Each of `quizzes` must be a test of somebody here. Throws Failure "--quiz: ...".
void check_tests(records::Store& store, const std::vector<records::Certificate>& certificates,
                 const std::vector<std::string>& quizzes);

/// Certificates as entries of the store. The same certificate again is the entry that is there.
class CertificateEntries {
 public:
  /// New entries are kept with keep(), and can be read from the store before.
  CertificateEntries(records::Store& store, records::Date recorded,
                     const std::vector<records::Certificate>& certificates);

  /// In the order of the certificates.
  const std::vector<records::Number>& numbers() const { return numbers_; }
  void keep();

 private:
  std::vector<records::Number> numbers_;
  std::unique_ptr<records::Writing> writing_;  ///< nothing where no entry is new
};

/// certificate-N.html and .md of each and, for several together, all-certificates.html. Nothing of
/// it is in the folder before publish(). Other pages in the folder stay: they are other people's.
class CertificateFiles {
 public:
  CertificateFiles(const render::Templates& templates, const render::RecordPage& page,
                   const std::vector<render::Certificate>& certificates, bool together,
                   const std::filesystem::path& folder, const Told& told = tell_nobody);
  /// Returns the file to print.
  std::filesystem::path publish();

 private:
  std::string to_print_;
  std::filesystem::path folder_;
  OutputFolder out_;
};

/// The page with all of them, to print in one go.
std::string certificates_html(const render::Templates& templates, const render::RecordPage& page,
                              const std::vector<render::Certificate>& certificates);

}  // namespace footroom::tasks
