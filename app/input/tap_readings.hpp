// Readings of the bench as options state them: "top, bay 2 = 84 Hz", "top, bay 2: 1 kg = 3.1 mm". Throw CaseFileError
// that names the option.
#pragma once

#include "shop/tap.hpp"

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace evenpull {

/// Of --bay: "top, bay 2" or "bay 2 top".
std::pair<Side, int> read_bay(const std::string& text, const Panel& panel);

/// What a bay of cloth rings with lies between these [Hz], as app/sound/taps_heard.hpp hears it.
inline constexpr double lowest_by_ear = 15, highest_by_ear = 700;
/// "84 Hz", "E2", "F#2 -12 cents" (A4 = 440 Hz) as Hz; none where it is neither.
std::optional<double> tone_in(const std::string& text);

/// A tone in Hz, or a note with what a tuner shows beside it: "84 Hz", "E2", "F#2 -12 cents" (A4 = 440 Hz).
ToneReading read_tone(const std::string& text, const Panel& panel);

SagReading read_sag(const std::string& text, const Panel& panel);

/// What a tone read off an app may be off by, one sigma of the logarithm: 1 %, and half a hertz.
double tone_off(double tone);

}  // namespace evenpull
