#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "bank/item.hpp"

namespace footroom::practice {

/// What questions are made of, in JSON: topics, items, pools, the rule set `rules` and the digest.
/// Blueprints, course plans, trade terms and the positions in files stay behind.
nlohmann::ordered_json packed(const bank::Bank& bank, const std::string& rules);

/// The bank again. Throws nlohmann::json::exception where `json` is not what packed() made.
bank::Bank unpacked(const nlohmann::ordered_json& json);

}  // namespace footroom::practice
