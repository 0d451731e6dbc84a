#pragma once
// Finding people among hundreds, and telling whether someone is recorded already.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "records/store.hpp"

namespace footroom::tasks {

/// As people look for a name: small letters, accents left out. What is no UTF-8 stays as it is.
std::string folded(std::string_view text);

struct Listed {
  records::Numbered<records::Person> person;
  std::string employer;  ///< may be empty
};

/// Everybody in effect whose name, identity, employer or number ("@12") have all the words of
/// `wanted` in them, by name; people who were erased come last, and only where nothing is wanted.
std::vector<Listed> list_people(records::Store& store, const std::string& wanted);

/// Who has this identity with this employer, other than the person `but`.
std::optional<records::Numbered<records::Person>> holder_of(
    records::Store& store, const std::string& identity,
    const std::optional<records::Number>& employer, records::Number but = 0);

/// Who else has this name with this employer, in whatever letters.
std::optional<records::Numbered<records::Person>> namesake_of(
    records::Store& store, const std::string& name, const std::optional<records::Number>& employer);

}  // namespace footroom::tasks
