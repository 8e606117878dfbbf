#include "viz/kit/colours.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull::viz;

TEST_CASE("lightness rises evenly from the lowest value to the highest") {
  double last = lightness(value_colour(0));
  const double whole = lightness(value_colour(1)) - last;
  CHECK(whole > 0.55);
  constexpr int steps = 50;
  for (int i = 1; i <= steps; ++i) {
    const double now = lightness(value_colour(1.0 * i / steps));
    // 10 %: rounding to what a screen can show.
    CHECK(now - last == Approx(whole / steps).epsilon(0.10));
    last = now;
  }
}

TEST_CASE("neighbouring bands differ by enough lightness to be told apart without colour") {
  const Bands bands = round_bands(1040, 10);
  for (int i = 0; i + 1 < bands.count(); ++i) CHECK(lightness(bands.colour(i + 1)) - lightness(bands.colour(i)) > 0.04);
}

TEST_CASE("bands have round limits and hold the largest value") {
  for (double largest : {0.7, 3.0, 99.0, 350.0, 1040.0, 12345.0}) {
    const Bands bands = round_bands(largest, 10);
    CHECK(bands.bounds.back() >= largest * (1 - 1e-9));
    CHECK(bands.count() >= 4);
    CHECK(bands.count() <= 13);
    const double step = bands.bounds[1], digit = step / std::pow(10, std::floor(std::log10(step) + 1e-9));
    CHECK((digit == Approx(1) || digit == Approx(2) || digit == Approx(5)));
  }
  CHECK(round_bands(0, 10).count() >= 1);
}

TEST_CASE("differences are pale about zero and equally dark for both signs, and the two signs are not one colour") {
  for (double t : {0.25, 0.5, 1.0}) {
    CHECK(lightness(difference_colour(t)) == Approx(lightness(difference_colour(-t))).margin(0.01));
    CHECK(lightness(difference_colour(t)) < lightness(difference_colour(t / 2)));
    // Blue against brown: the axis that nearly every eye keeps.
    CHECK(difference_colour(-t).blue - difference_colour(t).blue > 0.15 * t);
  }
  CHECK(lightness(difference_colour(0)) > 0.9);
}
