#pragma once
// Correcting entries: what stands in the place of an earlier one, which stays readable.

#include <map>
#include <optional>
#include <string>

#include "records/store.hpp"

namespace footroom::tasks {

/// What is given anew, by name: name, identity, employer, left, days, place, trainer, completed,
/// english, spanish. Days are as YYYY-MM-DD, several with commas; completed is yes or no; employers
/// and people as find_employer() and find_person() take them. An empty text empties what may be
/// empty.
using Corrections = std::map<std::string, std::string>;

/// The content in effect of the subject of `entry`, with the corrections. What is not given stays
/// as it is. Throws Failure "--days: ..." where one cannot be read or fits no entry of this kind,
/// and where nothing is given.
records::Content corrected(records::Store& store, records::Number entry, Corrections corrections);

/// What undoes an entry about a person: where it stands in the place of another one, the content
/// before it; otherwise a withdrawal with the remark. Throws records::Refused where the person has
/// no such entry, or it no longer counts.
records::Content undoing(const records::PersonReport& report, records::Number entry,
                         const std::string& remark);

}  // namespace footroom::tasks
