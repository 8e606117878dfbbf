#include "solver/frame/thin_flats.hpp"

#include <Eigen/Eigenvalues>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <iterator>

namespace evenpull::inline solver {
namespace {

constexpr double pi = 3.14159265358979323846;

// A flange on a web that is bent with it waves at 0.79 to 0.84 instead of 0.407, and at 1.25 to 1.29 instead of 0.65
// where only its free edge is compressed: finite strips of whole sheet ribs, computed by us (docs/data.md). The lower
// end.
constexpr double flange_on_bent_web = 0.79 / 0.4073;
// A lip of a quarter of the flange or more: 1.8 to 2.3 times as much, the same strips. The lower end.
constexpr double by_a_lip = 1.8, least_lip = 0.25;
// Gerard's constant and exponent for angles, 0.56 (t/b sqrt(E/F_cy))^0.85, with sigma_cr = G (t/b)^2 in place of t/b.
constexpr double gerard_angle = 0.849, gerard_exponent = 0.425;
// What was run by shells and did not collapse (docs/data.md): leg / sheet and bay / leg at most, of legs of 25 and of
// 19 mm, and the half of a rib's flange at least [m].
struct RunByShells {
  double most_slender_leg, longest_bay;
};
constexpr RunByShells run_by_shells[] = {{62, 12.2}, {47, 16.05}};
constexpr double least_held = 5e-3;
// Shells three bays long first buckle at so much of what edge_leg_buckling says of a bay fixed at both ends: next to the
// last rib but one the moment is larger and spreads further. 0.60 to 0.78 on meshes that are fine enough (docs/data.md).
constexpr double three_bays = 0.65;
// Half a wave beside a rib as a share of the bay, from the same runs.
constexpr double half_wave_of_bay = 0.3;

double plate(const SheetMetal& m, double sheet, double width) {
  const double slender = sheet / width;
  return pi * pi * m.youngs_modulus / (12 * (1 - m.poisson * m.poisson)) * slender * slender;
}

// Compression at a point of a section; a bending moment is E I times the curvature towards its axis.
double compression(const Section& s, const BeamForces& f, int end, const std::array<double, 2>& at, double flat,
                   double up) {
  return -f.axial / s.area + flat * f.bend_flat[end] * at[0] / s.inertia_flat +
         up * f.bend_up[end] * at[1] / s.inertia_up;
}

double ratio(double other, double largest) { return std::max(-1.0, other / largest); }

// Of a leg of a folded edge, at its free edge: what even bending gives is raised by as much as the bay's own field
// does, for the share of the compression that is bending.
double leg_buckling(const BeamFlats& b, const Flat& leg, double width, double across) {
  const double plain = outstand_buckling(b.metal, leg.sheet, width, across, true, b.bay);
  const double even = outstand_buckling(b.metal, leg.sheet, width, -1, true, b.bay);
  const double bending = std::clamp((1 - across) / 2, 0.0, 1.0);
  return plain + bending * std::max(0.0, b.leg_buckling - even);
}

struct Facing {
  double flat, up;
};

FlatUse use_facing(const BeamFlats& b, const Section& s, const BeamForces& f, int end, const Facing& facing) {
  FlatUse worst;
  const auto at = [&](const std::array<double, 2>& p) { return compression(s, f, end, p, facing.flat, facing.up); };
  for (const Flat& flat : b.flats) {
    const double from = at(flat.from), to = at(flat.to), most = std::max(from, to);
    if (most <= 0) continue;
    const double width = std::hypot(flat.to[0] - flat.from[0], flat.to[1] - flat.from[1]);
    const double across = ratio(std::min(from, to), most);
    double buckling = 0, crippling = 0;
    if (flat.free_end) {
      const bool free = to >= from;
      if (b.folded_edge && free) {
        buckling = leg_buckling(b, flat, width, across);
      } else {
        buckling = outstand_buckling(b.metal, flat.sheet, width, across, free, 0);
        if (flat.stands_on >= 0) {
          const Flat& web = b.flats[static_cast<std::size_t>(flat.stands_on)];
          const double far = at(web.from == flat.from ? web.to : web.from);
          const double held_back = from > 0 ? std::clamp(1 - far / from, 0.0, 1.0) : 1;
          buckling *= 1 + (flange_on_bent_web - 1) * held_back;
        }
        buckling *= flat.stiffened;
      }
      crippling = outstand_crippling(b.metal, buckling);
    } else {
      buckling = held_flat_buckling(b.metal, flat.sheet, width, across);
      crippling = held_flat_crippling(b.metal, buckling, across);
    }
    worst.of_crippling = std::max(worst.of_crippling, most / crippling);
    worst.of_buckling = std::max(worst.of_buckling, most / buckling);
  }
  return worst;
}

void add_folded_edge(double leg, double open, double sheet, BeamFlats& b) {
  const double half = std::asin(std::min(1.0, open / 2 / leg)), depth = leg * std::cos(half);
  // The legs run forward of the fold, which is where axis 2 of a member along the span points.
  for (const double side : {1.0, -1.0}) b.flats.push_back({{-depth / 2, 0}, {depth / 2, side * open / 2}, sheet, true});
  b.folded_edge = true;
}

void add_channel(double height, double flange, double sheet, double lip, BeamFlats& b) {
  const double centre = flange * flange / (height + 2 * flange);
  b.flats.push_back({{-centre, -height / 2}, {-centre, height / 2}, sheet, false});
  const double stiffened = lip >= least_lip * flange ? by_a_lip : 1;
  for (const double side : {1.0, -1.0})
    b.flats.push_back({{-centre, side * height / 2}, {flange - centre, side * height / 2}, sheet, true, 0, stiffened});
  b.either_way_flat = true;
}

void add_angle(double upright, double level, double sheet, BeamFlats& b) {
  const double both = upright + level, y = level * level / 2 / both, z = upright * upright / 2 / both;
  b.flats.push_back({{-y, -z}, {level - y, -z}, sheet, true});
  b.flats.push_back({{-y, -z}, {-y, upright - z}, sheet, true});
  b.either_way_flat = b.either_way_up = true;
}

void add_hat(double top, double height, double flange, double sheet, BeamFlats& b) {
  const double z = height * (top + height) / (top + 2 * height + 2 * flange), side = top / 2;
  b.flats.push_back({{-side, height - z}, {side, height - z}, sheet, false});
  for (const double s : {1.0, -1.0}) {
    b.flats.push_back({{s * side, -z}, {s * side, height - z}, sheet, false});
    const int web = static_cast<int>(b.flats.size()) - 1;
    b.flats.push_back({{s * side, -z}, {s * (side + flange), -z}, sheet, true, web});
  }
  b.either_way_up = true;
}

void add_i_section(const SectionShape& s, double height, BeamFlats& b) {
  b.flats.push_back({{0, -height / 2}, {0, height / 2}, s.web > 0 ? s.web : s.wall, false});
  for (const double up : {1.0, -1.0})
    for (const double out : {1.0, -1.0})
      b.flats.push_back({{0, up * height / 2}, {out * s.width / 2, up * height / 2}, s.wall, true});
}

void add_flats(const SectionShape& s, double depth, const Section& section, BeamFlats& b) {
  const double height = s.height > 0 ? s.height : depth;
  switch (s.kind) {
    case SectionShape::Kind::folded_edge: add_folded_edge(s.width, height, s.wall, b); break;
    case SectionShape::Kind::sheet_rib: add_channel(height, s.width, s.wall, s.lip, b); break;
    case SectionShape::Kind::channel: add_channel(height, s.width, s.wall, 0, b); break;
    case SectionShape::Kind::angle: add_angle(height, s.width, s.wall, b); break;
    case SectionShape::Kind::hat: add_hat(s.width, height, s.flange, s.wall, b); break;
    case SectionShape::Kind::i_section: add_i_section(s, height, b); break;
    case SectionShape::Kind::closed_nose:
      // Its round yields before it buckles; what is flat and thin is the web. Whether nose or web stands further from
      // the centroid the section does not tell: the further of the two is taken, on either side.
      b.flats.push_back(
          {{section.reach_flat, -depth / 2}, {section.reach_flat, depth / 2}, s.web > 0 ? s.web : s.wall, false});
      b.either_way_flat = true;
      break;
    case SectionShape::Kind::tube:
    case SectionShape::Kind::bar:
    case SectionShape::Kind::properties:
    case SectionShape::Kind::triangle:
    case SectionShape::Kind::capstrip_rib:
    case SectionShape::Kind::truss_rib: break;
  }
}

// Half the width over which a rib lies against the edge that it meets.
double half_width_of(const SectionShape& rib) {
  return rib.kind == SectionShape::Kind::sheet_rib || rib.kind == SectionShape::Kind::channel ? rib.width / 2 : 0;
}

double station(const Panel& p, int joint) { return p.joints[static_cast<std::size_t>(joint)].position.y(); }

}  // namespace

SheetMetal sheet_metal(const Material& m) {
  SheetMetal out;
  out.youngs_modulus = m.youngs_modulus;
  out.poisson = std::clamp(m.youngs_modulus / (2 * m.shear_modulus) - 1, 0.0, 0.45);
  out.compression_yield = m.compression_strength > 0 ? std::min(m.strength, m.compression_strength) : m.strength;
  return out;
}

double outstand_buckling(const SheetMetal& m, double sheet, double width, double across, bool largest_at_free_edge,
                         double length) {
  // 12 I, I the second moment of the stress about the support, largest 1.
  const double moment = largest_at_free_edge ? 3 + across : 1 + 3 * across;
  double k = moment > 0 ? 24 * (1 - m.poisson) / (pi * pi * moment) : 1e9;
  if (!largest_at_free_edge && across < 0) k = std::min(k, 1.7 - 5 * across + 17.1 * across * across);
  if (length > 0 && moment > 0) k += 4 / moment * width * width / (length * length);
  return k * plate(m, sheet, width);
}

double held_flat_buckling(const SheetMetal& m, double sheet, double width, double across) {
  const double k = across >= 0    ? 8.2 / (1.05 + across)
                   : across >= -1 ? 7.81 - 6.29 * across + 9.78 * across * across
                                  : 5.98 * (1 - across) * (1 - across);
  return k * plate(m, sheet, width);
}

double outstand_crippling(const SheetMetal& m, double buckling) {
  return m.compression_yield * std::min(1.0, gerard_angle * std::pow(buckling / m.compression_yield, gerard_exponent));
}

double held_flat_crippling(const SheetMetal& m, double buckling, double across) {
  const double slender = std::sqrt(m.compression_yield / buckling);
  const double effective = (slender - 0.055 * (3 + across)) / (slender * slender);
  return m.compression_yield * (slender > 0.5 ? std::clamp(effective, 0.0, 1.0) : 1.0);
}

double edge_leg_buckling(const SheetMetal& m, double sheet, double width, double bay, double held, bool at_free_edges) {
  constexpr int pieces = 24, count = 2 * pieces + 2;
  const double least = held > 0 ? std::min(held, bay / 8) : 0;  // the moment is still that of a rib
  const double piece = (bay - 2 * least) / pieces;
  const double shear = m.youngs_modulus / (2 * (1 + m.poisson)), t3 = sheet * sheet * sheet;
  const double twist = shear * t3 * width / 3;
  const double bend = m.youngs_modulus * t3 / (12 * (1 - m.poisson * m.poisson)) * width * width * width / 3;
  // Moment of one leg under a pull of 1 N/m, a beam fixed at both ribs, + with the free edge compressed.
  const auto moment = [&](double y) { return bay * bay / 12 - y * (bay - y) / 2; };
  // The pull goes back with the free edge that it is glued to. Of cloth round the fold it does so for half of the
  // legs: of two that turn together one pushes the cloth out before it, the other moves away from it.
  const double back = at_free_edges ? width : width / 2;
  Eigen::MatrixXd stiff = Eigen::MatrixXd::Zero(count, count), pull = stiff;
  constexpr double points[] = {0.5 - 0.43056815579702629, 0.5 - 0.16999052179242813, 0.5 + 0.16999052179242813,
                               0.5 + 0.43056815579702629};
  constexpr double weights[] = {0.17392742256872693, 0.32607257743127307, 0.32607257743127307, 0.17392742256872693};
  for (int e = 0; e < pieces; ++e)
    for (int g = 0; g < 4; ++g) {
      const double x = points[g], w = weights[g] * piece, y = least + (e + x) * piece;
      const Eigen::Vector4d turn(1 - 3 * x * x + 2 * x * x * x, piece * (x - 2 * x * x + x * x * x),
                                 3 * x * x - 2 * x * x * x, piece * (x * x * x - x * x));
      const Eigen::Vector4d slope(6 * (x * x - x) / piece, 1 - 4 * x + 3 * x * x, 6 * (x - x * x) / piece,
                                  3 * x * x - 2 * x);
      const Eigen::Vector4d curve((12 * x - 6) / (piece * piece), (6 * x - 4) / piece, (6 - 12 * x) / (piece * piece),
                                  (6 * x - 2) / piece);
      stiff.block<4, 4>(2 * e, 2 * e) += w * (twist * slope * slope.transpose() + bend * curve * curve.transpose());
      pull.block<4, 4>(2 * e, 2 * e) +=
          w * (moment(y) * width * slope * slope.transpose() - back * turn * turn.transpose());
    }
  // No turn at the ends, and no slope of it where it is held flat.
  const int first = held > 0 ? 2 : 1, kept = held > 0 ? count - 4 : count - 2;
  Eigen::VectorXi keep(kept);
  for (int i = 0; i < kept; ++i) keep[i] = first + i;
  if (held <= 0) keep[kept - 1] = count - 1;
  const Eigen::MatrixXd a = stiff(keep, keep), b = pull(keep, keep);
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> solved(b, a, Eigen::EigenvaluesOnly);
  assert(solved.info() == Eigen::Success && "a leg's stiffness is positive");
  const double most = solved.eigenvalues().maxCoeff();
  const double line_pull = most > 0 ? 1 / most : 1e9;
  return line_pull * moment(least) * 6 / (sheet * width * width);
}

double wave_depth(const SheetMetal& m, double bay, double buckling, double times) {
  if (times <= 1) return 0;
  // A sine of that depth takes up the shortening beyond the one at which it began.
  return 2 * half_wave_of_bay * bay / pi * std::sqrt(buckling / m.youngs_modulus * (times - 1));
}

bool edge_is_known_to_bear(double sheet, double leg, double bay, double held) {
  return held >= least_held &&
         std::any_of(std::begin(run_by_shells), std::end(run_by_shells), [&](const RunByShells& r) {
           return leg <= r.most_slender_leg * sheet && bay <= r.longest_bay * leg;
         });
}

std::vector<BeamFlats> flats_of_beams(const Case& c, const Panel& p) {
  std::vector<BeamFlats> out(p.beams.size());
  for (std::size_t i = 0; i < p.beams.size(); ++i) {
    const Beam& beam = p.beams[i];
    const FrameMember& member = p.members[static_cast<std::size_t>(beam.member)];
    const Material& material = c.materials[static_cast<std::size_t>(member.material)];
    if (material.kind != Strength::yield) continue;
    out[i].metal = sheet_metal(material);
    add_flats(member.shape, beam.shape_depth, beam.section, out[i]);
  }
  // Along a folded trailing edge the ribs beside each beam say how long its bay is and what holds it there.
  for (int bay = 0; bay < p.bays; ++bay) {
    const int first = p.rib_columns[static_cast<std::size_t>(bay)],
              last = p.rib_columns[static_cast<std::size_t>(bay) + 1];
    const int ends[2] = {p.edge_joint[static_cast<std::size_t>(first)], p.edge_joint[static_cast<std::size_t>(last)]};
    const double length = station(p, ends[1]) - station(p, ends[0]);
    double held[2];
    for (int e = 0; e < 2; ++e) {
      const auto rib = static_cast<std::size_t>(bay + e);
      held[e] = rib < c.ribs.size() ? half_width_of(c.ribs[rib].make.shape) : 0;
    }
    for (std::size_t i = 0; i < p.beams.size(); ++i) {
      BeamFlats& b = out[i];
      const Beam& beam = p.beams[i];
      if (!b.folded_edge || p.members[static_cast<std::size_t>(beam.member)].role != MemberRole::trailing_edge)
        continue;
      const double middle = 0.5 * (station(p, beam.from) + station(p, beam.to));
      if (middle < station(p, ends[0]) || middle > station(p, ends[1])) continue;
      const double own = station(p, beam.to) - station(p, beam.from);
      const SectionShape& s = p.members[static_cast<std::size_t>(beam.member)].shape;
      const double both = std::min(held[0], held[1]);
      b.bay = length;
      b.known_to_bear = edge_is_known_to_bear(s.wall, s.width, length, both);
      if (beam.from == ends[0]) b.inset[0] = std::min(held[0], own);
      if (beam.to == ends[1]) b.inset[1] = std::min(held[1], own);
      b.leg_buckling = three_bays * edge_leg_buckling(b.metal, s.wall, s.width, length, both,
                                                      c.blanket.kind == BlanketKind::two_sheets);
    }
  }
  // What of a rib lies between the legs of a folded edge is held by them.
  for (const FrameMember& edge : p.members) {
    if (edge.role != MemberRole::trailing_edge || edge.shape.kind != SectionShape::Kind::folded_edge) continue;
    for (std::size_t i = 0; i < p.beams.size(); ++i) {
      const Beam& beam = p.beams[i];
      if (out[i].flats.empty() || out[i].folded_edge) continue;
      const double own = (p.joints[static_cast<std::size_t>(beam.to)].position -
                          p.joints[static_cast<std::size_t>(beam.from)].position)
                             .norm();
      for (int e = 0; e < 2; ++e)
        if (std::find(edge.joints.begin(), edge.joints.end(), e == 0 ? beam.from : beam.to) != edge.joints.end())
          out[i].inset[static_cast<std::size_t>(e)] = std::min(edge.shape.width, own);
    }
  }
  return out;
}

FlatUse flat_use(const BeamFlats& b, const Section& section, const BeamForces& f, int end) {
  FlatUse worst;
  for (const double flat : {1.0, -1.0}) {
    if (flat < 0 && !b.either_way_flat) continue;
    for (const double up : {1.0, -1.0}) {
      if (up < 0 && !b.either_way_up) continue;
      const FlatUse one = use_facing(b, section, f, end, {flat, up});
      worst.of_crippling = std::max(worst.of_crippling, one.of_crippling);
      worst.of_buckling = std::max(worst.of_buckling, one.of_buckling);
    }
  }
  return worst;
}

}  // namespace evenpull::inline solver
