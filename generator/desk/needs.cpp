#include "desk/needs.hpp"

#include <vector>

namespace footroom::desk {

std::string needs_text(const Call& call, const quiz::Accommodations& needs) {
  std::vector<std::string> all;
  if (needs.language)
    all.push_back(
        call.say(*needs.language == engine::Language::english ? "needs-english" : "needs-spanish"));
  if (needs.large_print) all.push_back(call.say("needs-large-print"));
  if (needs.without_figures) all.push_back(call.say("needs-without-figures"));
  if (needs.extra_percent > 0) all.push_back(call.say_with("needs-percent", needs.extra_percent));
  if (needs.extra_minutes > 0) all.push_back(call.say_with("needs-minutes", needs.extra_minutes));
  std::string text;
  for (const auto& one : all) text += (text.empty() ? "" : ", ") + one;
  return text;
}

}  // namespace footroom::desk
