#pragma once
// The practice page's core, on the project's own bank.

#include "fuzz/bank_files.hpp"
#include "page/core.hpp"
#include "page/page_data.hpp"
#include "render/practice_view.hpp"
#include "render/templates.hpp"

namespace footroom::fuzz {

inline const page::Core& the_core() {
  static const page::Core core = [] {
    auto labels = render::read_labels(project() / "templates/practice/labels.xml", {});
    const auto shared =
        render::read_labels(project() / "templates/labels.xml", render::labels_of_practice());
    for (const std::string& id : render::labels_of_practice())
      labels.add(id, shared.at(id, engine::Language::english),
                 shared.at(id, engine::Language::spanish));
    return page::Core(
        page::page_data(the_bank(), labels, {"us-construction", {}, {}, {}, {}, "fuzz"}));
  }();
  return core;
}

}  // namespace footroom::fuzz
