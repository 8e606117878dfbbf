// A strip of depth h, pulled by P at mid-depth and bent by M, that cannot push: how the moment grows once part of it is
// loose, as a finite-element run (the section by itself: test_wrinkled_strip.cpp). X = kappa Et h^2/(2P):
//   M/(Ph) = X/6 up to X = 1, then 1/2 - 1/(3 sqrt(X));   loose share of the depth b/h = 1 - 1/sqrt(X)
// Stein & Hedgepeth, NASA TN D-813 (1961), from memory; derived here: strain kappa z over the taut depth c = h - b, P =
// Et kappa c^2/2 at c/3 from the tight edge.
#include "tests/solver/chance.hpp"
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <sstream>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double depth = 0.3, length = 0.3;  // m, along y and x
constexpr double force = 300;                // N
// Stiff, so that strains stay below 1e-4 and the turning of the ends, squared, below 1e-4 of them.
constexpr double stiffness = 1e8;  // N/m

const char* const source = "Stein & Hedgepeth, NASA TN D-813 (1961), from memory; derived here";

// The cloth lies loose across by this strain: more than it wants to contract (nu times at most 6e-5), so that the ends,
// glued, do not hinder it and pull goes along the strip alone. Nothing else would hold free side edges: the last
// whisper of pull across would draw the strip together into a rope. So they are led, and the loose cloth does not pull
// at them.
constexpr double loose_across = 1e-3;

struct Bent {
  double moment = 0;  // M/(Ph)
  double loose = 0;   // b/h
};

Bent bend(double x, double nu, int rows, int columns, double throw_about = 0) {
  PatchCloth cloth = isotropic(stiffness, nu);
  cloth.warp_angle = pi / 2;  // along x
  Patch p(cloth);
  Chance chance(5);
  p.add_grid(columns, rows, [&](double u, double v) {
    const double du = chance.between(-throw_about, throw_about) / columns,
                 dv = chance.between(-throw_about, throw_about) / rows;
    const bool inside = u > 1e-9 && u < 1 - 1e-9 && v > 1e-9 && v < 1 - 1e-9;
    return Eigen::Vector3d(((inside ? u + du : u) - 0.5) * length, ((inside ? v + dv : v) - 0.5) * depth, 0);
  });
  const auto node = [&](int i, int j) { return i * (rows + 1) + j; };
  const int ends[] = {p.add_body({-length / 2, 0, 0}), p.add_body({length / 2, 0, 0})};
  for (int j = 0; j <= rows; ++j) {
    p.glue(node(0, j), ends[0]);
    p.glue(node(columns, j), ends[1]);
  }
  for (int e : {0, 1})
    for (int k = 0; k < 6; ++k)
      if (k != 0 || e == 0) p.hold_body(ends[e], k);
  // Both side edges are led along the arc that the ends prescribe, free to slip along it.
  for (int i = 1; i < columns; ++i)
    for (int j : {0, rows}) p.hold_node(node(i, j), 1);
  PatchSolver s(p);
  s.shrink(0, -loose_across);
  const double curvature = 2 * force * x / (stiffness * depth * depth);
  s.move_body(ends[0], 5, curvature * length / 2);
  s.move_body(ends[1], 5, -curvature * length / 2);
  const auto arc = [&](double at) { return 0.5 * curvature * (0.25 * length * length - at * at); };
  for (int i = 1; i < columns; ++i)
    for (int j : {0, rows}) s.move_node(node(i, j), 1, arc(p.nodes()[node(i, j)].x()));
  s.load_body(ends[1], {force, 0, 0}, {0, 0, 0});
  s.solve();
  double led = 0;
  for (int i = 1; i < columns; ++i)
    for (int j : {0, rows}) led += std::abs(s.node_force(node(i, j)).y());
  CHECK(led < 3e-3 * force);  // of the coarsest mesh; falls as the edges of quads come nearer to the arc
  CHECK(s.body_force(ends[0])[0] == Approx(-s.body_force(ends[1])[0]).epsilon(1e-6));
  Bent r;
  r.moment = std::abs(s.body_force(ends[1])[5]) / (force * depth);
  // Pull grows in a straight line from where the loose band ends: least squares over the quads that are well taut.
  double peak = 0;
  for (std::size_t q = 0; q < p.quads().size(); ++q) peak = std::max(peak, s.pull(static_cast<int>(q))[0]);
  double n = 0, sy = 0, sp = 0, syy = 0, syp = 0;
  for (std::size_t q = 0; q < p.quads().size(); ++q) {
    const double pull = s.pull(static_cast<int>(q))[0];
    if (pull < 0.2 * peak) continue;
    double y = 0;
    for (int k : p.quads()[q]) y += 0.25 * p.nodes()[k].y();
    n += 1, sy += y, sp += pull, syy += y * y, syp += y * pull;
  }
  const double slope = (n * syp - sy * sp) / (n * syy - sy * sy), zero = (sy - sp / slope) / n;
  r.loose = zero / depth + 0.5;
  return r;
}

}  // namespace

TEST_CASE("a strip on bodies bends and loosens as Stein and Hedgepeth say") {
  // An edge of the loose band in the middle of a row of quads costs up to half as much again as one between two rows.
  // So that meshes differ in size alone, their rows are chosen to put it (nearly) between two in each of them.
  struct Row {
    double x, nu;
    std::array<int, 3> rows;
    double throw_about;
  };
  for (const Row& r :
       {Row{1, 0, {8, 16, 32}, 0}, Row{1.5, 0, {11, 27, 49}, 0}, Row{2, 0, {7, 17, 41}, 0}, Row{4, 0, {8, 16, 32}, 0},
        Row{4, 0.3, {8, 16, 32}, 0}, Row{9, 0.3, {9, 18, 36}, 0}, Row{4, 0.3, {8, 16, 32}, 0.3}}) {
    std::vector<MeshLevel> moment, loose;
    for (int n : r.rows) {
      const Bent b = bend(r.x, r.nu, n, n / 2, r.throw_about);
      moment.push_back({depth / n, b.moment});
      loose.push_back({depth / n, b.loose});
    }
    std::ostringstream name;
    name << "Partly loose strip in bending, X = " << r.x << ", nu = " << r.nu
         << (r.throw_about > 0 ? ", irregular mesh" : "");
    const double root = std::sqrt(r.x);
    book::enter({.chapter = "Cloth",
                 .check = name.str(),
                 .quantity = "moment M/(Ph)",
                 .source = source,
                 .published = 0.5 - 1 / (3 * root),
                 .tolerance = r.throw_about > 0 ? 1e-3 : 5e-4,
                 .levels = moment,
                 .theory = 2,
                 .least_order = 1.8});
    book::enter({.chapter = "Cloth",
                 .check = name.str(),
                 .quantity = "loose share of the depth b/h",
                 .source = source,
                 .published = 1 - 1 / root,
                 .tolerance = 1e-3,
                 .scale = 1,
                 .levels = loose,
                 .theory = 2,
                 .note = "Pull in a straight line is integrated exactly once a row line lies at the edge of the loose "
                         "band: what is left is from smoothing and has no order."});
  }
}
