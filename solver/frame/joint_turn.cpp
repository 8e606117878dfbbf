#include "solver/frame/joint_turn.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenpull::inline solver {
namespace {

constexpr double rigid = std::numeric_limits<double>::infinity();

// alpha in the plane of a gusset (or of both bendings alike) and across it. None is 0: a frame of hinges alone would not
// stand, and no joint as built is one. Judgement; below 0.5 a joint counts as pinned, above 8 (braced) or 25 as rigid (EN
// 1993-1-8, 5.2.2.5, seen as reprint).
struct InAndAcross {
  TurnRange in, across;
};
constexpr InAndAcross welded{{8, 25, 100}, {8, 25, 100}};
constexpr InAndAcross welded_thin{{2, 6, 20}, {2, 6, 20}};
// Across a gusset of sheet only its tab bends: E w t^3/(12 l) of one 12 x 0.5 mm, 5 mm long, is 0.01 to 0.04 of a rib or tube.
constexpr TurnRange tab{0.01, 0.02, 0.1};
// One rivet or bolt, or cord: what its clamping holds by friction.
constexpr TurnRange clamped{0.01, 0.05, 0.2};
constexpr InAndAcross gusset{{1.5, 4, 15}, tab};
constexpr InAndAcross two_rivets{{0.2, 1, 5}, tab};
constexpr InAndAcross single{clamped, tab};
constexpr InAndAcross glued_gusset{{10, 25, 200}, {2, 6, 20}};
constexpr InAndAcross glued_block{{2, 6, 20}, {0.5, 2, 5}};
constexpr InAndAcross tied{clamped, clamped};
constexpr InAndAcross slid_in{{1, 2, 5}, {0.01, 0.05, 0.3}};
// Nothing is said: computed rigid, and drawn from hardly more than a bolt to a weld. Judgement.
constexpr InAndAcross unstated{{0.2, rigid, 100}, {0.2, rigid, 100}};

// From these many fasteners a side on a gusset is a gusset.
constexpr int fasteners_of_gusset = 3;
// Formulas for the give of rivets are fitted on thicker joints: for sheet this thin a factor either way. Judgement.
constexpr double rivets_off = 2;

// Two groups of rivets, member to gusset and gusset to the other one, in series.
constexpr double both_groups = 0.5;

bool is_computed(const JointMake& j, const JoinedMember& m) {
  return j.kind == JointKind::gusset && m.metal && j.fasteners >= 2 && j.fastener_diameter > 0 &&
         j.fastener_spacing > 0 && m.shape.wall > 0;
}

// Moment / angle [N m/rad]; the gusset is taken as thick as the member's own sheet, its rivets of the same metal.
double turn_of_rivets(const JointMake& j, const JoinedMember& m) {
  const double t = m.shape.wall, e = m.youngs_modulus;
  return both_groups * square_distances(j.fasteners, j.fastener_spacing) /
         fastener_flexibility(t, t, j.fastener_diameter, e, e, e);
}

InAndAcross by_kind(const JointMake& j) {
  switch (j.kind) {
    case JointKind::unstated: return unstated;
    case JointKind::welded: return welded;
    case JointKind::welded_thin: return welded_thin;
    case JointKind::gusset: return j.fasteners >= fasteners_of_gusset ? gusset : j.fasteners == 2 ? two_rivets : single;
    case JointKind::single: return single;
    case JointKind::glued_gusset: return glued_gusset;
    case JointKind::glued_block: return glued_block;
    case JointKind::tied: return tied;
    case JointKind::slid_in: return slid_in;
    case JointKind::pinned: return {{0, 0, 0}, {0, 0, 0}};
    case JointKind::rigid: break;
  }
  return {{rigid, rigid, rigid}, {rigid, rigid, rigid}};
}

// A rib slid into a folded edge swings in the plane of the panel, between the legs.
bool stands_upright(const JointMake& j, const JoinedMember& m) {
  if (j.kind == JointKind::slid_in) return false;
  return j.upright.value_or(m.is_rib && m.shape.kind != SectionShape::Kind::tube);
}

EndTurn springs(const JointMake& j, const JoinedMember& m) {
  const JointTurn turn = turn_of(j, m);
  // Infinity times nothing is no number: a rigid joint stays one on a member without bending stiffness.
  const auto spring = [](const TurnRange& r, const std::optional<double>& at, double bending) {
    const double alpha = alpha_at(r, at);
    return std::isinf(alpha) ? alpha : alpha * bending;
  };
  return {spring(turn.up, j.at_up ? j.at_up : j.at, m.bending_up), spring(turn.flat, j.at, m.bending_flat)};
}

const FrameMember& member_of(const Panel& p, std::size_t i) { return p.members[i]; }
std::size_t index_of_rib(const Case& c, int rib) { return c.span_members.size() + static_cast<std::size_t>(rib); }
std::size_t index_of_brace(const Case& c, int brace) {
  return c.span_members.size() + c.ribs.size() + static_cast<std::size_t>(brace);
}

JoinedMember joined(const Case& c, const Panel& p, const FrameMember& f, const SectionShape& shape, bool is_rib,
                    bool first) {
  const Material& material = c.materials[static_cast<std::size_t>(f.material)];
  JoinedMember m;
  m.shape = shape;
  m.metal = material.kind == Strength::yield;
  m.is_rib = is_rib;
  m.youngs_modulus = material.youngs_modulus;
  const double length = (p.joints[f.joints.back()].position - p.joints[f.joints.front()].position).norm();
  const Section& s = first ? p.beams[f.beams.front()].section_from : p.beams[f.beams.back()].section_to;
  m.bending_up = m.youngs_modulus * s.inertia_up / length;
  m.bending_flat = m.youngs_modulus * s.inertia_flat / length;
  return m;
}

void join(const Case& c, const Panel& p, const FrameMember& f, const JointMake& first, const JointMake& last,
          const JoinedMember& at_first, const JoinedMember& at_last, std::vector<BeamEnds>& ends) {
  ends[static_cast<std::size_t>(f.beams.front())].from = springs(first, at_first);
  ends[static_cast<std::size_t>(f.beams.back())].to = springs(last, at_last);
  const int held = static_cast<int>(holds_flanges(first)) + static_cast<int>(holds_flanges(last));
  if (held == 0) return;
  const Material& material = c.materials[static_cast<std::size_t>(f.material)];
  const double length = (p.joints[f.joints.back()].position - p.joints[f.joints.front()].position).norm();
  for (int b : f.beams)
    ends[static_cast<std::size_t>(b)].twist_gain =
        gain_of_held_warping(p.beams[b].section, material.youngs_modulus, material.shear_modulus, length, held);
}

// All but those of a rib in whose place a tip bow stands.
template <class ACase, class Visit>
void each_joint(ACase& c, const Visit& visit) {
  const std::size_t ribs = c.ribs.size() - (c.tip_bow ? 1 : 0);
  for (std::size_t r = 0; r < ribs; ++r) visit(c.ribs[r].front_joint), visit(c.ribs[r].rear_joint);
  for (auto& b : c.braces) visit(b.from_joint), visit(b.to_joint);
}

}  // namespace

double fastener_flexibility(double t1, double t2, double d, double e1, double e2, double e_fastener) {
  constexpr double power = 2.0 / 5, riveted = 2.2;
  return std::pow((t1 + t2) / (2 * d), power) * riveted *
         (1 / (t1 * e1) + 1 / (t2 * e2) + 1 / (2 * t1 * e_fastener) + 1 / (2 * t2 * e_fastener));
}

double square_distances(int fasteners, double spacing) {
  if (fasteners < 2) return 0;
  const double n = fasteners;
  return spacing * spacing * n * (n + 1) / (12 * (n - 1));
}

JointTurn turn_of(const JointMake& j, const JoinedMember& m) {
  const InAndAcross kind = by_kind(j);
  const bool upright = stands_upright(j, m);
  JointTurn out{upright ? kind.in : kind.across, upright ? kind.across : kind.in};
  const double bending = upright ? m.bending_up : m.bending_flat;
  if (is_computed(j, m) && bending > 0) {
    const double alpha = turn_of_rivets(j, m) / bending;
    (upright ? out.up : out.flat) = {alpha / rivets_off, alpha, alpha * rivets_off};
  }
  return out;
}

bool has_range(JointKind kind) { return kind != JointKind::rigid && kind != JointKind::pinned; }

double alpha_at(const TurnRange& r, const std::optional<double>& at) {
  if (!at || r.low == r.high) return r.usual;
  const double low = std::max(r.low, least_alpha), high = std::max(r.high, low);
  return low * std::pow(high / low, *at);
}

bool holds_flanges(const JointMake& j) {
  return (j.kind == JointKind::gusset && j.fasteners >= fasteners_of_gusset) || j.kind == JointKind::glued_gusset;
}

JoinedMember joined_rib(const Case& c, const Panel& p, int rib, bool first) {
  return joined(c, p, member_of(p, index_of_rib(c, rib)), c.ribs[static_cast<std::size_t>(rib)].make.shape, true,
                first);
}

JoinedMember joined_brace(const Case& c, const Panel& p, int brace, bool first) {
  return joined(c, p, member_of(p, index_of_brace(c, brace)), c.braces[static_cast<std::size_t>(brace)].make.shape,
                false, first);
}

std::vector<JointKind> joints_that_vary(const Case& c) {
  std::vector<JointKind> kinds;
  each_joint(c, [&](const JointMake& j) {
    if (has_range(j.kind)) kinds.push_back(j.kind);
  });
  std::sort(kinds.begin(), kinds.end());
  kinds.erase(std::unique(kinds.begin(), kinds.end()), kinds.end());
  return kinds;
}

void put_joints(Case& c, JointKind kind, double at) {
  each_joint(c, [&](JointMake& j) {
    if (j.kind == kind) j.at = at, j.at_up.reset();
  });
}

void draw_joints(Case& c, JointKind kind, double sigmas) {
  put_joints(c, kind, place_of_sigmas(sigmas));
  each_joint(c, [&](JointMake& j) {
    if (j.kind == kind && j.told_up) j.at_up = place_of_sigmas(j.told_up->mean + j.told_up->spread * sigmas);
  });
}

void put_joints_at_end(Case& c, JointKind kind, bool softest) {
  constexpr double end_of_told = 2;  // sigmas
  draw_joints(c, kind, softest ? -end_of_told : end_of_told);
  each_joint(c, [&](JointMake& j) {
    if (j.kind == kind) j.at = softest ? 0 : 1;
  });
}

void tell_joints(Case& c, JointKind kind, const JointTold& up) {
  each_joint(c, [&](JointMake& j) {
    if (j.kind == kind) j.told_up = up;
  });
}

double place_of_sigmas(double sigmas) { return 0.5 * std::erfc(-sigmas / std::sqrt(2.0)); }

std::vector<BeamEnds> beam_ends(const Case& c, const Panel& p) {
  std::vector<BeamEnds> ends(p.beams.size());
  for (std::size_t r = 0; r < c.ribs.size(); ++r) {
    if (c.tip_bow && r + 1 == c.ribs.size()) continue;
    const int rib = static_cast<int>(r);
    join(c, p, member_of(p, index_of_rib(c, rib)), c.ribs[r].front_joint, c.ribs[r].rear_joint,
         joined_rib(c, p, rib, true), joined_rib(c, p, rib, false), ends);
  }
  for (std::size_t b = 0; b < c.braces.size(); ++b) {
    const int brace = static_cast<int>(b);
    join(c, p, member_of(p, index_of_brace(c, brace)), c.braces[b].from_joint, c.braces[b].to_joint,
         joined_brace(c, p, brace, true), joined_brace(c, p, brace, false), ends);
  }
  return ends;
}

}  // namespace evenpull::inline solver
