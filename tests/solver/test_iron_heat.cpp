// What the iron does to the cloth: properties that must hold whatever the numbers (docs/model.md, section 4).
#include "solver/cloth/shrink.hpp"
#include "solver/heat/heat_integrator.hpp"
#include "solver/heat/pass_heat.hpp"
#include "solver/heat/thermal.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

Case nose_case() { return sample::aileron(6, 1.8, 0.35); }

Eigen::Matrix3d stiffness_of(const Case& c) {
  return compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear);
}

const Backing sheet{0.5e-3, {121, 2780, 875}};

SpotHistory held_at(double temperature, double seconds) { return {{0, seconds}, {temperature, temperature}}; }

// Shrink of the warp in the end, the pull held: ds/dt = k(T) (s_eq(N, T) - s) when positive, by small steps of Euler's along
// the history, by the formulas of docs/model.md, section 4.
double shrink_in_the_end(const Cloth& cloth, const Eigen::Matrix3d& stiff, const SpotHistory& h, double stage,
                         double pull) {
  constexpr int parts = 50;
  double s = 0;
  for (std::size_t i = 0; i + 1 < h.time.size(); ++i)
    for (int part = 0; part < parts; ++part) {
      const double t = h.temperature[i] + (part + 0.5) / parts * (h.temperature[i + 1] - h.temperature[i]);
      const ShrinkState now = shrink_at(cloth, stiff, t);
      if (now.limit_pull[0] <= 0) continue;
      const double k = std::log(2) / cloth.half_time * std::exp(-cloth.activation / 8.314462618 * (1 / t - 1 / stage));
      s += std::max(0.0, k * (now.free_shrink[0] * (1 - pull / now.limit_pull[0]) - s)) * (h.time[i + 1] - h.time[i]) /
           parts;
    }
  return s;
}

double effusivity(const HeatSolid& s) { return std::sqrt(s.conductivity * s.density * s.specific_heat); }

}  // namespace

TEST_CASE("heat that goes in is stored or lost: the transient keeps the balance") {
  HeatNetwork n(3);
  n.capacity << 50, 120, 900;
  n.link(0, 1, 400);
  n.link(1, 2, 200);
  n.link_to(0, 700, 450);
  n.link_to(2, 12, 293);
  const Eigen::Vector3d start(450, 293, 293);
  const HeatModes modes(n, start);
  const auto heat_in = [&](double t) -> double { return (n.input - n.conductance * modes.at(t)).sum(); };
  const double end = 5;
  double sum = 0;
  const int steps = 20000;  // Simpson's rule, far finer than the fastest decay
  for (int i = 0; i <= steps; ++i) sum += (i == 0 || i == steps ? 1 : i % 2 ? 4 : 2) * heat_in(end * i / steps);
  sum *= end / steps / 3;
  CHECK(sum == Approx(n.capacity.dot(modes.at(end) - start)).epsilon(1e-6));
}

TEST_CASE("the exact answer and the stiff integrator agree on a network") {
  HeatNetwork n(3);
  n.capacity << 5, 120, 9000;
  n.link(0, 1, 400);
  n.link(1, 2, 200);
  n.link_to(0, 700, 450);
  const Eigen::Vector3d start(300, 293, 280);
  const auto steps = integrate_heat(n, start, {}, {0, 0.01, 1, 30});
  const HeatModes modes(n, start);
  CHECK((steps[1] - modes.at(0.01)).norm() < 0.02);  // K; its step control allows 1e-6 of some 300 K a step
  CHECK((steps[2] - modes.at(1)).norm() < 0.02);
  CHECK((steps[3] - modes.at(30)).norm() < 0.02);
}

TEST_CASE("a heater at its stop leaves the sole cooler than one with power to spare") {
  Case c = nose_case();
  c.iron.heat_capacity = 300;
  c.iron.swing = 2;
  c.iron.power = 3000;
  const HeatHistory strong = heat_history(c, sheet, {450, 8});
  c.iron.power = 200;
  const HeatHistory weak = heat_history(c, sheet, {450, 8});
  CHECK(weak.heater_at_stop);
  CHECK(weak.sag > strong.sag + 5);
  CHECK(weak.peak < strong.peak);
}

TEST_CASE("cloth held at one temperature follows the load line of its dose") {
  const Case c = nose_case();
  const double t = true_temperature(300), seconds = 0.7;
  HeatHistory h;
  h.spots = {held_at(t, seconds)};
  const FittedLines f = fit_lines(c.cloth, stiffness_of(c), h, t);
  const double dose = 1 - std::pow(0.5, seconds / c.cloth.half_time);
  const ShrinkState s = shrink_at(c.cloth, stiffness_of(c), t);
  for (const double begun : {0.0, 0.01}) {
    const LoadLine want = load_line(held_line(s, 1, dose), begun, 0), got = load_line(f.lines[1], begun, 0);
    CHECK(got.a == Approx(want.a).epsilon(1e-9));
    CHECK(got.b == Approx(want.b).epsilon(1e-9));
  }
  CHECK(f.fit_error < 1e-9);
  CHECK(dose_of(c.cloth, stiffness_of(c), h, t).slower == Approx(dose).epsilon(1e-9));
}

TEST_CASE("the line of a real touch stands close to the shrink at every pull") {
  const Case c = nose_case();
  const double t = true_temperature(300);
  for (const double contact : {0.4, 1.0, 3.5}) {
    const HeatHistory h = heat_history(c, {}, {t, contact});
    const FittedLines f = fit_lines(c.cloth, stiffness_of(c), h, t);
    CHECK(f.fit_error < 0.03);
    const double full = shrink_at(c.cloth, stiffness_of(c), t).free_shrink[0];
    for (const double share : {0.1, 0.5, 0.9}) {
      const double pull = share * f.lines[0].creep_pull;
      const double exact = shrink_in_the_end(c.cloth, stiffness_of(c), h.spots[0], t, pull);
      CHECK(std::abs(std::max(0.0, f.lines[0].a - f.lines[0].b * pull) - exact) < 0.03 * full);
    }
  }
}

TEST_CASE("a longer contact never gives less, and a nose takes longer than an open bay") {
  const Case c = nose_case();
  const double t = true_temperature(250);
  double before = 0;
  for (const double contact : {0.2, 0.4, 0.8, 1.6, 3.2, 6.4}) {
    const double dose = dose_of(c.cloth, stiffness_of(c), heat_history(c, {}, {t, contact}), t).slower;
    CHECK(dose >= before);
    if (contact > 0.3) CHECK(dose > before);  // before that the cloth is too cold to shrink at all
    before = dose;
  }
  const PassHeat p = pass_heat(c, t, 1);
  REQUIRE(p.nose);
  CHECK(p.nose->contact > 4 * p.open.contact);
  CHECK(p.nose->dose < p.open.dose);
}

TEST_CASE("a pass is held until it has the dose asked for") {
  const Case c = nose_case();
  for (const double f : {250.0, 300.0, 350.0})
    for (const double dose : {0.7, 0.85}) {
      const PassHeat p = pass_heat(c, true_temperature(f), dose);
      CHECK(p.way == PassWay::hold);
      CHECK(p.open.dose == Approx(dose).margin(2e-3));
      CHECK(p.open.reaches);
      CHECK(p.open.dose_low < p.open.dose);
      CHECK(p.open.dose_high > p.open.dose);
    }
}

TEST_CASE("a stated dwell is kept, and cannot take the cloth above the sole") {
  const Case c = nose_case();
  const PassHeat p = pass_heat(c, true_temperature(300), 1, 2.0);
  CHECK(p.open.contact == 2.0);
  REQUIRE(p.nose);
  CHECK(p.nose->contact == 2.0);
  CHECK_FALSE(p.nose->reaches);
  CHECK(p.open.peak < p.sole_temperature);
  CHECK(p.nose->peak < p.open.peak);
}

TEST_CASE("a light pass comes by a short touch or by a lower setting, whichever scatters less") {
  Case c = nose_case();
  const double t = true_temperature(250);
  c.iron.swing = 1;  // a steady iron: the setting decides, and holds
  const PassHeat setting = pass_heat(c, t, 0.25);
  CHECK(setting.way == PassWay::setting);
  CHECK(setting.sole_temperature < t);
  c.iron.swing = 25;  // one that swings, in a steady hand
  c.iron.hand_scatter = 0.02;
  const PassHeat touch = pass_heat(c, t, 0.25);
  CHECK(touch.way == PassWay::touch);
  CHECK(touch.sole_temperature == t);
  for (const PassHeat& p : {touch, setting}) CHECK(p.open.dose == Approx(0.25).margin(5e-3));
  CHECK_FALSE(can_be_had(pass_heat(c, t, 0.1)));
}

TEST_CASE("a zone over the nose shrinks less there than a bay does in the same pass") {
  Case c = one_zone_a_bay(nose_case());
  c.stages[0].doses = {1}, c.stages[0].dwells = {1.0};
  Job j(c);
  Covering s = j.ironing.begin();
  j.ironing.iron(s, 0, j.ironing.heat(0, 1, 1, 1), "a short stay");
  double nose = 0, open = 0;
  int noses = 0, opens = 0;
  for (int q : j.panel().zones[0].quads) {
    const bool on_nose = j.panel().nodes[j.panel().quads[q].nodes[1]].on_nose;
    (on_nose ? nose : open) += s.shrink[4 * q][1];
    ++(on_nose ? noses : opens);
  }
  REQUIRE(noses > 0);
  REQUIRE(opens > 0);
  CHECK(nose / noses < 0.5 * open / opens);
}

TEST_CASE("wood, steel and aluminium are told apart by what they are") {
  CHECK(heat_of({"a", 70e9, 26e9, 240e6, Strength::yield}).conductivity > 100);
  CHECK(heat_of({"s", 200e9, 77e9, 345e6, Strength::yield}).conductivity < 60);
  CHECK(heat_of({"w", 10e9, 0.7e9, 70e6, Strength::rupture}).conductivity < 0.2);
  // Effusivities of the three, from memory of handbook properties.
  CHECK(effusivity(heat_of({"a", 70e9, 26e9, 240e6, Strength::yield})) == Approx(17156).epsilon(0.01));
  CHECK(effusivity(heat_of({"s", 200e9, 77e9, 345e6, Strength::yield})) == Approx(12645).epsilon(0.01));
  CHECK(effusivity(heat_of({"w", 10e9, 0.7e9, 70e6, Strength::rupture})) == Approx(273).epsilon(0.01));
}

TEST_CASE("the more passes, the higher the point of its swing that cloth has met in the mean") {
  CHECK(top_of_swing_met(0) == 0);
  CHECK(top_of_swing_met(1) == 0);
  // Closed forms: E max of n of sin(2 pi U) is I_n = n(n-1)/pi^2 (1 - I_(n-2)), I_1 = 0, I_2 = (2/pi)^2.
  const double square = M_PI * M_PI;
  CHECK(top_of_swing_met(2) == Approx(4 / square).epsilon(1e-12));
  CHECK(top_of_swing_met(3) == Approx(6 / square).epsilon(1e-12));
  CHECK(top_of_swing_met(4) == Approx(12 / square * (1 - 4 / square)).epsilon(1e-12));
  for (int n = 2; n < 30; ++n) CHECK(top_of_swing_met(n) > top_of_swing_met(n - 1));
  CHECK(top_of_swing_met(30) < 1);
}

TEST_CASE("a full pass after others counts with the higher swing, a steady iron does not") {
  Case c = one_zone_a_bay(nose_case());
  c.stages[0].doses = {0.25, 1, 1, 1};
  c.iron.swing = 14;
  Job j(c);
  const auto shrink = [&](int full_passes) {
    return j.ironing.heat(0, full_passes + 1, 1, full_passes).open.lines[0].a;
  };
  const PassHeat meant = pass_heat(c, c.stages[0].temperature, 1);
  CHECK(shrink(1) == meant.open.lines[0].a);
  CHECK(shrink(2) > shrink(1));
  CHECK(shrink(3) > shrink(2));
  const PassHeat top = as_it_went(c, meant, c.iron.swing, 1);
  CHECK(shrink(3) < top.open.lines[0].a);
  // A quadrature over what three passes meet, by the distribution of the highest of three sines.
  double mean = 0;
  const int parts = 200;
  for (int i = 0; i < parts; ++i) {
    const double low = double(i) / parts, high = double(i + 1) / parts, p = 0.5 * (low + high);
    const double sole = -std::cos(M_PI * p) * c.iron.swing;
    mean += (std::pow(high, 3) - std::pow(low, 3)) * as_it_went(c, meant, sole, 1).open.lines[0].a;
  }
  CHECK(shrink(3) == Approx(mean).epsilon(0.03));

  c.iron.swing = 0;
  Job steady(c);
  CHECK(steady.ironing.heat(0, 4, 1, 3).open.lines[0].a == steady.ironing.heat(0, 2, 1, 1).open.lines[0].a);
}
