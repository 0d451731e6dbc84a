#pragma once
// What a run takes from the machine it runs on: nothing else of the program reads clock or chance,
// or starts another program.

#include <cstdint>
#include <string>

namespace footroom::cli {

/// 53 random bits: exact in every reader of quiz.json.
std::uint64_t random_seed();

/// 64 random hexadecimal digits, anew at each call.
std::string random_salt();

/// The secret of a quiz (see quiz::Settings), 128 random bits: more than anyone can try out.
std::string random_secret();

/// Opens an address in the user's browser, where the system has a way to; never waits for it.
void open_in_browser(const std::string& address);

/// The local date as YYYY-MM-DD.
std::string today();

/// "footroom 0.1.0"
std::string program_name();

}  // namespace footroom::cli
