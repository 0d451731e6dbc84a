#pragma once
// Training records as plain values. Each struct is the content of one entry of the store (see
// store.hpp): entries are only ever added, and a later one about the same subject (a correction, a
// changed employer) stands in the place of the earlier one without removing it.
//
// What United States construction law asks of them, 29 CFR 1926.503 (read; paragraph numbers below
// (b) from memory): a written certification with the name or other identity of the worker, the
// date(s) of the training and the signature of the trainer or the employer (b)(1); the latest one
// is kept (b)(2); retraining when the workplace changes, the equipment changes or knowledge is
// inadequate (c)(1)-(3). It sets no interval for refreshers: that is the employer's policy.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "records/date.hpp"

namespace footroom::records {

/// Entries are numbered 1, 2, 3 ... A person, course, session ... is known by the number of the
/// entry that first named it.
using Number = std::int64_t;

struct Employer {
  std::string name;
  std::string place = {};  ///< may be empty
};

struct Course {
  std::string code;  ///< short, unique among courses: "fall-protection"
  std::string english = {};
  std::string spanish = {};  ///< the title; at least one of the two
};

/// The employer wants its people to hold this course. Later policies of the same employer and
/// course replace earlier ones.
struct Policy {
  Number employer = 0;
  Number course = 0;
  int refresher_months = 0;  ///< 1 to 600; 0: no refresher at a fixed interval
};

/// Workers and trainers. Name and identity are personal data: they can be erased.
struct Person {
  std::string name;
  std::string identity = {};  ///< badge or payroll number; unique with an employer; may be empty
  std::optional<Number> employer = {};
  std::optional<Date> left = {};  ///< no longer with the employer: nothing is due
};

struct Session {
  Number course = 0;
  std::vector<Date> days;              ///< the date(s) of training, ascending, at least one
  std::optional<Number> trainer = {};  ///< a Person
  std::string place = {};
};

struct Attendance {
  Number session = 0;
  Number person = 0;
  bool completed = true;  ///< false: came, but did not complete the training
};

/// A quiz that was given, so that its code means something later.
struct Quiz {
  std::string code;  ///< as printed on the sheets
  Date day = {};
  std::string blueprint = {};
};

/// Points are exact, in hundredths of a point.
struct TopicPoints {
  std::string topic;
  std::int64_t hundredths = 0;
  std::int64_t possible_hundredths = 0;
};

enum class Occasion { practice, test };

struct Result {
  Number person = 0;
  std::string quiz;  ///< its code
  Date day = {};
  Occasion occasion = Occasion::test;
  std::vector<TopicPoints> topics;
  std::vector<std::string> missed = {};  ///< ids of the items answered wrongly or not at all

  std::int64_t hundredths() const;
  std::int64_t possible_hundredths() const;
};

/// Why training is due. The first three are those of 29 CFR 1926.503(c).
enum class Reason {
  workplace_changed,     ///< earlier training is obsolete for the workplace as it is now
  equipment_changed,     ///< ... for the fall protection now used
  knowledge_inadequate,  ///< knowledge or use shows that it was not retained
  interval_passed,       ///< the employer's refresher interval
  never_trained,         ///< the employer's policy asks for the course; never recorded, only found
};

/// The person has to be trained again, from the day `since` until a training on that day or later.
struct Retraining {
  Number person = 0;
  Number course = 0;
  Date since = {};
  Reason reason = Reason::knowledge_inadequate;
  std::string remark = {};  ///< personal data: erased with the person
};

enum class Signer { trainer, employer };

/// The written certification. Printed with a line to sign; the store keeps that it was issued.
struct Certificate {
  Number person = 0;
  Number course = 0;
  std::optional<Number> session = {};
  /// The date(s) of training; where `prior_training`, the day the employer found training by
  /// someone else adequate, which 29 CFR 1926.503(b)(1) asks for instead (from memory).
  std::vector<Date> days;
  Signer signer = Signer::trainer;
  std::optional<Number> signed_by = {};  ///< the Person or the Employer
  bool prior_training = false;
};

/// The entry that this one corrects was made by mistake and does not count.
struct Withdrawal {
  std::string remark = {};  ///< personal data where the entry is about a person
};

/// The personal data of a person was removed on request. Entries about them stay, without a name.
struct Erasure {
  Number person = 0;
};

using Content = std::variant<Employer, Course, Policy, Person, Session, Attendance, Quiz, Result,
                             Retraining, Certificate, Withdrawal, Erasure>;

struct Entry {
  Number number = 0;
  Date recorded = {};
  /// What it stands in the place of: always the first entry about the subject, however many
  /// corrections there were.
  std::optional<Number> corrects = {};
  Content content = {};
  bool erased = false;  ///< it had personal data, and the person was erased: those texts are empty

  Number subject() const { return corrects.value_or(number); }
};

/// A content that is in effect, with the subject's number.
template <class T>
struct Numbered {
  Number number = 0;
  T value = {};
  bool erased = false;
};

/// Of entries in the order of their numbers: the last one for each subject, in the order of the
/// subjects; withdrawn ones are left out.
std::vector<Entry> in_effect(const std::vector<Entry>& entries);

/// When a person is to be trained for a course, and why.
struct Standing {
  Number person = 0;
  Number course = 0;
  std::optional<Date> trained = {};  ///< last day of the latest completed training
  std::optional<Date> due = {};      ///< nothing: not due again by what is known
  Reason reason = Reason::interval_passed;
};

/// One word as files write it ("workplace-changed"), and back; nothing for an unknown one.
std::string_view word(Reason reason);
std::string_view word(Occasion occasion);
std::string_view word(Signer signer);
std::optional<Reason> read_reason(std::string_view text);
std::optional<Occasion> read_occasion(std::string_view text);
std::optional<Signer> read_signer(std::string_view text);

/// The kind of a content in one word: "person", "session" ...
std::string_view kind_of(const Content& content);

}  // namespace footroom::records
