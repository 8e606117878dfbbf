// Tightening the bolts of a gasketed joint one after the other relaxes those tightened before: the elastic-interaction
// method, attributed to Bibel and Ezell (1990s), from memory. The same mathematics as ironing zone by zone, with final
// pulls F = E S; the numbers are made up for this check and worked by hand.
#include "sequencer/search/influence.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;

namespace {

// E_ij: change of bolt i by a unit of tension put in at bolt j.
Eigen::Matrix3d interaction() {
  Eigen::Matrix3d e;
  e << 1, -0.20, -0.05, 0, 1, -0.20, 0, 0, 1;
  return e;
}

// Bolts as cells whose load line is so steep that a step puts in just the tension asked for.
InfluenceModel joint(const Eigen::Vector3d& tension) {
  Influence i;
  i.layout.uses = 3;
  i.start = Eigen::VectorXd::Zero(3);
  i.effect = interaction();
  i.shrink = i.pull = Eigen::VectorXd::Zero(3);
  i.push = Eigen::MatrixXd::Zero(3, 3);
  i.free_shrink = tension;
  i.give = Eigen::VectorXd::Zero(3);
  i.things = {{{0}}, {{1}}, {{2}}};
  return InfluenceModel(i, {}, {1});
}

}  // namespace

TEST_CASE("three bolts tightened to 10 each in turn end at 7.5, 8 and 10") {
  const InfluenceModel m = joint({10, 10, 10});
  const Eigen::VectorXd f = InfluenceModel::gauges(*walk(m, m.begin(), {0, 1, 2}));
  // 10 - 0.20 * 10 - 0.05 * 10 = 7.5; 10 - 0.20 * 10 = 8
  CHECK(f[0] == Approx(7.5));
  CHECK(f[1] == Approx(8.0));
  CHECK(f[2] == Approx(10.0));
}

TEST_CASE("tightened to 12.9, 12 and 10 the three bolts end at 10 each") {
  // Back substitution: S3 = 10, S2 = 10 + 0.20 * 10 = 12, S1 = 10 + 0.20 * 12 + 0.05 * 10 = 12.9.
  const InfluenceModel m = joint({12.9, 12, 10});
  const Eigen::VectorXd f = InfluenceModel::gauges(*walk(m, m.begin(), {0, 1, 2}));
  for (int k = 0; k < 3; ++k) CHECK(f[k] == Approx(10.0));
}

TEST_CASE("a bolt tightened to a target makes up for what earlier bolts have put on it") {
  // With a load line as steep as can be (x = target - pull of the others) the last bolt reads its target, as a torque
  // wrench does, and the first has lost what the later ones took.
  Influence i = joint({1, 1, 1}).influence();
  constexpr double steep = 1e9;
  i.free_shrink = Eigen::Vector3d::Constant(steep * 10);
  i.give = Eigen::Vector3d::Constant(steep);
  i.push = interaction();
  const InfluenceModel m(i, {}, {1});
  const Eigen::VectorXd f = InfluenceModel::gauges(*walk(m, m.begin(), {2, 1, 0}));
  // Bolt 3 first: 10. Bolt 2 feels -2 and is given 12; bolt 1 feels -0.5 - 2.4 and is given 12.9.
  for (int k = 0; k < 3; ++k) CHECK(f[k] == Approx(10.0).epsilon(1e-6));
}
