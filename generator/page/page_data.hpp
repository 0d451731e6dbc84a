#pragma once
#include <string>
#include <vector>

#include "bank/item.hpp"
#include "practice/face.hpp"
#include "render/labels.hpp"

namespace footroom::page {

struct Week {
  int number = 1;
  std::vector<std::string> topics;  ///< taught up to it
};

/// What a page is made for.
struct PageSettings {
  std::string rules;
  practice::Face face;              ///< at first; the student may change it
  bank::Text course;                ///< title of the course plan; may be empty
  std::vector<Week> weeks;          ///< of it
  std::vector<std::string> topics;  ///< the only ones; empty: all
  std::string program;              ///< version
};

/// The text that Core reads: the bank, the labels and the settings.
std::string page_data(const bank::Bank& bank, const render::Labels& labels,
                      const PageSettings& settings);

}  // namespace footroom::page
