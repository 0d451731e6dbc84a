#include "engine/refusal.hpp"

#include <sstream>

namespace footroom::engine {
namespace {

std::string in_words(Quantity value, Domain domain) {
  std::ostringstream out;
  out.imbue(std::locale::classic());
  out << "is " << value.si << ", expected " << (domain.includes_lowest ? "at least " : "more than ")
      << domain.lowest << " and " << (domain.includes_highest ? "at most " : "less than ")
      << domain.highest << " (SI units)";
  return out.str();
}

}  // namespace

OutOfDomain::OutOfDomain(std::string in_calculation, std::string of_quantity, Quantity was,
                         Domain expected)
    : Refusal(std::move(in_calculation), std::move(of_quantity), in_words(was, expected)),
      value(was),
      domain(expected) {}

}  // namespace footroom::engine
