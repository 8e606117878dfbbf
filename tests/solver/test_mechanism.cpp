// A frame that can move freely is named before any cloth is shrunk (docs/model.md, section 5).
#include "solver/errors.hpp"
#include "solver/mechanism.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

Mechanism found(const Case& c, Held h) {
  return find_mechanism(Model(c, coarse(150)), h);
}

}  // namespace

TEST_CASE("a panel that is held well has no mechanism") {
  for (const Case& c : {sample::aileron(3, 0.9), sample::light_rudder(3)})
    for (Held h : {Held::while_ironed, Held::in_use}) CHECK_FALSE(found(c, h).found);
}

TEST_CASE("hinges without a horn let the panel turn about the span, and that is said") {
  Case c = one_zone_a_bay(sample::aileron(3, 0.9));
  c.in_use.pop_back();
  const Mechanism m = found(c, Held::in_use);
  REQUIRE(m.found);
  CHECK(m.member >= 0);
  CHECK_FALSE(found(c, Held::while_ironed).found);
  Job j(c, 150);
  try {
    j.ironing.begin();
    FAIL("accepted");
  } catch (const CaseError& e) {
    CHECK(e.key == "supports.in_use");
    CHECK_THAT(e.what(), Catch::Matchers::Contains(j.panel().members[m.member].name));
    CHECK_THAT(e.what(), Catch::Matchers::Contains("freely"));
  }
}

TEST_CASE("hinges that all slide let the panel move along the span") {
  Case c = sample::aileron(3, 0.9);
  c.in_use[0].hold[1] = false;
  const Mechanism m = found(c, Held::in_use);
  REQUIRE(m.found);
  CHECK(m.motion == "moves along the span");
}

TEST_CASE("a panel without any support is found out, a clamp at one end is enough") {
  Case c = sample::aileron(3, 0.9);
  c.while_ironed.pop_back();
  CHECK_FALSE(found(c, Held::while_ironed).found);
  c.while_ironed.clear();
  CHECK(found(c, Held::while_ironed).found);
  Job j(one_zone_a_bay(c), 150);
  CHECK_THROWS_AS(j.ironing.begin(), CaseError);
}

TEST_CASE("inner ribs may have hinged ends; with all ribs hinged nothing holds the trailing edge") {
  Case c = sample::light_rudder(3);
  c.ribs[1].hinged_ends = c.ribs[2].hinged_ends = true;
  for (Held h : {Held::while_ironed, Held::in_use}) CHECK_FALSE(found(c, h).found);
  for (Rib& r : c.ribs) r.hinged_ends = true;
  const Model m(c, coarse(150));
  const Mechanism loose = find_mechanism(m, Held::while_ironed);
  REQUIRE(loose.found);
  CHECK(loose.joint >= 0);
  CHECK(loose.member >= 0);
}
