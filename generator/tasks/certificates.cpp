#include "tasks/certificates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "tasks/failure.hpp"
#include "tasks/record.hpp"

namespace footroom::tasks {
namespace {

using records::Certificate;
using records::Date;
using records::Number;
using records::PersonReport;
using records::Signer;

constexpr const char* all_certificates = "all-certificates.html";

Failure no_certificate(const std::string& who, const std::string& why) {
  return {ExitCode::input_faulty, who + ": " + why + ", so there is no certificate"};
}

bool same(const Certificate& one, const Certificate& other) {
  return one.person == other.person && one.course == other.course && one.session == other.session &&
         one.days == other.days && one.signer == other.signer && one.signed_by == other.signed_by &&
         one.prior_training == other.prior_training;
}

void set_signer(Certificate& certificate, const PersonReport& report, std::optional<Number> trainer,
                ChosenSigner chosen) {
  certificate.signer = chosen.value_or(trainer.has_value() ? Signer::trainer : Signer::employer);
  if (certificate.signer == Signer::trainer)
    certificate.signed_by = trainer;
  else if (report.employer)
    certificate.signed_by = report.employer->number;
}

Certificate of_session(const PersonReport& report, Number number, const records::Session& session,
                       ChosenSigner signer) {
  Certificate certificate{report.person.number, session.course, number, session.days};
  set_signer(certificate, report, session.trainer, signer);
  return certificate;
}

records::Session need_session(records::Store& store, Number number) {
  const auto entry = store.effective(number);
  const auto* session = std::get_if<records::Session>(&entry.content);
  if (!session || entry.subject() != number)
    throw Failure(ExitCode::input_faulty, fmt::format("--session: entry {} is no session", number));
  return *session;
}

std::string page_name(const render::Certificate& one) {
  return "certificate-" + one.number;
}

/// True for the files that the pages of `certificates` have.
OutputFolder::IsOurs files_of(const std::vector<render::Certificate>& certificates, bool together) {
  std::set<std::string> names;
  for (const auto& one : certificates)
    names.insert({page_name(one) + ".md", page_name(one) + ".html"});
  if (together) names.insert(all_certificates);
  return [names = std::move(names)](const std::string& name) { return names.count(name) > 0; };
}

}  // namespace

PersonReport report_to_certify(records::Store& store, Number person) {
  auto report = store.report(person);
  if (report.person.erased)
    throw no_certificate(fmt::format("@{}", person), "the personal data was erased");
  return report;
}

Certificate certificate_of_session(records::Store& store, const PersonReport& report,
                                   Number session, ChosenSigner signer) {
  const auto content = need_session(store, session);
  const std::string who = for_terminal(report.person.value.name);
  const auto attended = std::find_if(report.attendances.begin(), report.attendances.end(),
                                     [&](const auto& one) { return one.value.session == session; });
  if (attended == report.attendances.end())
    throw no_certificate(who, fmt::format("did not attend session {}", session));
  if (!attended->value.completed)
    throw no_certificate(who, fmt::format("did not complete session {}", session));
  return of_session(report, session, content, signer);
}

Certificate certificate_of_course(const PersonReport& report, Number course,
                                  const std::string& shown, std::optional<Date> day,
                                  ChosenSigner signer) {
  const records::Numbered<records::Session>* latest = nullptr;
  for (const auto& attendance : report.attendances)
    for (const auto& session : report.sessions) {
      const auto& days = session.value.days;
      if (session.number != attendance.value.session || !attendance.value.completed ||
          session.value.course != course ||
          (day && std::find(days.begin(), days.end(), *day) == days.end()))
        continue;
      if (!latest || latest->value.days.back() <= days.back()) latest = &session;
    }
  if (!latest)
    throw no_certificate(
        for_terminal(report.person.value.name),
        fmt::format("no completed training in {}{} is recorded", for_terminal(shown),
                    day ? " on " + records::date_text(*day) : std::string()));
  return of_session(report, latest->number, latest->value, signer);
}

Certificate certificate_of_prior_training(const PersonReport& report, Number course, Date day,
                                          ChosenSigner signer) {
  Certificate certificate{report.person.number, course, {}, {day}};
  certificate.prior_training = true;
  set_signer(certificate, report, {}, signer);
  return certificate;
}

std::vector<Certificate> certificates_of_session(records::Store& store, Number session,
                                                 ChosenSigner signer,
                                                 std::vector<std::string>& left_out) {
  need_session(store, session);
  std::vector<Certificate> all;
  for (const auto& attendance : store.attendances(session)) {
    try {
      all.push_back(certificate_of_session(store, report_to_certify(store, attendance.value.person),
                                           session, signer));
    } catch (const Failure& failure) {
      left_out.emplace_back(failure.what());
    }
  }
  return all;
}

void check_tests(records::Store& store, const std::vector<Certificate>& certificates,
                 const std::vector<std::string>& quizzes) {
  std::map<std::string, bool> tests;  // whether any result with this code was one
  for (const auto& certificate : certificates)
    for (const auto& result : store.report(certificate.person).results)
      tests[result.value.quiz] |= result.value.occasion == records::Occasion::test;
  for (const auto& code : quizzes) {
    const auto found = tests.find(code);
    if (found == tests.end())
      throw Failure(ExitCode::input_faulty,
                    fmt::format("--quiz: nobody here has a result of {}", for_terminal(code)));
    if (!found->second)
      throw Failure(
          ExitCode::input_faulty,
          fmt::format("--quiz: {} was practice, which never counts as a test", for_terminal(code)));
  }
}

CertificateEntries::CertificateEntries(records::Store& store, Date recorded,
                                       const std::vector<Certificate>& certificates) {
  bool any_new = false;
  for (const auto& certificate : certificates) {
    numbers_.push_back(0);
    for (const auto& known : store.report(certificate.person).certificates)
      if (same(known.value, certificate)) numbers_.back() = known.number;
    any_new |= numbers_.back() == 0;
  }
  if (!any_new) return;
  writing_ = store.write(recorded);
  for (std::size_t i = 0; i < certificates.size(); ++i)
    if (numbers_[i] == 0) numbers_[i] = writing_->add(certificates[i]);
}

void CertificateEntries::keep() {
  if (writing_) writing_->commit();
  writing_.reset();
}

CertificateFiles::CertificateFiles(const render::Templates& templates,
                                   const render::RecordPage& page,
                                   const std::vector<render::Certificate>& certificates,
                                   bool together, const std::filesystem::path& folder,
                                   const Told& told)
    : to_print_(together ? all_certificates : page_name(certificates.front()) + ".html"),
      folder_(folder),
      out_(folder, files_of(certificates, together)) {
  std::size_t done = 0;
  for (const auto& one : certificates) {
    out_.write(page_name(one) + ".md", render::certificate_markdown(templates, page, one));
    out_.write(page_name(one) + ".html", render::certificate_html_page(templates, page, one));
    told(++done);
  }
  if (together) out_.write(all_certificates, certificates_html(templates, page, certificates));
}

std::filesystem::path CertificateFiles::publish() {
  out_.publish();
  return folder_ / to_print_;
}

std::string certificates_html(const render::Templates& templates, const render::RecordPage& page,
                              const std::vector<render::Certificate>& certificates) {
  std::string html = render::certificates_html_start(templates, page);
  for (const auto& one : certificates) html += render::certificates_html_part(templates, page, one);
  return html + render::certificates_html_end(templates, page);
}

}  // namespace footroom::tasks
