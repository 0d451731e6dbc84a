// Certificates of training: each is an entry of the store, and a page to sign.

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "cli/record.hpp"
#include "tasks/certificate_page.hpp"
#include "tasks/failure.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {
namespace {

using engine::Language;
using engine::Text;
using records::Date;
using records::Number;

Failure no_certificate(const std::string& who, const std::string& why) {
  return {ExitCode::input_faulty, who + ": " + why + ", so there is no certificate"};
}

bool same(const records::Certificate& one, const records::Certificate& other) {
  return one.person == other.person && one.course == other.course && one.session == other.session &&
         one.days == other.days && one.signer == other.signer && one.signed_by == other.signed_by &&
         one.prior_training == other.prior_training;
}

class RecordCertificateCommand : public Command {
 public:
  void declare(CLI::App& app) override {
    app.add_option("person", person_, "identity, name or @NUMBER")->type_name("PERSON");
    add_text_option(app, "--course", course_, "CODE", "the course that PERSON was trained in");
    add_text_option(app, "--day", day_, "YYYY-MM-DD", "a day of that training (the latest one)");
    add_text_option(app, "--session", session_, "N",
                    "the session by its entry; without PERSON, of all who completed it");
    add_text_option(app, "--prior-training", prior_, "YYYY-MM-DD",
                    "day the employer found earlier training adequate");
    add_text_option(app, "--quiz", quizzes_, "CODE,...",
                    "tests that belong to it (those on its days)");
    add_text_option(app, "--signer", signer_, "trainer|employer",
                    "who will sign (the trainer, where one is recorded)");
    add_text_option(app, "--paper", paper_, "letter|a4", "paper to print on (letter)");
    add_text_option(app, "--out", out_, "DIR", "where to write (output/certificates)");
    record_.declare(app);
    recorded_.declare(app);
    folders_.declare_bank(app);
    folders_.declare_templates(app);
    app.footer(
        "Writes certificate-N.html and .md for each person, N being the certificate's entry, and\n"
        "for a session all-certificates.html to print in one go. The same certificate printed\n"
        "again is no new entry. It is not complete before it is signed: 29 CFR 1926.503(b)(1)\n"
        "asks for the identity of the person trained, the dates of the training, and the\n"
        "signature of whoever conducted it or of the employer.");
  }

  ExitCode run(Terminal& terminal) override {
    language_ = record_.language();
    const render::RecordPage page{language_, choose_paper(paper_)};
    const Date recorded = recorded_.day();
    check_words();
    const auto templates = read_templates(folders_.templates());
    const auto bank = read_bank_reporting(folders_.bank(), terminal.err).bank;
    const auto quizzes = parts_of(quizzes_);
    const auto store = record_.open();

    const auto certificates = choose(*store, terminal);
    check_quizzes(*store, certificates, quizzes);
    const auto numbers = record(*store, recorded, certificates);
    std::vector<render::Certificate> pages;
    for (const auto number : numbers)
      pages.push_back(certificate_page(*store, number, quizzes, bank, language_));
    Progress progress(terminal, language_, {"certificates written", "certificados escritos"},
                      pages.size());
    const auto to_print = write(templates, page, pages, progress);
    progress.clear();
    terminal.out << tell(pages.size(), to_print);
    return ExitCode::done;
  }

 private:
  void check_words() {
    const auto beside = [](const char* option, const std::string& text, const char* other) {
      if (!text.empty())
        throw Failure(ExitCode::wrong_command_line,
                      fmt::format("{}: cannot stand beside {}", option, other));
    };
    if (!session_.empty()) {
      beside("--course", course_, "--session");
      beside("--day", day_, "--session");
      beside("--prior-training", prior_, "--session");
      session_number_ = static_cast<Number>(whole_number("--session", session_, 1, 1ULL << 62U));
    } else {
      need("PERSON", person_, "identity, name or @NUMBER, or --session N");
      need("--course", course_, "CODE");
    }
    if (!prior_.empty()) {
      beside("--day", day_, "--prior-training");
      beside("--quiz", quizzes_, "--prior-training");
    }
    if (!signer_.empty())
      chosen_signer_ = cli::choose<records::Signer>(
          "--signer", signer_,
          {{"trainer", records::Signer::trainer}, {"employer", records::Signer::employer}});
  }

  std::vector<records::Certificate> choose(records::Store& store, Terminal& terminal) {
    if (!person_.empty()) {
      const auto report = sound_report(store, find_person(store, person_));
      return {session_.empty() ? by_course(store, report) : by_session(store, report)};
    }
    std::vector<records::Certificate> all;
    need_session(store);
    for (const auto& attendance : store.attendances(session_number_)) {
      try {
        all.push_back(by_session(store, sound_report(store, attendance.value.person)));
      } catch (const Failure& failure) {
        terminal.err << failure.what() << '\n';
      }
    }
    if (all.empty())
      throw no_certificate(fmt::format("session {}", session_number_), "nobody completed it");
    return all;
  }

  static records::PersonReport sound_report(records::Store& store, Number person) {
    auto report = store.report(person);
    if (report.person.erased)
      throw no_certificate(fmt::format("@{}", person), "the personal data was erased");
    return report;
  }

  records::Session need_session(records::Store& store) const {
    const auto entry = store.effective(session_number_);
    const auto* session = std::get_if<records::Session>(&entry.content);
    if (!session || entry.subject() != session_number_)
      throw Failure(ExitCode::input_faulty,
                    fmt::format("--session: entry {} is no session", session_number_));
    return *session;
  }

  records::Certificate by_session(records::Store& store,
                                  const records::PersonReport& report) const {
    const auto session = need_session(store);
    const std::string who = for_terminal(report.person.value.name);
    const auto attended =
        std::find_if(report.attendances.begin(), report.attendances.end(),
                     [&](const auto& one) { return one.value.session == session_number_; });
    if (attended == report.attendances.end())
      throw no_certificate(who, fmt::format("did not attend session {}", session_number_));
    if (!attended->value.completed)
      throw no_certificate(who, fmt::format("did not complete session {}", session_number_));
    return of_session(report, session_number_, session);
  }

  records::Certificate by_course(records::Store& store, const records::PersonReport& report) const {
    const Number course = find_course(store, course_);
    if (!prior_.empty()) {
      records::Certificate certificate{
          report.person.number, course, {}, {need_date("--prior-training", prior_)}};
      certificate.prior_training = true;
      set_signer(certificate, report, {});
      return certificate;
    }
    std::optional<Date> day;
    if (!day_.empty()) day = need_date("--day", day_);
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
          fmt::format("no completed training in {}{} is recorded", for_terminal(course_),
                      day ? " on " + records::date_text(*day) : std::string()));
    return of_session(report, latest->number, latest->value);
  }

  records::Certificate of_session(const records::PersonReport& report, Number number,
                                  const records::Session& session) const {
    records::Certificate certificate{report.person.number, session.course, number, session.days};
    set_signer(certificate, report, session.trainer);
    return certificate;
  }

  void set_signer(records::Certificate& certificate, const records::PersonReport& report,
                  std::optional<Number> trainer) const {
    using records::Signer;
    certificate.signer =
        chosen_signer_.value_or(trainer.has_value() ? Signer::trainer : Signer::employer);
    if (certificate.signer == Signer::trainer)
      certificate.signed_by = trainer;
    else if (report.employer)
      certificate.signed_by = report.employer->number;
  }

  /// Each of `quizzes` must be a test of somebody here.
  static void check_quizzes(records::Store& store,
                            const std::vector<records::Certificate>& certificates,
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
        throw Failure(ExitCode::input_faulty,
                      fmt::format("--quiz: {} was practice, which never counts as a test",
                                  for_terminal(code)));
    }
  }

  /// The entries, old or new, in the order of the certificates.
  static std::vector<Number> record(records::Store& store, Date recorded,
                                    const std::vector<records::Certificate>& certificates) {
    std::vector<Number> numbers;
    bool any_new = false;
    for (const auto& certificate : certificates) {
      numbers.push_back(0);
      for (const auto& known : store.report(certificate.person).certificates)
        if (same(known.value, certificate)) numbers.back() = known.number;
      any_new |= numbers.back() == 0;
    }
    if (!any_new) return numbers;
    const auto writing = store.write(recorded);
    for (std::size_t i = 0; i < certificates.size(); ++i)
      if (numbers[i] == 0) numbers[i] = writing->add(certificates[i]);
    writing->commit();
    return numbers;
  }

  /// Other pages in the folder stay: they are other people's. Returns what to print.
  std::filesystem::path write(const render::Templates& templates, const render::RecordPage& page,
                              const std::vector<render::Certificate>& certificates,
                              Progress& progress) const {
    const std::filesystem::path folder = out_.empty() ? "output/certificates" : out_;
    const bool one_file = session_.empty() || !person_.empty();
    const std::string all = "all-certificates.html";
    const auto name_of_page = [](const render::Certificate& one) {
      return "certificate-" + one.number;
    };
    std::set<std::string> names;
    for (const auto& one : certificates)
      names.insert({name_of_page(one) + ".md", name_of_page(one) + ".html"});
    if (!one_file) names.insert(all);
    OutputFolder out(folder, [&names](const std::string& name) { return names.count(name) > 0; });
    std::size_t done = 0;
    for (const auto& one : certificates) {
      out.write(name_of_page(one) + ".md", render::certificate_markdown(templates, page, one));
      out.write(name_of_page(one) + ".html", render::certificate_html_page(templates, page, one));
      progress.tell(++done);
    }
    if (!one_file) {
      auto file = out.file(all);
      file.write(render::certificates_html_start(templates, page));
      for (const auto& one : certificates)
        file.write(render::certificates_html_part(templates, page, one));
      file.write(render::certificates_html_end(templates, page));
      file.close();
    }
    out.publish();
    return folder / (one_file ? name_of_page(certificates.front()) + ".html" : all);
  }

  std::string tell(std::size_t count, const std::filesystem::path& file) const {
    return fmt::format(fmt::runtime(Text{"Certificates: {}\nTo print and sign: {}\n",
                                         "Certificados: {}\nPara imprimir y firmar: {}\n"}
                                        .in(language_)),
                       count, file.string());
  }

  std::string person_;
  std::string course_;
  std::string day_;
  std::string session_;
  std::string prior_;
  std::string quizzes_;
  std::string signer_;
  std::string paper_ = "letter";
  std::string out_;
  RecordOptions record_;
  RecordedOption recorded_;
  FolderOptions folders_;

  Language language_ = Language::english;
  Number session_number_ = 0;
  std::optional<records::Signer> chosen_signer_;
};

}  // namespace

std::unique_ptr<Command> make_record_certificate_command() {
  return std::make_unique<RecordCertificateCommand>();
}

}  // namespace footroom::cli
