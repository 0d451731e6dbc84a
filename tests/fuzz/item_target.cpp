// Items of the question bank: read or refused with file and line. What is read packs for the
// practice page without loss, and gives the same question each time, or a refusal; a question's
// numbers are finite, its pages are well-formed, and its quiz.json can be graded.

#include <cmath>
#include <nlohmann/json.hpp>

#include "fuzz/bank_files.hpp"
#include "fuzz/pages.hpp"
#include "fuzz/target.hpp"
#include "practice/packed_bank.hpp"

namespace footroom::fuzz {
namespace {

bank::Bank bank_with(const bank::Item& item) {
  bank::Bank bank;
  bank.topics = the_bank().topics;
  bank.pools = the_bank().pools;
  bank.rules = the_bank().rules;
  bank.items.push_back(item);
  return bank;
}

void try_packing(const bank::Bank& bank) {
  const auto packed = practice::packed(bank, "us-construction");
  const auto again = practice::packed(practice::unpacked(packed), "us-construction");
  require(packed == again, "a packed bank unpacks without loss");
}

std::optional<quiz::Question> question_of(const bank::Bank& bank, const quiz::Settings& settings) {
  try {
    return quiz::make_question(bank, bank.items.front(), settings, {settings.seed, 0, 0, 0});
  } catch (const quiz::CannotMake& refusal) {
    require(refusal.where.file == "item.xml" && refusal.where.line > 0,
            std::string("a refusal names file and line: ") + refusal.what());
    return std::nullopt;
  }
}

void check_numbers(const quiz::Question& question) {
  const auto finite = [](const quiz::Shown& shown) {
    const auto* quantity = std::get_if<engine::Quantity>(&shown.value);
    require(!quantity || (std::isfinite(quantity->si) && std::isfinite(shown.number)),
            shown.name + " is finite");
  };
  for (const auto& given : question.givens) finite(given);
  for (const auto& let : question.lets) finite(let);
  for (const auto& calculation : question.calculations) {
    for (const auto& input : calculation.inputs) finite(input);
    for (const auto& output : calculation.outputs) finite(output);
  }
  require((question.kind == quiz::Kind::number) == question.answer.has_value(),
          "a number, and nothing else, has an answer in numbers");
  if (question.answer)
    require(std::isfinite(question.answer->number) && question.answer->tolerance > 0,
            "the answer is finite and has a tolerance");
  for (const auto& mistake : question.mistakes)
    require(!mistake.number || std::isfinite(*mistake.number), "a mistake's number is finite");
}

}  // namespace

void try_input(std::string_view input) {
  const auto read = bank::read_items(input, "item.xml");
  for (const auto& defect : read.defects)
    require(defect.at.file == "item.xml" && defect.at.line > 0 && !defect.message.empty(),
            "a defect names file and line");
  if (read.items.empty()) {
    require(!read.defects.empty(), "what is not read is refused");
    return;
  }
  const bank::Bank bank = bank_with(read.items.front());
  try_packing(bank);
  for (const bool us : {true, false}) {
    quiz::Settings settings;
    settings.seed = 1;
    settings.system = us ? notation::System::us : notation::System::si;
    settings.style = us ? notation::Style{} : notation::Style{engine::Language::spanish, ','};
    const auto question = question_of(bank, settings);
    if (!question) continue;
    check_numbers(*question);
    const grade::Quiz quiz = quiz_of(*question, settings);
    check_again(quiz);
    check_pages(quiz);
    const auto once_more = question_of(bank, settings);
    require(once_more && json_text(quiz) == json_text(quiz_of(*once_more, settings)),
            "the same seed gives the same question");
  }
}

}  // namespace footroom::fuzz
