// Thin flats of folded and formed sheet: at which stress they go wavy, at which the corner beside them cripples, and
// what a beam's forces put into them (docs/model.md, section 5). Stresses here are compressions, positive [Pa].
#pragma once

#include "solver/frame/beam.hpp"
#include "solver/geometry/panel.hpp"

#include <array>
#include <vector>

namespace evenpull::inline solver {

/// What a flat needs to know of its metal.
struct SheetMetal {
  double youngs_modulus = 0;     ///< Pa
  double poisson = 0.33;         ///< from E and G
  double compression_yield = 0;  ///< F_cy: the lower of the two yields that the case states [Pa]
};
SheetMetal sheet_metal(const Material& m);

/// Stress at which a long flat of thickness `sheet` and width `width` [m] hinged at one long edge and free at the
/// other goes wavy: the largest compression in it. `across`: compression at the other edge over the largest. Exact
/// while the flat turns about its support as a whole, k = 24 (1 - nu)/(pi^2 (3 + across)), at the support 3 across in
/// its place; there the fit of EN 1993-1-5, table 4.2, where it is lower (short waves). `length` [m] between where
/// its ends are held: adds k = (b/a)^2/(3 I).
double outstand_buckling(const SheetMetal& m, double sheet, double width, double across, bool largest_at_free_edge,
                         double length);
/// The same of a flat hinged at both long edges: EN 1993-1-5, table 4.1 (seen as reprint).
double held_flat_buckling(const SheetMetal& m, double sheet, double width, double across);

/// Compression at which an outstand cripples, from that at which it goes wavy: Gerard's form for angles (NACA TN
/// 3784, seen as reprint) with b/t put as sqrt(G/sigma), F_cs = 0.849 F_cy (sigma_cr/F_cy)^0.425, at most F_cy.
/// Scatter 15 %.
double outstand_crippling(const SheetMetal& m, double buckling);
/// The same of a flat held at both edges: effective width of EN 1993-1-5, section 4.4 (seen as reprint).
double held_flat_crippling(const SheetMetal& m, double buckling, double across);

/// Compression at the free edge of a folded edge's leg, where the rib lets go of it, at which the leg goes wavy while
/// the cloth pulls the edge forward evenly between ribs `bay` apart. A leg `width` deep that turns about the fold;
/// `held` [m] to either side of a rib it is held flat (0: it may turn there). `at_free_edges`: the cloth pulls at the
/// free edges, not round the fold. Derived in docs/model.md, section 5; a beam of 24 pieces.
double edge_leg_buckling(const SheetMetal& m, double sheet, double width, double bay, double held, bool at_free_edges);

/// Depth of the waves beside a rib [m] at `times` the compression at which they begin, `buckling` [Pa]; 0 up to 1.
double wave_depth(const SheetMetal& m, double bay, double buckling, double times);

/// Shells of a general-purpose package show no collapse of folded edges at least so thick for their leg, so close
/// between ribs, and with the flanges of those ribs `held` [m] to either side (docs/data.md): there the crippling
/// formula, which knows no cloth that gives and no edge that leans on its ribs, says nothing.
bool edge_is_known_to_bear(double sheet, double leg, double bay, double held);

/// A straight wall of a section, from the section's centroid [m]: along beam axis 2 (in the panel's plane), and up.
struct Flat {
  std::array<double, 2> from{}, to{};
  double sheet = 0;
  bool free_end = false;  ///< `to` is a free edge
  int stands_on = -1;     ///< the flat whose end `from` is, where that one holds it back from turning
  double stiffened = 1;   ///< by a lip
};

/// The flats of one beam.
struct BeamFlats {
  std::vector<Flat> flats;  ///< none: nothing thin in it
  SheetMetal metal;
  bool either_way_flat = false, either_way_up = false;  ///< the case does not say which way the section faces
  bool folded_edge = false;
  bool known_to_bear = false;     ///< see edge_is_known_to_bear
  double leg_buckling = 0;        ///< of a folded edge, see edge_leg_buckling [Pa]
  double bay = 0;                 ///< of a folded edge [m]
  std::array<double, 2> inset{};  ///< from its ends to where what it meets lets go of it: rib and folded edge [m]
};
/// By Panel::beams. Wood has none; nor has a beam whose shape the panel does not know.
std::vector<BeamFlats> flats_of_beams(const Case& c, const Panel& p);

/// The flat of a beam that is nearest to crippling, at one end.
struct FlatUse {
  double of_crippling = 0;  ///< compression / that at which it cripples
  double of_buckling = 0;   ///< largest compression / that at which the flat goes wavy, of all flats
};
FlatUse flat_use(const BeamFlats& b, const Section& section, const BeamForces& f, int end);

}  // namespace evenpull::inline solver
