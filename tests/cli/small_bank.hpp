#pragma once
// The bank of the golden quiz: one item of each kind.

#include <filesystem>
#include <stdexcept>
#include <string>

#include "cli/program_run.hpp"

namespace footroom::cli::testing {

inline const fs::path small_bank = fs::path(FOOTROOM_SOURCE_DIR) / "tests" / "golden" / "bank";

/// A copy of it, as `bank` in the scratch folder, with one file changed.
inline void bank_with(const Scratch& scratch, const std::string& file, const std::string& from,
                      const std::string& to) {
  const auto bank = scratch.path / "bank";
  fs::copy(small_bank, bank, fs::copy_options::recursive);
  std::string text = contents(bank / file);
  const auto at = text.find(from);
  if (at == std::string::npos) throw std::runtime_error(file + " has no " + from);
  put(bank / file, text.replace(at, from.size(), to));
}

}  // namespace footroom::cli::testing
