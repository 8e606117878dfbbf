// Which yarns are called warp is a matter of words: dose, dwell and the panel must not hang on it.
#include "tests/solver/small_job.hpp"
#include "tests/support/random_cloth.hpp"

#include <catch2/catch.hpp>

#include <vector>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr unsigned few_cloths = 12, many_cloths = 200;
constexpr double last_digits = 1e-8;   // of numbers that the same sums give in another sequence
constexpr double solved_alike = 1e-4;  // of readings: two solutions, each within the tolerances of `tight`

Case small_case(unsigned number) {
  Case c = one_zone_a_bay(number % 2 ? sample::aileron(2, 0.6) : sample::light_rudder(2));
  c.outline = sample::aileron(2, 0.6).outline;
  for (std::size_t i = 0; i < c.ribs.size(); ++i) c.ribs[i].station = 0.3 * static_cast<double>(i);
  for (std::vector<Support>* set : {&c.while_ironed, &c.in_use}) (*set)[1].station = 0.6;
  c.cloth = random_cloth(number);
  return c;
}

Case renamed_case(Case c) {
  c.cloth = renamed(c.cloth);
  return c;
}

void same_lines(const PassLines& a, const PassLines& b) {
  for (int d = 0; d < 2; ++d) {
    const PassLine &x = a[d], &y = b[1 - d];
    CHECK(x.kept == Approx(y.kept).epsilon(last_digits).margin(1e-12));
    CHECK(x.a == Approx(y.a).epsilon(last_digits).margin(1e-12));
    CHECK(x.b == Approx(y.b).epsilon(last_digits).margin(1e-15));
    CHECK(x.creep_pull == Approx(y.creep_pull).epsilon(last_digits));
  }
}

void same_spot(const SpotHeat& a, const SpotHeat& b) {
  CHECK(a.contact == Approx(b.contact).epsilon(last_digits));
  CHECK(a.dose == Approx(b.dose).epsilon(last_digits).margin(1e-12));
  CHECK(a.dose_low == Approx(b.dose_low).epsilon(last_digits).margin(1e-12));
  CHECK(a.dose_high == Approx(b.dose_high).epsilon(last_digits).margin(1e-12));
  CHECK(a.best_dose == Approx(b.best_dose).epsilon(last_digits).margin(1e-12));
  CHECK(a.fit_error == Approx(b.fit_error).epsilon(1e-6).margin(1e-12));
  CHECK(a.reaches == b.reaches);
  same_lines(a.lines, b.lines);
}

void same_heat(unsigned number) {
  INFO("cloth " << number);
  const Case c = small_case(number), other = renamed_case(c);
  for (const double f : {250.0, 275.0, 350.0})
    for (const double dose : {1.0, 0.25}) {
      INFO(f << " F, dose " << dose);
      const PassHeat a = pass_heat(c, true_temperature(f), dose), b = pass_heat(other, true_temperature(f), dose);
      CHECK(a.way == b.way);
      CHECK(a.sole_temperature == Approx(b.sole_temperature).epsilon(last_digits));
      CHECK(can_be_had(a) == can_be_had(b));
      same_spot(a.open, b.open);
      REQUIRE(a.nose.has_value() == b.nose.has_value());
      if (a.nose) same_spot(*a.nose, *b.nose);
    }
}

// A light and a full pass at 250 F, or a full one at 300 F, over the whole panel, settled.
Readings worked(const Case& c) {
  Job j(c, 60, tight());
  Covering s = j.ironing.begin();
  const int stage = c.cloth.curve[1].free_shrink.warp > 0 && c.cloth.curve[1].free_shrink.fill > 0 ? 0 : 1;
  for (const double dose : {0.25, 1.0})
    for (const int z : centre_out(j.panel())) {
      const PassHeat& heat = j.ironing.heat(stage, dose < 1 ? 1 : 3, dose, dose < 1 ? 0 : 1);
      REQUIRE(j.ironing.iron(s, z, heat, "a zone").outcome == Outcome::settled);
    }
  j.ironing.settle(s, "the stage");
  return j.read(s);
}

void same_panel(unsigned number) {
  INFO("cloth " << number);
  const Case c = small_case(number);
  const Readings a = worked(c), b = worked(renamed_case(c));
  const double pull = *std::max_element(a.zones.chord.begin(), a.zones.chord.end());
  for (std::size_t z = 0; z < a.zones.chord.size(); ++z) {
    CHECK(a.zones.chord[z] == Approx(b.zones.chord[z]).margin(solved_alike * pull));
    CHECK(a.zones.span[z] == Approx(b.zones.span[z]).margin(solved_alike * pull));
    CHECK(a.zones.warp[z] == Approx(b.zones.fill[z]).margin(solved_alike * pull));
  }
  CHECK(a.stress_use.value == Approx(b.stress_use.value).epsilon(solved_alike));
  CHECK(a.edge_bow.value == Approx(b.edge_bow.value).epsilon(solved_alike).margin(1e-8));
  CHECK(a.twist == Approx(b.twist).epsilon(solved_alike).margin(1e-8));
  CHECK(a.slip.value == Approx(b.slip.value).margin(1e-7));
  CHECK(a.unevenness == Approx(b.unevenness).margin(1e-3));
  CHECK(a.loose_share == Approx(b.loose_share).margin(1e-9));
  CHECK(a.puckered_share == Approx(b.puckered_share).margin(1e-9));
}

// Sample cloth whose warp does nothing up to 250 F.
Case late_warp() {
  Case c = sample::aileron();
  c.cloth.curve[1].free_shrink.warp = c.cloth.curve[1].pull.warp = 0;
  return c;
}

}  // namespace

TEST_CASE("exchanging the names of the yarns changes no dose, dwell or pass line") {
  for (unsigned i = 0; i < few_cloths; ++i) same_heat(i);
}

TEST_CASE("exchanging the names of the yarns changes no reading of a panel that was ironed") {
  for (unsigned i = 0; i < few_cloths; ++i) same_panel(i);
}

TEST_CASE("exchanging the names of the yarns changes nothing for two hundred cloths", "[.long]") {
  for (unsigned i = 0; i < many_cloths; ++i) same_heat(i), same_panel(i);
}

TEST_CASE("a yarn that does not shrink yet leaves dose and dwell to the other") {
  const Case late = late_warp(), usual = sample::aileron();
  const double t = true_temperature(250);
  const PassHeat a = pass_heat(late, t, 1), b = pass_heat(usual, t, 1);
  CHECK(a.open.contact == Approx(b.open.contact));
  CHECK(a.open.dose == Approx(b.open.dose));
  CHECK(a.open.reaches);
  CHECK(a.open.lines[0].a == 0);
  CHECK(a.open.lines[1].a == Approx(b.open.lines[1].a));
}

TEST_CASE("of two yarns the slower decides how long to stay, whichever it is called") {
  for (const bool warp_is_late : {true, false}) {
    Case c = sample::aileron();
    c.iron.swing = 25, c.iron.hand_scatter = 0.02;  // so that a light pass is a touch
    // At 265 F the late yarn has only just begun, so the degrees that cloth stays below the sole take more of its shrink.
    ShrinkPoint& p = c.cloth.curve[1];
    (warp_is_late ? p.free_shrink.warp : p.free_shrink.fill) = (warp_is_late ? p.pull.warp : p.pull.fill) = 0;
    const int late = warp_is_late ? 0 : 1;
    const double t = true_temperature(265);
    const Eigen::Matrix3d stiff =
        compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear);
    const ShrinkState full = shrink_at(c.cloth, stiff, t);
    for (const double dose : {0.25, 0.6}) {
      const PassHeat pass = pass_heat(c, t, dose);
      REQUIRE(pass.way == PassWay::touch);
      const SpotHeat& open = pass.open;
      if (open.faster_dose > 0.6) CHECK_FALSE(can_be_had(pass));  // to the faster yarn it is no light pass
      CHECK((dose < 0.6 || open.faster_dose > 0.6));
      const double slower = open.lines[late].a / full.free_shrink[late],
                   faster = open.lines[1 - late].a / full.free_shrink[1 - late];
      CHECK(slower < faster);
      CHECK(open.dose == Approx(slower));
      CHECK(open.dose == Approx(dose).margin(5e-3));
      // Two places in three: the slower yarn at its low end, the faster at its high end.
      CHECK(open.dose_low < slower);
      CHECK(open.dose_high > faster);
    }
  }
}

TEST_CASE("cloth that only the fill has tightened pulls and loads the frame like any other") {
  Case c = one_zone_a_bay(late_warp());
  c.ribs.resize(3), c.ribs[2].station = 0.6;
  c.outline = sample::aileron(2, 0.6).outline;
  c.while_ironed[1].station = c.in_use[1].station = 0.6;
  c.cloth.warp_angle = 0;  // fill along the chord
  Job j(c, 60);
  Covering s = j.ironing.begin();
  for (const int z : centre_out(j.panel())) j.ironing.iron(s, z, j.ironing.heat(0, 3, 1, 1), "a zone");
  j.ironing.settle(s, "the stage");
  const Readings r = j.read(s);
  CHECK(side_mean(j.panel(), r.zones.chord, Side::top) > 100);
  CHECK(r.stress_use.value > 0.01);
}
