// Flats of thin sheet: when they go wavy and when they cripple, against Eurocode's tables, textbook formulas and
// Gerard's fit, and against finite strips and plates that we computed by other means.
#include "solver/frame/thin_flats.hpp"
#include "tests/support/book.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace evenpull;

namespace {
constexpr double mm = 1e-3, mpa = 1e6, pi = 3.14159265358979323846;
constexpr book::Chapter frame{"Frame"};

// 2024-T3 sheet; yield in compression along the grain 39 ksi (published design values, from memory).
SheetMetal metal(double poisson = 0.33) { return {72.4e9, poisson, 269 * mpa}; }
double unit(const SheetMetal& m, double sheet, double width) {
  return pi * pi * m.youngs_modulus / (12 * (1 - m.poisson * m.poisson)) * std::pow(sheet / width, 2);
}
double outstand_k(double across, bool at_free, double length_over_width, double poisson) {
  const SheetMetal m = metal(poisson);
  return outstand_buckling(m, 0.5 * mm, 25 * mm, across, at_free, length_over_width * 25 * mm) /
         unit(m, 0.5 * mm, 25 * mm);
}

// The largest even compression that a section of the given shape bears [Pa].
double even_crippling(const SectionShape& shape, double depth) {
  Case c;
  c.materials = {{"sheet", 72.4e9, 72.4e9 / 2.66, 269 * mpa, Strength::yield}};
  Panel p;
  p.members.resize(1);
  p.members[0].shape = shape;
  Beam b;
  b.section = section_of(shape, depth);
  b.shape_depth = depth;
  p.beams = {b};
  BeamForces f;
  f.axial = -1;
  return 1 / (flat_use(flats_of_beams(c, p).front(), b.section, f, 0).of_crippling * b.section.area);
}

SectionShape sheet_rib(double height, double flange, double sheet) {
  SectionShape s;
  s.kind = SectionShape::Kind::sheet_rib;
  s.height = height * mm;
  s.width = flange * mm;
  s.wall = sheet * mm;
  return s;
}
SectionShape folded_edge(double leg, double sheet) {
  SectionShape s;
  s.kind = SectionShape::Kind::folded_edge;
  s.width = leg * mm;
  s.height = 10 * mm;
  s.wall = sheet * mm;
  return s;
}
}  // namespace

TEST_CASE("an outstand goes wavy at the factors of Eurocode 3") {
  // EN 1993-1-5, table 4.2 (seen as reprint): 0.43, 0.57 and 0.85 with the free edge compressed most, 0.578/(psi +
  // 0.34) at the support; fits for nu = 0.3, to two or three digits.
  const std::string source = "EN 1993-1-5, table 4.2, nu = 0.3 (seen as reprint)";
  const auto check = [&](double across, bool at_free, double k) {
    frame.number("Flat hinged at one edge, free at the other",
                 "buckling factor, psi = " + std::to_string(across).substr(0, 5) +
                     (at_free ? ", free edge compressed most" : ", supported edge compressed most"),
                 source, k, outstand_k(across, at_free, 0, 0.3), 0.02, "a fit there, exact here");
  };
  check(1, true, 0.43);
  check(0.5, true, 0.57 - 0.21 * 0.5 + 0.07 * 0.25);
  check(0, true, 0.57);
  check(-1, true, 0.85);
  check(0.5, false, 0.578 / 0.84);
  check(0, false, 0.578 / 0.34);
  check(-0.5, false, 1.7 + 2.5 + 17.1 / 4);
}

TEST_CASE("a short outstand waves later, as Timoshenko has it") {
  // Timoshenko and Gere, Theory of Elastic Stability (1961), article 9.3: k = 0.456 + (b/a)^2 for nu = 0.25 (from
  // memory).
  for (const double length : {2.0, 4.0, 6.0})
    frame.number("Flat hinged at one edge, free at the other, a/b = " + std::to_string(length).substr(0, 1),
                 "buckling factor", "Timoshenko and Gere (1961), article 9.3 (from memory)",
                 0.456 + 1 / (length * length), outstand_k(1, true, length, 0.25), 1e-3);
}

TEST_CASE("a flat held at both edges goes wavy at the plate's factors") {
  // Timoshenko and Gere, article 9.2 and table 9-6 (from memory): 4 in even compression, 7.8 with one edge free of
  // stress, 23.9 in pure bending.
  const SheetMetal m = metal();
  const auto k = [&](double across) {
    return held_flat_buckling(m, 0.5 * mm, 50 * mm, across) / unit(m, 0.5 * mm, 50 * mm);
  };
  const std::string source = "Timoshenko and Gere (1961), article 9.2, table 9-6 (from memory)";
  frame.number("Flat hinged at both edges", "buckling factor, even", source, 4, k(1), 1e-3);
  frame.number("Flat hinged at both edges", "buckling factor, one edge without stress", source, 7.8, k(0), 5e-3);
  frame.number("Flat hinged at both edges", "buckling factor, pure bending", source, 23.9, k(-1), 5e-3);
}

TEST_CASE("the leg of a folded edge under the pull of the cloth waves as a plate of many terms does") {
  // Factors of the largest compression at a rib, a leg hinged at fold and ribs, nu = 0.33: Ritz's method with 24 x 7
  // terms and the whole field of the membrane stress (30 x 9 terms: 5e-4 less), computed by us; derived in
  // docs/model.md, section 5.
  struct Row {
    double length, glued, wrapped;
  };
  const SheetMetal m = metal();
  for (const Row& r : {Row{6, 3.515, 2.681}, Row{8, 2.630, 2.135}, Row{12, 1.914, 1.661}, Row{20, 1.445, 1.326}})
    for (const bool glued : {true, false})
      frame.number("Leg of a folded edge, bay " + std::to_string(static_cast<int>(r.length)) + " legs long",
                   glued ? "buckling factor, cloth glued to the free edges" : "buckling factor, cloth round the fold",
                   "plate by Ritz's method, computed by us", glued ? r.glued : r.wrapped,
                   edge_leg_buckling(m, 0.5 * mm, 25 * mm, r.length * 25 * mm, 0, glued) / unit(m, 0.5 * mm, 25 * mm),
                   r.length < 8 ? 0.06 : 0.03, "a leg that stays straight across here");
}

TEST_CASE("a rib's flange in the fold holds the legs back from waving, the wider the more") {
  const SheetMetal m = metal();
  double before = edge_leg_buckling(m, 0.5 * mm, 25 * mm, 300 * mm, 0, true);
  for (const double held : {3 * mm, 6 * mm, 10 * mm}) {
    const double now = edge_leg_buckling(m, 0.5 * mm, 25 * mm, 300 * mm, held, true);
    CHECK(now > before);
    before = now;
  }
}

TEST_CASE("folded edges and sheet ribs cripple where Gerard's fits say") {
  // Gerard, NACA TN 3784 (1957), constants seen as reprint: angles 0.56 [(g t^2/A) sqrt(E/F_cy)]^0.85, channels
  // 3.2 [(t^2/A) (E/F_cy)^(1/3)]^0.75, both within 10 % or so of their tests.
  const double e = 72400, yield = 269;
  for (const auto& [leg, sheet] : {std::pair(25.0, 0.5), {19.0, 0.5}, {19.0, 0.8}, {25.0, 0.8}})
    frame.number("Crippling of a folded edge " + std::to_string(static_cast<int>(leg)) + " x " +
                     std::to_string(sheet).substr(0, 3) + " mm, even compression",
                 "stress [MPa]", "Gerard, NACA TN 3784 (1957), angles (seen as reprint)",
                 0.56 * yield * std::pow(sheet / leg * std::sqrt(e / yield), 0.85),
                 even_crippling(folded_edge(leg, sheet), 0) / mpa, 0.01,
                 "the same fit, by way of the stress of its waves");
  for (const auto& [height, flange, sheet] :
       {std::tuple(50.0, 12.0, 0.5), std::tuple(50.0, 16.0, 0.8), std::tuple(25.0, 12.0, 0.5)}) {
    const double area = sheet * (height + 2 * flange);
    frame.number("Crippling of a sheet rib " + std::to_string(static_cast<int>(height)) + "/" +
                     std::to_string(static_cast<int>(flange)) + " x " + std::to_string(sheet).substr(0, 3) +
                     " mm, even compression",
                 "stress [MPa]", "Gerard, NACA TN 3784 (1957), channels (seen as reprint)",
                 3.2 * yield * std::pow(sheet * sheet / area * std::cbrt(e / yield), 0.75),
                 even_crippling(sheet_rib(height, flange, sheet), height * mm) / mpa, 0.25,
                 "flat by flat here: the weakest counts, and no flat helps another");
  }
}

TEST_CASE("a rib's flange waves where whole strips of the rib do") {
  // Finite strips of the whole rib, corners rigid, computed by us: bent up with one flange compressed, and bent in
  // the panel's plane with both free edges compressed [MPa].
  struct Row {
    double height, flange, sheet, bent_up, bent_flat;
  };
  for (const Row& r : {Row{50, 12, 0.5, 91.98, 145.2}, Row{50, 16, 0.8, 141.0, 212.0}, Row{25, 12, 0.5, 102.5, 149.4}})
    for (const bool up : {true, false}) {
      Case c;
      c.materials = {{"sheet", 72.4e9, 72.4e9 / 2.66, 269 * mpa, Strength::yield}};
      Panel p;
      p.members.resize(1);
      p.members[0].shape = sheet_rib(r.height, r.flange, r.sheet);
      Beam b;
      b.section = section_of(p.members[0].shape, 0);
      p.beams = {b};
      BeamFlats flats = flats_of_beams(c, p).front();
      flats.either_way_flat = false;
      BeamForces f;
      (up ? f.bend_up : f.bend_flat)[0] = 1;
      const double tip = flats.flats[1].to[0];
      const double stress = up ? r.height * mm / 2 / b.section.inertia_up : tip / b.section.inertia_flat;
      const double waves = stress / flat_use(flats, b.section, f, 0).of_buckling / mpa,
                   strips = up ? r.bent_up : r.bent_flat;
      CHECK(waves <= 1.01 * strips);
      CHECK(waves >= 0.85 * strips);
    }
}

TEST_CASE("bending inside a beam under an even load is that of the closed form") {
  // A beam fixed at both ends: q l^2/12 (1 - 6 x + 6 x^2), derived here.
  BeamShape b;
  b.from = {0, 0, 0};
  b.to = {0, 0.3, 0};
  b.up = {0, 0, 1};
  const double q = 900, end = q * 0.09 / 12;
  BeamForces f;
  BeamLoad load;
  load.from = load.to = {-q, 0, 0};  // towards axis 2
  f.bend_flat[0] = f.bend_flat[1] = end;
  const BeamForces in = beam_forces_inside(b, f, load, {0.03, 0.006});
  CHECK(in.bend_flat[0] == Approx(end * (1 - 0.6 + 0.06)));
  CHECK(in.bend_flat[1] == Approx(end * (1 - 6 * 0.02 + 6 * 0.0004)));
  CHECK(in.bend_up[0] == Approx(0).margin(1e-12));
}

TEST_CASE("waves begin at their stress and deepen from there") {
  const SheetMetal m = metal();
  CHECK(wave_depth(m, 0.3, 100 * mpa, 0.9) == 0);
  CHECK(wave_depth(m, 0.3, 100 * mpa, 1) == 0);
  double before = 0;
  for (const double times : {1.1, 1.5, 2.0, 3.0}) {
    const double now = wave_depth(m, 0.3, 100 * mpa, times);
    CHECK(now > before);
    before = now;
  }
}
