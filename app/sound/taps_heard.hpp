// The tone of taps in a recording. Each tap: where the loudness leaps, then what rings after it, under a Hann window
// through a Fourier transform; of the peaks that stand clear of the noise the lowest, its top by a parabola through
// three bins of the logarithm. Only taps_heard.cpp knows the library that transforms.
#pragma once

#include "app/sound/recording.hpp"

#include <vector>

namespace evenpull {

/// Between these a bay of cloth can sound [Hz]: 60 mm at 1500 N/m to 1.5 m at 50 N/m, air included; judgement.
inline constexpr double lowest_tone = 15, highest_tone = 700;

enum class Unheard { nothing, silent, clipped, too_short, no_tone };

struct TapsHeard {
  Unheard trouble = Unheard::nothing;
  int taps = 0;         ///< that rang clearly
  int passed_over = 0;  ///< that did not
  double tone = 0;      ///< median [Hz]
  double scatter = 0;   ///< one sigma of the logarithm of single taps; 0: fewer than three
  double clear_by = 0;  ///< peak over the noise about it, median [dB]
  std::vector<double> tones;
};

TapsHeard listen(const Recording& r);

}  // namespace evenpull
