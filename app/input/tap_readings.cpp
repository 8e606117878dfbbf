#include "app/input/tap_readings.hpp"

#include "app/input/read_measured.hpp"
#include "app/input/typed.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <cctype>
#include <charconv>
#include <cmath>
#include <optional>
#include <sstream>
#include <tuple>

namespace evenpull {
namespace {

constexpr const char* tone_example = "--tone \"top, bay 2 = 84 Hz\"";
constexpr const char* sag_example = "--sag \"top, bay 2: 1 kg = 3.1 mm\"";
constexpr double tone_share_off = 0.01, tone_hertz_off = 0.5;  // of apps and of whoever taps; estimate

std::optional<double> number_in(const std::string& text) {
  double n{};
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
  const auto octave = whole_number_in(word.substr(sharp || flat ? 2 : 1));
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
  const std::string name = unit == std::string::npos ? "" : plain_word(trimmed(text.substr(unit)));
  if (name == "hz" || name == "hertz")
    if (const auto n = number_in(trimmed(text.substr(0, unit)))) return *n;
  const auto note = note_of(words[0]);
  if (!note || words.size() == 1) return note;
  const auto cents = number_in(words[1]);
  if (!cents || (words.size() == 3 && words[2] != "cents" && words[2] != "cent") || std::abs(*cents) > 100) return {};
  return *note * std::exp2(*cents / 1200);
}

std::pair<Side, int> read_bay(const std::string& text, const Panel& panel) {
  return Typed("--bay", text).bay(text, panel.bays, "--bay \"top, bay 2\"");
}

ToneReading read_tone(const std::string& text, const Panel& panel) {
  const Typed typed("--tone", text);
  const auto equals = text.find('=');
  const auto tone = equals == std::string::npos ? std::nullopt : tone_in(trimmed(text.substr(equals + 1)));
  if (!tone)
    typed.refuse(
        fmt::format("is not a tone of a bay; write {}, or a note: \"top, bay 2 = F#2 -12 cents\"", tone_example));
  ToneReading r;
  std::tie(r.side, r.bay) = typed.bay(text.substr(0, equals), panel.bays, tone_example);
  if (!(*tone >= lowest_by_ear && *tone <= highest_by_ear))
    typed.refuse_part(
        print_number(*tone, 4) + " Hz",
        fmt::format(
            "is no tone of a bay of cloth, which lies between {:.0f} and {:.0f} Hz, usually 40 to 150; take the "
            "lowest tone that rings, not the click of the nail",
            lowest_by_ear, highest_by_ear));
  r.tone = *tone;
  r.off = tone_off(*tone);
  return r;
}

SagReading read_sag(const std::string& text, const Panel& panel) {
  const Typed typed("--sag", text);
  const auto colon = text.find(':'), equals = text.find('=');
  if (colon == std::string::npos || equals == std::string::npos || equals < colon)
    typed.refuse(fmt::format("is not a sag under a weight; write {}", sag_example));
  SagReading r;
  std::tie(r.side, r.bay) = typed.bay(text.substr(0, colon), panel.bays, sag_example);
  r.weight = typed.quantity(trimmed(text.substr(colon + 1, equals - colon - 1)), Quantity::mass, weight_range);
  r.sag = typed.quantity(trimmed(text.substr(equals + 1)), Quantity::length, sag_range);
  return r;
}

double tone_off(double tone) { return std::hypot(tone_share_off, tone_hertz_off / tone); }

}  // namespace evenpull
