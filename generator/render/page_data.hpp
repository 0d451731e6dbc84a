#pragma once
// What a template may mention, the same for Markdown and HTML: a Dress says how a format writes
// the parts that are more than text.

#include <functional>
#include <string>

#include "render/templates.hpp"

namespace footroom::render {

struct Dress {
  std::string (*prose)(std::string_view markdown);   ///< a text of the bank
  std::string (*option)(std::string_view markdown);  ///< the same inside a list
  std::string (*formula)(const notation::Math& formula);
  /// The drawing, or nothing where it is linked.
  std::function<std::string(const figure::Drawing& drawing, const std::string& id)> drawing;
  /// The code of a sheet for a camera, or nothing in plain text.
  std::string (*scannable)(const std::string& code, const std::string& label);
};

/// "2026-01-05" as people write it; anything else as it is.
std::string long_date(const Labels& labels, engine::Language language, const std::string& date);

mustache::data page_data(const Templates::Parts& parts, const quiz::Header& header, Face face);
/// The same with all of a sheet but its box and its questions, and one question.
mustache::data head_data(const Templates::Parts& parts, const quiz::Header& header,
                         const quiz::Sheet& sheet, Face face, const Dress& dress);
mustache::data question_data(const Templates::Parts& parts, const quiz::Header& header,
                             const quiz::Sheet& sheet, const quiz::Question& question, Face face,
                             const Dress& dress);
mustache::data sheet_data(const Templates::Parts& parts, const quiz::Header& header,
                          const quiz::Sheet& sheet, Face face, const Dress& dress);

}  // namespace footroom::render
