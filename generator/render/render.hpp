#pragma once
// From the model to the text of a format. Nothing here computes: numbers come as text, drawings are
// placed, mathematics is set. Each format escapes in one function.

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "engine/text.hpp"
#include "quiz/maker.hpp"
#include "quiz/question.hpp"

namespace footroom::render {

/// Takes a text piece by piece, where it is too long to be held.
using Write = std::function<void(std::string_view)>;

/// Which of a question's two faces is wanted.
enum class Face { sheet, key };

/// The templates and labels of templates/, read once and used for every sheet.
class Templates {
 public:
  /// Throws std::runtime_error "file:line: ..." where a template or a label is missing or broken.
  explicit Templates(const std::filesystem::path& folder);
  ~Templates();
  Templates(Templates&&) noexcept;

  struct Parts;
  const Parts& parts() const { return *parts_; }

 private:
  std::unique_ptr<Parts> parts_;
};

/// Markdown of one sheet or key. Figures are links to figures/SEAT-NUMBER[-key].svg.
std::string markdown(const Templates&, const quiz::Header&, const quiz::Sheet&, Face);

/// A whole HTML page of one sheet or key, self-contained: styles, drawings and mathematics inside.
std::string html_page(const Templates&, const quiz::Header&, const quiz::Sheet&, Face);

/// One face of a sheet in all its formats, at once: they share what they have in common.
struct FacePages {
  struct Figure {
    int question;
    std::string svg;  ///< a file
  };
  std::string markdown;
  std::string html_page;
  std::string html_part;
  std::vector<Figure> figures;
};
FacePages face_pages(const Templates&, const quiz::Header&, const quiz::Sheet&, Face);

/// all-sheets.html and all-keys.html: a start, each sheet's part, an end, so that a caller can
/// write them one by one.
void write_html_start(const Templates&, const quiz::Header&, Face, const Write&);
std::string html_start(const Templates&, const quiz::Header&, Face);
std::string html_part(const Templates&, const quiz::Header&, const quiz::Sheet&, Face);
std::string html_end(const Templates&, const quiz::Header&, Face);

/// A drawing as SVG, to be had under any id.
class Svg {
 public:
  explicit Svg(const figure::Drawing&);
  /// To put into HTML, where ids differ.
  std::string element(const std::string& id) const;
  std::string file() const;

 private:
  std::string whole(std::string_view before, std::string_view id) const;

  std::string text_;
  std::vector<std::size_t> ids_;  ///< where the id belongs
};

/// A stand-alone SVG file, and the same as an element to put into HTML.
std::string svg_file(const figure::Drawing&);
std::string svg_element(const figure::Drawing&, const std::string& id);

/// MathML of set mathematics, without a surrounding paragraph.
std::string mathml(const notation::Math&);

/// quiz.json: a start, each sheet, an end (see questionbank/quiz.schema.json).
std::string json_start(const quiz::Header&);
std::string json_sheet(const quiz::Sheet&, bool first);
std::string json_end();

/// responses.csv (RFC 4180): a row a seat, a column a question.
std::string responses_header(const quiz::Sheet&);
std::string responses_row(const quiz::Sheet&);

/// A table of questions with their answers (RFC 4180): a row a question of a sheet.
std::string questions_csv_header();
std::string questions_csv_rows(const quiz::Header&, const quiz::Sheet&);

}  // namespace footroom::render
