#include "app/text/units.hpp"

#include "app/text/most.hpp"
#include "app/text/quantity_slips.hpp"
#include "app/text/quoted.hpp"
#include "app/text/unit_words.hpp"

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

constexpr std::array<KindRow, 19> kinds{{
    {Quantity::length, "m", {"a length", "\"0.016 in\" or \"0.4 mm\""}},
    {Quantity::area, "m2", {"an area", "\"0.05 in^2\" or \"33 mm^2\""}},
    {Quantity::length4, "m4", {"a second moment of area", "\"0.0014 in^4\" or \"580 mm^4\""}},
    {Quantity::area_mass, "kg m-2", {"a mass per area", "\"2.7 oz/yd^2\" or \"92 g/m^2\""}},
    {Quantity::force, "N", {"a force", "\"2 lb\" or \"9 N\""}},
    {Quantity::force_per_width, "N m-1", {"a force per width", "\"2 lb/in\" or \"350 N/m\""}},
    {Quantity::stress, "Pa", {"a stress", "\"35000 psi\" or \"241 MPa\""}},
    {Quantity::temperature, "K", {"a temperature", "\"250 degF\" or \"121 degC\""}},
    {Quantity::temperature_difference, "K", {"a temperature difference", "\"15 degF\" or \"8 K\""}},
    {Quantity::angle, "rad", {"an angle", "\"170 deg\""}},
    {Quantity::speed, "m s-1", {"a speed", "\"1.5 in/s\" or \"35 mm/s\""}},
    {Quantity::time, "s", {"a time", "\"6 s\""}},
    {Quantity::power, "W", {"a power", "\"1200 W\""}},
    {Quantity::mass, "kg", {"a mass", "\"1.2 kg\" or \"2.6 lb\""}},
    {Quantity::conductance, "W m-2 K-1", {"a conductance", "\"400 W/m^2/K\""}},
    {Quantity::molar_energy, "J mol-1", {"an energy per mole", "\"30 kJ/mol\""}},
    {Quantity::volume, "m3", {"a volume", "\"2 fl oz\" or \"60 mL\""}},
    {Quantity::coverage, "m-1", {"an area over a volume", "\"12 m^2/L\" or \"490 ft^2/gal\""}},
    {Quantity::fraction, "", {"a share", "\"1 %\" or 0.01"}},
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
  // from_chars knows no plus sign, and knows "inf" and "nan".
  const bool plus = !rest.empty() && rest.front() == '+';
  const auto first = rest.find_first_not_of("+-");
  if (first == std::string_view::npos || first > 1 || std::isalpha(static_cast<unsigned char>(rest[first])))
    return false;
  const auto [end, error] = std::from_chars(rest.data() + (plus ? 1 : 0), rest.data() + rest.size(), value);
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

struct Split {
  double value;
  std::string_view number, unit;  ///< as written
};

/// Number of the text, workshop fractions included; the unit is what is left.
Split split(std::string_view text, const KindRow& row) {
  const auto all = trim(text);
  auto rest = all;
  double value = 0;
  if (!take_number(rest, value))
    throw UnitError(
        fmt::format("does not begin with a number; expected {} like {}", row.words.name, row.words.example));
  take_denominator(rest, value);
  auto tail = trim(rest);
  if (!tail.empty() && tail.size() < rest.size() && std::isdigit(static_cast<unsigned char>(tail.front()))) {
    double part = 0;
    const bool number = take_number(tail, part);
    const auto before = tail;
    take_denominator(tail, part);
    const bool whole = value == std::floor(value);
    if (!number || !whole || before.data() == tail.data())
      throw UnitError(fmt::format("has two numbers; expected {} like {}", row.words.name, row.words.example));
    value += value < 0 ? -part : part;
    rest = tail;
  }
  auto unit = trim(rest);
  if (unit.size() > 1 && unit.back() == '.') unit.remove_suffix(1);  // "in."
  return {value, trim(all.substr(0, all.size() - rest.size())), unit};
}

struct FreeUnit {
  void operator()(ut_unit* u) const { ut_free(u); }
};
struct FreeConverter {
  void operator()(cv_converter* c) const { cv_free(c); }
};
using UnitPtr = std::unique_ptr<ut_unit, FreeUnit>;
using ConverterPtr = std::unique_ptr<cv_converter, FreeConverter>;

/// The way from one unit to the other, if the two are of one kind. UDUNITS would also turn a rate into a time (5 Hz into 0.2 s).
ConverterPtr converter(const ut_unit* from, const ut_unit* to) {
  const UnitPtr ratio(ut_divide(from, to));
  if (!ratio || !ut_is_dimensionless(ratio.get()) || !ut_are_convertible(from, to)) return nullptr;
  return ConverterPtr(ut_get_converter(const_cast<ut_unit*>(from), const_cast<ut_unit*>(to)));
}

}  // namespace

struct Units::System {
  ut_system* handle = nullptr;
  ~System() { ut_free_system(handle); }
  UnitPtr parse(const std::string& text) const { return UnitPtr(ut_parse(handle, text.c_str(), UT_UTF8)); }

  /// From the unit as it was written to SI; nothing if it is no unit of that kind.
  ConverterPtr to_si(std::string_view written, Quantity kind) const {
    const auto spelled = spell_unit(written, kind);
    const bool heat = kind == Quantity::temperature || kind == Quantity::temperature_difference;
    // In a product a degree of a scale loses its zero.
    if (!spelled || spelled->angle != (kind == Quantity::angle) || (heat && !spelled->single)) return nullptr;
    const auto from = parse(spelled->text), to = parse(row_of(kind).si);
    return from && to && *row_of(kind).si ? converter(from.get(), to.get()) : nullptr;
  }
};

Units::Units() : system_(std::make_unique<System>()) {
  ut_set_error_message_handler(ut_ignore);  // our messages name file and line; UDUNITS' own would only add noise
  system_->handle = ut_read_xml(nullptr);
  if (!system_->handle)
    throw std::runtime_error("the unit tables of UDUNITS-2 are not installed (package libudunits2-data)");
}

Units::~Units() = default;

QuantityWords words_of(Quantity kind) { return row_of(kind).words; }

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
  const auto expected = fmt::format("expected {} like {}", row.words.name, row.words.example);
  if (text.size() > most::quantity_letters) throw UnitError("is too long for a quantity; " + expected);
  if (const auto slip = slip_of_letters(text); !slip.empty()) throw UnitError(slip);
  if (const auto slip = slip_of_feet_and_inches(text); !slip.empty()) throw UnitError(slip);
  const auto [value, number, written] = split(text, row);
  if (kind == Quantity::fraction) {
    if (!std::isfinite(value)) throw UnitError("is too large a number; " + expected);
    if (written.empty()) return round_12(value);
    if (written == "%" || written == "percent") return round_12(value / 100);
    throw UnitError(fmt::format("has the unit {}; {}", in_quotes(written), expected));
  }
  if (written.empty()) throw UnitError("has no unit; " + expected);
  const auto to_si = system_->to_si(written, kind);
  if (!to_si) {
    if (const auto slip = slip_of_kind(number, written, kind); !slip.empty()) throw UnitError(slip);
    for (const auto& other : kinds)
      if (other.kind != kind && system_->to_si(written, other.kind))
        throw UnitError(fmt::format("is {}; {}", other.words.name, expected));
    if (spell_unit(written, kind))
      throw UnitError(fmt::format("has the wrong kind of unit ({}); {}", in_quotes(written), expected));
    const auto guess = nearest_unit(written);
    throw UnitError(guess.empty() ? fmt::format("has a unit that is not known ({}); {}", in_quotes(written), expected)
                                  : fmt::format("has a unit that is not known ({}); did you mean {}?",
                                                in_quotes(written), in_quotes(guess)));
  }
  const double converted = cv_convert_double(to_si.get(), value);
  const bool difference = kind == Quantity::temperature_difference;
  const double si = round_12(difference ? converted - cv_convert_double(to_si.get(), 0.0) : converted);
  if (!std::isfinite(si)) throw UnitError("is too large a number; " + expected);
  return si;
}

}  // namespace evenpull
