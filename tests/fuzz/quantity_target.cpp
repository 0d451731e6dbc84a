// Quantities and answers as typed: understood as one finite value or refused with a reason; what is
// written reads back as the same; and an answer is judged alike each time.

#include <array>
#include <cmath>
#include <numeric>

#include "fuzz/bank_files.hpp"
#include "fuzz/target.hpp"
#include "grade/marking.hpp"
#include "grade/reading.hpp"
#include "notation/quantity_text.hpp"
#include "tasks/responses.hpp"

namespace footroom::fuzz {
namespace {

using notation::Style;

bool near(double a, double b) {
  return a == b || std::abs(a - b) <= 1e-11 * std::max(std::abs(a), std::abs(b));
}

void try_quantity(std::string_view typed, engine::Dimension expected) {
  const auto read = notation::read_quantity(typed, expected);
  if (const auto* error = std::get_if<notation::ReadError>(&read)) {
    require(!error->message.empty(), "a refusal has a reason");
    return;
  }
  const auto& quantity = std::get<notation::ReadQuantity>(read);
  require(quantity.unit && std::isfinite(quantity.number) && std::isfinite(quantity.quantity.si),
          "a quantity is finite and has a unit");
  require(quantity.quantity.dimension == expected, "a quantity measures what was expected");
  const double in_unit = quantity.unit->from_si(quantity.quantity.si);
  if (quantity.unit->dimension != expected) return;
  const std::string written = notation::write_quantity_shortest(in_unit, *quantity.unit, Style{});
  if (written.size() > 200) return;  // longer than what is read
  const auto again = notation::read_quantity(written, expected);
  require(std::holds_alternative<notation::ReadQuantity>(again), written + " reads back");
  require(near(std::get<notation::ReadQuantity>(again).quantity.si, quantity.quantity.si),
          written + " reads back as the same");
}

void try_number(std::string_view typed, const notation::Unit& asked, Style style) {
  const auto read = grade::read_number(typed, asked, style);
  if (const auto* unreadable = std::get_if<grade::Unreadable>(&read)) {
    require(!unreadable->reason.empty(), "an unreadable answer has a reason");
    return;
  }
  const auto& number = std::get<grade::WrittenNumber>(read);
  require(std::isfinite(number.number), "a number is finite");
  require(!number.comparable || std::isfinite(number.value), "a value is finite");
  require(!number.text.empty(), "what was read has a text");
}

/// Chooses what an input is tried with: all units, marks and questions would take the time of many
/// other inputs.
std::size_t choice_for(std::string_view typed) {
  return std::accumulate(typed.begin(), typed.end(), std::size_t{0}, [](std::size_t all, char c) {
    return all * 31 + static_cast<unsigned char>(c);
  });
}

void try_marking(std::string_view typed) {
  const auto& questions = the_quiz().sheets.front().questions;
  const std::size_t sum = choice_for(typed);
  const auto& question = questions[sum / 2 % questions.size()];
  const Style style = sum % 2 ? Style{} : Style{engine::Language::spanish, ','};
  const auto result = grade::mark(question, typed, {}, style);
  const auto again = grade::mark(question, typed, {}, style);
  require(result.outcome == again.outcome && result.points == again.points &&
              result.read == again.read && result.reason == again.reason,
          "an answer is judged alike each time");
  require(result.points >= grade::Points{} && result.points <= result.possible,
          "points lie between none and all");
  require(!result.value || std::isfinite(*result.value), "a value is finite");
  require((result.outcome == grade::Outcome::unreadable) == !result.reason.empty(),
          "what is unreadable, and nothing else, has a reason");
  if (result.outcome == grade::Outcome::right)
    require(result.points == result.possible, "right earns all points");
}

}  // namespace

void try_input(std::string_view input) {
  using namespace engine::dimension;
  for (const auto expected : {ratio, length, area, engine::dimension::angle, mass,
                              engine::dimension::time, speed, force, energy, pressure})
    try_quantity(input, expected);
  constexpr std::array units{"", "ft", "ft-in", "m", "lbf", "kN", "kg", "pitch", "deg"};
  const notation::Unit& asked = *notation::find_unit(units[choice_for(input) % units.size()]);
  for (const char mark : {'.', ','}) try_number(input, asked, {engine::Language::english, mark});
  // Marking takes text that the reader of responses has let pass.
  if (!tasks::fault_of(std::string(input))) try_marking(input);
}

}  // namespace footroom::fuzz
