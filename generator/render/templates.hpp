#pragma once
// The files of templates/ in memory, each parsed once.

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "engine/text.hpp"
#include "render/data.hpp"
#include "render/labels.hpp"
#include "render/render.hpp"
#include "render/template.hpp"

namespace footroom::render {

namespace mustache {
using data = Data;
}

/// Reads labels.xml, or practice/labels.xml. Throws std::runtime_error "file:line: ...", also where
/// one of `needed` is missing.
Labels read_labels(const std::filesystem::path& file, const std::vector<std::string>& needed);
/// What the renderers themselves say, of labels.xml.
std::vector<std::string> labels_of_code();

/// All labels, for a template's {{label.ID}}; see Data::look_also_in.
mustache::data label_data(const Labels& labels, engine::Language language);

/// The text of a template with its includes in place. Throws std::runtime_error "file:line: ..."
/// where its syntax is broken or a label is not one of `labels`.
std::string template_text(const std::filesystem::path& folder, const std::string& name,
                          const Labels& labels);

/// A list under its name, and "has-NAME" which is true where it is not empty.
template <class Lines, class Write>
void set_list(mustache::data& data, const std::string& name, const Lines& lines, Write write) {
  mustache::data list(mustache::data::type::list);
  for (const auto& line : lines) list << write(line);
  data.set("has-" + name, mustache::data(!lines.empty()));
  data.set(name, std::move(list));
}

struct Templates::Parts {
  Labels labels;
  mustache::data english;
  mustache::data spanish;
  std::string styles;
  std::string large_styles;   ///< beside them, where a sheet is in large print
  std::string record_styles;  ///< beside them, for the pages from the training records
  Template page_start;
  Template page_end;
  Template html_sheet;
  Template html_key;
  Template markdown_sheet;
  Template markdown_key;
  Template html_feedback;
  Template markdown_feedback;
  Template html_class_report;
  Template markdown_class_report;
  Template html_statistics;
  Template markdown_statistics;
  Template html_manual;
  Template markdown_manual;
  Template html_certificate;
  Template markdown_certificate;
  Template html_person_record;
  Template markdown_person_record;

  const mustache::data& label_data(engine::Language language) const {
    return language == engine::Language::english ? english : spanish;
  }
};

}  // namespace footroom::render
