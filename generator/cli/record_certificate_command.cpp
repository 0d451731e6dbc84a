// Certificates of training: each is an entry of the store, and a page to sign.

#include <fmt/format.h>

#include "cli/options.hpp"
#include "cli/progress.hpp"
#include "cli/record.hpp"
#include "tasks/certificate_page.hpp"
#include "tasks/certificates.hpp"
#include "tasks/failure.hpp"
#include "tasks/text.hpp"

namespace footroom::cli {
namespace {

using engine::Language;
using engine::Text;

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
    const records::Date recorded = recorded_.day();
    check_words();
    const auto templates = read_templates(folders_.templates());
    const auto bank = read_bank_reporting(folders_.bank(), terminal.err).bank;
    const auto quizzes = parts_of(quizzes_);
    const auto store = record_.open();

    const auto certificates = choose(*store, terminal);
    check_tests(*store, certificates, quizzes);
    CertificateEntries entries(*store, recorded, certificates);
    std::vector<render::Certificate> pages;
    for (const auto number : entries.numbers())
      pages.push_back(certificate_page(*store, number, quizzes, bank, language_));
    Progress progress(terminal, language_, {"certificates written", "certificados escritos"},
                      pages.size());
    CertificateFiles files(templates, page, pages, of_whole_session(),
                           out_.empty() ? "output/certificates" : out_,
                           [&progress](std::size_t done) { progress.tell(done); });
    progress.clear();
    entries.keep();
    terminal.out << tell(pages.size(), files.publish());
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
      session_number_ =
          static_cast<records::Number>(whole_number("--session", session_, 1, 1ULL << 62U));
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

  bool of_whole_session() const { return !session_.empty() && person_.empty(); }

  std::vector<records::Certificate> choose(records::Store& store, Terminal& terminal) const {
    if (of_whole_session()) {
      std::vector<std::string> left_out;
      auto all = certificates_of_session(store, session_number_, chosen_signer_, left_out);
      for (const auto& why : left_out) terminal.err << why << '\n';
      if (all.empty())
        throw Failure(ExitCode::input_faulty,
                      fmt::format("session {}: nobody completed it, so there is no certificate",
                                  session_number_));
      return all;
    }
    const auto report = report_to_certify(store, find_person(store, person_));
    if (!session_.empty())
      return {certificate_of_session(store, report, session_number_, chosen_signer_)};
    const auto course = find_course(store, course_);
    if (!prior_.empty())
      return {certificate_of_prior_training(report, course, need_date("--prior-training", prior_),
                                            chosen_signer_)};
    std::optional<records::Date> day;
    if (!day_.empty()) day = need_date("--day", day_);
    return {certificate_of_course(report, course, course_, day, chosen_signer_)};
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
  records::Number session_number_ = 0;
  std::optional<records::Signer> chosen_signer_;
};

}  // namespace

std::unique_ptr<Command> make_record_certificate_command() {
  return std::make_unique<RecordCertificateCommand>();
}

}  // namespace footroom::cli
