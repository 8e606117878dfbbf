#include "shop/stiffen/candidate.hpp"

#include "solver/heat/thermal.hpp"
#include "solver/statement/member_section.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

double interpolated_x(const std::vector<PlanPoint>& line, double y) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i)
    if (y <= line[i + 1].y || i + 2 == line.size())
      return line[i].x + (y - line[i].y) / (line[i + 1].y - line[i].y) * (line[i + 1].x - line[i].x);
  return 0;
}

struct PlanPlace {
  double x = 0, y = 0;
};

PlanPlace at_chord(const Case& c, double fraction, double y) {
  const double front = interpolated_x(c.outline.leading_edge, y), back = interpolated_x(c.outline.trailing_edge, y);
  return {front + fraction * (back - front), y};
}

double station_of(const Case& c, int rib, bool mid_bay) {
  const auto r = static_cast<std::size_t>(rib);
  return mid_bay ? 0.5 * (c.ribs[r].station + c.ribs[r + 1].station) : c.ribs[r].station;
}

int material_in(Case& c, const Material& m) {
  for (std::size_t i = 0; i < c.materials.size(); ++i)
    if (c.materials[i].name == m.name) return static_cast<int>(i);
  c.materials.push_back(m);
  return static_cast<int>(c.materials.size()) - 1;
}

// Members behind the new one count one further.
void insert_member(Case& c, SpanMember s) {
  const auto behind = std::find_if(c.span_members.begin(), c.span_members.end(),
                                   [&](const SpanMember& m) { return m.chord_fraction > s.chord_fraction; });
  const int at = static_cast<int>(behind - c.span_members.begin());
  c.span_members.insert(behind, std::move(s));
  const auto shift = [at](int& member) { member += member >= at ? 1 : 0; };
  for (auto* set : {&c.while_ironed, &c.in_use})
    for (Support& x : *set) shift(x.member);
  for (Brace& b : c.braces) shift(b.from_member), shift(b.to_member);
  for (Batten& b : c.battens) shift(b.span_member);
}

// Pull and stiffness go with the mass, as where nothing but the weight of a cloth is known (docs/data.md).
void lighten(Cloth& cloth, double areal_mass) {
  const double share = areal_mass / cloth.areal_mass;
  const auto scale = [share](Yarns& y) { y.warp *= share, y.fill *= share; };
  cloth.areal_mass = areal_mass;
  cloth.shear *= share;
  scale(cloth.stiffness);
  for (ShrinkPoint& p : cloth.curve) scale(p.pull);
}

PlanPiece piece(PlanPlace a, PlanPlace b) { return {a.x, a.y, b.x, b.y}; }

double first_fraction(const Case& c) { return c.span_members.front().chord_fraction; }

// Full height of the profile amid its chord at a station [m]: what stands in for the height of a rib without one.
double depth_amid(const Case& c, double y) {
  const double chord = at_chord(c, 1, y).x - at_chord(c, 0, y).x;
  double depth = 0;
  for (const ProfilePoint& p : c.profile)
    if (p.chord_fraction >= 0.3 && p.chord_fraction <= 0.7) depth = std::max(depth, p.top + p.bottom);
  return depth * chord;
}

double per_length(const Material& m, const SectionShape& s, double depth) {
  return heat_of(m).density * section_of(s, depth).area;
}

// Along a chord line, from rib to rib.
void add_along(const Case& c, double fraction, std::vector<PlanPiece>& out) {
  for (std::size_t r = 0; r + 1 < c.ribs.size(); ++r)
    out.push_back(piece(at_chord(c, fraction, c.ribs[r].station), at_chord(c, fraction, c.ribs[r + 1].station)));
}

void add_rib(const Case& c, int rib, std::vector<PlanPiece>& out) {
  const double y = c.ribs[static_cast<std::size_t>(rib)].station;
  out.push_back(piece(at_chord(c, first_fraction(c), y), at_chord(c, 1, y)));
}

double fraction_of(const Case& c, int member) {
  return c.span_members[static_cast<std::size_t>(member)].chord_fraction;
}

// What a metre of it weighs; of a rib built anew, what it weighs more.
double weight_per_length(const Case& c, const Candidate& k) {
  if (k.material) return per_length(*k.material, k.section, k.section.height);
  if (!k.rib) return 0;
  const Rib& rib = c.ribs[static_cast<std::size_t>(*k.rib)];
  const Material& m = c.materials[static_cast<std::size_t>(rib.make.material)];
  const double depth = depth_amid(c, rib.station);
  return per_length(m, k.section, depth) - per_length(m, rib.make.shape, depth);
}

// x of the line through the hinges at a station.
std::optional<double> hinge_line_at(const Case& c, double y) {
  for (const SpanMember& m : c.span_members)
    if (m.hinge_line) return at_chord(c, m.chord_fraction, y).x;
  for (const Support& s : c.in_use)
    if (s.kind == SupportKind::hinge || s.kind == SupportKind::sliding_hinge)
      return at_chord(c, c.span_members[static_cast<std::size_t>(s.member)].chord_fraction, y).x;
  return {};
}

}  // namespace

double cost_of(StiffenKind kind) { return 1 + static_cast<double>(kind); }

Case with_candidate(const Case& c, const Candidate& k) {
  Case out = c;
  const int material = k.material ? material_in(out, *k.material) : -1;
  for (Batten b : k.battens) b.make.material = material, out.battens.push_back(std::move(b));
  for (Brace b : k.braces) b.make.material = material, out.braces.push_back(std::move(b));
  out.while_ironed.insert(out.while_ironed.end(), k.supports.begin(), k.supports.end());
  if (k.rib) {
    MemberMake& make = out.ribs[static_cast<std::size_t>(*k.rib)].make;
    make.shape = k.section, make.written = {};
  }
  if (k.areal_mass) lighten(out.cloth, *k.areal_mass);
  if (k.strip) {
    SpanMember s = *k.strip;
    s.make.material = material;
    insert_member(out, std::move(s));
  }
  return out;
}

std::vector<PlanPiece> pieces_of(const Case& c, const Candidate& k) {
  std::vector<PlanPiece> out;
  for (const Batten& b : k.battens)
    if (b.rib >= 0) add_rib(c, b.rib, out);
    else add_along(c, fraction_of(c, b.span_member), out);
  for (const Brace& b : k.braces)
    out.push_back(piece(at_chord(c, fraction_of(c, b.from_member), station_of(c, b.from_rib, b.from_mid_bay)),
                        at_chord(c, fraction_of(c, b.to_member), station_of(c, b.to_rib, b.to_mid_bay))));
  for (const Support& s : k.supports) {
    const PlanPlace at = at_chord(c, fraction_of(c, s.member), s.station);
    out.push_back(piece(at, at));
  }
  if (k.strip) add_along(c, k.strip->chord_fraction, out);
  if (k.rib) add_rib(c, *k.rib, out);
  return out;
}

AddedMass added_mass(const Case& c, const Candidate& k) {
  AddedMass out;
  const double line = weight_per_length(c, k);
  for (const PlanPiece& p : pieces_of(c, k)) {
    const double mass = line * std::hypot(p.x1 - p.x0, p.y1 - p.y0);
    out.mass += mass;
    out.centre[0] += mass * (p.x0 + p.x1) / 2, out.centre[1] += mass * (p.y0 + p.y1) / 2;
  }
  if (out.mass <= 0) return {};
  for (double& x : out.centre) x /= out.mass;
  if (const auto hinge = hinge_line_at(c, out.centre[1])) out.behind_hinge = out.centre[0] - *hinge;
  return out;
}

}  // namespace evenpull
