#include "shop/stiffen/candidates.hpp"

#include "shop/stiffen/usual_sizes.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

// Amid their length ribs bow most; a strip goes there unless a spar stands within so much of the chord.
constexpr double spar_holds_ribs_within = 0.15;
// How much of the height of the panel a strip may take up: it must lie under the cloth.
constexpr double strip_in_depth = 0.8;

SectionShape bar_of_size(double width, double height) {
  SectionShape s;
  s.kind = SectionShape::Kind::bar;
  s.width = width, s.height = height;
  return s;
}

SectionShape tube_of_size(double outside) {
  SectionShape s;
  s.kind = SectionShape::Kind::tube;
  s.outside_diameter = outside, s.wall = usual_sizes::tube_wall;
  return s;
}

// The next one that is sold; none beyond the largest.
template <class Sizes>
std::optional<double> next_size(const Sizes& sizes, double now) {
  for (const double s : sizes)
    if (s > now * (1 + usual_sizes::same_size)) return s;
  return {};
}

std::optional<SectionShape> next_shape(SectionShape s) {
  using Kind = SectionShape::Kind;
  const auto grown = [&](double& size, const auto& sizes) -> std::optional<SectionShape> {
    const auto next = next_size(sizes, size);
    if (!next) return {};
    size = *next;
    return s;
  };
  switch (s.kind) {
    case Kind::tube: return grown(s.outside_diameter, usual_sizes::tubes);
    case Kind::bar: return grown(s.width, usual_sizes::sticks);
    case Kind::sheet_rib:
    case Kind::channel: return grown(s.wall, usual_sizes::sheets);
    default: return {};  // built up: no one size makes it the next one
  }
}

bool of_wood(const Case& c, const MemberMake& m) {
  return c.materials[static_cast<std::size_t>(m.material)].kind == Strength::rupture;
}

// Makes candidates in the order in which they are tried.
class Maker {
 public:
  Maker(const Case& c, const Panel& p, const StageBar& bar, const UsualStock& stock)
      : c_(c), p_(p), bar_(bar), stock_(stock) {}

  std::vector<Candidate> all() {
    by_limit();
    std::stable_sort(out_.begin(), out_.end(), [](const Candidate& a, const Candidate& b) {
      if (a.comes_out != b.comes_out) return a.comes_out;
      return cost_of(a.kind) < cost_of(b.kind);
    });
    if (out_.size() > most_candidates) out_.resize(most_candidates);
    for (std::size_t i = 0; i < out_.size(); ++i) out_[i].number = static_cast<int>(i) + 1;
    return std::move(out_);
  }

 private:
  int last_rib() const { return static_cast<int>(c_.ribs.size()) - 1; }
  int edge() const { return static_cast<int>(c_.span_members.size()) - 1; }

  void by_limit() {
    if (bar_.gave_way || !bar_.over) {
      if (bar_.gave_way) whole_frame();
      lighter_cloth();
      return;
    }
    switch (bar_.over->limit) {
      case Limit::end_rib_bow: end_rib(rib_at(bar_.over->where)); break;
      case Limit::edge_bow:
      case Limit::whole_edge_bow: trailing_edge(bay_at(bar_.over->where)); break;
      case Limit::hinge_line_bow:
      case Limit::twist: against_twist(); break;
      case Limit::pocket_room: pockets(); break;
      case Limit::buckling: whole_frame(); break;
      case Limit::stress:
      case Limit::wood_stress:
      case Limit::crippling: by_member(bar_.over->where); break;
      default: break;  // slip and pull difference: a matter of order and friction
    }
    lighter_cloth();
  }

  void by_member(const Place& at) {
    if (at.member < 0) return whole_frame();
    switch (p_.members[static_cast<std::size_t>(at.member)].role) {
      case MemberRole::end_rib: return end_rib(rib_at(at));
      case MemberRole::trailing_edge: return trailing_edge(bay_at(at));
      case MemberRole::pocket_front: return pockets();
      default: return whole_frame();
    }
  }

  void whole_frame() {
    if (const Place* at = bar_.bows_most ? &*bar_.bows_most : nullptr) {
      const auto role = at->member >= 0 ? p_.members[static_cast<std::size_t>(at->member)].role : MemberRole::spar;
      if (role == MemberRole::end_rib) return end_rib(rib_at(*at));
      if (role == MemberRole::trailing_edge || at->kind == Place::Kind::trailing_edge)
        return trailing_edge(bay_at(*at));
    }
    battens(true);
    rib_strip();
    blocks(every_bay());
    edge_batten();
  }

  void end_rib(int rib) {
    battens(true);
    battens(false);
    rib_strip();
    stiffer_rib(rib);
    if (bar_.gave_way) blocks(every_bay());
  }

  void trailing_edge(int bay) {
    pockets();
    jaws();
    blocks({bay});
    if (p_.bays > 1) blocks(every_bay());
    edge_batten();
  }

  void against_twist() {
    jaws();
    diagonals();
    edge_batten();
    rib_strip();
  }

  // Index into Case::ribs: the end rib at that place, else the nearer one.
  int rib_at(const Place& at) const {
    if (at.member < 0) return 0;
    const FrameMember& m = p_.members[static_cast<std::size_t>(at.member)];
    const double y = p_.joints[static_cast<std::size_t>(m.joints.front())].position.y();
    return y < 0.5 * c_.outline.span() ? 0 : last_rib();
  }

  int bay_at(const Place& at) const {
    if (at.kind == Place::Kind::bay && at.bay >= 0) return at.bay;
    int bay = 0;
    while (bay + 1 < p_.bays && c_.ribs[static_cast<std::size_t>(bay) + 1].station <= at.station) ++bay;
    return bay;
  }

  std::vector<int> every_bay() const {
    std::vector<int> bays;
    for (int b = 0; b < p_.bays; ++b) bays.push_back(b);
    return bays;
  }

  bool is_own_end(int rib) const {
    if (rib == last_rib() && (c_.tip_bow || c_.cloth_goes_on_outboard)) return false;
    return rib != 0 || !c_.cloth_goes_on_inboard;
  }

  Candidate& add(StiffenKind kind, bool comes_out) {
    out_.emplace_back();
    out_.back().kind = kind;
    out_.back().comes_out = comes_out;
    return out_.back();
  }

  // Blocks and strips are of what the ribs are made of: wood is glued to wood, tube fastened to metal.
  void of_block(Candidate& k) const {
    const MemberMake& rib = c_.ribs.front().make;
    const Material& m = c_.materials[static_cast<std::size_t>(rib.material)];
    constexpr double stiffest_light_metal = 100e9;  // Pa, as in solver/heat/thermal.cpp
    if (of_wood(c_, rib))
      k.material = stock_.wood, k.section = bar_of_size(usual_sizes::block_side, usual_sizes::block_side);
    else
      k.material = m.youngs_modulus < stiffest_light_metal ? stock_.light_tube : stock_.steel_tube,
      k.section = tube_of_size(usual_sizes::block_tube);
  }

  Brace strut(const Candidate& k, const std::string& name) const {
    Brace b;
    b.name = name;
    b.make.shape = k.section;
    b.from_joint.kind = b.to_joint.kind =
        JointKind::pinned;  // what it holds against turning is left out: the weak side
    b.comes_out = k.comes_out;
    return b;
  }

  // On both end ribs: where one bows as far as it may, the other is seldom far from it.
  void battens(bool comes_out) {
    Candidate k;
    k.kind = comes_out ? StiffenKind::outside_batten : StiffenKind::end_batten;
    k.comes_out = comes_out;
    k.material = stock_.wood;
    k.section = comes_out ? bar_of_size(usual_sizes::outside_width, usual_sizes::outside_height)
                          : bar_of_size(usual_sizes::end_width, usual_sizes::end_height);
    for (const int rib : {0, last_rib()}) {
      if (!is_own_end(rib)) continue;
      Batten b;
      b.name = "batten on rib " + std::to_string(rib + 1);
      b.make.shape = k.section;
      b.rib = rib;
      b.comes_out = comes_out;
      k.battens.push_back(std::move(b));
    }
    if (!k.battens.empty()) out_.push_back(std::move(k));
  }

  void edge_batten() {
    if (!c_.pockets.empty()) return;
    Candidate& k = add(StiffenKind::edge_batten, false);
    k.material = stock_.wood;
    k.section = bar_of_size(usual_sizes::edge_width, usual_sizes::edge_height);
    Batten b;
    b.name = "batten along the trailing edge";
    b.make.shape = k.section;
    b.span_member = edge();
    k.battens.push_back(std::move(b));
  }

  bool bay_has_edge(int bay) const { return p_.pocket_in(bay) < 0; }

  void blocks(const std::vector<int>& bays) {
    Candidate k;
    k.kind = StiffenKind::bay_blocks;
    of_block(k);
    for (const int bay : bays) {
      if (!bay_has_edge(bay)) continue;
      Brace b = strut(k, "block in bay " + std::to_string(bay + 1));
      b.from_rib = b.to_rib = bay;
      b.from_mid_bay = b.to_mid_bay = true;
      b.to_member = edge();
      k.braces.push_back(std::move(b));
    }
    if (!k.braces.empty()) out_.push_back(std::move(k));
  }

  void diagonals() {
    Candidate k;
    k.kind = StiffenKind::diagonals;
    of_block(k);
    const auto across = [&](int from, int to) {
      if (!bay_has_edge(std::min(from, to))) return;
      Brace b = strut(k, "diagonal in bay " + std::to_string(std::min(from, to) + 1));
      b.from_rib = from, b.to_rib = to, b.to_member = edge();
      k.braces.push_back(std::move(b));
    };
    across(0, 1);
    if (p_.bays > 1) across(last_rib(), last_rib() - 1);
    if (!k.braces.empty()) out_.push_back(std::move(k));
  }

  void rib_strip() {
    if (!c_.pockets.empty() || c_.ribs.size() < 2) return;
    const double front = std::max(c_.span_members.front().chord_fraction, c_.blanket.nose_chord_fraction);
    const double at = 0.5 * (front + 1);
    for (const SpanMember& m : c_.span_members)
      if (m.role == SpanRole::spar && std::abs(m.chord_fraction - at) < spar_holds_ribs_within) return;
    Candidate k;
    k.kind = StiffenKind::rib_strip;
    of_block(k);
    k.section = k.section.kind == SectionShape::Kind::tube
                    ? tube_of_size(usual_sizes::strip_tube)
                    : bar_of_size(usual_sizes::strip_width, usual_sizes::strip_height);
    const double height = std::max(k.section.outside_diameter, k.section.height);
    if (height > strip_in_depth * least_depth_at(at)) return;
    SpanMember s;
    s.name = "strip through the ribs";
    s.chord_fraction = at;
    s.make.shape = k.section;
    k.strip = std::move(s);
    out_.push_back(std::move(k));
  }

  // Height of the profile there at the narrower end [m].
  double least_depth_at(double fraction) const {
    double share = 0;
    for (std::size_t i = 0; i + 1 < c_.profile.size(); ++i) {
      const ProfilePoint &a = c_.profile[i], &b = c_.profile[i + 1];
      if (fraction < a.chord_fraction || fraction > b.chord_fraction) continue;
      const double t = (fraction - a.chord_fraction) / (b.chord_fraction - a.chord_fraction);
      share = a.top + a.bottom + t * (b.top + b.bottom - a.top - a.bottom);
    }
    const auto chord = [](const PlanPoint& le, const PlanPoint& te) { return te.x - le.x; };
    return share * std::min(chord(c_.outline.leading_edge.front(), c_.outline.trailing_edge.front()),
                            chord(c_.outline.leading_edge.back(), c_.outline.trailing_edge.back()));
  }

  void stiffer_rib(int rib) {
    if (!is_own_end(rib)) return;
    const auto next = next_shape(c_.ribs[static_cast<std::size_t>(rib)].make.shape);
    if (!next) return;
    Candidate& k = add(StiffenKind::stiffer_rib, false);
    k.rib = rib;
    k.section = *next;
  }

  // Jaws amid the bays: ribs hold the edge where they stand.
  void jaws() {
    Candidate k;
    k.kind = StiffenKind::bench_fixture;
    k.comes_out = true;
    for (const int bay : every_bay()) {
      if (!bay_has_edge(bay)) continue;
      Support s;
      s.member = edge();
      s.station =
          0.5 * (c_.ribs[static_cast<std::size_t>(bay)].station + c_.ribs[static_cast<std::size_t>(bay) + 1].station);
      s.hold = {true, false, true, false, false, false};
      k.supports.push_back(s);
    }
    for (const Support& s : c_.while_ironed)
      if (s.member == edge() && s.whole_length) return;  // it is held all along already
    if (!k.supports.empty()) out_.push_back(std::move(k));
  }

  void pockets() {
    for (std::size_t i = 0; i < p_.pockets.size(); ++i) {
      const PanelPocket& pocket = p_.pockets[i];
      if (pocket.sides[0].size() < 2 || pocket.sides[1].size() < 2) continue;  // open to that end
      for (const bool comes_out : {true, false}) {
        Candidate& k = add(comes_out ? StiffenKind::outside_bridge : StiffenKind::pocket_bridge, comes_out);
        of_block(k);
        Brace b = strut(k, "bridge over " + c_.pockets[i].name);
        b.from_member = b.to_member = edge();
        b.from_rib = pocket.from_rib, b.to_rib = pocket.to_rib;
        k.braces.push_back(std::move(b));
      }
    }
  }

  void lighter_cloth() {
    std::optional<double> next;
    for (const double mass : stock_.cloth)
      if (mass < c_.cloth.areal_mass * (1 - usual_sizes::same_size) && (!next || mass > *next)) next = mass;
    if (!next) return;
    add(StiffenKind::lighter_cloth, false).areal_mass = *next;
  }

  const Case& c_;
  const Panel& p_;
  const StageBar& bar_;
  const UsualStock& stock_;
  std::vector<Candidate> out_;
};

}  // namespace

StageBar bar_of(const Plan& plan, int stage) {
  StageBar bar;
  bar.stage = stage;
  for (const StageSummary& s : plan.stages) {
    if (s.stage > stage) break;
    bar.gave_way = bar.gave_way || s.gave_way;
    if (s.buckling_mode) bar.bows_most = s.buckling_mode->where;
    bar.loose_zones = s.loose_zones;
  }
  for (const LimitReading& l : plan.limits) {
    if (l.stage > stage || kind_of(l.limit) == LimitKind::finish) continue;
    if (!bar.over || l.use > bar.over->use) bar.over = l;
  }
  return bar;
}

std::vector<Candidate> candidates_for(const Case& c, const Panel& p, const StageBar& bar, const UsualStock& stock) {
  const bool only_loose = !bar.gave_way && !bar.loose_zones.empty() && (!bar.over || bar.over->use <= 1);
  if (only_loose) return {};  // no stick makes cloth tight
  return Maker(c, p, bar, stock).all();
}

}  // namespace evenpull
