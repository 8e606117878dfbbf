// Colours for values. Lightness rises steadily with the value, so the order survives a black-and-white printer and
// every common colour-vision deficiency; contour lines and numbers are the second cue.
#pragma once

#include <vector>

namespace evenpull::viz {

struct Colour {
  double red = 0, green = 0, blue = 0;  ///< sRGB, 0..1
};

constexpr Colour black{0, 0, 0};
constexpr Colour white{1, 1, 1};
constexpr Colour grey{0.45, 0.45, 0.45};
constexpr Colour pale{0.90, 0.90, 0.90};

/// Colour of a share 0..1 (clamped) of the scale.
Colour value_colour(double share);

/// Colour of a share -1..1 (clamped) of a scale about zero: pale in the middle, equally dark at both ends, indigo below
/// and brown above; that pair stays apart for every common colour-vision deficiency. Signs are told by numbers as well.
Colour difference_colour(double share);

/// Lightness as the eye sees it, 0 black .. 1 white (OKLab L).
double lightness(const Colour& c);

/// Black or white, whichever can be read on the colour.
Colour ink_on(const Colour& c);

/// A scale in even bands with round limits: bounds.front() = 0 or a round number below it, last >= the largest value.
struct Bands {
  std::vector<double> bounds;  ///< at least two, rising
  int count() const { return static_cast<int>(bounds.size()) - 1; }
  Colour colour(int band) const;
  Colour colour_of(double value) const;
};

/// About `wanted` bands from 0 to `largest` with steps of 1, 2 or 5 times a power of ten.
Bands round_bands(double largest, int wanted);

}  // namespace evenpull::viz
