// Certificates: issuing them, the list of those issued, and the pages to print and sign.

#include <algorithm>

#include "desk/crew.hpp"
#include "desk/room.hpp"
#include "tasks/certificate_page.hpp"
#include "tasks/certificates.hpp"
#include "tasks/failure.hpp"
#include "tasks/record.hpp"

namespace footroom::desk {
namespace {

using records::Number;
using Certificate = records::Numbered<records::Certificate>;

std::string address_of(Number certificate) {
  return "/certificates/" + std::to_string(certificate);
}

/// The store, and a certificate of it that is in effect, of somebody whose data is there. Throws
/// NotThere.
struct Found {
  std::unique_ptr<records::Store> store;
  Certificate certificate;
};

Found found(const Call& call) {
  auto store = crew_store(call);
  if (!store || call.number(0) < 1 || store->head().number < call.number(0)) throw NotThere();
  const auto entry = store->effective(call.number(0));
  const auto* certificate = std::get_if<records::Certificate>(&entry.content);
  if (!certificate || entry.subject() != call.number(0) ||
      store->effective(certificate->person).erased)
    throw NotThere();
  return {std::move(store), {entry.subject(), *certificate}};
}

render::RecordPage paper_of(const Call& call) {
  return {call.language, call.preferences.paper};
}

render::Certificate page_of(const Call& call, records::Store& store, Number certificate) {
  return tasks::certificate_page(store, certificate, {}, call.house.bank, call.language);
}

Response printed(std::string html) {
  Response response;
  response.policy = Policy::printed;
  response.body = std::move(html);
  return response;
}

/// Those of a session, or all; the newest first.
std::vector<Certificate> issued(records::Store& store, Number session) {
  std::vector<Certificate> all;
  store.each_certificate([&](const Certificate& one) {
    if (session == 0 || one.value.session == session) all.push_back(one);
  });
  std::reverse(all.begin(), all.end());
  return all;
}

constexpr const char* by_session = "session";
constexpr const char* by_employer = "elsewhere";

Form issue_form(const Call& call, records::Store& store) {
  Form form;
  form.action = "/certificates";
  form.button = call.say("certificate-issue");
  Field person{Field::Kind::list, "person", call.say("person")};
  person.choices = people_choices(call, crew(store));
  Field course{Field::Kind::list, "course", call.say("session-course")};
  course.choices = course_choices(call, store);
  Field kind{Field::Kind::one_of, "kind", call.say("certificate-kind"), by_session};
  kind.choices = {{by_session, call.say("certificate-by-session")},
                  {by_employer, call.say("certificate-elsewhere")}};
  Field day{Field::Kind::date, "day", call.say("certificate-day")};
  day.hint = call.say("certificate-day-hint");
  Field signer{Field::Kind::list, "signer", call.say("certificate-signer")};
  signer.choices = {{"", call.say("certificate-signer-usual")},
                    {std::string(records::word(records::Signer::trainer)),
                     call.say("certificate-signer-trainer")},
                    {std::string(records::word(records::Signer::employer)),
                     call.say("certificate-signer-employer")}};
  form.fields = {person, course, kind, day, signer};
  return form;
}

mustache::data row_data(const Call& call, records::Store& store,
                        std::map<Number, std::string>& titles, const Certificate& one) {
  mustache::data row;
  row.set("certificate-address", address_of(one.number));
  row.set("certificate-name", name_in_effect(call, store, one.value.person));
  row.set("certificate-course", titles[one.value.course]);
  row.set("certificate-days", shown_days(call, one.value.days));
  row.set("certificate-number", call.say_with("certificate-number", std::to_string(one.number)));
  return row;
}

Response all_page(const Call& call, records::Store* store, const Form& form) {
  const Number session = number_in(call.query("session"));
  mustache::data data;
  mustache::data list(mustache::data::type::list);
  auto all = store ? issued(*store, session) : std::vector<Certificate>();
  data.set("has-certificates", mustache::data(!all.empty()));
  all = paged(
      call, all,
      session > 0 ? "/certificates?session=" + std::to_string(session) + "&" : "/certificates?",
      data);
  auto titles = store ? course_titles(call, *store) : std::map<Number, std::string>();
  for (const auto& one : all) list << row_data(call, *store, titles, one);
  const bool ready = store && !store->courses().empty() && !form.fields.empty() &&
                     !form.fields.front().choices.empty();
  data.set("certificates", list);
  data.set("of-session", mustache::data(session > 0));
  data.set("print-session", "/certificates/of-session/" + std::to_string(session));
  data.set("ready", mustache::data(ready && session == 0));
  data.set("not-ready", mustache::data(!ready));
  data.set("form", call.form(form));
  Pages::Frame frame{call.language, "certificates", call.say("room-certificates")};
  if (session > 0) {
    frame.title = call.say("certificates-of-session");
    frame.above = "/sessions/" + std::to_string(session);
    frame.above_title = call.say("session-back");
  }
  if (call.query("told") == "issued") frame.told = call.say("certificates-issued");
  if (call.query("told") == "struck") frame.told = call.say("certificate-struck");
  return call.page(frame, "certificates", data);
}

/// What the form asks for; nothing where a field is wrong, which then says why.
std::optional<records::Certificate> asked(const Call& call, records::Store& store, Form& form) {
  for (const char* name : {"person", "course", "kind", "signer"}) {
    const Field& field = form.at(name);
    if (std::none_of(field.choices.begin(), field.choices.end(),
                     [&](const Choice& choice) { return choice.value == field.value; }))
      form.refuse(name, call.say("choose-one"));
  }
  const auto day = day_in(call, form, "day");
  const bool elsewhere = form.at("kind").value == by_employer;
  if (elsewhere && !day) form.refuse("day", call.say("certificate-needs-day"));
  if (!form.sound()) return std::nullopt;
  const auto report = tasks::report_to_certify(store, number_in(form.at("person").value));
  const Number course = number_in(form.at("course").value);
  const auto signer = records::read_signer(form.at("signer").value);
  if (elsewhere) return tasks::certificate_of_prior_training(report, course, *day, signer);
  try {
    return tasks::certificate_of_course(report, course, course_titles(call, store)[course], day,
                                        signer);
  } catch (const tasks::Failure&) {
    form.refuse("course", call.say(day ? "certificate-none-on-day" : "certificate-none"));
    return std::nullopt;
  }
}

Response issue(const Call& call) {
  const auto store = crew_store(call);
  if (!store) throw NotThere();
  Form form = issue_form(call, *store);
  form.fill(call.request.form);
  const auto certificate = asked(call, *store, form);
  if (!certificate) return all_page(call, store.get(), form);
  tasks::CertificateEntries entries(*store, recorded_today(call), {*certificate});
  entries.keep();
  return see_other(address_of(entries.numbers().front()) + "?told=issued");
}

Form strike_form(const Call& call, Number certificate) {
  return strike_form(call, address_of(certificate) + "/strike", "certificate-strike");
}

Response one_page(const Call& call, const Found& at, const Form& strike) {
  auto titles = course_titles(call, *at.store);
  mustache::data data = row_data(call, *at.store, titles, at.certificate);
  data.set("print", address_of(at.certificate.number) + "/print");
  data.set("prior", mustache::data(at.certificate.value.prior_training));
  data.set("strike", call.form(strike));
  data.set("strike-open", mustache::data(!strike.sound()));
  Pages::Frame frame{call.language, "certificates",
                     name_in_effect(call, *at.store, at.certificate.value.person), "/certificates",
                     call.say("room-certificates")};
  if (call.query("told") == "issued") frame.told = call.say("certificate-issued");
  return call.page(frame, "certificate", data);
}

Response strike(const Call& call) {
  const Found at = found(call);
  Form form = strike_form(call, at.certificate.number);
  form.fill(call.request.form);
  refuse_unclean(call, form);
  if (!form.sound()) return one_page(call, at, form);
  const auto writing = at.store->write(recorded_today(call));
  writing->correct(at.certificate.number, records::Withdrawal{form.at("remark").value});
  writing->commit();
  return see_other("/certificates?told=struck");
}

Response print_session(const Call& call) {
  const auto store = crew_store(call);
  if (!store) throw NotThere();
  auto all = issued(*store, call.number(0));
  std::reverse(all.begin(), all.end());
  std::vector<render::Certificate> pages;
  for (const auto& one : all)
    if (!store->effective(one.value.person).erased)
      pages.push_back(page_of(call, *store, one.number));
  if (pages.empty()) throw NotThere();
  return printed(tasks::certificates_html(call.house.templates, paper_of(call), pages));
}

}  // namespace

void add_certificate_room(Routes& routes) {
  routes.get("/certificates", [](const Call& call) {
    const auto store = crew_store(call);
    return all_page(call, store.get(), store ? issue_form(call, *store) : Form());
  });
  routes.post("/certificates", issue);
  routes.get("/certificates/of-session/{number}", print_session);
  routes.get("/certificates/{number}", [](const Call& call) {
    const Found at = found(call);
    return one_page(call, at, strike_form(call, at.certificate.number));
  });
  routes.get("/certificates/{number}/print", [](const Call& call) {
    const Found at = found(call);
    return printed(render::certificate_html_page(call.house.templates, paper_of(call),
                                                 page_of(call, *at.store, at.certificate.number)));
  });
  routes.post("/certificates/{number}/strike", strike);
}

}  // namespace footroom::desk
