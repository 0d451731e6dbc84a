#include "tasks/quiz_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <nlohmann/json.hpp>
#include <utility>

#include "bank/digest.hpp"
#include "tasks/failure.hpp"
#include "tasks/file_text.hpp"
#include "tasks/output_folder.hpp"
#include "tasks/quiz_files.hpp"

namespace footroom::tasks {
namespace {

namespace fs = std::filesystem;
using engine::Language;
using nlohmann::json;

constexpr const char* digests_file = "digests.txt";
constexpr const char* part_file = "part.json";

std::string part_name(quiz::SeatRange seats) {
  return fmt::format("part-{}-{}", quiz::seat_name(seats.first), quiz::seat_name(seats.last));
}

std::string seats_in_words(quiz::SeatRange seats) {
  return seats.count() == 1 ? "seat " + quiz::seat_name(seats.first)
                            : fmt::format("seats {} to {}", quiz::seat_name(seats.first),
                                          quiz::seat_name(seats.last));
}

/// A digest over all that the sheets of a quiz follow from beside the question bank: parts with the
/// same one were made with the same settings and the same class list.
std::string made_from(const quiz::Header& header, const std::vector<std::string>& names) {
  bank::Sha256 sum;
  const auto add = [&sum](std::string_view text) {
    sum.add(std::to_string(text.size()) + ":");
    sum.add(text);
  };
  add(render::json_start(header));
  add(std::to_string(header.sheets));
  for (const std::string& name : names) add(name);
  if (header.accommodations)
    for (const quiz::Accommodations& seat : *header.accommodations)
      add(fmt::format("{} {} {} {} {}", seat.language ? static_cast<int>(*seat.language) : -1,
                      seat.large_print, seat.without_figures, seat.extra_percent,
                      seat.extra_minutes));
  return sum.hexadecimal();
}

/// A file read in pieces: its share of a large class need not fit into memory.
void each_piece(const fs::path& file, const std::function<void(std::string_view)>& take) {
  std::ifstream in(file, std::ios::binary);
  if (!in)
    throw Failure(ExitCode::cannot_read_or_write,
                  file.string() + ": cannot read, expected a file of the part");
  std::array<char, 1 << 16> piece;
  while (in.read(piece.data(), piece.size()) || in.gcount() > 0)
    take({piece.data(), static_cast<std::size_t>(in.gcount())});
}

std::string digest_line(std::string_view digest, std::string_view name) {
  return fmt::format("{}  {}\n", digest, name);
}

/// A name in digests.txt comes from outside: only those that a part writes are taken.
bool is_file_of_part(const std::string& name, const std::string& part, quiz::SeatRange seats) {
  if (name.starts_with(part + "/"))
    return std::find(files_of_all.begin(), files_of_all.end(), name.substr(part.size() + 1)) !=
           files_of_all.end();
  const auto index = quiz::seat_index(seat_of_file(name));
  return index && *index >= seats.first && *index <= seats.last;
}

}  // namespace

void write_part(const quiz::Maker& maker, const std::vector<std::string>& names,
                const render::Templates& templates, const fs::path& folder, quiz::SeatRange seats,
                const Told& sheets_written, std::size_t jobs) {
  const std::string name = part_name(seats);
  OutputFolder out(folder, [&](const std::string& path) {
    if (path.starts_with(name + "/")) return true;
    const auto index = quiz::seat_index(seat_of_file(path));
    return index && *index >= seats.first && *index <= seats.last;
  });
  out.folder(name);
  OutputFile digests = out.file(name + "/" + digests_file);
  bank::Sha256 of_digests;
  const auto note = [&](std::string_view file, std::string_view digest) {
    const std::string line = digest_line(digest, file);
    of_digests.add(line);
    digests.write(line);
  };
  write_seats(maker, templates, out, name + "/", seats, sheets_written, jobs, note);
  for (const char* file : files_of_all) {
    bank::Sha256 sum;
    each_piece(out.place_of(name + "/" + file), [&](std::string_view piece) { sum.add(piece); });
    note(name + "/" + file, sum.hexadecimal());
  }
  digests.close();
  const quiz::Header& header = maker.header();
  out.write(
      name + "/" + part_file,
      nlohmann::ordered_json{{"format", 1},
                             {"quiz", header.code},
                             {"language", header.style.language == Language::english ? "en" : "es"},
                             {"sheets", header.sheets},
                             {"first", quiz::seat_name(seats.first)},
                             {"last", quiz::seat_name(seats.last)},
                             {"made-from", made_from(header, names)},
                             {"digests", of_digests.hexadecimal()}}
              .dump(1) +
          "\n");
  out.publish();
}

Parts::Part Parts::read(const fs::path& folder, const std::string& name) {
  const fs::path file = folder / name / part_file;
  const auto refuse = [&](const std::string& what) {
    return Failure(ExitCode::input_faulty, file.string() + ":1: " + what);
  };
  const json read = json::parse(file_text(file), nullptr, false);
  const auto has = [&](const char* key, bool (json::*is)() const noexcept) {
    return read.is_object() && read.contains(key) && (read.at(key).*is)();
  };
  for (const char* key : {"quiz", "language", "first", "last", "made-from", "digests"})
    if (!has(key, &json::is_string))
      throw refuse(
          fmt::format("has no text \"{}\", expected what footroom quiz --seats wrote", key));
  if (!has("format", &json::is_number_integer) || read.at("format") != 1 ||
      !has("sheets", &json::is_number_integer))
    throw refuse("is of another format, expected \"format\": 1 and a number of \"sheets\"");
  Part part;
  part.folder = folder;
  part.name = name;
  part.quiz = read.at("quiz");
  part.made_from = read.at("made-from");
  part.language = read.at("language") == "es" ? Language::spanish : Language::english;
  part.sheets = read.at("sheets");
  try {
    part.seats = quiz::read_seat_range(
        std::string(read.at("first")) + ".." + std::string(read.at("last")), part.sheets);
  } catch (const quiz::FaultyRange& faulty) {
    throw refuse(faulty.what());
  }
  if (name != part_name(part.seats))
    throw refuse("tells of " + seats_in_words(part.seats) + ", expected those of the folder " +
                 name);
  bank::Sha256 of_digests;
  each_piece(folder / name / digests_file, [&](std::string_view piece) { of_digests.add(piece); });
  if (of_digests.hexadecimal() != read.at("digests"))
    throw Failure(ExitCode::input_faulty,
                  (folder / name / digests_file).string() +
                      ":1: was changed since the part was written; make the part again");
  return part;
}

Parts::Parts(const std::vector<fs::path>& folders) {
  std::vector<std::string> faults;
  for (const fs::path& folder : folders) {
    if (!fs::is_directory(folder))
      throw Failure(ExitCode::cannot_read_or_write,
                    folder.string() + ": is no folder, expected one with a part of a quiz");
    bool any = false;
    for (const auto& entry : fs::directory_iterator(folder)) {
      const std::string name = entry.path().filename().string();
      if (!name.starts_with("part-") || !fs::exists(entry.path() / part_file)) continue;
      any = true;
      try {
        parts_.push_back(read(folder, name));
      } catch (const Failure& failure) {
        faults.emplace_back(failure.what());
      }
    }
    if (!any)
      faults.push_back(folder.string() +
                       ": has no part of a quiz, expected what footroom quiz --seats wrote");
  }
  std::sort(parts_.begin(), parts_.end(), [](const Part& a, const Part& b) {
    return std::pair(a.seats.first, a.folder) < std::pair(b.seats.first, b.folder);
  });
  int next = 0;
  for (const Part& part : parts_) {
    const std::string where = (part.folder / part.name).string();
    const Part& first = parts_.front();
    if (part.quiz != first.quiz || part.made_from != first.made_from) {
      faults.push_back(fmt::format("{}: is of {}, expected the quiz {} of {}", where,
                                   part.quiz != first.quiz
                                       ? "the quiz " + part.quiz
                                       : "the same quiz with other settings or another class list",
                                   first.quiz, (first.folder / first.name).string()));
      continue;
    }
    if (part.seats.first < next)
      faults.push_back(
          fmt::format("{}: has {} a second time, expected each seat once", where,
                      seats_in_words({part.seats.first, std::min(part.seats.last, next - 1)})));
    if (part.seats.first > next)
      faults.push_back(fmt::format("{} of the quiz {}: no part has them, expected all",
                                   seats_in_words({next, part.seats.first - 1}), first.quiz));
    next = std::max(next, part.seats.last + 1);
  }
  if (!parts_.empty() && next < parts_.front().sheets)
    faults.push_back(fmt::format("{} of the quiz {}: no part has them, expected all",
                                 seats_in_words({next, parts_.front().sheets - 1}),
                                 parts_.front().quiz));
  if (faults.empty()) return;
  std::string all;
  for (const std::string& fault : faults) all += (all.empty() ? "" : "\n") + fault;
  throw Failure(ExitCode::input_faulty, all);
}

void Parts::join(const fs::path& folder, const Told& parts_joined) const {
  refuse_filled_in(folder / "responses.csv");
  OutputFolder out(folder, is_quiz_file);
  out.folder("figures");
  std::array<std::optional<OutputFile>, files_of_all.size()> whole;
  for (std::size_t i = 0; i < whole.size(); ++i) out.open(files_of_all[i], whole[i]);
  std::size_t done = 0;
  for (const Part& part : parts_) {
    std::ifstream lines(part.folder / part.name / digests_file, std::ios::binary);
    constexpr std::size_t digits = 64;
    int number = 0;
    for (std::string line; std::getline(lines, line);) {
      ++number;
      const std::string name = line.size() > digits + 2 ? line.substr(digits + 2) : "";
      if (!is_file_of_part(name, part.name, part.seats))
        throw Failure(ExitCode::input_faulty,
                      fmt::format("{}:{}: names no file of the part, expected SHA-256, two blanks "
                                  "and its name",
                                  (part.folder / part.name / digests_file).string(), number));
      bank::Sha256 sum;
      const auto copy = [&](OutputFile& to) {
        each_piece(part.folder / name, [&](std::string_view piece) {
          sum.add(piece);
          to.write(piece);
        });
      };
      bool of_all = false;
      for (std::size_t i = 0; i < whole.size(); ++i)
        if (name == part.name + "/" + files_of_all[i]) {
          copy(*whole[i]);
          of_all = true;
        }
      if (!of_all) {
        OutputFile one = out.file(name);
        copy(one);
        one.close();
      }
      if (sum.hexadecimal() != line.substr(0, digits))
        throw Failure(ExitCode::input_faulty,
                      (part.folder / name).string() +
                          ": was changed since the part was written; make the part again");
    }
    parts_joined(++done);
  }
  for (auto& file : whole) file->close();
  out.publish();
}

}  // namespace footroom::tasks
