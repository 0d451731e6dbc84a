#include "records/model.hpp"

#include <algorithm>
#include <array>
#include <map>

namespace footroom::records {
namespace {

constexpr std::array<std::string_view, 5> reasons{"workplace-changed", "equipment-changed",
                                                  "knowledge-inadequate", "interval-passed",
                                                  "never-trained"};
constexpr std::array<std::string_view, 2> occasions{"practice", "test"};
constexpr std::array<std::string_view, 2> signers{"trainer", "employer"};

/// In the order of Content.
constexpr std::array<std::string_view, std::variant_size_v<Content>> kinds{
    "employer", "course", "policy",     "person",      "session",    "attendance",
    "quiz",     "result", "retraining", "certificate", "withdrawal", "erasure"};

template <class T, std::size_t size>
std::optional<T> find(const std::array<std::string_view, size>& words, std::string_view text) {
  const auto at = std::find(words.begin(), words.end(), text);
  if (at == words.end()) return std::nullopt;
  return static_cast<T>(at - words.begin());
}

}  // namespace

std::int64_t Result::hundredths() const {
  std::int64_t sum = 0;
  for (const auto& topic : topics) sum += topic.hundredths;
  return sum;
}

std::int64_t Result::possible_hundredths() const {
  std::int64_t sum = 0;
  for (const auto& topic : topics) sum += topic.possible_hundredths;
  return sum;
}

std::vector<Entry> in_effect(const std::vector<Entry>& entries) {
  std::map<Number, const Entry*> latest;
  for (const auto& entry : entries) latest[entry.subject()] = &entry;
  std::vector<Entry> effective;
  for (const auto& [subject, entry] : latest)
    if (!std::holds_alternative<Withdrawal>(entry->content)) effective.push_back(*entry);
  return effective;
}

std::string_view word(Reason reason) {
  return reasons.at(static_cast<std::size_t>(reason));
}
std::string_view word(Occasion occasion) {
  return occasions.at(static_cast<std::size_t>(occasion));
}
std::string_view word(Signer signer) {
  return signers.at(static_cast<std::size_t>(signer));
}
std::optional<Reason> read_reason(std::string_view text) {
  return find<Reason>(reasons, text);
}
std::optional<Occasion> read_occasion(std::string_view text) {
  return find<Occasion>(occasions, text);
}
std::optional<Signer> read_signer(std::string_view text) {
  return find<Signer>(signers, text);
}

std::string_view kind_of(const Content& content) {
  return kinds.at(content.index());
}

}  // namespace footroom::records
