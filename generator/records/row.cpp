#include "records/row.hpp"

#include <fmt/format.h>

#include <boost/locale/utf.hpp>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "bank/digest.hpp"
#include "records/failure.hpp"
#include "records/words.hpp"

namespace footroom::records {
namespace {

using nlohmann::json;

template <class... Ts>
struct Overloaded : Ts... {
  using Ts::operator()...;
};
template <class... Ts>
Overloaded(Ts...) -> Overloaded<Ts...>;

/// Each field with its size in front, so that no two lists of fields give the same bytes.
class Fields {
 public:
  Fields& add(const std::string& field) {
    bytes_ += fmt::format("{}:{};", field.size(), field);
    return *this;
  }
  Fields& add(std::optional<Number> number) {
    return add(number ? std::to_string(*number) : std::string());
  }
  std::string digest() const { return bank::sha256(bytes_); }

 private:
  std::string bytes_;
};

json days_json(const std::vector<Date>& days) {
  json list = json::array();
  for (const auto day : days) list.push_back(date_text(day));
  return list;
}

template <class T>
void put(json& body, const char* key, const std::optional<T>& value) {
  if (value) body[key] = *value;
}

Date need_date(const json& value) {
  const auto date = read_date(value.get_ref<const std::string&>());
  if (!date) throw std::runtime_error("holds a day that does not exist");
  return *date;
}

std::vector<Date> need_days(const json& list) {
  std::vector<Date> days;
  for (const auto& day : list) days.push_back(need_date(day));
  return days;
}

std::optional<Number> number_at(const json& body, const char* key) {
  const auto at = body.find(key);
  return at == body.end() ? std::nullopt : std::optional(at->get<Number>());
}

template <class T>
T need(const std::optional<T>& value) {
  if (!value) throw std::runtime_error("lacks a number or a word that its kind needs");
  return *value;
}

Content content_of(const Row& row) {
  const json body = json::parse(row.body);
  const Personal personal = row.personal.value_or(Personal{});
  if (row.kind == "employer") return Employer{row.name, body.at("place").get<std::string>()};
  if (row.kind == "course")
    return Course{row.name, body.at("en").get<std::string>(), body.at("es").get<std::string>()};
  if (row.kind == "policy")
    return Policy{need(row.about), body.at("course").get<Number>(), body.at("months").get<int>()};
  if (row.kind == "person") {
    Person person{personal.name, personal.identity, row.about, {}};
    if (body.contains("left")) person.left = need_date(body.at("left"));
    return person;
  }
  if (row.kind == "session")
    return Session{need(row.about), need_days(body.at("days")), number_at(body, "trainer"),
                   body.at("place").get<std::string>()};
  if (row.kind == "attendance")
    return Attendance{need(row.about), need(row.person), body.at("completed").get<bool>()};
  if (row.kind == "quiz")
    return Quiz{row.name, need_date(body.at("day")), body.at("blueprint").get<std::string>()};
  if (row.kind == "result") {
    Result result;
    result.person = need(row.person);
    result.quiz = row.name;
    result.day = need_date(body.at("day"));
    result.occasion = need(read_occasion(body.at("occasion").get_ref<const std::string&>()));
    for (const auto& topic : body.at("topics"))
      result.topics.push_back({topic.at(0).get<std::string>(), topic.at(1).get<std::int64_t>(),
                               topic.at(2).get<std::int64_t>()});
    for (const auto& item : body.at("missed")) result.missed.push_back(item.get<std::string>());
    return result;
  }
  if (row.kind == "retraining")
    return Retraining{need(row.person), need(row.about), need_date(body.at("since")),
                      need(read_reason(body.at("reason").get_ref<const std::string&>())),
                      personal.remark};
  if (row.kind == "certificate")
    return Certificate{need(row.person),
                       need(row.about),
                       number_at(body, "session"),
                       need_days(body.at("days")),
                       need(read_signer(body.at("signer").get_ref<const std::string&>())),
                       number_at(body, "signed-by"),
                       body.at("prior").get<bool>()};
  if (row.kind == "withdrawal") return Withdrawal{body.value("remark", personal.remark)};
  if (row.kind == "erasure") return Erasure{need(row.person)};
  throw std::runtime_error("is of the unknown kind " + row.kind);
}

constexpr std::size_t short_text = 1000;    // bytes; what an index of either database takes
constexpr std::size_t long_text = 100'000;  // bytes

void check_text(const std::string& what, const std::string& text, std::size_t longest) {
  using Decoder = boost::locale::utf::utf_traits<char>;
  if (text.size() > longest)
    throw Refused(called(what) + worded({": has {} bytes, expected at most {}",
                                         ": tiene {} bytes, se esperaban como máximo {}"},
                                        text.size(), longest));
  for (auto at = text.begin(); at != text.end();) {
    const auto offset = at - text.begin() + 1;
    const auto point = Decoder::decode(at, text.end());
    if (!boost::locale::utf::is_valid_codepoint(point))
      throw Refused(
          called(what) +
          worded({": is not in UTF-8 (byte {})", ": no está en UTF-8 (byte {})"}, offset));
    const bool line_break = point == '\n' && longest == long_text;
    if ((point < 0x20 && !line_break) || (point >= 0x7f && point < 0xa0) || point == 0x2028 ||
        point == 0x2029)
      throw Refused(called(what) +
                    worded({": holds a line break or another control character (byte {})",
                            ": tiene un salto de línea u otro carácter de control (byte {})"},
                           offset));
  }
}

void check_name(const std::string& what, const std::string& text) {
  if (text.find_first_not_of(' ') == std::string::npos)
    throw Refused(called(what) +
                  worded({": is empty, expected a text", ": está vacío, se esperaba un texto"}));
  check_text(what, text, short_text);
}

void check_id(const std::string& what, const std::string& text) {
  check_name(what, text);
  if (text.find_first_of(" =,;") != std::string::npos)
    throw Refused(called(what) + worded({": is {}, expected an id without spaces and =,;",
                                         ": es {}, se esperaba un id sin espacios ni =,;"},
                                        text));
}

void check_date(const std::string& what, Date date) {
  if (!date.ok() || static_cast<int>(date.year()) < 1900 || static_cast<int>(date.year()) > 9999)
    throw Refused(called(what) + worded({": is no day of the years 1900 to 9999",
                                         ": no es un día de los años 1900 a 9999"}));
}

void check_days(const std::vector<Date>& days) {
  if (days.empty())
    throw Refused(worded({"days: is empty, expected at least one day of training",
                          "días: está vacío, se esperaba al menos un día de capacitación"}));
  for (std::size_t i = 0; i < days.size(); ++i) {
    check_date("days", days[i]);
    if (i > 0 && days[i] <= days[i - 1])
      throw Refused(worded({"days: {} stands after {}, expected ascending days",
                            "días: {} está después de {}, se esperaban en orden"},
                           date_text(days[i]), date_text(days[i - 1])));
  }
}

}  // namespace

std::string first_digest() {
  return std::string(64, '0');
}

std::string digest_of(const Row& row, const std::string& previous) {
  return Fields()
      .add(previous)
      .add(row.number)
      .add(row.kind)
      .add(row.day)
      .add(row.person)
      .add(row.about)
      .add(row.corrects)
      .add(row.name)
      .add(row.body)
      .add(row.seal)
      .digest();
}

std::string seal_of(const Personal& personal) {
  return Fields()
      .add(personal.salt)
      .add(personal.name)
      .add(personal.identity)
      .add(personal.remark)
      .digest();
}

Row row_of(const Content& content) {
  Row row;
  row.kind = kind_of(content);
  json body = json::object();
  const auto remark = [&row](const std::string& text) {
    row.personal.emplace();
    row.personal->remark = text;
  };
  std::visit(
      Overloaded{[&](const Employer& c) {
                   row.name = c.name;
                   body["place"] = c.place;
                 },
                 [&](const Course& c) {
                   row.name = c.code;
                   body["en"] = c.english;
                   body["es"] = c.spanish;
                 },
                 [&](const Policy& c) {
                   row.about = c.employer;
                   body["course"] = c.course;
                   body["months"] = c.refresher_months;
                 },
                 [&](const Person& c) {
                   row.about = c.employer;
                   row.personal.emplace();
                   row.personal->name = c.name;
                   row.personal->identity = c.identity;
                   if (c.left) body["left"] = date_text(*c.left);
                 },
                 [&](const Session& c) {
                   row.about = c.course;
                   body["days"] = days_json(c.days);
                   put(body, "trainer", c.trainer);
                   body["place"] = c.place;
                 },
                 [&](const Attendance& c) {
                   row.about = c.session;
                   row.person = c.person;
                   body["completed"] = c.completed;
                 },
                 [&](const Quiz& c) {
                   row.name = c.code;
                   body["day"] = date_text(c.day);
                   body["blueprint"] = c.blueprint;
                 },
                 [&](const Result& c) {
                   row.person = c.person;
                   row.name = c.quiz;
                   body["day"] = date_text(c.day);
                   body["occasion"] = word(c.occasion);
                   body["topics"] = json::array();
                   for (const auto& t : c.topics)
                     body["topics"].push_back({t.topic, t.hundredths, t.possible_hundredths});
                   body["missed"] = c.missed;
                 },
                 [&](const Retraining& c) {
                   row.person = c.person;
                   row.about = c.course;
                   body["since"] = date_text(c.since);
                   body["reason"] = word(c.reason);
                   if (!c.remark.empty()) remark(c.remark);
                 },
                 [&](const Certificate& c) {
                   row.person = c.person;
                   row.about = c.course;
                   put(body, "session", c.session);
                   body["days"] = days_json(c.days);
                   body["signer"] = word(c.signer);
                   put(body, "signed-by", c.signed_by);
                   body["prior"] = c.prior_training;
                 },
                 [&](const Withdrawal& c) {
                   if (!c.remark.empty()) remark(c.remark);
                 },
                 [&](const Erasure& c) { row.person = c.person; }},
      content);
  row.body = body.dump();
  return row;
}

void keep_remark_in_body(Row& row) {
  row.body = json{{"remark", row.personal.value().remark}}.dump();
  row.personal.reset();
}

Entry entry_of(const Row& row) {
  const auto day = read_date(row.day);
  if (!day) throw std::runtime_error("was recorded on a day that does not exist");
  return {row.number, *day, row.corrects, content_of(row), !row.seal.empty() && !row.personal};
}

void check_content(const Content& content) {
  std::visit(
      Overloaded{[](const Employer& c) {
                   check_name("name", c.name);
                   check_text("place", c.place, short_text);
                 },
                 [](const Course& c) {
                   check_name("code", c.code);
                   check_name("title", c.english.empty() ? c.spanish : c.english);
                   check_text("title", c.spanish, short_text);
                 },
                 [](const Policy& c) {
                   if (c.refresher_months < 0 || c.refresher_months > 600)
                     throw Refused(worded({"refresher months: is {}, expected 0 to 600",
                                           "meses hasta el repaso: es {}, se esperaba de 0 a 600"},
                                          c.refresher_months));
                 },
                 [](const Person& c) {
                   check_name("name", c.name);
                   check_text("identity", c.identity, short_text);
                   if (c.left) check_date("left", *c.left);
                 },
                 [](const Session& c) {
                   check_days(c.days);
                   check_text("place", c.place, short_text);
                 },
                 [](const Attendance&) {},
                 [](const Quiz& c) {
                   check_name("code", c.code);
                   check_date("day", c.day);
                   check_text("blueprint", c.blueprint, short_text);
                 },
                 [](const Result& c) {
                   check_name("quiz", c.quiz);
                   check_date("day", c.day);
                   for (const auto& topic : c.topics) {
                     check_id("topics", topic.topic);
                     if (topic.hundredths < 0 || topic.hundredths > topic.possible_hundredths ||
                         topic.possible_hundredths > 1'000'000'000)
                       throw Refused(worded({"topics: has more points than possible in {}",
                                             "topics: tiene más puntos que los posibles en {}"},
                                            topic.topic));
                   }
                   for (const auto& item : c.missed) check_id("missed", item);
                 },
                 [](const Retraining& c) {
                   check_date("since", c.since);
                   check_text("remark", c.remark, long_text);
                   if (c.reason == Reason::never_trained)
                     throw Refused(
                         worded({"reason: never-trained is no reason to train again",
                                 "motivo: never-trained no es motivo para capacitar de nuevo"}));
                 },
                 [](const Certificate& c) { check_days(c.days); },
                 [](const Withdrawal& c) { check_text("remark", c.remark, long_text); },
                 [](const Erasure&) {}},
      content);
}

}  // namespace footroom::records
