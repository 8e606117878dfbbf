// The panel builder (docs/model.md, section 1): counts, ties, areas, zones, yarn angle. Shapes invented.
#include "solver/geometry/mesh_lines.hpp"
#include "solver/geometry/panel.hpp"
#include "solver/geometry/surface.hpp"
#include "tests/solver/cloth_pieces.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <set>

using namespace evenpull;
using namespace evenpull::check;

namespace {

MeshOptions nodes(int n) {
  MeshOptions w;
  w.target_nodes = n;
  return w;
}

// Two flat skins without nose, seam at the LE itself.
Case flat_case(int bays, double span, double root_chord, double tip_chord) {
  Case c = sample::aileron(bays, span, root_chord);
  c.outline.trailing_edge = {{root_chord, 0}, {tip_chord, span}};
  c.profile = {{0, 0, 0}, {1, 0, 0}};
  c.span_members[0].make.shape = sample::light_rudder().span_members[0].make.shape;
  c.span_members[0].chord_fraction = 0;
  c.blanket.seam_chord_fraction = 0;
  c.blanket.nose_chord_fraction = 0;
  for (Rib& r : c.ribs) r.make.shape = sample::light_rudder().ribs[0].make.shape;
  return c;
}

double total_area(const Panel& p, Side side) {
  double a = 0;
  for (const Quad& q : p.quads) a += q.side == side ? q.area : 0;
  return a;
}

bool is_rib(const Panel& p, int column) {
  return std::find(p.rib_columns.begin(), p.rib_columns.end(), column) != p.rib_columns.end();
}

}  // namespace

TEST_CASE("nodes, quads and zones are as many as rows, columns and bays say, each where its index says") {
  for (int options : {150, 400, 1000}) {
    const Panel p = build_panel(sample::aileron(4, 1.2), nodes(options));
    CHECK(p.bays == 4);
    REQUIRE(static_cast<int>(p.nodes.size()) == 2 * p.rows * p.columns);
    REQUIRE(static_cast<int>(p.quads.size()) == 2 * (p.rows - 1) * (p.columns - 1));
    REQUIRE(static_cast<int>(p.zones.size()) == 2 * p.bays * p.strips);
    CHECK(p.rib_columns.front() == 0);
    CHECK(p.rib_columns.back() == p.columns - 1);
    CHECK(p.strip_rows.front() == 0);
    CHECK(p.strip_rows.back() == p.rows - 1);
    for (std::size_t i = 0; i < p.nodes.size(); ++i)
      CHECK(p.node(p.nodes[i].side, p.nodes[i].row, p.nodes[i].column) == static_cast<int>(i));
    for (std::size_t i = 0; i < p.zones.size(); ++i)
      CHECK(p.zone(p.zones[i].side, p.zones[i].bay, p.zones[i].strip) == static_cast<int>(i));
    for (const Quad& q : p.quads) {
      CHECK(p.nodes[q.nodes[0]].row == q.row);
      CHECK(p.nodes[q.nodes[2]].row == q.row + 1);
      CHECK(p.nodes[q.nodes[2]].column == q.column + 1);
      CHECK(p.zones[q.zone].bay == q.bay);
      CHECK(p.zones[q.zone].side == q.side);
      CHECK(p.rib_columns[q.bay] <= q.column);
      CHECK(q.column < p.rib_columns[q.bay + 1]);
    }
    // Asked for `options`: within a factor of two even on the coarsest mesh.
    CHECK(p.nodes.size() > 0.5 * options);
    CHECK(p.nodes.size() < 2.0 * options);
  }
}

TEST_CASE("halving the element edge gives four times the quads and the same zones") {
  const Case c = sample::aileron(3, 0.9);
  MeshOptions fine = nodes(200);
  fine.fineness = 4;
  const Panel a = build_panel(c, nodes(200)), b = build_panel(c, fine);
  CHECK(b.quads.size() == 4 * a.quads.size());
  REQUIRE(b.zones.size() == a.zones.size());
  for (std::size_t z = 0; z < a.zones.size(); ++z) CHECK(b.zones[z].area == Approx(a.zones[z].area).epsilon(0.02));
}

TEST_CASE("meshes of a study hold every line of the coarsest and the same zones") {
  const Case c = sample::aileron(3, 0.9);  // its nose is a line that holds the cloth
  MeshOptions options = nodes(800);
  options.fineness = 1;
  const Panel coarsest = build_panel(c, options);
  for (int fineness : {2, 3, 4}) {
    options.fineness = fineness;
    const Panel p = build_panel(c, options);
    REQUIRE(p.rows - 1 == fineness * (coarsest.rows - 1));
    REQUIRE(p.columns - 1 == fineness * (coarsest.columns - 1));
    for (const ClothNode& n : coarsest.nodes) {
      const ClothNode& same = p.nodes[p.node(n.side, fineness * n.row, fineness * n.column)];
      CHECK((same.placed - n.placed).norm() < 1e-9);
      CHECK(same.tie == n.tie);
    }
    REQUIRE(p.strips == coarsest.strips);
    for (int k = 0; k <= p.strips; ++k) CHECK(p.strip_rows[k] == fineness * coarsest.strip_rows[k]);
  }
}

TEST_CASE("a tapered rib is stressed by the section at its joints") {
  const Case c = sample::aileron(2, 0.6);
  const Panel p = build_panel(c, nodes(300));
  const Surface surface(c);
  int ribs = 0;
  for (const FrameMember& m : p.members) {
    if (m.role != MemberRole::end_rib && m.role != MemberRole::inner_rib) continue;
    const SpanPlace place = ribs < 2 ? SpanPlace{ribs, 0} : SpanPlace{1, 1};
    const MemberMake& make = c.ribs[static_cast<std::size_t>(ribs++)].make;
    CHECK(p.beams[m.beams.back()].section_to.inertia_up ==
          Approx(section_of(make.shape, surface.depth(1, place)).inertia_up));
    for (std::size_t k = 0; k + 1 < m.beams.size(); ++k) {
      const Beam &before = p.beams[m.beams[k]], &after = p.beams[m.beams[k + 1]];
      CHECK(before.section_to.inertia_up == after.section_from.inertia_up);
      CHECK(before.section.inertia_up > after.section.inertia_up);  // the sample is thickest at its nose
    }
  }
  CHECK(ribs == 3);
}

TEST_CASE("splitting zones multiplies their number and leaves the mesh alone") {
  const Case c = sample::aileron(3, 0.9);
  MeshOptions whole = nodes(800);
  whole.fineness = 4;
  const Panel a = build_panel(c, whole);
  for (int parts : {2, 4}) {
    MeshOptions split = whole;
    split.zone_parts = parts;
    const Panel b = build_panel(c, split);
    CHECK(b.nodes.size() == a.nodes.size());
    REQUIRE(b.strips == parts * a.strips);
    for (int strip = 0; strip < a.strips; ++strip) CHECK(b.strip_rows[parts * strip] == a.strip_rows[strip]);
  }
}

TEST_CASE("the areas of quads, zones and a flat panel agree") {
  for (double tip : {0.35, 0.2}) {
    const Panel p = build_panel(flat_case(4, 1.5, 0.35, tip), nodes(300));
    const double exact = 1.5 * 0.5 * (0.35 + tip);
    CHECK(total_area(p, Side::top) == Approx(exact));
    CHECK(total_area(p, Side::bottom) == Approx(exact));
    double zones = 0;
    for (const Zone& z : p.zones) {
      double quads = 0;
      for (int q : z.quads) quads += p.quads[q].area;
      CHECK(z.area == Approx(quads));
      zones += z.area;
    }
    CHECK(zones == Approx(2 * exact));
  }
}

TEST_CASE("the area of a curved panel comes to that of its surface") {
  const Case c = sample::aileron(4, 1.2);
  const Surface s(c);
  const double exact = 1.2 * s.chord({0, 0}) * (s.arc(1) - s.arc(c.blanket.seam_chord_fraction));
  const double coarse = total_area(build_panel(c, nodes(200)), Side::top);
  const double finer = total_area(build_panel(c, nodes(3000)), Side::top);
  CHECK(coarse == Approx(exact).epsilon(0.02));
  CHECK(std::abs(finer - exact) < std::abs(coarse - exact));
  CHECK(finer <= exact * (1 + 1e-9));  // straight elements never measure more than the arc
}

TEST_CASE("every quad belongs to one zone and labels count along each bay from the root") {
  const Panel p = build_panel(sample::aileron(3, 1.8, 0.5), nodes(400));
  std::set<int> seen;
  std::set<std::string> labels;
  for (const Zone& z : p.zones) {
    for (int q : z.quads) CHECK(seen.insert(q).second);
    CHECK(labels.insert(z.label).second);
    CHECK(z.label == (z.side == Side::top ? "T" : "B") + std::to_string(z.bay * p.strips + z.strip + 1));
  }
  CHECK(seen.size() == p.quads.size());
}

TEST_CASE("strips follow what the iron keeps hot and are never narrower than its sole") {
  Case c = flat_case(3, 1.8, 0.5, 0.5);
  const double bay = 0.6 * 0.5;
  for (double hot : {1.0, 0.2, 0.1, 0.06, 0.03}) {
    c.iron = {hot / 0.05, 0.05, 0, 6, 0};  // standing still: the sole is the hot area
    CAPTURE(hot);
    const int expected = std::max(1, static_cast<int>(std::lround(bay / hot)));
    CHECK(strips_per_bay(c, Surface(c)) == std::min(expected, 10));
    CHECK(build_panel(c, nodes(300)).strips == std::min(expected, 10));
  }
  c.iron = {0.1, 0.24, 0, 6, 0};  // 0.024 m2 would ask for 12 strips, the sole allows two
  CHECK(strips_per_bay(c, Surface(c)) == 2);
  const double slow = (c.iron = {0.2, 0.1, 0.02, 6, 0}, c.iron.hot_area());
  c.iron.travel_speed = 0.06;
  CHECK(c.iron.hot_area() > slow);
}

TEST_CASE("each node is tied as the blanket says") {
  struct Variant {
    BlanketKind kind;
    bool edge_glued;
    RibTie ribs;
    double nose;
  };
  for (const Variant& v : {Variant{BlanketKind::full_wrap, false, RibTie::bearing, 0.25},
                           Variant{BlanketKind::full_wrap, true, RibTie::glued, 0.25},
                           Variant{BlanketKind::two_sheets, false, RibTie::bearing, 0.0},
                           Variant{BlanketKind::full_wrap, false, RibTie::free, 0.0}}) {
    Case c = sample::aileron(3, 0.9);
    c.blanket.kind = v.kind;
    c.blanket.edge_glued = v.edge_glued;
    c.blanket.inner_ribs = v.ribs;
    c.blanket.nose_chord_fraction = v.nose;
    const Panel p = build_panel(c, nodes(300));
    for (const ClothNode& n : p.nodes) {
      const bool end = n.column == 0 || n.column == p.columns - 1;
      const double fraction = n.placed.x() / 0.35;
      Tie expected = Tie::none;
      if (n.row == 0) expected = Tie::glued;
      else if (n.row == p.rows - 1)
        expected = end || v.edge_glued || v.kind == BlanketKind::two_sheets ? Tie::glued : Tie::wrapped;
      else if (end) expected = Tie::glued;
      else if (v.nose > 0 && fraction <= v.nose + 1e-9) expected = Tie::bearing;
      else if (is_rib(p, n.column)) expected = v.ribs == RibTie::glued ? Tie::glued : Tie::bearing;
      CHECK(n.tie == expected);
      if (n.tie == Tie::none) continue;
      REQUIRE(n.joint >= 0);
      CHECK((p.joints[n.joint].position + n.offset - n.placed).norm() < 1e-12);
      CHECK(std::abs(n.offset.y()) < 1e-12);  // a joint in the same station
      // Right above or below its joint, but for cloth ahead of the first member and on the nose.
      if (fraction > c.span_members[0].chord_fraction - 1e-9 && !n.on_nose) CHECK(std::abs(n.offset.x()) < 1e-9);
    }
  }
}

TEST_CASE("a spar that touches the cloth gets a row of its own and bears it") {
  Case c = sample::aileron(3, 0.9);
  SpanMember spar = c.span_members[1];
  spar.name = "rear spar";
  spar.role = SpanRole::spar;
  spar.chord_fraction = 0.61;
  spar.touches_cloth = true;
  c.span_members.insert(c.span_members.begin() + 1, spar);
  const Panel p = build_panel(c, nodes(300));
  int bearing = 0;
  for (const ClothNode& n : p.nodes)
    if (std::abs(n.placed.x() - 0.61 * 0.35) < 1e-9) {
      ++bearing;
      CHECK(n.tie == (n.column == 0 || n.column == p.columns - 1 ? Tie::glued : Tie::bearing));
    }
  CHECK(bearing == 2 * p.columns);
  CHECK(p.members[1].name == "rear spar");
}

TEST_CASE("a panel that is the same from both ends gets a mesh that is the same from both ends") {
  Case c = sample::aileron(4, 1.2);
  c.ribs[1].station = 0.2;
  c.ribs[3].station = 1.0;
  const Panel p = build_panel(c, nodes(400));
  for (const ClothNode& n : p.nodes) {
    const ClothNode& m = p.nodes[p.node(n.side, n.row, p.columns - 1 - n.column)];
    CHECK(m.placed.y() == Approx(1.2 - n.placed.y()).margin(1e-12));
    CHECK(m.placed.x() == Approx(n.placed.x()).margin(1e-12));
    CHECK(m.tie == n.tie);
  }
  for (const Zone& z : p.zones)
    CHECK(p.zones[p.zone(z.side, p.bays - 1 - z.bay, z.strip)].area == Approx(z.area).epsilon(1e-9));
}

TEST_CASE("a symmetric profile gives a bottom that mirrors the top") {
  const Panel p = build_panel(sample::aileron(3, 0.9), nodes(300));
  for (int i = 0; i < p.rows; ++i)
    for (int j = 0; j < p.columns; ++j) {
      const ClothNode &t = p.nodes[p.node(Side::top, i, j)], &b = p.nodes[p.node(Side::bottom, i, j)];
      CHECK((t.placed - b.placed.cwiseProduct(Eigen::Vector3d(1, 1, -1))).norm() < 1e-12);
      CHECK((t.normal - b.normal.cwiseProduct(Eigen::Vector3d(1, 1, -1))).norm() < 1e-9);
      CHECK(t.normal.z() > 0);
      CHECK(t.along_chord.x() > 0);
      CHECK(t.along_span.y() > 0);
    }
}

TEST_CASE("on a full wrap the yarn of the bottom is that of the top, folded over the trailing edge") {
  for (double sweep : {0.0, -0.1, 0.15})
    for (double warp : {0.0, 10 * degree, 45 * degree, 90 * degree}) {
      Case c = flat_case(3, 1.5, 0.4, 0.4 + 1.5 * sweep);
      c.cloth.warp_angle = warp;
      const Panel p = build_panel(c, nodes(200));
      // In plan: the trailing edge t, across it n; a yarn c t + s n folds to c t - s n.
      const Eigen::Vector2d t = Eigen::Vector2d(sweep, 1).normalized(), n(t.y(), -t.x());
      const Eigen::Vector2d yarn(std::sin(warp), std::cos(warp));
      const Eigen::Vector2d folded = yarn.dot(t) * t - yarn.dot(n) * n;
      for (const Quad& q : p.quads) {
        if (q.side == Side::top) CHECK(q.warp_angle == warp);
        else {
          const Eigen::Vector2d got(std::sin(q.warp_angle), std::cos(q.warp_angle));
          CHECK(std::abs(got.x() * folded.y() - got.y() * folded.x()) < 1e-12);  // a line has no direction
        }
      }
    }
}

TEST_CASE("two sheets are laid with the same yarn angle on both sides") {
  Case c = flat_case(3, 1.5, 0.4, 0.3);
  c.cloth.warp_angle = 10 * degree;
  c.blanket.kind = BlanketKind::two_sheets;
  for (const Quad& q : build_panel(c, nodes(200)).quads) CHECK(q.warp_angle == Approx(10 * degree));
}

TEST_CASE("members run from joint to joint and meet where they cross") {
  const Panel p = build_panel(sample::aileron(3, 0.9), nodes(300));
  for (const FrameMember& m : p.members) {
    REQUIRE(m.joints.size() == m.beams.size() + 1);
    for (std::size_t k = 0; k < m.beams.size(); ++k) {
      CHECK(p.beams[m.beams[k]].from == m.joints[k]);
      CHECK(p.beams[m.beams[k]].to == m.joints[k + 1]);
    }
    if (m.role != MemberRole::inner_rib && m.role != MemberRole::end_rib) continue;
    CHECK(std::find(p.edge_joint.begin(), p.edge_joint.end(), m.joints.back()) != p.edge_joint.end());
    CHECK(std::find(p.members[0].joints.begin(), p.members[0].joints.end(), m.joints.front()) !=
          p.members[0].joints.end());
  }
}

TEST_CASE("only a tip bow leaves fullness to be shrunk out") {
  Case c = sample::aileron(4, 1.2);
  CHECK(build_panel(c, nodes(300)).fullness == 0);
  c.tip_bow = c.ribs.back().make;
  c.outline.tip_bow_depth = 0.08;
  c.tip_thickness = 0.01;
  const double fullness = build_panel(c, nodes(300)).fullness;
  CHECK(fullness > 0);
  CHECK(fullness < 0.1);
}
