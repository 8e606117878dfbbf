// Heat shrink: curve over temperature and load line (docs/model.md, section 3). Cloth data invented.
#include "solver/statement/errors.hpp"
#include "tests/solver/chance.hpp"
#include "tests/solver/cloth_pieces.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double fine = 1e-8;  // N/m

Cloth lopsided() {
  Cloth c = sample::cloth();
  c.curve = {{fahrenheit(180), {0, 0}, {0, 0}},
             {fahrenheit(250), {0.05, 0.03}, {350, 200}},
             {fahrenheit(300), {0.05, 0.06}, {500, 450}},  // free shrink of the warp stands still here
             {fahrenheit(350), {0.09, 0.07}, {900, 500}}};
  return c;
}

ClothPoint hot(const Cloth& cloth, const Eigen::Matrix3d& c, double temperature, double dose, const double shrink[2]) {
  ClothPoint p = cold_point(c);
  const ShrinkState s = shrink_at(cloth, c, temperature);
  p.hot = true;
  for (int d = 0; d < 2; ++d) {
    p.shrink[d] = shrink[d];
    p.line[d] = load_line(held_line(s, d, dose), shrink[d], 0);
  }
  return p;
}

}  // namespace

TEST_CASE("cloth held both ways settles at the stated pull after a full dose") {
  const double none[2] = {0, 0};
  for (const Cloth& cloth : {sample::cloth(), lopsided()})
    for (const Eigen::Matrix3d& c : {sample_compliance(), uneven_compliance()})
      for (double f : {250.0, 275.0, 300.0, 340.0, 350.0}) {
        CAPTURE(f);
        const ShrinkState s = shrink_at(cloth, c, fahrenheit(f));
        const ClothPoint p = hot(cloth, c, fahrenheit(f), 1, none);
        const Mandel n = law(p, Mandel::Zero(), fine).pull;
        CHECK(n[0] == Approx(s.fixed_length_pull[0]).epsilon(1e-6));
        CHECK(n[1] == Approx(s.fixed_length_pull[1]).epsilon(1e-6));

        // Cold again, the shrink stays and so does the pull; a second full pass does nothing.
        const double kept[2] = {shrink_after(p, 0, n[0]), shrink_after(p, 1, n[1])};
        ClothPoint cold = cold_point(c);
        CHECK((law(cold, {kept[0], kept[1], 0}, fine).pull - n).norm() < 1e-5 * n.norm());
        const ClothPoint again = hot(cloth, c, fahrenheit(f), 1, kept);
        const Mandel twice = law(again, {kept[0], kept[1], 0}, fine).pull;
        CHECK((twice - n).norm() < 1e-5 * n.norm());
        for (int d = 0; d < 2; ++d) CHECK(shrink_after(again, d, twice[d]) == Approx(kept[d]).epsilon(1e-6));
      }
}

TEST_CASE("cloth without pull shrinks by its whole free shrink") {
  const Eigen::Matrix3d c = sample_compliance();
  const double none[2] = {0, 0};
  const ClothPoint p = hot(sample::cloth(), c, fahrenheit(350), 1, none);
  CHECK(shrink_after(p, 0, 0) == Approx(shrink_strain(0.10)));
  CHECK(shrink_after(p, 0, p.line[0].creep_pull) == Approx(0).margin(1e-12));
}

TEST_CASE("two part doses at the same pull add up as an exponential does") {
  const ShrinkState s = shrink_at(sample::cloth(), sample_compliance(), fahrenheit(300));
  const Eigen::Matrix3d c = sample_compliance();
  const auto after = [&](double from, double dose, double pull) {
    ClothPoint p = cold_point(c);
    p.hot = true;
    p.shrink[0] = from;
    p.line[0] = load_line(held_line(s, 0, dose), from, 0);
    return shrink_after(p, 0, pull);
  };
  for (double pull : {0.0, 100.0, 400.0})
    for (double first : {0.1, 0.25, 0.5})
      for (double second : {0.25, 0.9}) {
        const double both = 1 - (1 - first) * (1 - second);
        CHECK(after(after(0.002, first, pull), second, pull) == Approx(after(0.002, both, pull)).epsilon(1e-12));
      }
}

TEST_CASE("shrink never grows back without creep") {
  Chance chance(21);
  const Eigen::Matrix3d c = sample_compliance();
  for (int i = 0; i < 300; ++i) {
    const double before = chance.between(0, 0.09);
    const ClothPoint p = hot_point(c, fahrenheit(chance.between(200, 360)), chance.between(0.01, 1), before, before);
    const Mandel n = law(p, chance.vector<3>(0.02), 1e-3).pull;
    for (int d = 0; d < 2; ++d) CHECK(shrink_after(p, d, n[d]) >= before);
  }
}

TEST_CASE("with creep, and only above the limiting pull, hot cloth gives way") {
  const Eigen::Matrix3d c = sample_compliance();
  const ClothPoint p = hot_point(c, fahrenheit(250), 1, 0.02, 0.02, 0.5);
  const double limit = p.line[0].creep_pull;
  CHECK(shrink_after(p, 0, limit) == Approx(0.02));
  CHECK(shrink_after(p, 0, 2 * limit) < 0.02);
  const ClothPoint without = hot_point(c, fahrenheit(250), 1, 0.02, 0.02, 0);
  const Mandel pulled(0.01, 0.01, 0);
  CHECK(law(p, pulled, 1e-3).pull[0] < law(without, pulled, 1e-3).pull[0]);
}

TEST_CASE("a hot pass over cloth soaked hotter before does nothing") {
  const Eigen::Matrix3d c = sample_compliance();
  for (double held : {0.0, -0.01, -0.03}) {  // strain at which it is held: natural length, then looser
    CAPTURE(held);
    const double none[2] = {0, 0};
    const ClothPoint soak = hot(sample::cloth(), c, fahrenheit(350), 1, none);
    const Mandel n = law(soak, {held, held, 0}, fine).pull;
    const double kept[2] = {shrink_after(soak, 0, n[0]), shrink_after(soak, 1, n[1])};
    for (double f : {250.0, 300.0, 349.0}) {
      const ClothPoint p = hot(sample::cloth(), c, fahrenheit(f), 1, kept);
      const Mandel m = law(p, {held + kept[0], held + kept[1], 0}, fine).pull;
      for (int d = 0; d < 2; ++d) CHECK(shrink_after(p, d, m[d]) == kept[d]);
      CHECK((m - n).norm() < 1e-4 * n.norm());
    }
  }
}

TEST_CASE("shrink and pull rise with the setting and meet the measured points") {
  const Eigen::Matrix3d c = sample_compliance();
  for (const Cloth& cloth : {sample::cloth(), lopsided()}) {
    ShrinkState last;
    for (double f = 150; f <= 420; f += 0.5) {
      const ShrinkState s = shrink_at(cloth, c, fahrenheit(f));
      for (int d = 0; d < 2; ++d) {
        CHECK(s.free_shrink[d] >= last.free_shrink[d]);
        CHECK(s.fixed_length_pull[d] >= last.fixed_length_pull[d]);
        CHECK(s.limit_pull[d] >= s.fixed_length_pull[d]);
      }
      last = s;
    }
    for (const ShrinkPoint& p : cloth.curve) {
      const ShrinkState s = shrink_at(cloth, c, p.temperature);
      CHECK(s.free_shrink[0] == Approx(shrink_strain(p.free_shrink.warp)));
      CHECK(s.free_shrink[1] == Approx(shrink_strain(p.free_shrink.fill)));
      CHECK(s.fixed_length_pull[0] == Approx(p.pull.warp));
      CHECK(s.fixed_length_pull[1] == Approx(p.pull.fill));
    }
  }
}

TEST_CASE("beyond the hottest measured setting nothing is extrapolated, below the onset nothing shrinks") {
  const Eigen::Matrix3d c = sample_compliance();
  const ShrinkState top = shrink_at(sample::cloth(), c, fahrenheit(350)), over = shrink_at(sample::cloth(), c, 600);
  const ShrinkState under = shrink_at(sample::cloth(), c, fahrenheit(176));
  for (int d = 0; d < 2; ++d) {
    CHECK(over.free_shrink[d] == top.free_shrink[d]);
    CHECK(over.limit_pull[d] == top.limit_pull[d]);
    CHECK(under.free_shrink[d] == 0);
    CHECK(under.limit_pull[d] == 0);
    const LoadLine l = load_line(held_line(under, d, 1), 0.013, 0.3);
    CHECK(l.a == 0.013);
    CHECK(l.b == 0);
  }
}

TEST_CASE("a pull that the shrink could not produce is refused, with the key that states it") {
  Cloth c = sample::cloth();
  c.curve[1].pull = {4500, 4500};  // C P = 4.05 %, still possible at 4.9 % strain
  CHECK_NOTHROW(shrink_at(c, sample_compliance(), fahrenheit(250)));
  c.curve[1].pull = {6000, 6000};
  try {
    shrink_at(c, sample_compliance(), fahrenheit(250));
    FAIL("accepted");
  } catch (const CaseError& e) {
    CHECK(e.key == "cloth.curve");
  }
}

TEST_CASE("engineering looseness and shrink become strain") {
  CHECK(looseness_strain(0.01) == Approx(0.01005));
  CHECK(shrink_strain(0.10) == Approx(0.095));  // docs/model.md: 10 % shrink is 0.095
  CHECK(looseness_strain(0) == 0);
  CHECK(shrink_strain(0) == 0);
}
