// Supports that give: springs to the ground (docs/model.md, section 5).
#include "solver/equilibrium/holding.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace evenpull;
using namespace evenpull::check;

namespace {

Case giving(double give) {
  Case c = one_zone_a_bay(sample::aileron(3, 0.9));
  for (Support& s : c.while_ironed) s.give = give;
  return c;
}

}  // namespace

TEST_CASE("a clamp that gives holds turning firmly and moving by springs") {
  const Model firm(giving(0), coarse(150)), soft(giving(1e-6), coarse(150));
  CHECK(firm.springs[0].empty());
  CHECK(soft.springs[1].empty());
  REQUIRE(soft.springs[0].size() == firm.held[0].size() / 2);
  for (const Spring& s : soft.springs[0]) {
    CHECK(s.stiffness == Approx(1e6));
    CHECK(s.unknown % 6 < 3);
    CHECK(std::binary_search(firm.held[0].begin(), firm.held[0].end(), s.unknown));
  }
  for (int i : soft.held[0]) CHECK(i % 6 >= 3);
}

TEST_CASE("what another support holds firmly does not give, and two that give add up") {
  Case c = giving(1e-6);
  c.while_ironed.push_back(c.while_ironed.front());
  CHECK(Model(c, coarse(150)).springs[0].front().stiffness == Approx(2e6));
  c.while_ironed.back().give = 0;
  const Model m(c, coarse(150));
  for (const Spring& s : m.springs[0]) CHECK_FALSE(std::binary_search(m.held[0].begin(), m.held[0].end(), s.unknown));
}

TEST_CASE("a frame on supports that give stands") {
  const Case c = giving(1e-6);
  const Mechanism m = find_mechanism(Model(c, coarse(150)), Held::while_ironed);
  CHECK_FALSE(m.found);
  CHECK_FALSE(m.soft);
}

TEST_CASE("supports pull back by what the panel has moved since they were put on") {
  const Model m(giving(2e-6), coarse(150));
  Covering s = laid_on(m);
  const Spring spring = m.springs[0].front();
  s.unknowns[spring.unknown] = 3e-4;
  Eigen::VectorXd force = Eigen::VectorXd::Zero(m.unknowns.count);
  add_give(m, s, force);
  CHECK(force[spring.unknown] == Approx(150));
  CHECK(force.norm() == Approx(150));
  change_hands(m, Held::while_ironed, s);
  force.setZero();
  add_give(m, s, force);
  CHECK(force.norm() == 0);
}

TEST_CASE(
    "supports that hardly give are firm ones; what they pull sums to nothing, and is the less the more they give") {
  const auto after_one_zone = [](double give) {
    Job j(giving(give), 150);
    Covering s = j.ironing.begin();
    j.ironing.iron(s, 1, held_pass(j.model, true_temperature(250), 1), "T2");
    Eigen::VectorXd force = Eigen::VectorXd::Zero(j.model.unknowns.count);
    add_give(j.model, s, force);
    return std::pair{s.unknowns, force};
  };
  const auto [firm, none] = after_one_zone(0);
  const auto [hard, on_hard] = after_one_zone(1e-9);
  const auto [soft, on_soft] = after_one_zone(1e-4);
  CHECK(none.norm() == 0);
  CHECK((hard - firm).norm() < 1e-3 * firm.norm());
  CHECK(on_hard.norm() > on_soft.norm());
  CHECK((soft - firm).norm() > (hard - firm).norm());
  for (const Eigen::VectorXd& force : {on_hard, on_soft}) {
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    for (Eigen::Index i = 0; i < force.size(); ++i)
      if (force[i] != 0) sum[i % 6] += force[i];
    CHECK(sum.norm() < 0.02 * force.norm());
  }
}
