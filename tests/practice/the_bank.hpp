#pragma once
#include "bank/read.hpp"

/// The question bank of the project, read once.
inline const footroom::bank::Bank& the_bank() {
  static const footroom::bank::Bank bank =
      footroom::bank::read_bank(FOOTROOM_SOURCE_DIR "/questionbank").bank;
  return bank;
}
