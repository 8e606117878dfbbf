// Readings of states made by hand (docs/model.md, section 7).
#include "solver/readings/member_pull.hpp"
#include "tests/solver/chance.hpp"
#include "tests/solver/small_job.hpp"

#include <Eigen/Geometry>
#include <catch2/catch.hpp>

using namespace evenpull;
using namespace evenpull::check;

namespace {

Covering same_pull(const Model& m, const Mandel& pull) {
  Covering s = laid_on(m);
  for (Tension& t : s.tension) t.pull = pull;
  return s;
}

}  // namespace

TEST_CASE("the same pull everywhere is even, has no difference and is read back") {
  Job j(sample::aileron(3, 0.9), 150);
  const Readings r = j.read(same_pull(j.model, {400, 250, 0}));  // warp along the span
  for (double v : r.zones.span) CHECK(v == Approx(400));
  for (double v : r.zones.chord) CHECK(v == Approx(250));
  CHECK(r.unevenness == Approx(0).margin(1e-12));
  CHECK(r.difference_chord.value == Approx(0).margin(1e-9));
  CHECK(r.difference_span.value == Approx(0).margin(1e-9));
  CHECK(r.spread_along_span == Approx(0).margin(1e-9));
  CHECK(r.loose_share == 0);
  CHECK(r.puckered_share == 0);
  CHECK(side_mean(j.panel(), r.zones.span, Side::bottom) == Approx(400));
}

TEST_CASE("pull on the bias is turned into span and chord") {
  Case c = sample::aileron(3, 0.9);
  c.cloth.warp_angle = 3.14159265358979323846 / 4;
  c.blanket.kind = BlanketKind::two_sheets;
  Job j(c, 150);
  const Readings along_warp = j.read(same_pull(j.model, {600, 0.001, 0}));
  for (double v : along_warp.zones.span) CHECK(v == Approx(300).epsilon(1e-5));
  for (double v : along_warp.zones.chord) CHECK(v == Approx(300).epsilon(1e-5));
  CHECK(along_warp.puckered_share == Approx(1));
  // Warp and fill alike with shear: the span and the chord lie 45 degrees to the yarns.
  const Readings shear = j.read(same_pull(j.model, {300, 300, -std::sqrt(2.0) * 200}));
  for (double v : shear.zones.span) CHECK(v == Approx(500));
  for (double v : shear.zones.chord) CHECK(v == Approx(100));
}

TEST_CASE("one side loose, the other tight: differences and shares say so") {
  Job j(sample::aileron(3, 0.9), 150);
  Covering s = same_pull(j.model, {300, 200, 0});
  for (std::size_t t = 0; t < s.tension.size(); ++t)
    if (j.panel().quads[t / 4].side == Side::bottom) s.tension[t].pull = Mandel(0.1, 0.1, 0);
  const Readings r = j.read(s);
  CHECK(r.loose_share == Approx(0.5).epsilon(1e-6));
  CHECK(r.difference_span.value == Approx(299.9));
  CHECK(r.difference_chord.value == Approx(199.9));
}

TEST_CASE("a direction that carries next to nothing is not called uneven") {
  Job j(sample::aileron(3, 0.9), 150);
  Covering s = same_pull(j.model, {400, 0, 0});
  for (std::size_t t = 0; t < s.tension.size(); ++t) {  // warp along the span; the fill has the whisper of loose cloth
    const Quad& quad = j.panel().quads[t / 4];
    s.tension[t].pull[1] = quad.zone % 2 ? 8 : 0.5;
  }
  const Readings few = j.read(s);
  CHECK(few.unevenness < 0.01);
  for (const Unevenness& u : few.unevenness_by_side) {
    CHECK(u.span.has_value());
    CHECK_FALSE(u.chord.has_value());
  }
  // The same proportions count where the direction carries its share.
  for (Tension& t : s.tension) t.pull[1] *= 20;
  const Readings much = j.read(s);
  CHECK(much.unevenness > 0.5);
  CHECK(much.unevenness_by_side[0].chord.has_value());
}

TEST_CASE("a panel whose fill does not shrink is judged by its warp alone") {
  Case c = one_zone_a_bay(sample::light_rudder(3));
  for (ShrinkPoint& p : c.cloth.curve) p.free_shrink.fill = p.pull.fill = 0;
  Job j(c, 150);
  Covering s = j.ironing.begin();
  REQUIRE(work(j, s, centre_out(j.panel()), 250, 1));
  j.ironing.settle(s, "250 F");
  const Readings r = j.read(s);
  const double along = side_mean(j.panel(), r.zones.span, Side::top),
               across = side_mean(j.panel(), r.zones.chord, Side::top);
  CHECK(along > 100);
  CHECK(across < 0.1 * along);
  CHECK(r.unevenness < 0.25);
}

TEST_CASE("zones whose cloth carries next to nothing are named, a loose corner is not") {
  Job j(sample::aileron(3, 0.9), 500);
  Covering s = same_pull(j.model, {300, 200, 0});
  CHECK(j.read(s).loose_zones.empty());
  const auto loosen = [&](int quad) {
    for (int t = 4 * quad; t < 4 * quad + 4; ++t) s.tension[t].pull = Mandel(0.5, 0.5, 0);
  };
  const Zone& zone = j.panel().zones[1];
  const auto smallest = *std::min_element(zone.quads.begin(), zone.quads.end(), [&](int a, int b) {
    return j.panel().quads[a].area < j.panel().quads[b].area;
  });
  REQUIRE(j.panel().quads[smallest].area < most_loose_in_a_zone * zone.area);
  loosen(smallest);
  CHECK(j.read(s).loose_share > 0);
  CHECK(j.read(s).loose_zones.empty());
  double loose = 0;
  for (int q : zone.quads) {
    if (loose > most_loose_in_a_zone * zone.area) break;
    loosen(q), loose += j.panel().quads[q].area;
  }
  CHECK(j.read(s).loose_zones == std::vector<int>{1});
  // All of it pulls a little, and still far too little.
  for (int q : j.panel().zones[2].quads)
    for (int t = 4 * q; t < 4 * q + 4; ++t) s.tension[t].pull = Mandel(9, 5, 0);
  CHECK(j.read(s).loose_zones == std::vector<int>{1, 2});
}

TEST_CASE("a panel moved as a whole reads straight and unstressed, and its turn is told") {
  Job j(sample::aileron(3, 0.9), 150);
  Chance chance(81);
  Covering s = laid_on(j.model);
  const Eigen::Vector3d move = chance.vector<3>(1e-3), turn = chance.vector<3>(1e-3);
  for (std::size_t k = 0; k < j.panel().joints.size(); ++k) {
    s.unknowns.segment<3>(6 * k) = move + turn.cross(j.panel().joints[k].position);
    s.unknowns.segment<3>(6 * k + 3) = turn;
  }
  const Readings r = j.read(s);
  CHECK(r.edge_bow.value < 1e-12);
  CHECK(r.end_rib_bow.value < 1e-12);
  CHECK(r.twist < 1e-9);
  CHECK(r.stress_use.value < 1e-6);
  CHECK(r.frame_turn == Approx(turn.norm()));
}

TEST_CASE("stress in wood and in metal are read apart, and the worst of both is the worst of all") {
  Case c = sample::aileron(3, 0.9);
  Job of_metal(c, 150);
  Covering s = laid_on(of_metal.model);
  Chance chance(5);
  for (Eigen::Index k = 0; k < s.unknowns.size(); ++k) s.unknowns[k] = 1e-4 * chance.vector<1>(1)[0];
  const Readings metal = of_metal.read(s);
  CHECK(metal.wood_stress_use.member == -1);
  CHECK(metal.metal_stress_use.value == metal.stress_use.value);

  Material wood = c.materials[of_metal.panel().members[metal.stress_use.member].material];
  wood.kind = Strength::rupture;
  c.materials.push_back(wood);
  for (Rib& rib : c.ribs) rib.make.material = static_cast<int>(c.materials.size()) - 1;
  Job mixed(c, 150);
  const Readings r = mixed.read(s);
  REQUIRE(r.wood_stress_use.member >= 0);
  REQUIRE(r.metal_stress_use.member >= 0);
  CHECK(mixed.model.the_case.materials[mixed.panel().members[r.wood_stress_use.member].material].kind ==
        Strength::rupture);
  CHECK(r.wood_stress_use.value > 0);
  CHECK(r.stress_use.value == std::max(r.wood_stress_use.value, r.metal_stress_use.value));
}

TEST_CASE("a bowed trailing edge and a twisted panel are measured") {
  Job j(sample::aileron(3, 0.9), 150);
  const Panel& p = j.panel();
  Covering s = laid_on(j.model);
  const int mid = (p.rib_columns[1] + p.rib_columns[2]) / 2;
  s.unknowns[6 * p.edge_joint[mid] + 0] = -1.2e-3;  // pulled in between ribs 0.3 m apart
  const Readings bowed = j.read(s);
  CHECK(bowed.edge_bow.value == Approx(1.2e-3 / 0.3));
  CHECK(bowed.edge_bow.bay == 1);
  CHECK(bowed.edge_bow.joint == p.edge_joint[mid]);

  s = laid_on(j.model);
  for (std::size_t k = 0; k < p.joints.size(); ++k)  // turns about the span, more towards the tip
    s.unknowns[6 * k + 2] = 0.01 * p.joints[k].position.x() * p.joints[k].position.y() / 0.9;
  CHECK(j.read(s).twist == Approx(0.01).epsilon(1e-3));
  CHECK(j.read(s).tip_turn == Approx(0.01).epsilon(1e-3));
  for (std::size_t k = 0; k < p.joints.size(); ++k) s.unknowns[6 * k + 2] *= -1;
  CHECK(j.read(s).twist == Approx(0.01).epsilon(1e-3));
  CHECK(j.read(s).tip_turn == Approx(-0.01).epsilon(1e-3));
}

TEST_CASE("the cloth's pull is spread along a member as it reaches its joints, meeting places and ends bridged") {
  const Job j(one_zone_a_bay(sample::aileron(2, 0.6)));
  const Panel& p = j.panel();
  Covering s = laid_on(j.model);
  // An even pull forward on the trailing edge, lumped at its nodes as the cloth does; inner ribs and ends get odd forces.
  const double q = 250;
  for (int i = 0; i < p.columns; ++i) {
    const int node = p.node(Side::top, p.rows - 1, i);
    const bool odd = i == 0 || i == p.columns - 1 || i == p.rib_columns[1];
    s.nodal_force[node] = {odd ? 7.0 : q * 0.6 / (p.columns - 1), 0, 0};
  }
  const std::vector<BeamLoad> pull = pull_on_beams(j.model, s);
  for (const FrameMember& m : p.members)
    for (int b : m.beams) {
      const bool edge = m.role == MemberRole::trailing_edge;
      INFO(m.name);
      // The force is the cloth's own; the member is pulled the other way.
      CHECK(pull[b].from.x() == Approx(edge ? -q : 0).margin(1e-9));
      CHECK(pull[b].to.x() == Approx(edge ? -q : 0).margin(1e-9));
    }
}

TEST_CASE("slip counts where the cloth is tight on one side at least, not where it is loose on both") {
  Job j(sample::aileron(3, 0.9), 150);
  const Panel& p = j.panel();
  for (int tight_side : {0, 1}) {
    // Tight in the first bay, on one side; all else loose.
    Covering s = same_pull(j.model, {0.1, 0.1, 0});
    for (std::size_t t = 0; t < s.tension.size(); ++t) {
      const Quad& q = p.quads[t / 4];
      if (q.bay == 0 && static_cast<int>(q.side) == tight_side) s.tension[t].pull = Mandel(300, 200, 0);
    }
    // A little slip in the first bay, much in the last.
    for (const SlidingPoint& point : j.model.unknowns.sliding)
      if (point.kind == SlidingPoint::Kind::wrapped)
        s.unknowns[point.first_unknown] = point.column <= p.rib_columns[1] ? -1e-3 : 4e-3;
    const Readings r = j.read(s);
    CHECK(r.slip.value == Approx(-1e-3));
    CHECK(r.slip.column <= p.rib_columns[1]);
    // As soon as the last bay is tight too, its slip is the worst.
    for (std::size_t t = 0; t < s.tension.size(); ++t)
      if (p.quads[t / 4].bay == 2) s.tension[t].pull = Mandel(300, 200, 0);
    CHECK(j.read(s).slip.value == Approx(4e-3));
  }
  CHECK(j.read(same_pull(j.model, {0.1, 0.1, 0})).slip.value == 0);
}
