// Patch test of the cloth with the yarns turned from the load: on an irregular mesh a uniform pull must come out
// uniform, and the strains must be those of turned orthotropic compliance. With a the angle from the load (axis 1) to
// the warp, s = sin a, c = cos a (Mandel rotation of C, derived here; the same in R. M. Jones, Mechanics of Composite
// Materials, from memory, and in textbooks on laminated plates such as NASA RP-1351, 1994, of which the contents were
// seen):
//   S11 = c^4/E1 + (1/G - 2 nu/E1) s^2 c^2 + s^4/E2            1/S11 = off-axis modulus
//   S12 = -nu/E1 (s^4 + c^4) + (1/E1 + 1/E2 - 1/G) s^2 c^2
//   S66 = 2 (2/E1 + 2/E2 + 4 nu/E1 - 1/G) s^2 c^2 + (s^4 + c^4)/G
//   S16 = (2/E1 + 2 nu/E1 - 1/G) s c^3 - (2/E2 + 2 nu/E1 - 1/G) s^3 c
// The law is linear between N (second Piola-Kirchhoff) and E (Green-Lagrange), so nothing is small here: for a wanted N
// the places are x = U X with U = sqrt(1 + 2 E), E = S N, and the dead edge load that holds them is U N n.
#include "tests/solver/chance.hpp"
#include "tests/support/book.hpp"
#include "tests/support/cloth_patch.hpp"

#include <catch2/catch.hpp>

#include <Eigen/LU>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::check;

namespace {

constexpr double pi = 3.14159265358979323846, root2 = 1.41421356237309504880;
constexpr double length = 0.4, width = 0.3;                 // m, along the load (y) and across (x)
constexpr int rows = 5, columns = 6;                        // across, along
constexpr double pre_pull = 600, more = 300;                // N/m; more than the shear, so that the cloth stays taut
constexpr double e1 = 120e3, e2 = 80e3, nu = 0.1, g = 5e3;  // N/m
const char* const source = "R. M. Jones, Mechanics of Composite Materials, from memory; derived here";

struct Turned {
  double s11, s22, s12, s66, s16, s26;
};

Turned compliance_at(double angle) {
  const double s = std::sin(angle), c = std::cos(angle), s2 = s * s, c2 = c * c;
  const double mixed = 1 / g - 2 * nu / e1, warp = 2 / e1 + 2 * nu / e1 - 1 / g, fill = 2 / e2 + 2 * nu / e1 - 1 / g;
  return {c2 * c2 / e1 + mixed * s2 * c2 + s2 * s2 / e2,
          s2 * s2 / e1 + mixed * s2 * c2 + c2 * c2 / e2,
          -nu / e1 * (s2 * s2 + c2 * c2) + (1 / e1 + 1 / e2 - 1 / g) * s2 * c2,
          2 * (2 / e1 + 2 / e2 + 4 * nu / e1 - 1 / g) * s2 * c2 + (s2 * s2 + c2 * c2) / g,
          warp * s * c * c2 - fill * s * s2 * c,
          warp * s * s2 * c - fill * s * c * c2};
}

// Tensors have axis 1 along y and axis 2 along x.
Eigen::Vector2d in_axes(const Eigen::Vector3d& v) { return {v.y(), v.x()}; }
Eigen::Vector3d in_space(const Eigen::Vector2d& v) { return {v[1], v[0], 0}; }

Eigen::Matrix2d tensor(double t11, double t22, double t12) {
  Eigen::Matrix2d t;
  t << t11, t12, t12, t22;
  return t;
}

Eigen::Matrix2d strain_of(const Turned& s, const Eigen::Matrix2d& n) {
  return tensor(s.s11 * n(0, 0) + s.s12 * n(1, 1) + s.s16 * n(0, 1),
                s.s12 * n(0, 0) + s.s22 * n(1, 1) + s.s26 * n(0, 1),
                0.5 * (s.s16 * n(0, 0) + s.s26 * n(1, 1) + s.s66 * n(0, 1)));
}

// Square root of a symmetric positive definite 2x2 matrix (Cayley-Hamilton).
Eigen::Matrix2d stretch(const Eigen::Matrix2d& strain) {
  const Eigen::Matrix2d m = Eigen::Matrix2d::Identity() + 2 * strain;
  const double root = std::sqrt(m.determinant());
  return (m + root * Eigen::Matrix2d::Identity()) / std::sqrt(m.trace() + 2 * root);
}

Mandel in_yarns(const Eigen::Matrix2d& t, double angle) {
  Eigen::Matrix2d turn;
  turn << std::cos(angle), -std::sin(angle), std::sin(angle), std::cos(angle);
  const Eigen::Matrix2d y = turn.transpose() * t * turn;
  return {y(0, 0), y(1, 1), root2 * y(0, 1)};
}

struct Sheet {
  explicit Sheet(double angle) : patch({e1, e2, nu, g, angle}) {
    Chance chance(7);
    patch.add_grid(rows, columns, [&](double u, double v) {
      // Inner nodes are thrown about by up to 0.35 of a cell, nodes on an edge along it, corners stay.
      const double du = chance.between(-0.35, 0.35) / rows, dv = chance.between(-0.35, 0.35) / columns;
      const bool side = u < 1e-9 || u > 1 - 1e-9, end = v < 1e-9 || v > 1 - 1e-9;
      return Eigen::Vector3d((side ? u : u + du) * width, (end ? v : v + dv) * length, 0);
    });
    for (int i = 0; i <= rows; ++i) edge.push_back(node(i, 0));
    for (int j = 1; j <= columns; ++j) edge.push_back(node(rows, j));
    for (int i = rows - 1; i >= 0; --i) edge.push_back(node(i, columns));
    for (int j = columns - 1; j > 0; --j) edge.push_back(node(0, j));
  }
  static int node(int i, int j) { return i * (columns + 1) + j; }
  Patch patch;
  std::vector<int> edge;  // round the sheet, +x first
};

// Under dead loads on all four edges; returns the strain of the whole sheet, from its corners.
Eigen::Matrix2d strain_under_edge_loads(double angle, const Eigen::Matrix2d& pull) {
  Sheet sheet(angle);
  Patch& p = sheet.patch;
  const Eigen::Matrix2d u = stretch(strain_of(compliance_at(angle), pull));
  for (int n : sheet.edge) p.hold_node(n, 2);
  const int origin = Sheet::node(0, 0), far = Sheet::node(0, columns), beside = Sheet::node(rows, 0);
  p.hold_node(origin, 0);
  p.hold_node(origin, 1);
  p.hold_node(far, 0);  // no more than keeps the sheet from floating and turning
  PatchSolver s(p);
  s.move_node(far, 0, u(1, 0) * length);
  for (std::size_t k = 0; k < sheet.edge.size(); ++k) {
    const int a = sheet.edge[k], b = sheet.edge[(k + 1) % sheet.edge.size()];
    const Eigen::Vector3d along = p.nodes()[b] - p.nodes()[a];
    const Eigen::Vector3d outward(along.y(), -along.x(), 0);  // times the length; the edge runs counter-clockwise
    const Eigen::Vector3d half = 0.5 * in_space(u * pull * in_axes(outward));
    s.load_node(a, half);
    s.load_node(b, half);
  }
  s.solve();
  for (std::size_t i = 0; i < p.nodes().size(); ++i) {
    const Eigen::Vector3d wanted = in_space(u * in_axes(p.nodes()[i]));
    CHECK((s.position(static_cast<int>(i)) - wanted).norm() < 1e-8);  // m: 1e-6 N over the softest stiffness there is
  }
  for (std::size_t q = 0; q < p.quads().size(); ++q)
    CHECK((s.pull(static_cast<int>(q)) - in_yarns(pull, angle)).norm() < 1e-3);  // N/m
  Eigen::Matrix2d f;
  f.col(0) = in_axes(s.position(far) - s.position(origin)) / length;
  f.col(1) = in_axes(s.position(beside) - s.position(origin)) / width;
  return 0.5 * (f.transpose() * f - Eigen::Matrix2d::Identity());
}

}  // namespace

TEST_CASE("cloth pulled off its yarns strains as turned orthotropic compliance says, on an irregular mesh") {
  for (int degrees : {0, 30, 45, 80}) {
    CAPTURE(degrees);
    const double angle = degrees * pi / 180;
    const Turned s = compliance_at(angle);
    const Eigen::Matrix2d tight = strain_under_edge_loads(angle, tensor(pre_pull, pre_pull, 0));
    const Eigen::Matrix2d pulled = strain_under_edge_loads(angle, tensor(pre_pull + more, pre_pull, 0)) - tight;
    const Eigen::Matrix2d sheared = strain_under_edge_loads(angle, tensor(pre_pull, pre_pull, more)) - tight;
    const auto enter = [&](const std::string& quantity, double published, double ours, double scale = 0) {
      // Exact element: what is left is the force tolerance, 1e-6 N at loads of some 10 N.
      book::enter({.chapter = "Cloth",
                   .check = "Patch test, irregular mesh, warp " + std::to_string(degrees) + " degrees from the load",
                   .quantity = quantity,
                   .source = source,
                   .published = published,
                   .ours = ours,
                   .tolerance = 1e-6,
                   .scale = scale});
    };
    enter("modulus along the load [N/m]", 1 / s.s11, more / pulled(0, 0));
    enter("contraction across per stretch [1]", -s.s12 / s.s11, -pulled(1, 1) / pulled(0, 0));
    enter("shear angle per stretch [1]", s.s16 / s.s11, 2 * pulled(0, 1) / pulled(0, 0), 1);
    enter("shear stiffness [N/m]", 1 / s.s66, more / (2 * sheared(0, 1)));
    enter("growth of area under equal pull [1]", (s.s11 + 2 * s.s12 + s.s22) * pre_pull, tight.trace());
  }
}

TEST_CASE("pull one way only, its edges led as turned compliance says, is pull one way only everywhere") {
  for (int degrees : {0, 30, 45, 80}) {
    CAPTURE(degrees);
    const double angle = degrees * pi / 180;
    const Eigen::Matrix2d pull = tensor(900, 0, 0);
    const Eigen::Matrix2d u = stretch(strain_of(compliance_at(angle), pull));
    Sheet sheet(angle);
    for (int n : sheet.edge)
      for (int k = 0; k < 3; ++k) sheet.patch.hold_node(n, k);
    PatchSolver s(sheet.patch);
    for (int n : sheet.edge) {
      const Eigen::Vector3d& placed = sheet.patch.nodes()[n];
      const Eigen::Vector3d by = in_space(u * in_axes(placed)) - placed;
      for (int k = 0; k < 2; ++k) s.move_node(n, k, by[k]);
    }
    s.solve();
    // On the border between tight and puckered the smoothing leaves sqrt(beta/C) = sqrt(1e-8 * 1e5) = 0.03 N/m across.
    for (std::size_t q = 0; q < sheet.patch.quads().size(); ++q)
      CHECK((s.pull(static_cast<int>(q)) - in_yarns(pull, angle)).norm() < 0.06);
    double along = 0;
    for (int i = 0; i <= rows; ++i) along += s.node_force(Sheet::node(i, columns)).y();
    // The yarn force on the end turns and stretches with the cloth: (U N) n.
    CHECK(std::abs(along) == Approx((u * pull)(0, 0) * width).epsilon(1e-4));
  }
}
