// The covered surface: profile, plan, arc length, tip bow. Shapes invented.
#include "solver/geometry/surface.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace evenpull;

TEST_CASE("the profile meets its points and never leaves the range between two of them") {
  Case c = sample::aileron();
  c.profile = {{0, 0, 0},          {0.05, 0.05, 0.02}, {0.3, 0.07, 0.05},
               {0.35, 0.07, 0.05}, {0.7, 0.02, 0.03},  {1, 0.004, 0.004}};
  const Surface s(c);
  for (std::size_t i = 0; i + 1 < c.profile.size(); ++i) {
    const ProfilePoint &a = c.profile[i], &b = c.profile[i + 1];
    CHECK(s.profile(a.chord_fraction).top == Approx(a.top).margin(1e-12));
    CHECK(s.profile(b.chord_fraction).bottom == Approx(b.bottom).margin(1e-12));
    double last = a.top;
    for (int k = 1; k <= 50; ++k) {
      const ProfilePoint p = s.profile(a.chord_fraction + (b.chord_fraction - a.chord_fraction) * k / 50.0);
      CHECK(p.top >= std::min(a.top, b.top) - 1e-12);
      CHECK(p.top <= std::max(a.top, b.top) + 1e-12);
      CHECK((p.top - last) * (b.top - a.top) >= -1e-15);  // monotone within the interval
      last = p.top;
      CHECK(p.bottom >= std::min(a.bottom, b.bottom) - 1e-12);
      CHECK(p.bottom <= std::max(a.bottom, b.bottom) + 1e-12);
    }
  }
}

TEST_CASE("a straight-sided profile stays straight") {
  Case c = sample::aileron();
  c.profile = {{0, 0.05, 0.02}, {0.2, 0.04, 0.02}, {0.7, 0.015, 0.02}, {1, 0, 0.02}};
  const Surface s(c);
  for (double x : {0.03, 0.1, 0.33, 0.5, 0.81, 0.99}) {
    CHECK(s.profile(x).top == Approx(0.05 * (1 - x)));
    CHECK(s.profile(x).bottom == Approx(0.02));
  }
}

TEST_CASE("the arc grows with the chord fraction, is longer than the chord and can be looked up backwards") {
  const Case c = sample::aileron();
  const Surface s(c);
  double last = 0;
  for (double x = 0.05; x <= 1.0001; x += 0.05) {
    CHECK(s.arc(x) > last);
    CHECK(s.arc(x) >= x);
    CHECK(s.chord_fraction_at_arc(s.arc(x)) == Approx(std::min(x, 1.0)).margin(1e-9));
    last = s.arc(x);
  }
  CHECK(s.arc(0) == 0);
}

TEST_CASE("the arc of a wedge is the length of its sides") {
  Case c = sample::aileron();
  c.profile = {{0, 0.3, 0.0}, {1, 0.0, 0.0}};
  const Surface s(c);
  CHECK(s.arc(1) == Approx(0.5 * (std::hypot(1, 0.3) + 1)));
  CHECK(s.arc(0.5) == Approx(0.25 * (std::hypot(1, 0.3) + 1)));
}

TEST_CASE("a tapered panel is thinner where its chord is shorter") {
  Case c = sample::aileron(4, 2.0, 0.4);
  c.outline.trailing_edge = {{0.4, 0}, {0.2, 2.0}};
  const Surface s(c);
  CHECK(s.chord({0, 0}) == Approx(0.4));
  CHECK(s.chord({2, 0}) == Approx(0.3));
  CHECK(s.chord({3, 1}) == Approx(0.2));
  CHECK(s.depth(0.25, {3, 1}) == Approx(0.5 * s.depth(0.25, {0, 0})));
  CHECK(s.trailing_edge_sweep() == Approx(-0.1));
  const Eigen::Vector3d top = s.skin(Side::top, 0.5, {1, 0.5}), bottom = s.skin(Side::bottom, 0.5, {1, 0.5});
  CHECK(top.z() == Approx(-bottom.z()));
  CHECK(top.y() == Approx(0.75));
  CHECK((s.middle(0.5, {1, 0.5}) - 0.5 * (top + bottom)).norm() < 1e-15);
}

TEST_CASE("a tip bow bulges by its depth and brings both skins to its own thickness") {
  Case c = sample::aileron(4, 2.0, 0.4);
  c.tip_bow = c.ribs.back().make;
  c.outline.tip_bow_depth = 0.09;
  c.tip_thickness = 0.012;
  const Surface s(c);
  CHECK(s.skin(Side::top, 0.5, {3, 1}).y() == Approx(2.09));
  CHECK(s.skin(Side::top, 0, {3, 1}).y() == Approx(2.0));
  CHECK(s.skin(Side::top, 1, {3, 1}).y() == Approx(2.0));
  for (double x : {0.0, 0.2, 0.6, 1.0}) {
    CHECK(s.depth(x, {3, 1}) == Approx(0.012));
    CHECK((s.skin(Side::top, x, {3, 0}) - s.skin(Side::top, x, {2, 1})).norm() < 1e-12);  // no step at the last rib
  }
}
