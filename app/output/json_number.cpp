#include "app/output/json_number.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>
#include <string>

namespace evenpull {

Json json_number(double value, const char* name) {
  if (!std::isfinite(value)) throw std::logic_error(std::string("the result \"") + name + "\" is not a number");
  std::array<char, 32> text{};
  const auto end = std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::scientific, 5).ptr;
  double rounded = value;
  std::from_chars(text.data(), end, rounded);
  return rounded == 0 ? 0.0 : rounded;
}

Json json_number(const std::optional<double>& value, const char* name) {
  return value ? json_number(*value, name) : Json(nullptr);
}

Json unless(bool gave_way, double value, const char* name) {
  return gave_way ? Json(nullptr) : json_number(value, name);
}

std::string json_text(const Json& document) {
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace evenpull
