#pragma once
// Everything about a person, in words: what is in effect, and every entry with what became of it.

#include <optional>
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "engine/text.hpp"
#include "records/store.hpp"
#include "render/record_pages.hpp"

namespace footroom::tasks {

/// What is in effect. Topics go by their ids where `bank` does not have them; `head` is that of the
/// store.
render::PersonRecord person_record(const records::PersonReport& report, const std::string& head,
                                   const bank::Bank& bank, engine::Language language);

/// What became of an entry.
enum class EntryState {
  counts,     ///< it is the last one about its subject
  corrected,  ///< a later one stands in its place
  withdrawn,  ///< it was made by mistake, a later one says so
};

struct HistoryLine {
  records::Number entry = 0;
  std::string recorded;                     ///< YYYY-MM-DD
  std::string says;                         ///< "Attendance: Fall protection, 2026-03-02"
  std::optional<records::Number> corrects;  ///< the first entry about its subject
  EntryState state = EntryState::counts;
  std::optional<records::Number> later;  ///< what stands in its place
};

/// Every entry about a person, in the order of their numbers.
std::vector<HistoryLine> history_of(const records::PersonReport& report, engine::Language language);

}  // namespace footroom::tasks
