// Thin flats of a panel's members: read beside the ribs, with the right sign, and judged only where nothing better is
// known.
#include "solver/frame/thin_flats.hpp"
#include "tests/solver/small_job.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace evenpull;
using namespace evenpull::check;

namespace {

// Every bay of the trailing edge bowed by `depth` [m], + forward, straight on over the ribs.
Covering bowed(const Job& j, double depth) {
  const Panel& p = j.panel();
  Covering s = laid_on(j.model);
  for (int bay = 0; bay < p.bays; ++bay) {
    const auto at = [&](int column) { return p.joints[p.edge_joint[column]].position.y(); };
    const int first = p.rib_columns[bay], last = p.rib_columns[bay + 1];
    for (int k = first; k <= last; ++k) {
      const double turn = 2 * 3.14159265358979323846 / (at(last) - at(first)), phase = turn * (at(k) - at(first));
      s.unknowns[6 * p.edge_joint[k] + 0] = -depth * (1 - std::cos(phase)) / 2;
      s.unknowns[6 * p.edge_joint[k] + 5] = depth * turn * std::sin(phase) / 2;
    }
  }
  return s;
}

Case with_edge(double sheet, double flange) {
  Case c = sample::aileron(3, 0.9);
  c.span_members.back().make.shape.wall = sheet;
  for (Rib& r : c.ribs) r.make.shape.width = flange;
  return c;
}

bool on_trailing_edge(const Job& j, const Worst& w) {
  return w.member >= 0 && j.panel().members[w.member].role == MemberRole::trailing_edge;
}

}  // namespace

TEST_CASE("an edge pulled forward is wavy beside its ribs, one pushed back between them") {
  const Job j(with_edge(0.5e-3, 14e-3), 400);
  const Panel& p = j.panel();
  const Readings forward = j.read(bowed(j, 1e-3)), back = j.read(bowed(j, -1e-3));
  REQUIRE(on_trailing_edge(j, forward.waves));
  REQUIRE(on_trailing_edge(j, back.waves));
  const auto at_rib = [&](int joint) {
    return std::any_of(p.rib_columns.begin(), p.rib_columns.end(), [&](int c) { return p.edge_joint[c] == joint; });
  };
  CHECK(forward.waves.value > 0);
  CHECK(at_rib(forward.waves.joint));
  CHECK_FALSE(at_rib(back.waves.joint));
}

TEST_CASE("waves go with the compression, and a thinner edge has more of them") {
  const Job j(with_edge(0.5e-3, 14e-3), 400), thin(with_edge(0.4e-3, 14e-3), 400);
  const double one = j.read(bowed(j, 0.5e-3)).waves.value, two = j.read(bowed(j, 1e-3)).waves.value;
  CHECK(two == Approx(2 * one).epsilon(1e-6));
  CHECK(thin.read(bowed(thin, 1e-3)).waves.value > two);
}

TEST_CASE("a folded edge is held against crippling only where shells do not show that it bears") {
  const Job usual(with_edge(0.5e-3, 14e-3), 400), thin(with_edge(0.3e-3, 14e-3), 400),
      on_lines(with_edge(0.5e-3, 4e-3), 400);
  CHECK_FALSE(on_trailing_edge(usual, usual.read(bowed(usual, 2e-3)).crippling));
  CHECK(on_trailing_edge(thin, thin.read(bowed(thin, 2e-3)).crippling));
  CHECK(on_trailing_edge(on_lines, on_lines.read(bowed(on_lines, 2e-3)).crippling));
  CHECK(edge_is_known_to_bear(0.4064e-3, 25e-3, 0.3048, 6e-3));
  CHECK_FALSE(edge_is_known_to_bear(0.4064e-3, 25e-3, 0.35, 6e-3));
  CHECK_FALSE(edge_is_known_to_bear(0.38e-3, 25e-3, 0.3, 6e-3));
  CHECK(edge_is_known_to_bear(0.4064e-3, 19e-3, 0.3048, 6e-3));  // narrow legs stand further apart for their width
  CHECK_FALSE(edge_is_known_to_bear(0.4064e-3, 19e-3, 0.31, 6e-3));
  CHECK_FALSE(edge_is_known_to_bear(0.4064e-3, 19.5e-3, 0.3048, 6e-3));
}

TEST_CASE("wood and tubes have no thin flats") {
  Case c = sample::light_rudder(3);
  const Model m(c, coarse(150));
  for (std::size_t b = 0; b < m.flats.size(); ++b) {
    const FrameMember& member = m.panel.members[m.panel.beams[b].member];
    if (member.shape.kind == SectionShape::Kind::tube || c.materials[member.material].kind == Strength::rupture)
      CHECK(m.flats[b].flats.empty());
  }
}
