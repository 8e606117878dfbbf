#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {

namespace {
constexpr double metres_per_inch = 0.0254;             // exact
constexpr double newtons_per_pound = 4.4482216152605;  // exact

// Binary fractions that a rule shows, and decimals of an inch that a gauge shows: judgement.
constexpr double finest_fraction = 64, finest_decimal = 10000;

// Of a value times its steps: far above the rounding of a conversion, far below what anybody measures.
bool is_whole(double v) { return std::abs(v - std::round(v)) < 1e-5; }

bool is_plain_in_inches(double metres) {
  const double in = metres / metres_per_inch;
  return is_whole(in * finest_fraction) || is_whole(in * finest_decimal);
}

bool is_plain_in_millimetres(double metres) { return is_whole(metres * 1e6); }

// Without zeros behind the point that nobody would write.
std::string trimmed(std::string number) {
  if (number.find('.') == std::string::npos) return number;
  number.erase(number.find_last_not_of('0') + 1);
  if (number.back() == '.') number.pop_back();
  return number == "-0" ? "0" : number;
}

// "70 7/8".
std::string fraction_of_inches(double in) {
  long parts = std::lround(std::abs(in) * finest_fraction), of = static_cast<long>(finest_fraction);
  while (of > 1 && parts % 2 == 0) parts /= 2, of /= 2;
  const long whole = parts / of, rest = parts % of;
  const std::string sign = in < 0 && parts > 0 ? "-" : "";
  if (rest == 0) return fmt::format("{}{}", sign, whole);
  return whole == 0 ? fmt::format("{}{}/{}", sign, rest, of) : fmt::format("{}{} {}/{}", sign, whole, rest, of);
}

std::string number_of_inches(double metres) {
  const double in = metres / metres_per_inch;
  if (is_whole(in * finest_fraction)) return fraction_of_inches(in);
  if (is_whole(in * finest_decimal)) return trimmed(fmt::format("{:.4f}", in));
  return fmt::format("{:.{}f}", in, std::abs(in) < 1 ? 3 : 2);
}

std::string number_of_millimetres(double metres) {
  const double mm = metres * 1000;
  if (is_plain_in_millimetres(metres) && !is_plain_in_inches(metres)) return trimmed(fmt::format("{:.3f}", mm));
  const double half_up = mm < 0 ? -1e-7 : 1e-7;  // 9.525 lies on either side of itself
  return trimmed(fmt::format("{:.{}f}", mm + half_up, std::abs(mm) >= 10 ? 1 : 2));
}

bool ends_in_millimetres(const std::string& written) {
  return written.size() > 2 && written.compare(written.size() - 2, 2, "mm") == 0;
}
}  // namespace

double to_degF(double kelvin) { return std::round((kelvin * 1.8 - 459.67) * 1e6) / 1e6; }
double to_degC(double kelvin) { return std::round((kelvin - 273.15) * 1e6) / 1e6; }

std::string print_number(double value, int digits) { return fmt::format("{:.{}g}", value == 0 ? 0.0 : value, digits); }

std::string print_length(double metres, const std::string& written) {
  const auto in = print_inches(metres), mm = print_millimetres(metres);
  if (!written.empty()) return fmt::format("{} ({})", written, ends_in_millimetres(written) ? in : mm);
  const bool mm_first = is_plain_in_millimetres(metres) && !is_plain_in_inches(metres);
  return mm_first ? fmt::format("{} ({})", mm, in) : fmt::format("{} ({})", in, mm);
}

std::string print_inches(double metres) { return number_of_inches(metres) + " in"; }
std::string print_millimetres(double metres) { return number_of_millimetres(metres) + " mm"; }

std::string print_lengths(const std::vector<double>& metres) {
  const bool inches = std::all_of(metres.begin(), metres.end(), is_plain_in_inches);
  std::string text;
  for (const double m : metres)
    text += (text.empty() ? "" : ", ") + (inches ? number_of_inches(m) : number_of_millimetres(m));
  return text + (inches ? " in" : " mm");
}

std::string print_pull(double newton_per_metre) {
  return fmt::format("{:.2f} lb/in ({:.0f} N/m)", newton_per_metre * metres_per_inch / newtons_per_pound,
                     newton_per_metre);
}

}  // namespace evenpull
