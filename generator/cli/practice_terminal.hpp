#pragma once
#include <istream>
#include <ostream>

#include "practice/sitting.hpp"

namespace footroom::cli {

/// Practises line by line, readable at 80 columns, until "quit" or the end of the input. `progress`
/// goes on from where it is; a sitting that begins here takes `seed`.
void practise_in_terminal(const practice::Sitting& sitting, practice::Progress& progress,
                          const practice::Choice& choice, const practice::Face& face,
                          std::uint64_t seed, std::istream& in, std::ostream& out);

}  // namespace footroom::cli
