#include "shop/weigh.hpp"

#include "shop/glue_lines.hpp"
#include "solver/geometry/surface.hpp"
#include "solver/readings/bows.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

// One sigma, as shares; judgement.
constexpr double cloth_off = 0.03, class_off = 0.10;  // a piece was weighed; taken from the class
constexpr double adhesive_off = 0.25, tapes_off = 0.10, scales_off = 0.01;
constexpr double area_off = 0.01;
// Where the centre of a part is taken to lie [m]; judgement.
constexpr double centre_off = 0.003;

// Sums of areas (or lengths) and of their centres.
struct Spread {
  double amount = 0;
  Eigen::Vector2d first{0, 0};
  void add(double by, const Eigen::Vector2d& at) { amount += by, first += by * at; }
  Eigen::Vector2d centre() const { return amount > 0 ? Eigen::Vector2d(first / amount) : Eigen::Vector2d(0, 0); }
};

Spread spread_of_skin(const Panel& p) {
  Spread out;
  for (const Quad& q : p.quads) {
    Eigen::Vector2d middle(0, 0);
    for (const int n : q.nodes) middle += 0.25 * p.nodes[static_cast<std::size_t>(n)].placed.head<2>();
    out.add(q.area, middle);
  }
  return out;
}

Weighed weigh_one(double mass, double off, const Eigen::Vector2d& centre, const std::optional<HingeLine>& hinges) {
  Weighed w;
  w.mass = mass, w.mass_off = mass * std::hypot(off, area_off);
  if (!hinges) return w;
  const double behind = hinges->behind(centre);
  w.has_moment = true;
  w.moment = mass * behind;
  w.moment_off = std::hypot(w.mass_off * behind, mass * centre_off);
  return w;
}

// Parts are off each by itself, but for the cloth: skin and laps are of one roll, and too heavy together.
Weighed sum_of(const std::vector<WeighedItem>& items) {
  Weighed all;
  double cloth_mass_off = 0, cloth_moment_off = 0;
  all.has_moment = !items.empty();
  for (const WeighedItem& i : items) {
    all.mass += i.weighed.mass, all.moment += i.weighed.moment;
    all.has_moment = all.has_moment && i.weighed.has_moment;
    if (i.part == WeighedPart::cloth || i.part == WeighedPart::turned_cloth) {
      cloth_mass_off += i.weighed.mass_off, cloth_moment_off += i.weighed.moment_off;
    } else {
      all.mass_off = std::hypot(all.mass_off, i.weighed.mass_off);
      all.moment_off = std::hypot(all.moment_off, i.weighed.moment_off);
    }
  }
  all.mass_off = std::hypot(all.mass_off, cloth_mass_off);
  all.moment_off = std::hypot(all.moment_off, cloth_moment_off);
  return all;
}

Eigen::Vector2d on_member(const Case& c, int member, double station) {
  const Surface surface(c);
  std::size_t bay = 0;
  while (bay + 2 < c.ribs.size() && c.ribs[bay + 1].station <= station) ++bay;
  const double from = c.ribs[bay].station, to = c.ribs[bay + 1].station;
  const double at = std::clamp(station, c.ribs.front().station, c.ribs.back().station);
  const double fraction = c.span_members[static_cast<std::size_t>(member)].chord_fraction;
  return surface.middle(fraction, {static_cast<int>(bay), (at - from) / (to - from)}).head<2>();
}

}  // namespace

double HingeLine::behind(const Eigen::Vector2d& at) const {
  const Eigen::Vector2d along = (to - from).normalized(), off = at - from;
  return off.x() * along.y() - off.y() * along.x();
}

std::optional<HingeLine> hinge_line(const Case& c, int member) {
  if (member < 0) member = hinge_line_member(c);
  if (member < 0) return {};
  double first = 1e300, last = -1e300;
  for (const Support& s : c.in_use)
    if (s.member == member && (s.kind == SupportKind::hinge || s.kind == SupportKind::sliding_hinge) && !s.whole_length)
      first = std::min(first, s.station), last = std::max(last, s.station);
  HingeLine out;
  out.member = member;
  out.between_hinges = first < last;
  if (!out.between_hinges) first = c.ribs.front().station, last = c.ribs.back().station;
  out.from = on_member(c, member, first), out.to = on_member(c, member, last);
  return out;
}

CoveringWeight weigh_covering(const Case& c, const Panel& p, const Adhesive& a, const Finish& f,
                              const std::optional<HingeLine>& hinges, bool areal_mass_stated) {
  CoveringWeight out;
  const auto add = [&](WeighedPart part, const Spread& s, double areal_mass, double off) {
    out.items.push_back({part, s.amount, weigh_one(s.amount * areal_mass, off, s.centre(), hinges)});
  };
  const Spread skin = spread_of_skin(p);
  Spread turned, glued;
  for (const GlueLine& l : glue_lines(c, p, a)) {
    turned.add(l.length * l.turned, l.centre);
    glued.add(l.area(), l.centre);
  }
  const double cloth = areal_mass_stated ? cloth_off : class_off;
  add(WeighedPart::cloth, skin, c.cloth.areal_mass, cloth);
  add(WeighedPart::turned_cloth, turned, c.cloth.areal_mass, cloth);
  add(WeighedPart::adhesive, glued, a.coats() * a.dry_mass, std::hypot(adhesive_off, a.coverage_off));
  if (f.tapes) {
    Spread taped;
    for (const ClothLine& l : edge_and_rib_lines(c, p)) taped.add(l.length * tape_width(*f.tapes, l.at), l.centre);
    add(WeighedPart::tapes, taped, f.tapes->areal_mass, tapes_off);
  }
  if (f.coats) add(WeighedPart::coats, skin, f.coats->dry_mass, f.coats->off);
  out.all = sum_of(out.items);
  return out;
}

Weighed weigh_old(double mass, const std::optional<double>& behind) {
  Weighed w;
  w.mass = mass, w.mass_off = scales_off * mass;
  if (!behind) return w;
  w.has_moment = true;
  w.moment = mass * *behind;
  w.moment_off = std::hypot(w.mass_off * *behind, mass * centre_off);
  return w;
}

Weighed difference(const Weighed& now, const Weighed& before) {
  Weighed d;
  d.mass = now.mass - before.mass, d.mass_off = std::hypot(now.mass_off, before.mass_off);
  d.has_moment = now.has_moment && before.has_moment;
  if (!d.has_moment) return d;
  d.moment = now.moment - before.moment, d.moment_off = std::hypot(now.moment_off, before.moment_off);
  return d;
}

}  // namespace evenpull
