// What weights on the bare frame say of it: factors that were put in come out again, with intervals that hold as
// often as they say; what contradicts the case is told.
#include "sequencer/numbers/normals.hpp"
#include "shop/push_readings.hpp"
#include "shop/push_suspects.hpp"
#include "solver/frame/joint_turn.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;

namespace {

constexpr double gravity_here = 9.80665;

// Tube rudder with gussets of which the range is wide.
Case rudder(JointKind joints = JointKind::unstated) {
  Case c = sample::light_rudder();
  for (Rib& r : c.ribs) r.front_joint.kind = r.rear_joint.kind = joints;
  return c;
}

struct Bench {
  Case c;
  std::vector<FramePlace> places;
  std::vector<PushTest> tests;
  std::vector<PushFactor> factors;
  PushFrame frame;

  Bench(Case stated, std::vector<FramePlace> p, std::vector<PushTest> t, bool each_group = false)
      : c(std::move(stated)), places(std::move(p)), tests(std::move(t)), frame(c, Held::while_ironed) {
    frame.set_places(places);
    factors = push_factors(c, frame.panel(), each_group);
  }
  Eigen::VectorXd exact(const Eigen::VectorXd& z) const { return push_movements(frame, c, factors, tests, z); }
  PushSurface surface() const {
    return {factors, [this](const Eigen::VectorXd& z) { return exact(z); }};
  }
  std::vector<PushTest> read(const Eigen::VectorXd& moved) const {
    std::vector<PushTest> out = tests;
    Eigen::Index i = 0;
    for (PushTest& t : out)
      for (PushReading& r : t.readings) r.down = moved[i++];
    return out;
  }
};

Eigen::VectorXd noisy(Eigen::VectorXd moved, const PushErrors& errors, Normals& normal) {
  for (double& v : moved) v += std::hypot(errors.reading, errors.share * v) * normal();
  return moved;
}

// Trailing edge at rib 4 and at the tip, nose between ribs; each read there and at one place more.
const std::vector<FramePlace> three_places{{false, 1, 0.9}, {false, 1, 0.15}, {true, 3, 0.15}};
std::vector<PushTest> three_tests(double kilograms) {
  return {{{0, gravity_here * kilograms}, {{0, 0}, {1, 0}}},
          {{1, gravity_here * kilograms}, {{1, 0}}},
          {{2, gravity_here * kilograms}, {{2, 0}, {0, 0}}}};
}

}  // namespace

TEST_CASE("a surface through movements is as good as the frame itself") {
  const Bench b(rudder(), three_places, three_tests(1));
  const PushSurface s = b.surface();
  CHECK(s.error().maxCoeff() < 0.02e-3);  // m: far below any reading
  Normals normal(5);
  for (int k = 0; k < 10; ++k) {
    const Eigen::Vector2d z(normal(), normal());
    CHECK((s.at(z) - b.exact(z)).cwiseAbs().maxCoeff() < 0.05e-3);
  }
}

TEST_CASE("factors come out of noisy readings with intervals that hold as often as they say") {
  // The truth on another mesh than what it is read by, drawn as the case's spreads say.
  const Case c = rudder();
  const Bench b(c, three_places, three_tests(1));
  PushFrame fine(c, Held::while_ironed, 900);
  fine.set_places(b.places);
  const PushSurface truth({b.factors},
                          [&](const Eigen::VectorXd& z) { return push_movements(fine, c, b.factors, b.tests, z); });
  const PushSurface s = b.surface();
  const PushErrors errors;
  constexpr int seeds = 200;
  int inside[2] = {0, 0}, alarms = 0;
  double narrower = 0;
  for (int seed = 0; seed < seeds; ++seed) {
    Normals normal(static_cast<unsigned>(1000 + seed));
    const Eigen::Vector2d z(normal(), normal());
    const PushAnswer a = what_pushes_say(s, b.read(noisy(truth.at(z), errors, normal)), errors);
    for (int k : {0, 1})
      inside[k] += z[k] >= a.factors[static_cast<std::size_t>(k)].low &&
                   z[k] <= a.factors[static_cast<std::size_t>(k)].high;
    alarms += !a.agrees();
    narrower += a.factors[0].deviation / seeds;
  }
  INFO("inside " << inside[0] << " and " << inside[1] << " of 200, alarms " << alarms << ", deviation " << narrower);
  for (int k : {0, 1}) {
    CHECK(inside[k] >= 0.92 * seeds);
    CHECK(inside[k] <= 0.985 * seeds);
  }
  CHECK(alarms <= 0.05 * seeds);
  CHECK(narrower < 0.9);
}

TEST_CASE("pinned and rigid joints are told apart where the readings can tell") {
  const Bench b(rudder(), three_places, three_tests(2));
  const PushSurface s = b.surface();
  PushErrors gauge;
  gauge.reading = 0.05e-3;
  for (const double truth : {-1.8, 1.8}) {
    const PushAnswer a = what_pushes_say(s, b.read(b.exact(Eigen::Vector2d(0.3, truth))), gauge);
    CHECK(a.agrees());
    CHECK(a.factors[1].low <= truth);
    CHECK(a.factors[1].high >= truth);
    // alpha 0.5 and 8 of the range 0.2 to 100 lie at 0.15 and 0.59 of it: minus one sigma and 0.24.
    if (truth < 0) CHECK(a.factors[1].high < -1);
    else CHECK(a.factors[1].low > 0.24);
  }
  // Read with a ruler under hardly any weight it stays open.
  const Bench light(rudder(), three_places, three_tests(0.05));
  const PushAnswer a = what_pushes_say(light.surface(), light.read(light.exact(Eigen::Vector2d(0.3, 1.8))), {});
  CHECK(a.factors[1].deviation > 0.6);
}

TEST_CASE("stiffness by groups comes out where each is pushed") {
  const Bench b(rudder(JointKind::welded), {{false, 1, 0.9}, {false, 1, 0.15}, {true, 3, 0.15}, {false, 0, 0.75}},
                {{{0, 20}, {{0, 0}, {3, 0}}}, {{1, 20}, {{1, 0}}}, {{2, 20}, {{2, 0}}}, {{3, 20}, {{3, 0}}}}, true);
  REQUIRE(b.factors.size() == 3);  // edges, ribs, welds; no spar
  PushErrors gauge;
  gauge.reading = 0.01e-3, gauge.share = 0.003;
  const Eigen::Vector3d truth(1.2, -0.8, 0.2);
  const PushAnswer a = what_pushes_say(b.surface(), b.read(b.exact(truth)), gauge);
  CHECK(a.agrees());
  CHECK(a.factors[0].mean == Approx(1.2).margin(0.3));
  CHECK(a.factors[0].deviation < 0.3);
  for (std::size_t k = 0; k < 3; ++k) {
    CHECK(a.factors[k].low <= truth[static_cast<Eigen::Index>(k)]);
    CHECK(a.factors[k].high >= truth[static_cast<Eigen::Index>(k)]);
  }
}

TEST_CASE("a wall that is stated wrongly is told in 95 of 100 sets of readings where readings are off by three sigma") {
  Case c = rudder(JointKind::rigid);
  Bench b(c, {{false, 1, 0.9}, {false, 0, 0.75}, {true, 3, 0.15}},
          {{{0, 40}, {{0, 0}, {1, 0}}}, {{1, 40}, {{1, 0}, {0, 0}}}, {{2, 40}, {{2, 0}}}});
  Case true_case = c;
  SectionShape& edge = true_case.span_members[0].make.shape;
  const double stated = edge.wall;
  edge.wall = 0.049 * 0.0254;  // instead of 0.9 mm
  PushFrame truth(true_case, Held::while_ironed);
  truth.set_places(b.places);
  PushErrors gauge;
  gauge.reading = 0.07e-3, gauge.share = 0.012;
  const PushSurface s = b.surface();
  const Eigen::VectorXd moved = push_movements(truth, true_case, b.factors, b.tests, Eigen::VectorXd::Zero(1));
  // How far readings are off after the best fit, in sigmas.
  const PushAnswer plain = what_pushes_say(s, b.read(moved), gauge);
  int off = 0;
  for (std::size_t i = 0; i < plain.read.size(); ++i)
    off += std::abs(plain.read[i] - plain.explained[i]) > 3 * plain.off[i];
  INFO("misfit " << plain.misfit << ", allowed " << plain.allowed << ", off by three sigma: " << off);
  REQUIRE(off >= 1);
  int told = 0;
  constexpr int seeds = 200;
  PushAnswer one;
  std::vector<PushTest> one_read;
  for (int seed = 0; seed < seeds; ++seed) {
    Normals normal(static_cast<unsigned>(3000 + seed));
    const auto read = b.read(noisy(moved, gauge, normal));
    const PushFit fit = best_push_fit(s, Eigen::VectorXd::Ones(moved.size()), read, gauge);
    told += fit.misfit > allowed_misfit(static_cast<int>(moved.size()));
    if (seed == 0) one_read = read, one = what_pushes_say(s, read, gauge);
  }
  INFO("told in " << told << " of " << seeds);
  CHECK(told >= 0.95 * seeds);
  REQUIRE_FALSE(one.agrees());
  const auto suspects = push_suspects(c, b.frame, b.places, b.factors, s, one_read, gauge, one, 3);
  REQUIRE_FALSE(suspects.empty());
  bool found = false;
  for (const PushSuspect& p : suspects)
    UNSCOPED_INFO("suspect " << (p.support ? "support " : "owner ") << static_cast<int>(p.owner.what) << " "
                             << p.owner.which << ": " << 1e3 * p.stated << " mm, instead " << 1e3 * p.instead
                             << ", misfit " << p.misfit);
  for (const PushSuspect& p : suspects)
    found = found || (!p.support && p.owner.what == SectionOwner::What::span_member && p.owner.which == 0 &&
                      p.size == PushSuspect::Size::wall && p.stated == stated && p.instead > stated);
  CHECK(found);
  CHECK(most_telling_member(c, b.frame, b.factors, one_read, gauge) >= 0);
}

TEST_CASE("a clamp that gives is a suspect where every reading is off by what it lowers") {
  const Case c = rudder(JointKind::rigid);
  Bench b(c, {{false, 1, 0.9}, {false, 0, 0.2}, {true, 0, 0.15}},
          {{{0, 20}, {{0, 0}, {1, 0}}}, {{1, 20}, {{1, 0}, {0, 0}}}, {{2, 20}, {{2, 0}}}});
  Case true_case = c;
  true_case.while_ironed[0].give = 5e-5;
  PushFrame truth(true_case, Held::while_ironed);
  truth.set_places(b.places);
  PushErrors gauge;
  gauge.reading = 0.04e-3, gauge.share = 0.01;
  const PushSurface s = b.surface();
  Eigen::VectorXd moved(5);
  const auto pushed = truth.push(true_case, {}, {{0, 20}, {1, 20}, {2, 20}});
  moved << pushed[0].down[0], pushed[0].down[1], pushed[1].down[1], pushed[1].down[0], pushed[2].down[2];
  const auto read = b.read(moved);
  const PushAnswer a = what_pushes_say(s, read, gauge);
  REQUIRE_FALSE(a.agrees());
  const auto suspects = push_suspects(c, b.frame, b.places, b.factors, s, read, gauge, a, 3);
  REQUIRE_FALSE(suspects.empty());
  CHECK(suspects.front().support);
  CHECK(suspects.front().which_support == 0);
  CHECK(suspects.front().give == Approx(5e-5).epsilon(0.25));
}
