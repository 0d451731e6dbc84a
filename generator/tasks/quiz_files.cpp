#include "tasks/quiz_files.hpp"

#include <iterator>
#include <regex>

#include "tasks/csv_rows.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"

namespace footroom::tasks {
namespace {

using render::Face;

/// The pages and drawings of one face of a sheet. `header` is the sheet's own.
void write_face(const OutputFolder& folder, const render::Templates& templates,
                const quiz::Header& header, const quiz::Sheet& sheet, Face face) {
  const std::string page = (face == Face::sheet ? "sheet-" : "key-") + sheet.seat;
  folder.write(page + ".md", render::markdown(templates, header, sheet, face));
  folder.write(page + ".html", render::html_page(templates, header, sheet, face));
  if (sheet.accommodations.without_figures) return;
  for (const auto& question : sheet.questions) {
    const auto& drawing = face == Face::sheet ? question.sheet_figure : question.key_figure;
    if (!drawing) continue;
    folder.write("figures/" + sheet.seat + "-" + std::to_string(question.number) +
                     (face == Face::sheet ? ".svg" : "-key.svg"),
                 render::svg_file(*drawing));
  }
}

/// Everything that belongs to one face of a quiz: a page a seat, its drawings, and the collection.
class Pages {
 public:
  Pages(const OutputFolder& folder, const render::Templates& templates, const quiz::Header& header,
        Face face)
      : folder_(folder),
        templates_(templates),
        header_(header),
        face_(face),
        collection_(folder.file(face == Face::sheet ? "all-sheets.html" : "all-keys.html")) {
    collection_.write(render::html_start(templates_, header_, face_));
  }

  void add(const quiz::Sheet& sheet) {
    const quiz::Header header = quiz::header_of(header_, sheet);
    write_face(folder_, templates_, header, sheet, face_);
    collection_.write(render::html_part(templates_, header, sheet, face_));
  }

  void close() {
    collection_.write(render::html_end(templates_, header_, face_));
    collection_.close();
  }

 private:
  const OutputFolder& folder_;
  const render::Templates& templates_;
  const quiz::Header& header_;
  Face face_;
  OutputFile collection_;
};

/// A class's answers are not written over: whoever made the quiz anew by mistake keeps them.
void refuse_filled_in(const std::filesystem::path& responses) {
  if (!std::filesystem::exists(responses)) return;
  const auto rows = read_csv(file_text(responses));
  if (rows.empty()) return;
  const auto& titles = rows.front().fields;
  for (auto row = std::next(rows.begin()); row != rows.end(); ++row) {
    bool filled_in = !row->wrong.empty();
    for (std::size_t i = 0; i < row->fields.size(); ++i) {
      const bool answer =
          i >= titles.size() || titles[i].find_first_not_of("0123456789") == std::string::npos;
      filled_in = filled_in || (answer && !row->fields[i].empty());
    }
    if (filled_in)
      throw Failure(ExitCode::cannot_read_or_write,
                    responses.string() + ":" + std::to_string(row->line) +
                        engine::Wording{": holds answers, which a new quiz would replace; move the "
                                        "file away or write elsewhere",
                                        ": tiene respuestas, que un examen nuevo reemplazaría; "
                                        "mueva el archivo o escriba en otra parte"});
  }
}

}  // namespace

bool is_quiz_file(const std::string& path) {
  static const std::regex ours(
      "(sheet|key)-[A-Z]+\\.(md|html)|all-(sheets|keys)\\.html|quiz\\.json|responses\\.csv|"
      "figures/[A-Z]+-[0-9]+(-key)?\\.svg");
  return std::regex_match(path, ours);
}

void write_quiz(const quiz::Maker& maker, const render::Templates& templates,
                const std::filesystem::path& folder, const Told& sheets_written) {
  refuse_filled_in(folder / "responses.csv");
  const quiz::Header& header = maker.header();
  OutputFolder out(folder, is_quiz_file);
  out.folder("figures");
  Pages sheets(out, templates, header, Face::sheet);
  Pages keys(out, templates, header, Face::key);
  OutputFile json = out.file("quiz.json");
  OutputFile responses = out.file("responses.csv");

  json.write(render::json_start(header));
  for (int index = 0; index < header.sheets; ++index) {
    const quiz::Sheet sheet = maker.sheet(index);
    sheets.add(sheet);
    keys.add(sheet);
    json.write(render::json_sheet(sheet, index == 0));
    if (index == 0) responses.write(render::responses_header(sheet));
    responses.write(render::responses_row(sheet));
    sheets_written(static_cast<std::size_t>(index) + 1);
  }
  json.write(render::json_end());
  json.close();
  responses.close();
  sheets.close();
  keys.close();
  out.publish();
}

void write_sheet(const quiz::Header& header, const quiz::Sheet& sheet,
                 const render::Templates& templates, const std::filesystem::path& folder) {
  const std::regex of_seat("(sheet|key)-" + sheet.seat + "\\.(md|html)|figures/" + sheet.seat +
                           "-[0-9]+(-key)?\\.svg");
  OutputFolder out(folder,
                   [&](const std::string& path) { return std::regex_match(path, of_seat); });
  out.folder("figures");
  for (const Face face : {Face::sheet, Face::key})
    write_face(out, templates, quiz::header_of(header, sheet), sheet, face);
  out.publish();
}

}  // namespace footroom::tasks
