#include "viz/kit/colours.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace evenpull::viz {

namespace {

// Our own anchors in OKLab (B. Ottosson, 2020: "A perceptual color space for image processing"), equal steps of
// lightness from a deep indigo over teal to a pale yellow: blue to yellow is the axis nearly everybody keeps.
struct Lab {
  double l, a, b;
};
constexpr std::array<Lab, 5> anchors{{
    {0.28, 0.020, -0.125},
    {0.44, -0.025, -0.105},
    {0.60, -0.070, -0.025},
    {0.76, -0.065, 0.090},
    {0.92, -0.020, 0.125},
}};

// A colour this light carries black ink, below it white.
constexpr double lightness_for_black_ink = 0.62;

double from_linear(double v) {
  v = std::clamp(v, 0.0, 1.0);
  return v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
}

double to_linear(double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); }

Colour from_lab(const Lab& c) {
  const double l = std::pow(c.l + 0.3963377774 * c.a + 0.2158037573 * c.b, 3);
  const double m = std::pow(c.l - 0.1055613458 * c.a - 0.0638541728 * c.b, 3);
  const double s = std::pow(c.l - 0.0894841775 * c.a - 1.2914855480 * c.b, 3);
  return {from_linear(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
          from_linear(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
          from_linear(-0.0041960863 * l - 0.7034186147 * m + 1.7076147010 * s)};
}

}  // namespace

Colour value_colour(double share) {
  const double at = std::clamp(share, 0.0, 1.0) * (anchors.size() - 1);
  const auto i = std::min(static_cast<std::size_t>(at), anchors.size() - 2);
  const double t = at - static_cast<double>(i);
  const auto mix = [t](double p, double q) { return p + t * (q - p); };
  const Lab &p = anchors[i], &q = anchors[i + 1];
  return from_lab({mix(p.l, q.l), mix(p.a, q.a), mix(p.b, q.b)});
}

Colour difference_colour(double share) {
  constexpr Lab middle{0.95, 0.0, 0.005}, below{0.42, -0.015, -0.13}, above{0.42, 0.075, 0.085};
  const double t = std::min(1.0, std::abs(share));
  const Lab& end = share < 0 ? below : above;
  const auto mix = [t](double p, double q) { return p + t * (q - p); };
  return from_lab({mix(middle.l, end.l), mix(middle.a, end.a), mix(middle.b, end.b)});
}

double lightness(const Colour& c) {
  const double r = to_linear(c.red), g = to_linear(c.green), b = to_linear(c.blue);
  return 0.2104542553 * std::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b) +
         0.7936177850 * std::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b) -
         0.0040720468 * std::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
}

Colour ink_on(const Colour& c) { return lightness(c) > lightness_for_black_ink ? black : white; }

Colour Bands::colour(int band) const {
  return value_colour(count() < 2 ? 0.5 : static_cast<double>(band) / (count() - 1));
}

Colour Bands::colour_of(double value) const {
  const auto above = std::upper_bound(bounds.begin(), bounds.end(), value);
  const int band = static_cast<int>(above - bounds.begin()) - 1;
  return colour(std::clamp(band, 0, count() - 1));
}

Bands round_bands(double largest, int wanted) {
  if (!(largest > 0) || !std::isfinite(largest)) largest = 1;
  const double raw = largest / wanted;
  const double power = std::pow(10.0, std::floor(std::log10(raw)));
  // A few bands more than wished for are better than half as many.
  constexpr double least_share_of_wish = 0.8;
  double step = 10 * power;
  for (double m : {5.0, 2.0, 1.0})
    if (m * power >= raw * least_share_of_wish) step = m * power;
  Bands bands;
  const int n = std::max(1, static_cast<int>(std::ceil(largest / step - 1e-9)));
  for (int i = 0; i <= n; ++i) bands.bounds.push_back(i * step);
  return bands;
}

}  // namespace evenpull::viz
