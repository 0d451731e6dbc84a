#pragma once
#include "records/database.hpp"
#include "records/store.hpp"

namespace footroom::records {

/// What stands out first, looking at the database as a whole, then at each entry, then at what
/// follows from the entries.
std::optional<BadEntry> verify(Database& database, const std::optional<Head>& kept,
                               const Told& told);

/// What is wrong with an entry that should follow `previous`; empty: nothing.
std::string fault_of(const Row& row, const Head& previous);

}  // namespace footroom::records
