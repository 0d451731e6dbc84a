#pragma once
#include <filesystem>
#include <string_view>
#include <vector>

#include "bank/item.hpp"

namespace footroom::bank {

struct ReadBank {
  Bank bank;                    ///< what could be read
  std::vector<Defect> defects;  ///< one bad file or item does not stop the rest
};

/// Reads a bank folder: topics.xml, trade-terms.xml (may be missing), items/**.xml, pools/*.xml,
/// blueprints/*.xml, courses/*.xml, rules/*.xml.
/// Structure is checked here (elements, attributes, both languages present, ids unique, numbers
/// are numbers); what formulas and calculations mean is checked where a question is made.
/// Files are read in name order. Throws std::filesystem::filesystem_error where the folder cannot
/// be read.
ReadBank read_bank(const std::filesystem::path& folder);

/// One item file from memory; `file` is the name for messages.
struct ReadItems {
  std::vector<Item> items;
  std::vector<Defect> defects;
};
ReadItems read_items(std::string_view xml, const std::string& file);

}  // namespace footroom::bank
