#include "app/input/option_quantity.hpp"

#include "app/text/quoted.hpp"

#include <fmt/format.h>

namespace evenpull {

double option_quantity(const std::string& option, const std::string& text, Quantity kind, const Range& range) {
  double value = 0;
  try {
    value = Units().parse(text, kind);
  } catch (const UnitError& e) {
    throw CaseFileError(option, {}, "", fmt::format("{} {}", in_quotes(text), e.what()));
  }
  if (!(value >= range.low && value <= range.high))
    throw CaseFileError(option, {}, "",
                        fmt::format("{} makes no sense here: it may be {}; {}", in_quotes(text),
                                    print_bounds(kind, range.low, range.high), range.usual));
  return value;
}

}  // namespace evenpull
