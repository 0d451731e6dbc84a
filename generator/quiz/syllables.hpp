#pragma once
#include <string_view>

namespace footroom::quiz {

/// Syllables of one word in UTF-8, in capitals or not; 0 where it has no letter. An apostrophe is
/// passed over. English goes by rules with a list of exceptions (spelling does not tell for sure);
/// Spanish by the rules of its orthography: strong vowels beside each other are apart, a weak one
/// joins its neighbour unless it bears the accent, an h between them does not count (RAE and ASALE,
/// Ortografía de la lengua española, 2010, chapter II, from memory). Checked against the rows of
/// tests/quiz/syllables-en.csv and syllables-es.csv.
int english_syllables(std::string_view word);
int spanish_syllables(std::string_view word);

}  // namespace footroom::quiz
