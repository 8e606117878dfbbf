#include "app/input/tap_readings.hpp"

#include "app/input/case_table.hpp"
#include "app/input/read_measured.hpp"
#include "app/text/quoted.hpp"
#include "app/text/units.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>
#include <sstream>

namespace evenpull {
namespace {

constexpr const char* tone_example = "--tone \"bay 2 top = 84 Hz\"";
constexpr const char* sag_example = "--sag \"bay 2 top: 1 kg = 3.1 mm\"";
constexpr double tone_share_off = 0.01, tone_hertz_off = 0.5;  // of apps and of whoever taps; estimate

[[noreturn]] void refuse_reading(const std::string& option, const std::string& sentence) {
  throw CaseFileError(option, {}, "", sentence);
}

std::string without_blanks(std::string text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

template <class Number>
std::optional<Number> whole_of(const std::string& text) {
  Number n{};
  const char* begin = text.data() + (text.size() > 1 && text[0] == '+' ? 1 : 0);
  const auto [end, error] = std::from_chars(begin, text.data() + text.size(), n);
  if (error != std::errc{} || end != text.data() + text.size()) return {};
  return n;
}

// "E2", "F#2", "Bb1" as Hz: twelve even steps an octave, A4 = 440 Hz.
std::optional<double> note_of(const std::string& word) {
  static const std::string letters = "C D EF G A B";
  if (word.size() < 2) return {};
  const auto step = letters.find(static_cast<char>(std::toupper(static_cast<unsigned char>(word[0]))));
  if (word[0] == ' ' || step == std::string::npos) return {};
  const bool sharp = word[1] == '#', flat = word[1] == 'b';
  const auto octave = whole_of<int>(word.substr(sharp || flat ? 2 : 1));
  if (!octave || *octave < -1 || *octave > 9) return {};
  const int steps = static_cast<int>(step) + (sharp ? 1 : 0) - (flat ? 1 : 0) + 12 * (*octave - 4) - 9;
  return 440 * std::exp2(steps / 12.0);
}

}  // namespace

std::optional<double> tone_in(const std::string& text) {
  std::istringstream in(text);
  std::vector<std::string> words;
  for (std::string w; in >> w;) words.push_back(w);
  if (words.empty() || words.size() > 3) return {};
  const auto unit = text.find_first_not_of("0123456789.+- ");
  const std::string name = unit == std::string::npos ? "" : plain_word(without_blanks(text.substr(unit)));
  if (name == "hz" || name == "hertz")
    if (const auto n = whole_of<double>(without_blanks(text.substr(0, unit)))) return *n;
  const auto note = note_of(words[0]);
  if (!note || words.size() == 1) return note;
  const auto cents = whole_of<double>(words[1]);
  if (!cents || (words.size() == 3 && words[2] != "cents" && words[2] != "cent") || std::abs(*cents) > 100) return {};
  return *note * std::exp2(*cents / 1200);
}

namespace {

double quantity_in(const std::string& part, const std::string& text, Quantity kind, const Range& range) {
  double value = 0;
  try {
    value = Units().parse(part, kind);
  } catch (const UnitError& e) {
    refuse_reading("--sag", fmt::format("{} in {} {}", in_quotes(part), in_quotes(text), e.what()));
  }
  if (!(value >= range.low && value <= range.high))
    refuse_reading("--sag", fmt::format("{} in {} makes no sense here: it may be {}; {}", in_quotes(part),
                                        in_quotes(text), print_bounds(kind, range.low, range.high), range.usual));
  return value;
}

}  // namespace

std::pair<Side, int> read_bay(const std::string& given, const std::string& option, const std::string& text,
                              const Panel& panel) {
  std::istringstream in(plain_word(given));
  std::optional<Side> side;
  std::optional<int> bay;
  bool understood = true;
  for (std::string word, before; in >> word; before = word) {
    if (word == "top" || word == "bottom") side = word == "top" ? Side::top : Side::bottom;
    else if (before == "bay") bay = whole_of<int>(word), understood = understood && bay;
    else understood = understood && word == "bay";
  }
  if (!understood || !side || !bay)
    refuse_reading(option, fmt::format("{} names no bay and side; write {}", in_quotes(text),
                                       option == "--sag"   ? sag_example
                                       : option == "--bay" ? "--bay \"bay 2 top\""
                                                           : tone_example));
  if (*bay < 1 || *bay > panel.bays)
    refuse_reading(option,
                   fmt::format("{} names bay {}, but the panel has {}, counted from the inboard end", in_quotes(text),
                               *bay, panel.bays == 1 ? "bay 1 alone" : fmt::format("bays 1 to {}", panel.bays)));
  return {*side, *bay - 1};
}

ToneReading read_tone(const std::string& text, const Panel& panel) {
  const auto equals = text.find('=');
  const auto tone = equals == std::string::npos ? std::nullopt : tone_in(without_blanks(text.substr(equals + 1)));
  if (!tone)
    refuse_reading("--tone",
                   fmt::format("{} is not a tone of a bay; write {}, or a note: \"bay 2 top = F#2 -12 cents\"",
                               in_quotes(text), tone_example));
  ToneReading r;
  std::tie(r.side, r.bay) = read_bay(text.substr(0, equals), "--tone", text, panel);
  if (!(*tone >= lowest_by_ear && *tone <= highest_by_ear))
    refuse_reading(
        "--tone",
        fmt::format("{} Hz in {} is no tone of a bay of cloth, which lies between {:.0f} and {:.0f} Hz, usually 40 "
                    "to 150; take the lowest tone that rings, not the click of the nail",
                    print_number(*tone, 4), in_quotes(text), lowest_by_ear, highest_by_ear));
  r.tone = *tone;
  r.off = tone_off(*tone);
  return r;
}

SagReading read_sag(const std::string& text, const Panel& panel) {
  const auto colon = text.find(':'), equals = text.find('=');
  if (colon == std::string::npos || equals == std::string::npos || equals < colon)
    refuse_reading("--sag", fmt::format("{} is not a sag under a weight; write {}", in_quotes(text), sag_example));
  SagReading r;
  std::tie(r.side, r.bay) = read_bay(text.substr(0, colon), "--sag", text, panel);
  r.weight =
      quantity_in(without_blanks(text.substr(colon + 1, equals - colon - 1)), text, Quantity::mass, weight_range);
  r.sag = quantity_in(without_blanks(text.substr(equals + 1)), text, Quantity::length, sag_range);
  return r;
}

double tone_off(double tone) { return std::hypot(tone_share_off, tone_hertz_off / tone); }

}  // namespace evenpull
