// Ordinary panels drawn at random: each has an answer, certified. Most of the seeds named here once had none.
#include "sequencer/replay/replay.hpp"
#include "solver/equilibrium/equilibrium.hpp"
#include "tests/sequencer/ordinary_cases.hpp"

#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// Throws where there is no answer.
void check_certified(unsigned seed) {
  const OrdinaryCase drawn = ordinary_case(seed);
  INFO(drawn.words);
  MeshOptions mesh;
  mesh.target_nodes = 150;
  const Model m(drawn.the_case, mesh);
  ReplayOptions options;
  options.certified = true;
  ReplayResult r;
  REQUIRE_NOTHROW(r = replay(m, plain_order(drawn.the_case, m.panel), options));
  REQUIRE_FALSE(r.stages.empty());
  for (const Certificate& c : r.certificates) CHECK(c.solve.tension_bound <= certified_tension(drawn.the_case));
}

}  // namespace

TEST_CASE("small, stiff, uneven, loose and rough cases are computed and certified as all others are") {
  for (unsigned seed : {2u, 3u, 5u, 7u, 8u, 26u, 57u, 82u, 93u, 103u}) check_certified(seed);
}

// Two to three minutes: test_sequencer "[.long]".
TEST_CASE("two hundred ordinary cases drawn at random are computed and certified", "[.long]") {
  for (unsigned seed = 0; seed < 200; ++seed) check_certified(seed);
}
