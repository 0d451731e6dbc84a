// A sheet without figures loses nothing: whatever number a drawing shows, the text of the question
// or the drawing in words says too. The scale bar and the numbers that name ropes tell nothing.

#include <gtest/gtest.h>

#include <set>
#include <string_view>

#include "bank/read.hpp"
#include "quiz/fixture.hpp"

namespace footroom::quiz {
namespace {

std::string text_of(const figure::Label& label) {
  std::string text;
  for (const figure::Run& run : label.runs) text += run.text;
  return text;
}

/// With plain spaces, so that texts can be compared.
std::string plain(std::string text) {
  for (const std::string blank : {"\u00a0", "\u202f", "\u2009"})
    for (auto at = text.find(blank); at != std::string::npos; at = text.find(blank))
      text.replace(at, blank.size(), " ");
  return text;
}

/// The pieces of a label with a digit: "L = 16 ft" has "16 ft".
std::string value_in(const std::string& label) {
  const auto sign = label.rfind("= ");
  return sign == std::string::npos ? label : label.substr(sign + 2);
}

bool has_digit(const std::string& text) {
  return text.find_first_of("0123456789") != std::string::npos;
}

bool is_whole_number(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

/// "5 ft" without a symbol; a drawing has one at most.
bool may_be_scale_bar(const std::string& label) {
  const auto blank = label.find(' ');
  if (blank == std::string::npos || !is_whole_number(std::string_view(label).substr(0, blank)))
    return false;
  const std::string unit = label.substr(blank + 1);
  return unit == "in" || unit == "ft" || unit == "cm" || unit == "m";
}

TEST(FiguresInWords, SayEveryNumberThatTheySaw) {
  const bank::ReadBank read = bank::read_bank(FOOTROOM_SOURCE_DIR "/questionbank");
  ASSERT_TRUE(read.defects.empty());
  int values = 0;
  std::set<std::string> drawn;
  for (const auto system : {notation::System::us, notation::System::si})
    for (const auto language : {engine::Language::english, engine::Language::spanish})
      for (const bank::Item& item : read.bank.items) {
        if (item.figure_of.empty()) continue;
        Settings settings = tests::settings_of(system, language);
        settings.rules = "us-construction";
        for (std::uint32_t sheet = 0; sheet < 3; ++sheet) {
          Question question;
          try {
            question = make_question(read.bank, item, settings, {11, sheet, 0, 0});
          } catch (const CannotMake&) {
            break;  // a limit that the rule set does not give
          }
          if (!question.sheet_figure) continue;
          drawn.insert(item.id);
          const std::string said = plain(question.stem + "\n" + question.sheet_figure->title +
                                         "\n" + question.sheet_figure->description);
          EXPECT_FALSE(question.sheet_figure->description.empty()) << item.id;
          int scale_bars = 0;
          for (const figure::Label& label : question.sheet_figure->labels) {
            const std::string shown = plain(text_of(label));
            const std::string value = value_in(shown);
            if (!has_digit(value) || is_whole_number(shown)) continue;
            if (said.find(value) == std::string::npos && may_be_scale_bar(shown) &&
                ++scale_bars == 1)
              continue;
            ++values;
            EXPECT_NE(said.find(value), std::string::npos)
                << item.id << ": the drawing shows \"" << value << "\", its words are: " << said;
          }
        }
      }
  EXPECT_GT(values, 500);
  EXPECT_GT(drawn.size(), 20u);
}

}  // namespace
}  // namespace footroom::quiz
