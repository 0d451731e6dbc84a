#pragma once
// Rows of record_exchange.hpp into a store: all of them or none.

#include <cstddef>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "records/store.hpp"
#include "tasks/record_exchange.hpp"

namespace footroom::tasks {

class RecordImport {
 public:
  /// Where `add_employers`, those that the store does not have are added.
  RecordImport(records::Store& store, records::Writing& writing, bool add_employers);

  /// Adds each row; why one was refused goes to `refused` as a whole message. `tell` gets the
  /// number of rows that are done. The caller commits, unless anything was refused.
  void add(
      Exchanged what, const std::vector<ExchangeRow>& rows, Refusals& refused,
      const std::function<void(std::size_t)>& tell = [](std::size_t) {});

 private:
  std::optional<records::Number> employer_of(const std::string& name);
  void add_person(const ExchangeRow& row);
  void add_result(const ExchangeRow& row);
  records::Number person_of(const ExchangeRow& row);

  records::Store& store_;
  records::Writing& writing_;
  bool add_employers_;
  std::map<std::string, records::Number> employers_;
};

}  // namespace footroom::tasks
