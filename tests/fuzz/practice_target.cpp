// A saved practice, and the page's own progress: read or refused; what is read is written and read
// again without change, and each question can be made again or is refused.

#include "fuzz/bank_files.hpp"
#include "fuzz/target.hpp"
#include "grade/json_reader.hpp"
#include "grade/marking.hpp"
#include "practice/result_file.hpp"
#include "practice/sitting.hpp"

namespace footroom::fuzz {
namespace {

void try_progress(const std::string& text) {
  const auto read = practice::read_progress(text, the_bank(), "us-construction");
  if (!read) return;
  const std::string written = practice::text_of(*read);
  const auto again = practice::read_progress(written, the_bank(), "us-construction");
  require(again && practice::text_of(*again) == written, "progress reads as it was written");
}

void try_question(const practice::ResultFile& file, const practice::Asked& asked) {
  const bool known = std::any_of(the_bank().items.begin(), the_bank().items.end(),
                                 [&](const bank::Item& item) { return item.id == asked.item; });
  if (!known) return;
  try {
    const auto made = practice::make_again(the_bank(), "us-construction", file.progress.seed, asked,
                                           asked.face.style, quiz::Figures::left_out);
    const auto result = grade::mark(made.question, asked.typed, {}, asked.face.style);
    require(result.points <= result.possible, "points lie between none and all");
  } catch (const quiz::CannotMake& refusal) {
    require(refusal.where.line > 0, "a refusal names a line");
  }
}

}  // namespace

void try_input(std::string_view input) {
  try_progress(std::string(input));
  const bool is_result = practice::is_result(input);
  try {
    const auto file = practice::read_result(input, "practice.json");
    require(is_result, "what reads as a practice says that it is one");
    const std::string text = practice::result_json(file);
    require(text == practice::result_json(practice::read_result(text, "practice.json")),
            "practice.json reads as it was written");
    for (std::size_t i = 0; i < std::min<std::size_t>(file.progress.sitting.size(), 3); ++i)
      try_question(file, file.progress.sitting[i]);
  } catch (const grade::FaultyFile& fault) {
    require(std::string_view(fault.what()).starts_with("practice.json:"),
            "a refusal names the file");
  }
}

}  // namespace footroom::fuzz
