#include "app/units.hpp"

#include <fmt/format.h>
#include <udunits2.h>

#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <utility>
#include <vector>

namespace evenpull {
namespace {

struct KindRow {
  Quantity kind;
  const char* si;  ///< UDUNITS spelling of the SI unit; "" = plain number
  QuantityWords words;
};

constexpr std::array<KindRow, 17> kinds{{
    {Quantity::length, "m", {"a length", "0.016 in or 0.4 mm"}},
    {Quantity::area, "m2", {"an area", "0.05 in^2 or 33 mm^2"}},
    {Quantity::length4, "m4", {"a second moment of area", "0.0014 in^4 or 580 mm^4"}},
    {Quantity::area_mass, "kg m-2", {"a mass per area", "2.7 oz/yd^2 or 92 g/m^2"}},
    {Quantity::force, "N", {"a force", "2 lb or 9 N"}},
    {Quantity::force_per_width, "N m-1", {"a force per width", "2 lb/in or 350 N/m"}},
    {Quantity::stress, "Pa", {"a stress", "35000 psi or 241 MPa"}},
    {Quantity::temperature, "K", {"a temperature", "250 degF or 121 degC"}},
    {Quantity::temperature_difference, "K", {"a temperature difference", "15 degF or 8 K"}},
    {Quantity::angle, "rad", {"an angle", "170 deg"}},
    {Quantity::speed, "m s-1", {"a speed", "1.5 in/s or 35 mm/s"}},
    {Quantity::time, "s", {"a time", "6 s"}},
    {Quantity::power, "W", {"a power", "1200 W"}},
    {Quantity::mass, "kg", {"a mass", "1.2 kg or 2.6 lb"}},
    {Quantity::conductance, "W m-2 K-1", {"a conductance", "400 W/m^2/K"}},
    {Quantity::molar_energy, "J mol-1", {"an energy per mole", "30 kJ/mol"}},
    {Quantity::fraction, "", {"a share", "1 % or 0.01"}},
}};

const KindRow& row_of(Quantity kind) {
  for (const auto& row : kinds)
    if (row.kind == kind) return row;
  throw std::logic_error("a quantity kind without a row");
}

std::string_view trim(std::string_view s) {
  while (!s.empty() && std::isspace(static_cast<unsigned char>(s.front()))) s.remove_prefix(1);
  while (!s.empty() && std::isspace(static_cast<unsigned char>(s.back()))) s.remove_suffix(1);
  return s;
}

/// Takes one plain number from the front of `rest`; false if there is none.
bool take_number(std::string_view& rest, double& value) {
  auto begin = rest.data();
  if (!rest.empty() && rest.front() == '+') ++begin;  // from_chars knows no plus sign
  const auto [end, error] = std::from_chars(begin, rest.data() + rest.size(), value);
  if (error != std::errc{} || !std::isfinite(value)) return false;
  rest.remove_prefix(static_cast<size_t>(end - rest.data()));
  return true;
}

/// "3/8" after a number has been taken: divides; leaves `rest` alone when no digit follows the stroke ("1 1/s").
void take_denominator(std::string_view& rest, double& value) {
  if (rest.size() < 2 || rest[0] != '/' || !std::isdigit(static_cast<unsigned char>(rest[1]))) return;
  auto tail = rest.substr(1);
  double denominator = 0;
  if (!take_number(tail, denominator) || denominator == 0) return;
  value /= denominator;
  rest = tail;
}

/// Number of the text, workshop fractions included; the unit is what is left.
std::pair<double, std::string> split(std::string_view text, const KindRow& row) {
  auto rest = trim(text);
  double value = 0;
  if (!take_number(rest, value))
    throw UnitError(
        fmt::format("does not begin with a number; expected {} like \"{}\"", row.words.name, row.words.example));
  take_denominator(rest, value);
  auto tail = trim(rest);
  if (!tail.empty() && tail.size() < rest.size() && std::isdigit(static_cast<unsigned char>(tail.front()))) {
    double part = 0;
    take_number(tail, part);
    const auto before = tail;
    take_denominator(tail, part);
    if (before.data() == tail.data())
      throw UnitError(fmt::format("has two numbers; expected {} like \"{}\"", row.words.name, row.words.example));
    value += value < 0 ? -part : part;
    rest = tail;
  }
  return {value, std::string(trim(rest))};
}

bool is_weight_a_force(Quantity kind) {
  return kind == Quantity::force || kind == Quantity::force_per_width || kind == Quantity::stress;
}

/// The trade's word for one unit, in UDUNITS' spelling, as it is meant in a quantity of this kind. An ounce goes by the
/// pound, which UDUNITS knows exactly; its own ounce is rounded to seven digits.
std::string translate_word(const std::string& word, Quantity kind) {
  const bool force = is_weight_a_force(kind);
  const bool heat = kind == Quantity::temperature || kind == Quantity::temperature_difference;
  if (word == "lb" || word == "lbs" || word == "pound" || word == "pounds") return force ? "lbf" : "lb";
  if (word == "oz" || word == "ounce" || word == "ounces") return force ? "(lbf/16)" : "(lb/16)";
  if (word == "kg" && force) return "kgf";
  if (word == "ins") return "in";
  if (heat) {
    if (word == "F" || word == "°F" || word == "degF" || word == "deg_F" || word == "fahrenheit") return "degF";
    if (word == "C" || word == "°C" || word == "degC" || word == "deg_C" || word == "celsius") return "degC";
  }
  if (word == "°" || word == "deg" || word == "degs") return "degree";
  if (word == "\"") return "in";
  if (word == "'") return "ft";
  return word;
}

bool is_word_char(char c) {
  const auto u = static_cast<unsigned char>(c);
  return std::isalpha(u) || u >= 0x80 || c == '_' || c == '"' || c == '\'';
}

std::string replace_all(std::string text, std::string_view from, std::string_view to) {
  for (size_t at = text.find(from); at != std::string::npos; at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

std::string translate(std::string unit, Quantity kind) {
  for (const auto& [from, to] : std::initializer_list<std::pair<const char*, const char*>>{{"²", "^2"},
                                                                                           {"⁴", "^4"},
                                                                                           {"deg F", "degF"},
                                                                                           {"deg C", "degC"},
                                                                                           {"° F", "°F"},
                                                                                           {"° C", "°C"},
                                                                                           {"sq yd", "yd^2"},
                                                                                           {"sq m", "m^2"},
                                                                                           {"sq in", "in^2"},
                                                                                           {" per ", "/"}})
    unit = replace_all(std::move(unit), from, to);
  std::string out;
  for (size_t i = 0; i < unit.size();) {
    if (!is_word_char(unit[i])) {
      out += unit[i++];
      continue;
    }
    size_t end = i;
    while (end < unit.size() && is_word_char(unit[end])) ++end;
    out += translate_word(unit.substr(i, end - i), kind);
    i = end;
  }
  return out;
}

struct FreeUnit {
  void operator()(ut_unit* u) const { ut_free(u); }
};
struct FreeConverter {
  void operator()(cv_converter* c) const { cv_free(c); }
};
using UnitPtr = std::unique_ptr<ut_unit, FreeUnit>;
using ConverterPtr = std::unique_ptr<cv_converter, FreeConverter>;

/// The units of angle in `translate`'s spelling; degC and degF begin alike and are none.
bool is_angle_word(const std::string& unit) {
  return unit.find("degree") != std::string::npos || unit.find("rad") != std::string::npos ||
         unit.find("arc") != std::string::npos;
}

}  // namespace

struct Units::System {
  ut_system* handle = nullptr;
  ~System() { ut_free_system(handle); }
  UnitPtr parse(const std::string& text) const { return UnitPtr(ut_parse(handle, text.c_str(), UT_UTF8)); }
};

Units::Units() : system_(std::make_unique<System>()) {
  ut_set_error_message_handler(ut_ignore);  // our messages name file and line; UDUNITS' own would only add noise
  system_->handle = ut_read_xml(nullptr);
  if (!system_->handle)
    throw std::runtime_error("the unit tables of UDUNITS-2 are not installed (package libudunits2-data)");
}

Units::~Units() = default;

QuantityWords words_of(Quantity kind) {
  return row_of(kind).words;
}

double round_12(double value) {
  std::array<char, 32> text{};
  const auto [end, error] =
      std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::scientific, 11);
  double rounded = value;
  if (error == std::errc{}) std::from_chars(text.data(), end, rounded);
  return rounded == 0 ? 0.0 : rounded;  // no minus zero
}

double Units::parse(std::string_view text, Quantity kind) const {
  const auto& row = row_of(kind);
  const auto expected = fmt::format("expected {} like \"{}\"", row.words.name, row.words.example);
  const auto [value, written] = split(text, row);
  if (kind == Quantity::fraction) {
    if (written.empty()) return round_12(value);
    if (written == "%" || written == "percent") return round_12(value / 100);
    throw UnitError(fmt::format("has the unit \"{}\"; {}", written, expected));
  }
  if (written.empty()) throw UnitError("has no unit; " + expected);
  const auto spelled = translate(written, kind);
  const auto unit = system_->parse(spelled);
  if (!unit) throw UnitError(fmt::format("has a unit that is not known (\"{}\"); {}", written, expected));
  const auto si = system_->parse(row.si);
  const bool angle = is_angle_word(spelled);
  // UDUNITS counts an angle as a plain number, so the two are told apart by name.
  if (!ut_are_convertible(unit.get(), si.get()) || (kind == Quantity::angle) != angle) {
    for (const auto& other : kinds) {
      const auto other_si = system_->parse(*other.si ? other.si : "1");
      const auto other_unit = system_->parse(translate(written, other.kind));
      if (other.kind != kind && other_unit && ut_are_convertible(other_unit.get(), other_si.get()) &&
          (other.kind == Quantity::angle) == angle)
        throw UnitError(fmt::format("is {}; {}", other.words.name, expected));
    }
    throw UnitError(fmt::format("has the wrong kind of unit (\"{}\"); {}", written, expected));
  }
  const ConverterPtr to_si(ut_get_converter(unit.get(), si.get()));
  const double converted = cv_convert_double(to_si.get(), value);
  const bool difference = kind == Quantity::temperature_difference;
  return round_12(difference ? converted - cv_convert_double(to_si.get(), 0.0) : converted);
}

}  // namespace evenpull
