// Beams that give in shear as well (Timoshenko): closed forms.
#include "tests/published/straight_line.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <Eigen/Eigenvalues>

#include <cmath>
#include <string>

using namespace evenpull;
using namespace evenpull::published;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double mm = 1e-3;
constexpr book::Chapter frame{"Frame"};
const std::string check = "Spruce bar 12 x 50 mm, with shear";

// E 10.8 GPa, G 0.06 E, kappa 5/6 (the rectangle by shear energy).
struct Bar {
  double e = 10.8e9, g = 648e6;
  Section section;

  Bar() {
    SectionShape shape;
    shape.kind = SectionShape::Kind::bar;
    shape.width = 12 * mm, shape.height = 50 * mm;
    section = section_of(shape, 0);
    section.shear_up = section.shear_flat = 5.0 / 6 * section.area;
  }
  double bending() const { return e * section.inertia_up; }
  double shear() const { return g * section.shear_up; }
  StraightLine line(double length, int elements) const {
    StraightLine l(length, elements, section, e);
    l.set_shear_modulus(g);
    return l;
  }
};

}  // namespace

TEST_CASE("shear adds as much again to the sag of a short spruce bar") {
  // 5 q L^4/(384 EI) + q L^2/(8 kappa G A), q = 1 N/mm; [mm], six digits.
  const Bar bar;
  const double q = 1e3;
  struct Row {
    double length, sag;
  };
  for (const Row& r : {Row{0.2, 0.0308642}, Row{0.4, 0.308642}}) {
    const StraightLine line = bar.line(r.length, 4);
    const Eigen::VectorXd u = solve_held(line.elastic(), line.uniform_load(q), {0, line.unknowns() - 2});
    frame.number(check, std::to_string(r.length).substr(0, 3) + " m, even load: sag [mm]", "Timoshenko, derived here",
                 r.sag, 1e3 * std::abs(u[4]), 1e-6);
  }
}

TEST_CASE("a cantilever with shear sinks at its tip by F L^3/3EI + F L/kappa G A, whatever the mesh") {
  const Bar bar;
  const double length = 0.15, force = 200;
  const double exact = force * std::pow(length, 3) / (3 * bar.bending()) + force * length / bar.shear();
  for (int n : {1, 5}) {
    const StraightLine line = bar.line(length, n);
    Eigen::VectorXd f = Eigen::VectorXd::Zero(line.unknowns());
    f[2 * n] = force;
    frame.number(check, "cantilever of " + std::to_string(n) + " pieces: tip [mm]", "Timoshenko, derived here",
                 1e3 * exact, 1e3 * solve_held(line.elastic(), f, {0, 1})[2 * n], 1e-9);
  }
}

TEST_CASE("a column with shear buckles at Engesser's load") {
  // P = P_e/(1 + P_e/kappa G A): 333.1 kN become 164.2 kN at 0.2 m.
  const Bar bar;
  const double length = 0.2, euler = pi * pi * bar.bending() / (length * length);
  std::vector<MeshLevel> levels;
  for (int n : {4, 8, 16}) {
    const StraightLine line = bar.line(length, n);
    const std::vector<int> open = free_of(line.unknowns(), {0, line.unknowns() - 2});
    const Eigen::MatrixXd k = line.elastic()(open, open), g = line.geometric(1.0)(open, open);
    levels.push_back(
        {1.0 / n,
         1e-3 *
             Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd>(k, g, Eigen::EigenvaluesOnly).eigenvalues()[0]});
  }
  const double engesser = 1e-3 * euler / (1 + euler / bar.shear());
  CHECK(engesser == Approx(164.2).epsilon(1e-3));
  frame.study(check, "0.2 m, pinned: buckling load [kN]", "Engesser (1891), derived here", engesser, 1e-5, levels,
              {4, 1.8});
}

TEST_CASE("ends that keep a pressed rib from warping stiffen it against twist") {
  // Twist of a channel, G J t' - E C_w t''' = T with t' = 0 at held ends: factor on G J/L 1/(1 - tanh u/u), u = L sqrt(G
  // J/E C_w) with one end held, half of it with both. J, C_w [mm^4, mm^6] of ribs of 2024 sheet, by hand.
  struct Row {
    const char* rib;
    double torsion, warping, length, one, both;
  };
  for (const Row& r :
       {Row{"50/12 x 0.5", 3.0833, 200656, 0.1, 53.13, 208.9}, Row{"50/12 x 0.5", 3.0833, 200656, 0.2, 14.18, 53.13},
        Row{"50/16 x 0.8", 13.995, 692018, 0.3, 5.581, 18.74}, Row{"25/12 x 0.5", 2.0417, 39897, 0.5, 1.801, 3.689}}) {
    Section s;
    s.torsion = r.torsion * 1e-12, s.warping = r.warping * 1e-18;
    const auto gain = [&](int ends) { return gain_of_held_warping(s, 72.4e9, 27.218e9, r.length, ends); };
    const std::string where = std::string("rib ") + r.rib + " mm, " + std::to_string(r.length).substr(0, 3) + " m";
    // The solver takes half of what perfect ends gain.
    for (const auto& [ends, factor] : {std::pair{1, r.one}, std::pair{2, r.both}})
      frame.number("Twist of ribs whose flanges are held",
                   where + (ends == 1 ? ", one end" : ", both ends") + ": twice the gain [1]",
                   "Vlasov, from memory; derived here", factor - 1, 2 * (gain(ends) - 1), 2e-3);
    CHECK(gain(0) == 1);
  }
}
