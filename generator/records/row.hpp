#pragma once
// An entry as the database holds it, and the digests over it.

#include <optional>
#include <string>

#include "records/model.hpp"

namespace footroom::records {

/// Personal data of an entry, kept in a table of its own so that it can be erased.
struct Personal {
  std::string salt;  ///< 64 hexadecimal digits
  std::string name;
  std::string identity;
  std::string remark;
};

/// Every column but `digest` goes into the digest. What is indexed or refers to other entries has a
/// column; the rest of the content stands in `body`, as JSON.
struct Row {
  Number number = 0;
  std::string kind;
  std::string day;                 ///< recorded, YYYY-MM-DD
  std::optional<Number> person;    ///< the person it is about, if it is about one
  std::optional<Number> about;     ///< employer, course or session that it belongs to
  std::optional<Number> corrects;  ///< first entry about the subject
  std::string name;                ///< employer's name, code of a course or a quiz; else empty
  std::string body;
  std::string seal;    ///< digest over the personal data; empty where it has none
  std::string digest;  ///< over the digest of the entry before and all of the above
  std::optional<Personal> personal;
};

/// The digest before the first entry.
std::string first_digest();
std::string digest_of(const Row& row, const std::string& previous);
std::string seal_of(const Personal& personal);

/// The columns that follow from the content: all but number, day, corrects, seal, digest and the
/// salt. A new person has no number yet, so `person` is empty for them.
Row row_of(const Content& content);

/// Moves the remark of a withdrawal that is about nobody into the body.
void keep_remark_in_body(Row& row);

/// Throws std::runtime_error where the row is none that row_of() makes.
Entry entry_of(const Row& row);

/// Throws Refused where a content could not be kept as it is (text that is not UTF-8, with control
/// characters or too long) or makes no sense by itself (no name, points beyond the possible).
void check_content(const Content& content);

}  // namespace footroom::records
