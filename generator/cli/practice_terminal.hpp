#pragma once
#include <istream>
#include <ostream>

#include "practice/sitting.hpp"

namespace footroom::cli {

/// Practises line by line, readable at 80 columns, until "quit" or the end of the input. `progress`
/// goes on from where it is; a sitting that begins here takes `seed`. `echo`: what was read is
/// written too, since nobody typed it into the terminal.
void practise_in_terminal(const practice::Sitting& sitting, practice::Progress& progress,
                          const practice::Choice& choice, const practice::Face& face,
                          std::uint64_t seed, std::istream& in, std::ostream& out, bool echo);

}  // namespace footroom::cli
