// How sure the plan is: intervals and weights against closed forms, scenarios by their properties, one small study whole.
#include "sequencer/numbers/regression.hpp"
#include "sequencer/numbers/sobol.hpp"
#include "sequencer/orders/families.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/sure/chance_study.hpp"
#include "sequencer/sure/outturn.hpp"
#include "sequencer/sure/scenario.hpp"
#include "sequencer/sure/zone_risk.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

double f(double degrees) { return (degrees + 459.67) / 1.8; }

Case small_case() {
  Case c = sample::light_rudder(2);
  c.outline.leading_edge[1].y = c.outline.trailing_edge[1].y = 0.7;
  for (std::size_t i = 0; i < c.ribs.size(); ++i) c.ribs[i].station = 0.35 * static_cast<double>(i);
  c.while_ironed[1].station = c.in_use[1].station = 0.7;
  c.iron.sole_length = 0.4, c.iron.sole_width = 0.3, c.iron.travel_speed = 0;
  c.stages = {{f(250), {1}}, {f(300), {1}}};
  c.target_nodes = 400;
  c.wanted.scenarios = 40;
  return c;
}

}  // namespace

TEST_CASE("intervals of a share are those of Clopper and Pearson") {
  // 0 of 10 and 1 of 10 at 95 %: closed form for none, 1 - 0.025^(1/10) = 0.3085; the pair for one from published
  // tables of binomial confidence limits (0.0025, 0.4450), from memory.
  CHECK(chance_of(0, 10).low == 0);
  CHECK(chance_of(0, 10).high == Approx(1 - std::pow(0.025, 0.1)));
  CHECK(chance_of(1, 10).low == Approx(0.0025).margin(1e-4));
  CHECK(chance_of(1, 10).high == Approx(0.4450).margin(1e-4));
  CHECK(chance_of(10, 10).high == 1);
  const Chance tail = chance_of(6, 128);  // 4.7 %: known to about 4 %
  CHECK(tail.high - tail.share() < 0.055);
  CHECK(tail.share() - tail.low < 0.035);
}

TEST_CASE("weights of a linear response are the squares of its coefficients") {
  std::vector<std::vector<double>> x;
  std::vector<double> y;
  for (const auto& u : sobol_points(512, 3)) {
    x.push_back({normal_quantile(u[0]), normal_quantile(u[1]), normal_quantile(u[2])});
    y.push_back(5 + 3 * x.back()[0] - 4 * x.back()[2]);
  }
  double explained = 0;
  const auto w = weigh_columns(x, y, explained);
  REQUIRE(w.size() == 3);
  CHECK(explained == Approx(1));
  CHECK(w[0].column == 2);
  CHECK(w[0].share == Approx(16.0 / 25).epsilon(0.03));
  CHECK(w[0].sign < 0);
  CHECK(w[1].column == 0);
  CHECK(w[1].share == Approx(9.0 / 25).epsilon(0.03));
  CHECK(w[2].share < 1e-3);
  for (const auto& one : w) {
    CHECK(one.low <= one.share + 1e-12);
    CHECK(one.high >= one.share - 1e-12);
  }
}

TEST_CASE("a drawn case moves each input by its spread and stays a case that can be computed") {
  const Case c = sample::aileron(3, 0.9, 0.35);
  std::vector<double> z(unsure_count, 0.0);
  CHECK(drawn_case(c, z).cloth.curve.back().pull.warp == c.cloth.curve.back().pull.warp);
  z[static_cast<int>(Unsure::pull)] = 1;
  CHECK(drawn_case(c, z).cloth.curve.back().pull.fill == Approx(900 * std::exp(0.29)));
  CHECK(drawn_case(c, z).cloth.stiffness.warp == c.cloth.stiffness.warp);
  // Everything against each other: much pull on soft cloth that hardly shrinks.
  z[static_cast<int>(Unsure::pull)] = 3;
  z[static_cast<int>(Unsure::free_shrink)] = z[static_cast<int>(Unsure::cloth_stiffness)] = -3;
  CHECK_NOTHROW(pass_heat(drawn_case(c, z), f(350), 1));
}

TEST_CASE(
    "the spread of the pull is mostly common, a part is each stage's and each yarn's own, and a stated one scales "
    "all") {
  Case c = sample::aileron(3, 0.9, 0.35);
  const int numbers = numbers_of(c);
  REQUIRE(numbers == unsure_count + 2 + static_cast<int>(c.cloth.curve.size()));
  const auto off = [&](int number, std::size_t point) {  // of warp and fill, in the logarithm
    std::vector<double> z(static_cast<std::size_t>(numbers), 0.0);
    z[static_cast<std::size_t>(number)] = 1;
    const ShrinkPoint drawn = drawn_case(c, z).cloth.curve[point], meant = c.cloth.curve[point];
    return Yarns{std::log(drawn.pull.warp / meant.pull.warp), std::log(drawn.pull.fill / meant.pull.fill)};
  };
  for (const double scale : {1.0, 0.5}) {
    c.spreads.pull_common = 0.29 * scale, c.spreads.pull_of_stage = 0.10 * scale, c.spreads.pull_of_yarn = 0.08 * scale;
    double squares = 0;
    for (int i = 0; i < numbers; ++i)
      if (i == static_cast<int>(Unsure::pull) || i >= unsure_count) squares += off(i, 3).warp * off(i, 3).warp;
    CHECK(std::sqrt(squares) == Approx(0.32 * scale).epsilon(0.02));
    CHECK(off(static_cast<int>(Unsure::pull), 1).fill == Approx(0.29 * scale));
    CHECK(off(unsure_count, 2).warp == Approx(0.08 * scale));  // the warp's own
    CHECK(off(unsure_count, 2).fill == Approx(0).margin(1e-12));
    CHECK(off(unsure_count + 1, 2).fill == Approx(0.08 * scale));      // the fill's own
    CHECK(off(unsure_count + 2 + 2, 2).warp == Approx(0.10 * scale));  // that point's own
    CHECK(off(unsure_count + 2 + 2, 1).warp == Approx(0).margin(1e-12));
  }
  // What is regressed on is the pull as it turned out at a temperature.
  std::vector<double> z(static_cast<std::size_t>(numbers), 0.0);
  z[static_cast<std::size_t>(unsure_count + 2 + 2)] = 1;
  const std::size_t pull = static_cast<std::size_t>(Unsure::pull);
  CHECK(regressors(c, z, c.cloth.curve[2].temperature)[pull] == Approx(0.10 / 0.32).epsilon(0.02));
  CHECK(regressors(c, z, c.cloth.curve[1].temperature)[pull] == Approx(0).margin(1e-12));
  CHECK(regressors(c, z, c.cloth.curve[2].temperature).size() == static_cast<std::size_t>(unsure_count));
}

TEST_CASE("a wider spread at one point of the curve widens no other, and the common factor moves all the same way") {
  Case all = sample::aileron(3, 0.9, 0.35);
  all.spreads.pull_common = all.spreads.pull_of_stage = 0.0707;
  Case some = all;
  some.cloth.curve[3].pull_common = 0.158;  // a coupon carried to that stage
  double squares = 0;
  const int count = 1024;
  for (const auto& point : sobol_points(count, numbers_of(all))) {
    std::vector<double> z;
    for (const double u : point) z.push_back(normal_quantile(u));
    const auto a = drawn_case(all, z).cloth.curve, b = drawn_case(some, z).cloth.curve;
    for (const std::size_t measured : {1u, 2u}) CHECK(a[measured].pull.warp == b[measured].pull.warp);
    const double common = std::clamp(z[static_cast<std::size_t>(Unsure::pull)], -most_sigmas, most_sigmas);
    CHECK(std::log(b[3].pull.warp / a[3].pull.warp) == Approx((0.158 - 0.0707) * common).margin(1e-9));
    squares += std::pow(std::log(b[3].pull.warp / some.cloth.curve[3].pull.warp), 2) / count;
  }
  CHECK(std::sqrt(squares) == Approx(0.19).epsilon(0.03));
  CHECK(spread_of(some, Unsure::pull, all.cloth.curve[2].temperature) == all.spreads.pull());
  CHECK(spread_of(some, Unsure::pull, all.cloth.curve[3].temperature) == Approx(0.19).epsilon(0.01));
}

TEST_CASE("a scenario's heat hangs on its number alone, and swings about what was meant") {
  const Case c = sample::aileron(3, 0.9, 0.35);
  ScenarioHeat a(c, c, 0, 3, 40), b(c, c, 0, 3, 40), other(c, c, 0, 4, 40);
  const Step step{0, 3, 1, 1, 0, 1};
  const double meant = pass_heat(c, c.stages[0].temperature, 1).open.lines[0].a;
  double mean = 0;
  bool differs = false;
  for (std::size_t i = 0; i < 40; ++i) {
    const double shrink = a.of(step, i).open.lines[0].a;
    CHECK(shrink == b.of(step, i).open.lines[0].a);
    differs = differs || shrink != other.of(step, i).open.lines[0].a;
    mean += shrink / 40;
  }
  CHECK(differs);
  CHECK(mean == Approx(meant).epsilon(0.15));
}

namespace {

Outturn outturn(double stress, double unevenness) {
  Outturn o = outturn_of({}, 0);
  o.fell[0] = false;
  o.uses[0] = {{Limit::stress, stress}, {Limit::unevenness, unevenness}};
  return o;
}

}  // namespace

TEST_CASE("a use is corrected by the ratio of the run as planned, unevenness by the difference of squares") {
  const auto by = corrections(outturn(0.9, 0.5), outturn(0.6, 0.3));
  CHECK(corrected_use(outturn(0.8, 0.3), by, 0, Limit::stress) == Approx(1.2));
  CHECK(corrected_use(outturn(0.8, 0.3), by, 0, Limit::unevenness) == Approx(0.5));
  CHECK(corrected_use(outturn(0.8, 1.2), by, 0, Limit::unevenness) == Approx(std::sqrt(1.44 + 0.25 - 0.09)));
  // What is even beyond the run as planned is not made the square root of something below nothing.
  const auto down = corrections(outturn(0.9, 0.3), outturn(0.6, 0.5));
  CHECK(corrected_use(outturn(0.8, 0.1), down, 0, Limit::unevenness) == 0);
  // Where the frame gave way in the run as planned nothing is lowered.
  Outturn fell = outturn(0.9, 0.3);
  fell.fell[0] = true;
  const auto kept = corrections(fell, outturn(1.2, 0.5));
  CHECK(corrected_use(outturn(0.8, 0.4), kept, 0, Limit::stress) == Approx(0.8));
  CHECK(corrected_use(outturn(0.8, 0.4), kept, 0, Limit::unevenness) == Approx(0.4));
}

TEST_CASE("scenarios run through both models raise what all scenarios read, and never lower it") {
  const auto plain = corrections(outturn(0.6, 0.3), outturn(0.6, 0.3));
  const Outturn low = outturn(0.5, 0.5), one = outturn(0.55, 0.4), other = outturn(0.605, 0.4);
  const auto more = raised(plain, plain, {{one, low}, {other, low}});
  CHECK(corrected_use(outturn(1, 0.5), more, 0, Limit::stress) == Approx(std::sqrt(1.1 * 1.21)));
  CHECK(corrected_use(outturn(1, 0.5), more, 0, Limit::unevenness) == Approx(0.5));
  Outturn fell = other;
  fell.fell[0] = true;
  CHECK(corrected_use(outturn(1, 0.5), raised(plain, plain, {{one, low}, {fell, low}}), 0, Limit::stress) ==
        Approx(1.1));
  CHECK(corrected_use(outturn(1, 0.5), raised(plain, plain, {}), 0, Limit::stress) == 1);
}

TEST_CASE("zones at risk are read with what a finer mesh found beyond the reduced one in the run as planned") {
  Case c = small_case();
  const Panel p = build_panel(c, {150});
  const int zones = static_cast<int>(p.zones.size());
  const auto outturn = [&](double first, double slip) {
    Outturn o;
    o.zone_pull = {std::vector<double>(zones, 100)};
    o.zone_pull[0][0] = first;
    o.column_slip = {std::vector<double>(p.columns, slip)};
    o.fell = {false};
    return o;
  };
  const ZoneEnds finer = zone_ends(p, outturn(95, 2e-3), 0), reduced = zone_ends(p, outturn(80, 1e-3), 0);
  const ZoneCorrection by = zone_correction(finer, reduced);
  const ZoneEnds as_planned = corrected(reduced, by);
  for (int z = 0; z < zones; ++z) {
    CHECK(as_planned.off_mean[z] == Approx(finer.off_mean[z]).margin(1e-12));
    CHECK(as_planned.slip[z] == Approx(2e-3));
  }
  // Taken as it is the first zone is off by more than 15 %; the finer mesh shows that the reduced one makes it so.
  CHECK(zone_risks(zones, {reduced}, 0.15, 1)[0].uneven.hits == 1);
  CHECK(zone_risks(zones, {as_planned}, 0.15, 1)[0].uneven.hits == 0);
  CHECK(zone_risks(zones, {as_planned}, 0.15, 1.5e-3)[1].slides.hits == 1);
  // Where one of them gave way nothing is corrected, and the scenario that gave way is not counted.
  Outturn fell = outturn(95, 0);
  fell.fell = {true};
  CHECK(corrected(reduced, zone_correction(zone_ends(p, fell, 0), reduced)).off_mean == reduced.off_mean);
  CHECK(zone_risks(zones, {zone_ends(p, fell, 0), reduced}, 0.15, 1)[0].uneven.of == 1);
}

TEST_CASE("zones of a run ironed at one time end nearly as one by one, and a turn-over parts them") {
  Case c = small_case();
  c.stages.resize(1);
  const Model m(c, {150});
  std::vector<Order> orders = order_families(m.panel);
  std::erase_if(orders, [](const Order& o) { return !o.id.is(Family::one_side); });
  REQUIRE(orders.size() == 1);
  const std::vector<Step> steps = steps_of(c, m.panel, orders.front());
  ReplayOptions together;
  together.at_once = 100;
  int looks = 0;
  together.progress = [&](int, int) { ++looks; };
  const ReplayResult one = replay(m, steps, {}), many = replay(m, steps, together);
  int runs = 0;
  for (std::size_t i = 0; i < steps.size(); ++i)
    runs += i == 0 || steps[i].run != steps[i - 1].run || steps[i].pass != steps[i - 1].pass;
  CHECK(looks == runs);
  CHECK(looks < static_cast<int>(steps.size()));
  REQUIRE(many.steps.size() == steps.size());
  // A whole side at one time, the furthest apart that the two can be: a twentieth of the pull here.
  for (int side = 0; side < 2; ++side)
    CHECK(many.stages[0].summary.mean_pull_chord[side] ==
          Approx(one.stages[0].summary.mean_pull_chord[side]).epsilon(0.06));
}

TEST_CASE("a small study: the reduced model agrees with the full one, and threads change nothing", "[slow]") {
  const Case c = small_case();
  MeshOptions mesh;
  mesh.target_nodes = c.target_nodes;
  const Model full(c, mesh);
  const std::vector<Order> orders = order_families(full.panel);
  std::vector<Step> steps = steps_of(c, full.panel, orders.front());
  const ReplayResult r = replay(full, steps, {});
  const ParallelFor one = [](int n, const std::function<void(int)>& work) {
    for (int i = 0; i < n; ++i) work(i);
  };
  const ParallelFor backwards = [](int n, const std::function<void(int)>& work) {
    for (int i = n; i-- > 0;) work(i);
  };
  const Chances a = study_chances(c, steps, r.stages, r.stages, 1, one, nullptr, {}).chances;
  const Chances b = study_chances(c, steps, r.stages, r.stages, 1, backwards, nullptr, {}).chances;
  CHECK((a.scenarios == 40 || a.scenarios == 80 || a.scenarios == 160));  // more where 40 leave it open
  REQUIRE(a.holds.size() == 2);
  CHECK(a.holds[1].hits <= a.holds[0].hits);
  REQUIRE(a.shape.size() == 2);
  CHECK(a.shape[1].hits <= a.shape[0].hits);
  REQUIRE(a.damage.size() == 2);
  CHECK(a.damage[1].fitted >= a.damage[0].fitted);
  CHECK(a.damage[1].fitted == b.damage[1].fitted);
  CHECK(a.edge.runs == 16);
  REQUIRE(a.weights.size() == unsure_count);
  CHECK(a.agreement.scenarios == 8);
  CHECK(a.agreement.rms < 0.10);  // scenarios that the correction was not built from
  REQUIRE(a.zones.size() == full.panel.zones.size());
  for (std::size_t s = 0; s < a.holds.size(); ++s) CHECK(a.holds[s].hits == b.holds[s].hits);
  for (std::size_t w = 0; w < a.weights.size(); ++w) CHECK(a.weights[w].share == b.weights[w].share);
  for (std::size_t z = 0; z < a.zones.size(); ++z) CHECK(a.zones[z].uneven.hits == b.zones[z].uneven.hits);
  CHECK(a.agreement.rms == b.agreement.rms);
}

TEST_CASE("a study of one, two or three scenarios is a study of so many") {
  Case c = small_case();
  c.stages.resize(1);
  c.target_nodes = 150;
  for (const int n : {1, 2, 3}) {
    c.wanted.scenarios = n;
    const Model full(c, {c.target_nodes});
    const std::vector<Step> steps = steps_of(c, full.panel, order_families(full.panel).front());
    const ReplayResult r = replay(full, steps, {});
    const Chances a = study_chances(c, steps, r.stages, r.stages, 0, one_by_one, nullptr, {}).chances;
    CHECK(a.scenarios >= n);
    CHECK(a.scenarios <= 4 * n);
    REQUIRE(a.holds.size() == 1);
    CHECK(a.holds[0].of == a.scenarios);
    CHECK_FALSE(a.damage[0].known);  // so few make no fit
    CHECK(a.agreement.scenarios == n);
  }
}

TEST_CASE(
    "what only the printed run shows to be loose, or not known, no scenario makes good; a frame drawn as thread "
    "falls") {
  Case c = small_case();
  c.stages.resize(1);
  c.target_nodes = 150;
  c.wanted.scenarios = 4;
  const Model full(c, {c.target_nodes});
  const std::vector<Step> steps = steps_of(c, full.panel, order_families(full.panel).front());
  const std::vector<StageVerdict> stages = replay(full, steps, {}).stages;
  const auto hits = [&](const Case& of, const std::vector<StageVerdict>& judged) {
    return study_chances(of, steps, judged, stages, 0, one_by_one, nullptr, {}).chances.holds[0].hits;
  };
  REQUIRE(hits(c, stages) > 0);
  std::vector<StageVerdict> loose = stages, unknown = stages;
  loose[0].summary.loose_zones = {0};
  CHECK(hits(c, loose) == 0);
  unknown[0].limits[0].study.gave_way = true;
  CHECK(hits(c, unknown) == 0);
  Case thread = c;
  thread.spreads.member_stiffness = 12;  // the softest that is drawn bears nothing
  CHECK(hits(thread, stages) < c.wanted.scenarios);
  const auto shape = [&](const Case& of, const std::vector<StageVerdict>& judged) {
    return study_chances(of, steps, judged, stages, 0, one_by_one, nullptr, {}).chances.shape[0];
  };
  CHECK(shape(c, loose).hits == shape(c, stages).hits);  // loose cloth is finish, told by itself
  CHECK(shape(c, unknown).hits == 0);
  CHECK(shape(thread, stages).share() < 1);  // what gives way is distorted
}
