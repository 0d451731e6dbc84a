#include "tasks/quiz_files.hpp"

#include <algorithm>
#include <iterator>
#include <regex>
#include <utility>
#include <vector>

#include "bank/digest.hpp"
#include "tasks/csv_rows.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/in_order.hpp"

namespace footroom::tasks {
namespace {

using render::Face;

struct File {
  std::string name;
  std::string bytes;
};

/// The pages and drawings of one face of a sheet, and its part of the collection.
struct FaceFiles {
  std::vector<File> files;
  std::string part;
};

FaceFiles face_files(const render::Templates& templates, const quiz::Header& of_sheet,
                     const quiz::Sheet& sheet, Face face) {
  render::FacePages pages = render::face_pages(templates, of_sheet, sheet, face);
  const std::string page = (face == Face::sheet ? "sheet-" : "key-") + sheet.seat;
  FaceFiles made;
  made.files.push_back({page + ".md", std::move(pages.markdown)});
  made.files.push_back({page + ".html", std::move(pages.html_page)});
  for (auto& figure : pages.figures)
    made.files.push_back({"figures/" + sheet.seat + "-" + std::to_string(figure.question) +
                              (face == Face::sheet ? ".svg" : "-key.svg"),
                          std::move(figure.svg)});
  made.part = std::move(pages.html_part);
  return made;
}

/// What is left to do for a seat whose own files are written: its share of the files of all.
struct MadeSeat {
  std::string sheet_part;
  std::string key_part;
  std::string json;
  std::string responses;
  std::vector<std::pair<std::string, std::string>> digests;  ///< by name of the file
};

MadeSeat make_seat(const quiz::Maker& maker, const render::Templates& templates,
                   const OutputFolder& out, const quiz::Sheet& sheet, bool first,
                   bool with_digests) {
  const quiz::Header header = quiz::header_of(maker.header(), sheet);
  MadeSeat made;
  for (const Face face : {Face::sheet, Face::key}) {
    FaceFiles of_face = face_files(templates, header, sheet, face);
    for (const File& file : of_face.files) {
      out.write(file.name, file.bytes);
      if (with_digests) made.digests.emplace_back(file.name, bank::sha256(file.bytes));
    }
    (face == Face::sheet ? made.sheet_part : made.key_part) = std::move(of_face.part);
  }
  made.json = render::json_sheet(sheet, first);
  if (first) made.responses = render::responses_header(sheet);
  made.responses += render::responses_row(sheet);
  return made;
}

}  // namespace

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

bool is_quiz_file(const std::string& path) {
  return !seat_of_file(path).empty() ||
         std::find(files_of_all.begin(), files_of_all.end(), path) != files_of_all.end();
}

std::string seat_of_file(const std::string& path) {
  static const std::regex of_seat(
      "(?:sheet|key)-([A-Z]+)\\.(?:md|html)|figures/([A-Z]+)-[0-9]+(?:-key)?\\.svg");
  std::smatch found;
  if (!std::regex_match(path, found, of_seat)) return {};
  return found[1].matched ? found[1].str() : found[2].str();
}

void write_seats(const quiz::Maker& maker, const render::Templates& templates,
                 const OutputFolder& out, const std::string& shares, quiz::SeatRange seats,
                 const Told& sheets_written, std::size_t jobs,
                 const std::function<void(std::string_view, std::string_view)>& digests) {
  const quiz::Header& header = maker.header();
  out.folder("figures");
  OutputFile all_sheets = out.file(shares + "all-sheets.html");
  OutputFile all_keys = out.file(shares + "all-keys.html");
  OutputFile json = out.file(shares + "quiz.json");
  OutputFile responses = out.file(shares + "responses.csv");

  if (seats.first == 0) {
    const auto into = [](OutputFile& file) {
      return [&file](std::string_view piece) { file.write(piece); };
    };
    render::write_html_start(templates, header, Face::sheet, into(all_sheets));
    render::write_html_start(templates, header, Face::key, into(all_keys));
    json.write(render::json_start(header));
  }
  const std::size_t ahead = 4 * jobs;
  std::vector<MadeSeat> waiting(ahead);
  const auto make = [&](std::size_t i) {
    const int index = seats.first + static_cast<int>(i);
    waiting[i % ahead] =
        make_seat(maker, templates, out, maker.sheet(index), index == 0, digests.operator bool());
  };
  const auto finish = [&](std::size_t i) {
    MadeSeat made = std::move(waiting[i % ahead]);
    all_sheets.write(made.sheet_part);
    all_keys.write(made.key_part);
    json.write(made.json);
    responses.write(made.responses);
    for (const auto& [name, digest] : made.digests) digests(name, digest);
    sheets_written(i + 1);
  };
  work_in_order(static_cast<std::size_t>(seats.count()), jobs, make, finish, ahead);
  if (seats.last == header.sheets - 1) {
    all_sheets.write(render::html_end(templates, header, Face::sheet));
    all_keys.write(render::html_end(templates, header, Face::key));
    json.write(render::json_end());
  }
  all_sheets.close();
  all_keys.close();
  json.close();
  responses.close();
}

void write_quiz(const quiz::Maker& maker, const render::Templates& templates,
                const std::filesystem::path& folder, const Told& sheets_written, std::size_t jobs) {
  refuse_filled_in(folder / "responses.csv");
  OutputFolder out(folder, is_quiz_file);
  write_seats(maker, templates, out, "", {0, maker.header().sheets - 1}, sheets_written, jobs);
  out.publish();
}

void write_sheet(const quiz::Header& header, const quiz::Sheet& sheet,
                 const render::Templates& templates, const std::filesystem::path& folder) {
  OutputFolder out(folder,
                   [&](const std::string& path) { return seat_of_file(path) == sheet.seat; });
  out.folder("figures");
  for (const Face face : {Face::sheet, Face::key})
    for (const File& file :
         face_files(templates, quiz::header_of(header, sheet), sheet, face).files)
      out.write(file.name, file.bytes);
  out.publish();
}

}  // namespace footroom::tasks
