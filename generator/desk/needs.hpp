#pragma once
#include <string>

#include "desk/room.hpp"
#include "quiz/question.hpp"

namespace footroom::desk {

/// What a person needs, in words: "sheet in Spanish, large print, 25% more time".
std::string needs_text(const Call& call, const quiz::Accommodations& needs);

}  // namespace footroom::desk
