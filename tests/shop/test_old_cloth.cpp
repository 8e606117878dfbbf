// Cloth ironed before, and a piece let in: closed forms, and what nobody knows.
#include "shop/old_cloth.hpp"
#include "solver/cloth/fabric_law.hpp"
#include "solver/cloth/shrink.hpp"
#include "solver/statement/errors.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>

using namespace evenpull;
using Catch::Matchers::Contains;

namespace {

double F(double fahrenheit) { return (fahrenheit + 459.67) / 1.8; }

Case usual() {
  Case c = sample::light_rudder(3);
  c.stages.clear();
  for (const double t : {250.0, 300.0, 350.0}) c.stages.push_back({F(t), {1}, {}, false});
  return c;
}

}  // namespace

TEST_CASE("cloth held at its edges without slack comes to its own pull at every temperature", "[old]") {
  // P is by definition the pull of cloth heated at fixed length.
  const Case c = usual();
  const Eigen::Matrix3d give =
      compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear);
  for (const double t : {260.0, 300.0, 333.0}) {
    const ShrinkState s = shrink_at(c.cloth, give, F(t));
    // Both yarns alike, as in this cloth.
    REQUIRE(s.fixed_length_pull[0] == Approx(s.fixed_length_pull[1]));
    CHECK(pull_from_slack(c.cloth, F(t), 0) == Approx(s.fixed_length_pull[0]).epsilon(1e-9));
  }
  CHECK(pull_from_slack(c.cloth, F(70), 0) == 0);
  CHECK(pull_from_slack(c.cloth, F(300), 0.2) == 0);  // more slack than it shrinks
}

TEST_CASE("with slack the pull falls on a straight line to none where the slack is the free shrink", "[old]") {
  const Case c = usual();
  const Eigen::Matrix3d give =
      compliance(c.cloth.stiffness.warp, c.cloth.stiffness.fill, c.cloth.poisson, c.cloth.shear);
  const ShrinkState s = shrink_at(c.cloth, give, F(300));
  const double whole = pull_from_slack(c.cloth, F(300), 0);
  for (const double slack : {0.01, 0.02, 0.04}) {
    const double share = 1 - looseness_strain(slack) / s.free_shrink[0];
    CHECK(pull_from_slack(c.cloth, F(300), slack) == Approx(share * whole).epsilon(1e-9));
  }
}

TEST_CASE("what more can come rises with the stage, and is no surer than what is known", "[old]") {
  const Case c = usual();
  const double at_250 = pull_from_slack(c.cloth, F(250), c.cloth.looseness.warp);
  OldCloth old;
  old.pull = 0.75 * at_250, old.off = 0.1, old.hottest = F(250);
  const auto more = more_to_come(c, old);
  REQUIRE(more.size() == 3);
  CHECK(more[0].perhaps_nothing);
  CHECK_FALSE(more[1].perhaps_nothing);
  for (std::size_t s = 0; s < more.size(); ++s) {
    CHECK(more[s].pull.low <= more[s].pull.median);
    CHECK(more[s].pull.median <= more[s].pull.high);
    if (s > 0) CHECK(more[s].pull.median > more[s - 1].pull.median);
  }
  // It never pulls less than it does now by being ironed, but for the reading's own error.
  CHECK(more[0].pull.low > 0.75 * old.pull);
  // Of cloth whose history nobody knows less can be said.
  OldCloth unknown = old;
  unknown.hottest.reset();
  const auto wide = more_to_come(c, unknown);
  CHECK(wide[1].perhaps_nothing);
  CHECK(wide[1].pull.high / wide[1].pull.low > more[1].pull.high / more[1].pull.low);
  // A better reading narrows it.
  OldCloth rough = old;
  rough.off = 0.3;
  CHECK(more_to_come(c, rough)[1].pull.high / more_to_come(c, rough)[1].pull.low >=
        more[1].pull.high / more[1].pull.low);
}

TEST_CASE("cloth that pulls as no such cloth does is not reckoned with", "[old]") {
  OldCloth old;
  old.pull = 3, old.off = 0.1, old.hottest = F(300);
  CHECK_THROWS_AS(more_to_come(usual(), old), CaseError);
  CHECK_THROWS_WITH(more_to_come(usual(), old), Contains("slipped, torn or rotted"));
}

TEST_CASE("a patch is begun where it hardly ever pulls more than its surroundings, and likely comes to them hotter",
          "[old]") {
  const Case c = usual();
  const double at_300 = pull_from_slack(c.cloth, F(300), c.cloth.looseness.warp);
  const PatchIron p = patch_iron(c, {at_300, 0.1, {}});
  CHECK(p.begin < p.likely);
  CHECK(p.reached);
  // Half of the pieces pull more, half less, at about the stage whose pull that is.
  CHECK(p.likely == Approx(F(300)).margin(8));
  CHECK(p.at_likely.low < at_300);
  CHECK(p.at_likely.high > at_300);
  const PatchIron tight = patch_iron(c, {3 * at_300, 0.1, {}});
  CHECK_FALSE(tight.reached);
  CHECK(tight.likely == Approx(F(350)));
  const PatchIron looser = patch_iron(c, {0.6 * at_300, 0.1, {}});
  CHECK(looser.likely < p.likely);
}
