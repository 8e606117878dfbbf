// Lateral bow of an end rib: the cloth of one side pulls it inwards with q along its length, and the chordwise pull
// pushes on its ends with P. Between its joints it is a beam-column (docs/model.md, section 5). u = (L/2) sqrt(P/EI):
//   hinged   as in pinned_beam_column.hpp
//   clamped  end moment E = qL^2/12 3 (tan u - u)/(u^2 tan u), middle qL^2/24 6 (u - sin u)/(u^2 sin u),
//            w = w of the hinged one - E L^2/8EI 2 (1 - cos u)/(u^2 cos u)
// Timoshenko & Gere, Theory of Elastic Stability, from memory; derived here from EI w'' + P w = M.
// Through the whole solver: the load reaches the joints alone, as the cloth's does, hence the second order; axial
// forces come from the answer and soften the next one.
#include "solver/readings/readings.hpp"
#include "tests/published/pinned_beam_column.hpp"
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <string>

using namespace evenpull;
using namespace evenpull::check;
using namespace evenpull::published;

namespace {

constexpr double e = tube_modulus, g = 26e9;
const PinnedTube rib_tube;
const double length = rib_tube.length, q = rib_tube.q;

struct Bowed {
  double deflection, middle_moment, end_moment, stress;
};

// A rib along x of n beams, pulled along y; its far end may come nearer.
Bowed bow(int n, bool clamped, double push) {
  Patch p{PatchCloth{}};
  const PatchBeam beam{rib_tube.section, e, g};
  for (int i = 0; i <= n; ++i) {
    p.add_body({length * i / n, 0, 0});
    if (i > 0) p.add_beam(i - 1, i, beam);
  }
  for (int k = 0; k < 6; ++k) {
    if (k == 5 && !clamped) continue;
    p.hold_body(0, k);
    if (k != 0) p.hold_body(n, k);
  }
  PatchSolver s(p);
  for (int i = 1; i < n; ++i) s.load_body(i, {0, q * length / n, 0}, {0, 0, 0});
  s.load_body(n, {-push, 0, 0}, {0, 0, 0});
  s.solve();
  const BeamForces middle = s.beam_forces(n / 2);
  return {s.body_translation(n / 2).y(), std::abs(middle.bend_flat[0]), std::abs(s.beam_forces(0).bend_flat[0]),
          end_stress(rib_tube.section, middle, 0)};
}

void study(const std::string& check, const std::string& quantity, double published, double tolerance,
           const std::function<double(int)>& read, double theory = 2) {
  std::vector<MeshLevel> levels;
  for (int n : {16, 32, 64}) levels.push_back({length / n, read(n)});
  book::Chapter{"Frame"}.study(check, quantity, beam_column_source, published, tolerance, levels,
                               {theory, theory - 0.2});
}

std::string share_words(double share) { return "P = " + share_text(share) + " of its Euler load: "; }

// Closed forms, deflection [m] and moments [N m].
double clamped_end(double u) { return q * length * length / 12 * 3 * (std::tan(u) - u) / (u * u * std::tan(u)); }
double clamped_middle(double u) { return q * length * length / 24 * 6 * (u - std::sin(u)) / (u * u * std::sin(u)); }
double clamped_bow(double u) {
  return rib_tube.deflection(u) -
         clamped_end(u) * length * length / (8 * rib_tube.bending()) * 2 * (1 - std::cos(u)) / (u * u * std::cos(u));
}

}  // namespace

TEST_CASE("an end rib hinged at its joints bows, and is stressed, as a beam-column") {
  for (double share : {0.25, 0.5, 0.8}) {
    const double push = share * rib_tube.euler_load(), u = PinnedTube::u(share);
    const double moment = rib_tube.moment(u);
    const std::string check = "End rib pulled sideways, hinged", at = share_words(share);
    const double finest = share > 0.7 ? 1e-3 : 1e-4;  // near the buckling load every error is amplified likewise
    study(check, at + "bow [mm]", 1e3 * rib_tube.deflection(u), finest,
          [&](int n) { return 1e3 * bow(n, false, push).deflection; });
    study(check, at + "moment [N mm]", 1e3 * moment, finest,
          [&](int n) { return 1e3 * bow(n, false, push).middle_moment; });
    // A = 33.364 mm^2, W = 91.980 mm^3.
    study(check, at + "worst stress [MPa]", push / 33.364 + 1e3 * moment / 91.980, finest,
          [&](int n) { return 1e-6 * bow(n, false, push).stress; });
    book::enter({.chapter = "Frame",
                 .check = check,
                 .quantity = at + "moment over that without P [1]",
                 .source = beam_column_source,
                 .published = moment / (q * length * length / 8),
                 .ours = bow(64, false, push).middle_moment / bow(64, false, 0).middle_moment,
                 .tolerance = 5e-3,
                 .note = "at 64 beams, not extrapolated"});
  }
}

TEST_CASE("an end rib clamped at its joints bows, and is stressed, as a beam-column") {
  for (double share : {0.2, 0.5, 0.8}) {
    const double push = share * 4 * rib_tube.euler_load(), u = pi * std::sqrt(share);
    const std::string check = "End rib pulled sideways, clamped", at = share_words(share);
    const double finest = share > 0.7 ? 2e-3 : 5e-4;
    study(
        check, at + "bow [mm]", 1e3 * clamped_bow(u), finest,
        // What the load on the joints leaves out are moments that cancel between beams and end in the clamps.
        [&](int n) { return 1e3 * bow(n, true, push).deflection; }, 4);
    study(check, at + "moment in the middle [N mm]", 1e3 * clamped_middle(u), finest,
          [&](int n) { return 1e3 * bow(n, true, push).middle_moment; });
    study(check, at + "moment at the ends [N mm]", 1e3 * clamped_end(u), finest,
          [&](int n) { return 1e3 * bow(n, true, push).end_moment; });
  }
}

TEST_CASE("the bow that is read off a whole panel is that of the beam-column between the rib's joints") {
  // One bay between two alike end ribs of tube, hinged to a leading edge that is held and to a trailing edge that may
  // come nearer; the cloth lies loose, so that the dead loads are all there is.
  Case c = sample::light_rudder(1);
  for (Rib& r : c.ribs) {
    r.front_joint.kind = r.rear_joint.kind = JointKind::pinned;
    const Section tube = without_shear(section_of(r.make.shape, 0));
    r.make.shape = {};
    r.make.shape.kind = SectionShape::Kind::properties;
    r.make.shape.given = tube;
  }
  Support front, back;
  front.whole_length = back.whole_length = true;
  front.hold = {true, true, true, true, true, true};
  back.member = 1;
  back.hold = {false, true, true, true, true, true};
  c.while_ironed = {front, back};
  double last = 0, by_hand = 0;
  for (int nodes : {150, 600, 2400, 6000}) {
    MeshOptions options;
    options.target_nodes = nodes;
    const Model m(c, options);
    Covering s = laid_on(m);
    s.load = Eigen::VectorXd::Zero(m.unknowns.count);
    double rib = 0;
    for (const FrameMember& f : m.panel.members) {
      if (f.role != MemberRole::end_rib) continue;
      const auto x = [&](std::size_t k) { return m.panel.joints[f.joints[k]].position.x(); };
      rib = x(f.joints.size() - 1) - x(0);
      for (std::size_t k = 1; k + 1 < f.joints.size(); ++k) s.load[6 * f.joints[k] + 1] = q * (x(k + 1) - x(k - 1)) / 2;
      s.load[6 * f.joints.back()] = -0.5 * pi * pi * rib_tube.bending() / (rib * rib);
    }
    SolveOptions a;
    a.force_tolerance = 1e-5;
    Equilibrium solver(m, a);
    REQUIRE(solver.solve(s, {}, {}).converged);
    const double bow_read = 1e3 * read_off(m, s).end_rib_bow.value * rib;
    CHECK(bow_read > last);
    last = bow_read;
    // P is half of Euler's load whatever the length, and the bow grows with its fourth power.
    by_hand = 1e3 * rib_tube.deflection(PinnedTube::u(0.5)) * std::pow(rib / length, 4);
  }
  book::enter(
      {.chapter = "Frame",
       .check = "End rib of a whole panel pulled sideways, hinged, cloth loose",
       .quantity = "bow as read off [mm]",
       .source = beam_column_source,
       .published = by_hand,
       .ours = last,
       .tolerance = 5e-3,
       .note = "6000 nodes, not extrapolated: the bow is read at joints, which stand where the rows of the cloth do, "
               "and its peak lies between two of them"});
}
