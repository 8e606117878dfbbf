// Room that a pocket loses for its tab, of states made by hand (docs/model.md, section 7).
#include "solver/readings/pocket_room.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

Case with_pocket() {
  Case c = sample::light_rudder(4);
  Pocket p;
  p.from = c.ribs[1].station, p.to = c.ribs[2].station;
  p.depth = 0.08, p.gap = 3e-3;
  p.make = c.span_members[1].make;
  c.pockets = {p};
  return c;
}

}  // namespace

TEST_CASE("a pocket closes by half of what its sides draw together, or by what its front bows aft") {
  const Job j(with_pocket(), 300);
  const PanelPocket& pocket = j.panel().pockets.front();
  Covering s = laid_on(j.model);
  CHECK(pocket_closing(j.model, s).value == 0);
  CHECK(pocket_closing(j.model, s).allowed == 3e-3);

  s.unknowns[6 * pocket.sides[0].back() + 1] = 1.5e-3;
  s.unknowns[6 * pocket.sides[1].back() + 1] = -0.5e-3;
  CHECK(pocket_closing(j.model, s).value == Approx(1e-3));
  CHECK(pocket_closing(j.model, s).use() == Approx(1.0 / 3));

  REQUIRE(pocket.front.size() > 2);
  const int middle = pocket.front[pocket.front.size() / 2];
  s.unknowns[6 * middle] = 2e-3;
  CHECK(pocket_closing(j.model, s).value == Approx(2e-3));
  CHECK(pocket_closing(j.model, s).joint == middle);
}

TEST_CASE("a pocket that moves as a whole, or opens, loses no room") {
  const Job j(with_pocket(), 300);
  Covering s = laid_on(j.model);
  for (int joint = 0; joint < static_cast<int>(j.panel().joints.size()); ++joint)
    s.unknowns[6 * joint] = 4e-3, s.unknowns[6 * joint + 1] = -2e-3;
  CHECK(pocket_closing(j.model, s).value < 1e-12);
  s.unknowns[6 * j.panel().pockets.front().sides[0].back() + 1] -= 1e-3;
  CHECK(pocket_closing(j.model, s).value < 1e-12);
}

TEST_CASE("where there is no pocket none is read") {
  Case c = with_pocket();
  c.pockets.clear();
  const Job j(c, 300);
  CHECK(pocket_closing(j.model, laid_on(j.model)).member == -1);
}
