// Long for its table alone.
#include "app/text/unit_words.hpp"

#include "app/text/nearest.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <vector>

namespace evenpull {
namespace {

/// The trade's shorthand means different things in different places: a pound is a force where a pull is asked for.
enum class Meaning { always, as_force, as_mass };

struct UnitWord {
  const char* written;
  const char* spelled;
  Meaning meaning = Meaning::always;
};

// An ounce goes by the pound, which UDUNITS knows exactly; its own ounce is rounded to seven digits.
constexpr UnitWord words[] = {{"m", "m"},
                              {"meter", "m"},
                              {"meters", "m"},
                              {"metre", "m"},
                              {"metres", "m"},
                              {"mm", "mm"},
                              {"millimeter", "mm"},
                              {"millimeters", "mm"},
                              {"millimetre", "mm"},
                              {"millimetres", "mm"},
                              {"cm", "cm"},
                              {"centimeter", "cm"},
                              {"centimeters", "cm"},
                              {"centimetre", "cm"},
                              {"centimetres", "cm"},
                              {"dm", "dm"},
                              {"um", "um"},
                              {"µm", "um"},
                              {"μm", "um"},
                              {"in", "in"},
                              {"ins", "in"},
                              {"inch", "in"},
                              {"inches", "in"},
                              {"\"", "in"},
                              {"ft", "ft"},
                              {"foot", "ft"},
                              {"feet", "ft"},
                              {"'", "ft"},
                              {"yd", "yd"},
                              {"yds", "yd"},
                              {"yard", "yd"},
                              {"yards", "yd"},
                              {"mil", "(in/1000)"},
                              {"mils", "(in/1000)"},
                              {"thou", "(in/1000)"},
                              {"s", "s"},
                              {"sec", "s"},
                              {"secs", "s"},
                              {"second", "s"},
                              {"seconds", "s"},
                              {"ms", "ms"},
                              {"min", "minute"},
                              {"minute", "minute"},
                              {"minutes", "minute"},
                              {"h", "hour"},
                              {"hr", "hour"},
                              {"hour", "hour"},
                              {"hours", "hour"},
                              {"g", "g"},
                              {"gram", "g"},
                              {"grams", "g"},
                              {"mg", "mg"},
                              {"gsm", "(g/m^2)"},
                              {"kg", "kgf", Meaning::as_force},
                              {"kg", "kg", Meaning::as_mass},
                              {"kgf", "kgf"},
                              {"kilogram", "kg", Meaning::as_mass},
                              {"kilograms", "kg", Meaning::as_mass},
                              {"lb", "lbf", Meaning::as_force},
                              {"lb", "lb", Meaning::as_mass},
                              {"lbs", "lbf", Meaning::as_force},
                              {"lbs", "lb", Meaning::as_mass},
                              {"pound", "lbf", Meaning::as_force},
                              {"pound", "lb", Meaning::as_mass},
                              {"pounds", "lbf", Meaning::as_force},
                              {"pounds", "lb", Meaning::as_mass},
                              {"lbf", "lbf"},
                              {"ozf", "(lbf/16)"},
                              {"oz", "(lbf/16)", Meaning::as_force},
                              {"oz", "(lb/16)", Meaning::as_mass},
                              {"ounce", "(lbf/16)", Meaning::as_force},
                              {"ounce", "(lb/16)", Meaning::as_mass},
                              {"ounces", "(lbf/16)", Meaning::as_force},
                              {"ounces", "(lb/16)", Meaning::as_mass},
                              {"L", "(dm^3)"},
                              {"l", "(dm^3)"},
                              {"litre", "(dm^3)"},
                              {"litres", "(dm^3)"},
                              {"liter", "(dm^3)"},
                              {"liters", "(dm^3)"},
                              {"mL", "(cm^3)"},
                              {"ml", "(cm^3)"},
                              {"gal", "(231 in^3)"},
                              {"gallon", "(231 in^3)"},
                              {"qt", "(57.75 in^3)"},
                              {"quart", "(57.75 in^3)"},
                              {"pt", "(28.875 in^3)"},
                              {"pint", "(28.875 in^3)"},
                              {"fl oz", "(1.8046875 in^3)"},
                              {"N", "N"},
                              {"newton", "N"},
                              {"newtons", "N"},
                              {"kN", "kN"},
                              {"daN", "daN"},
                              {"cN", "cN"},
                              {"Pa", "Pa"},
                              {"kPa", "kPa"},
                              {"MPa", "MPa"},
                              {"GPa", "GPa"},
                              {"bar", "bar"},
                              {"psi", "psi"},
                              {"ksi", "ksi"},
                              {"W", "W"},
                              {"kW", "kW"},
                              {"watt", "W"},
                              {"watts", "W"},
                              {"J", "J"},
                              {"kJ", "kJ"},
                              {"cal", "cal"},
                              {"kcal", "kcal"},
                              {"Btu", "Btu"},
                              {"BTU", "Btu"},
                              {"mol", "mol"},
                              {"K", "K"},
                              {"kelvin", "K"},
                              {"kelvins", "K"},
                              {"F", "degF"},
                              {"°F", "degF"},
                              {"degF", "degF"},
                              {"deg_F", "degF"},
                              {"fahrenheit", "degF"},
                              {"Fahrenheit", "degF"},
                              {"C", "degC"},
                              {"°C", "degC"},
                              {"degC", "degC"},
                              {"deg_C", "degC"},
                              {"celsius", "degC"},
                              {"Celsius", "degC"},
                              {"°", "degree"},
                              {"deg", "degree"},
                              {"degs", "degree"},
                              {"degree", "degree"},
                              {"degrees", "degree"},
                              {"rad", "radian"},
                              {"radian", "radian"},
                              {"radians", "radian"},
                              {"mrad", "(radian/1000)"}};

bool is_weight_a_force(Quantity kind) {
  return kind == Quantity::force || kind == Quantity::force_per_width || kind == Quantity::stress;
}

const UnitWord* find_word(std::string_view written, Quantity kind) {
  const auto meaning = is_weight_a_force(kind) ? Meaning::as_force : Meaning::as_mass;
  for (const auto& w : words)
    if (written == w.written && (w.meaning == Meaning::always || w.meaning == meaning)) return &w;
  return nullptr;
}

bool is_word_byte(char c) {
  const auto u = static_cast<unsigned char>(c);
  return std::isalpha(u) || u >= 0x80 || c == '_' || c == '"' || c == '\'';
}

/// Reads a unit from left to right; every step says whether what it looked for was there.
class Reader {
 public:
  Reader(std::string_view text, Quantity kind) : rest_(text), kind_(kind) {}

  std::optional<SpelledUnit> read() {
    if (!product(false)) return std::nullopt;
    skip();
    if (!rest_.empty()) return std::nullopt;
    out_.single = factors_ == 1 && !power_;
    return out_;
  }

 private:
  std::string_view rest_;
  Quantity kind_;
  SpelledUnit out_;
  int factors_ = 0;
  bool power_ = false;

  void skip() {
    while (!rest_.empty() && rest_.front() == ' ') rest_.remove_prefix(1);
  }

  bool take(std::string_view sign) {
    if (rest_.substr(0, sign.size()) != sign) return false;
    rest_.remove_prefix(sign.size());
    return true;
  }

  std::string_view peek_word() const {
    size_t end = 0;
    while (end < rest_.size() && is_word_byte(rest_[end])) ++end;
    // "²" and "⁴" are powers, "·" a product; the other bytes of such characters belong to words (°, µ).
    for (const std::string_view sign : {"²", "³", "⁴", "·"}) end = std::min(end, rest_.find(sign));
    return rest_.substr(0, end);
  }

  bool take_word(std::string_view word) {
    if (peek_word() != word) return false;
    rest_.remove_prefix(word.size());
    return true;
  }

  bool product(bool inside) {
    if (!factor(inside)) return false;
    for (;;) {
      skip();
      if (rest_.empty() || rest_.front() == ')') return true;
      if (take("/") || take_word("per")) out_.text += '/';
      else {
        (void)(take("*") || take("·") || take("."));
        out_.text += '.';
      }
      if (!factor(inside)) return false;
    }
  }

  /// A word with its power, or a product in brackets, which do not stand in each other.
  bool factor(bool inside) {
    skip();
    ++factors_;
    if (!inside && take("(")) {
      out_.text += '(';
      if (!product(true) || !take(")")) return false;
      out_.text += ')';
      return true;
    }
    const bool square = take_word("sq") || take_word("square");
    skip();
    const auto* word = this->word();
    if (!word) return false;
    const std::string spelled = word->spelled;
    out_.text += spelled;
    out_.angle = out_.angle || spelled == "degree" || spelled.find("radian") != std::string::npos;
    return square ? (power_ = true, out_.text += "^2", true) : power();
  }

  const UnitWord* word() {
    const auto written = peek_word();
    rest_.remove_prefix(written.size());
    if (written == "deg" || written == "°") {  // "deg F"
      const auto before = rest_;
      skip();
      const auto scale = peek_word();
      if (scale == "F" || scale == "C") {
        rest_.remove_prefix(scale.size());
        return find_word(scale, kind_);
      }
      rest_ = before;
    }
    if (written == "fl") {  // an ounce of volume, which is no ounce
      skip();
      return take_word("oz") || take_word("oz.") ? find_word("fl oz", kind_) : nullptr;
    }
    return find_word(written, kind_);
  }

  bool power() {
    for (const auto& [sign, digit] : {std::pair("²", "2"), std::pair("³", "3"), std::pair("⁴", "4")})
      if (take(sign)) return power_ = true, out_.text += std::string("^") + digit, true;
    const bool hat = take("^");
    const bool minus = (hat || (rest_.size() > 1 && std::isdigit(static_cast<unsigned char>(rest_[1])))) && take("-");
    if (rest_.empty() || !std::isdigit(static_cast<unsigned char>(rest_.front()))) return !hat && !minus;
    const char digit = rest_.front();
    rest_.remove_prefix(1);
    power_ = true;
    out_.text += std::string("^") + (minus ? "-" : "") + digit;
    // A second moment of area has the fourth power; no unit here has more.
    return digit >= '1' && digit <= '4' && (rest_.empty() || !std::isdigit(static_cast<unsigned char>(rest_.front())));
  }
};

std::string lower(std::string_view s) {
  std::string out(s);
  for (auto& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

}  // namespace

std::optional<SpelledUnit> spell_unit(std::string_view written, Quantity kind) { return Reader(written, kind).read(); }

std::string nearest_unit(std::string_view written) {
  std::vector<std::string> known;
  for (const auto& w : words) {
    if (lower(w.written) == lower(written) && written != w.written) return w.written;
    known.emplace_back(w.written);
  }
  return written.size() < 4 ? "" : nearest(written, known);  // of three letters one wrong one is another word
}

}  // namespace evenpull
