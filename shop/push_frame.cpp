#include "shop/push_frame.hpp"

#include "solver/equilibrium/mechanism.hpp"
#include "solver/equilibrium/wires.hpp"
#include "solver/frame/joint_turn.hpp"
#include "solver/frame/member_stress.hpp"
#include "solver/numerics/linear_solver.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace evenpull {
namespace {

constexpr double same_spot = 1e-6;    // share of a beam: nearer to its end a place is the joint itself
constexpr double no_pull = 1e-6;      // of the weight: a wire across which nothing moves it hangs as it hung
constexpr int most_wire_rounds = 50;  // each settles which wires are taut; two or three are usual

const std::vector<Support>& supports_of(const Case& c, Held h) {
  return h == Held::while_ironed ? c.while_ironed : c.in_use;
}

double share_along(const Panel& p, const Beam& b, const FramePlace& place, double before) {
  const Eigen::Vector3d &a = p.joints[b.from].position, &e = p.joints[b.to].position;
  return place.on_rib ? (place.at - before) / (e - a).norm() : (place.at - a.y()) / (e.y() - a.y());
}

/// Beams of the frame between its joints, ready to be summed.
struct FrameSum {
  int size = 0;
  std::vector<char> held;
  std::vector<Eigen::Triplet<double>> entries;
  Eigen::VectorXd diagonal;

  explicit FrameSum(int joints) : size(6 * joints), held(static_cast<std::size_t>(size), 0) {
    diagonal = Eigen::VectorXd::Zero(size);
  }
  static int unknown(int from, int to, int k) { return k < 6 ? 6 * from + k : 6 * to + k - 6; }
  void add(int from, int to, const BeamMatrix& k) {
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j < 12; ++j) {
        const int row = unknown(from, to, i), column = unknown(from, to, j);
        if (i == j) diagonal[row] += k(i, i);
        if (row >= column && !held[static_cast<std::size_t>(row)] && !held[static_cast<std::size_t>(column)])
          entries.emplace_back(row, column, k(i, j));
      }
  }
  Sparse matrix() {
    for (int i = 0; i < size; ++i) {  // a joint that nothing meets stands still
      const bool still = held[static_cast<std::size_t>(i)] || diagonal[i] <= 0;
      entries.emplace_back(i, i, still ? 1.0 : 0.0);
    }
    Sparse k(size, size);
    k.setFromTriplets(entries.begin(), entries.end());
    return k;
  }
};

}  // namespace

MemberGroup group_of(MemberRole role) {
  switch (role) {
    case MemberRole::leading_edge:
    case MemberRole::trailing_edge:
    case MemberRole::tip_bow:
    case MemberRole::pocket_front: return MemberGroup::edges;
    case MemberRole::spar: return MemberGroup::spars;
    case MemberRole::end_rib:
    case MemberRole::inner_rib:
    case MemberRole::brace:
    case MemberRole::batten: break;
  }
  return MemberGroup::ribs;
}

PushFrame::PushFrame(const Case& c, Held held, int nodes) : held_(held) {
  if (c.cloth_goes_on_inboard || c.cloth_goes_on_outboard)
    throw CaseError(
        "outline.goes_on_beyond",
        "the case is a part of a longer wing: a weight on the wing bends what lies beyond as well, and that is "
        "not stated; push a frame of which the case states the whole");
  check_stands(c);
  panel_ = build_panel(c, {nodes});
  held_up_.assign(panel_.joints.size(), 0);
  for (int i : held_unknowns(panel_, supports_of(c, held)))
    if (i % 6 == 2) held_up_[static_cast<std::size_t>(i / 6)] = 1;
  set_places({});
}

double PushFrame::rib_length(int rib) const {
  double length = 0;
  for (int b : beams_of({true, rib, 0}))
    length += (panel_.joints[panel_.beams[b].to].position - panel_.joints[panel_.beams[b].from].position).norm();
  return length;
}

std::vector<int> PushFrame::beams_of(const FramePlace& p) const {
  std::vector<int> out;
  int rib = 0;
  for (const FrameMember& m : panel_.members) {
    const bool is_rib = m.role == MemberRole::end_rib || m.role == MemberRole::inner_rib ||
                        m.role == MemberRole::tip_bow;
    if (p.on_rib ? is_rib && rib == p.which : !is_rib && m.span_member == p.which)
      out.insert(out.end(), m.beams.begin(), m.beams.end());
    if (is_rib) ++rib;
  }
  return out;
}

PushFrame::Spot PushFrame::spot_of(const FramePlace& p) const {
  double before = 0;
  for (int b : beams_of(p)) {
    const Beam& beam = panel_.beams[b];
    const double share = share_along(panel_, beam, p, before);
    if (share >= -same_spot && share <= 1 + same_spot) {
      if (share < same_spot) return {-1, 0, beam.from};
      if (share > 1 - same_spot) return {-1, 0, beam.to};
      return {b, share, -1};
    }
    before += (panel_.joints[beam.to].position - panel_.joints[beam.from].position).norm();
  }
  return {};
}

bool PushFrame::has(const FramePlace& p) const {
  const Spot s = spot_of(p);
  return s.beam >= 0 || s.joint >= 0;
}

bool PushFrame::moves(const FramePlace& p) const {
  const Spot s = spot_of(p);
  return s.joint < 0 || !held_up_[static_cast<std::size_t>(s.joint)];
}

Eigen::Vector3d PushFrame::position(const FramePlace& p) const {
  const Spot s = spot_of(p);
  if (s.joint >= 0) return panel_.joints[s.joint].position;
  const Beam& b = panel_.beams[s.beam];
  return (1 - s.share) * panel_.joints[b.from].position + s.share * panel_.joints[b.to].position;
}

void PushFrame::set_places(const std::vector<FramePlace>& places) {
  joint_of_place_.clear();
  joints_ = static_cast<int>(panel_.joints.size());
  std::map<int, std::map<double, int>> cuts;  // of each beam: share and joint
  for (const FramePlace& p : places) {
    const Spot s = spot_of(p);
    if (s.joint >= 0) {
      joint_of_place_.push_back(s.joint);
      continue;
    }
    auto& of_beam = cuts[s.beam];
    const auto near = std::find_if(of_beam.begin(), of_beam.end(),
                                   [&](const auto& cut) { return std::abs(cut.first - s.share) < same_spot; });
    joint_of_place_.push_back(near != of_beam.end() ? near->second : (of_beam[s.share] = joints_++));
  }
  pieces_.clear();
  for (std::size_t b = 0; b < panel_.beams.size(); ++b) {
    const Beam& beam = panel_.beams[b];
    const Eigen::Vector3d a = panel_.joints[beam.from].position, e = panel_.joints[beam.to].position;
    Piece piece{static_cast<int>(b), beam.from, beam.to, a, e, 0, 1};
    for (const auto& [share, joint] : cuts[static_cast<int>(b)]) {
      piece.to = joint, piece.end = (1 - share) * a + share * e, piece.share_to = share;
      pieces_.push_back(piece);
      piece.from = joint, piece.start = piece.end, piece.share_from = share;
    }
    piece.to = beam.to, piece.end = e, piece.share_to = 1;
    pieces_.push_back(piece);
  }
}

/// The frame as `like` and `change` make it, with one set of wires taut.
class PushFrame::Loaded {
 public:
  Loaded(const PushFrame& f, const Case& like, const FrameChange& change)
      : f_(f), like_(like), wires_(find_wires(like, f.panel_)), wire_of_(f.panel_.beams.size(), -1) {
    for (std::size_t w = 0; w < wires_.size(); ++w)
      wire_of_[static_cast<std::size_t>(wires_[w].beam)] = static_cast<int>(w);
    const std::vector<BeamEnds> ends = beam_ends(like, f.panel_);
    for (const Piece& p : f.pieces_) add_shape(p, ends[static_cast<std::size_t>(p.beam)], change);
    held_ = held_unknowns(f.panel_, supports_of(like, f.held_));
    factorise(std::vector<char>(wires_.size(), 1));
  }

  Pushed under(const PushLoad& load, bool with_stress) {
    Eigen::VectorXd force = Eigen::VectorXd::Zero(6 * f_.joints_), moved;
    force[6 * f_.joint_of_place_[static_cast<std::size_t>(load.place)] + 2] = -load.newtons;
    for (int i : held_) force[i] = 0;
    move(force, moved);
    Pushed out;
    for (int joint : f_.joint_of_place_) out.down.push_back(-moved[6 * joint + 2]);
    for (std::size_t w = 0; w < wires_.size(); ++w)
      if (!taut_[w]) out.slack.push_back(wires_[w].brace);
    for (std::size_t i = 0; with_stress && i < f_.pieces_.size(); ++i) add_stress(i, moved, out);
    return out;
  }

 private:
  const Beam& beam_of(const Piece& p) const { return f_.panel_.beams[static_cast<std::size_t>(p.beam)]; }
  const FrameMember& member_of(const Piece& p) const {
    return f_.panel_.members[static_cast<std::size_t>(beam_of(p).member)];
  }
  const Material& material_of(const Piece& p) const {
    return like_.materials[static_cast<std::size_t>(member_of(p).material)];
  }
  int wire_at(const Piece& p) const { return wire_of_[static_cast<std::size_t>(p.beam)]; }

  // Only the outer ends of a beam that was cut turn against their joints; their springs go with its own E I/L.
  void add_shape(const Piece& p, BeamEnds end, const FrameChange& change) {
    const Beam& beam = beam_of(p);
    const double factor = change.stiffness[static_cast<std::size_t>(group_of(member_of(p).role))] *
                          (beam.member == change.one_member ? change.of_one : 1);
    if (beam.hinge_from) end.from = hinge_end;
    if (beam.hinge_to) end.to = hinge_end;
    const auto turn = [&](const EndTurn& t, bool outer) {
      return outer ? EndTurn{t.up * factor, t.flat * factor} : EndTurn{};
    };
    factors_.push_back(factor);
    shapes_.push_back({p.start, p.end, beam.up, beam.section, factor * material_of(p).youngs_modulus,
                       factor * material_of(p).shear_modulus, turn(end.from, p.share_from <= 0),
                       turn(end.to, p.share_to >= 1), end.twist_gain});
  }

  BeamMatrix stiffness(std::size_t i) const {
    const int w = wire_at(f_.pieces_[i]);
    if (w < 0) return beam_stiffness(shapes_[i]);
    const double kept = taut_[static_cast<std::size_t>(w)] ? 1 : slack_stiffness;
    return kept * factors_[i] * wire_stiffness(wires_[static_cast<std::size_t>(w)]);
  }

  void factorise(const std::vector<char>& taut) {
    taut_ = taut;
    FrameSum sum(f_.joints_);
    for (int i : held_) sum.held[static_cast<std::size_t>(i)] = 1;
    for (std::size_t i = 0; i < f_.pieces_.size(); ++i) sum.add(f_.pieces_[i].from, f_.pieces_[i].to, stiffness(i));
    for (const Spring& s : support_springs(f_.panel_, supports_of(like_, f_.held_)))
      sum.entries.emplace_back(s.unknown, s.unknown, s.stiffness);
    const Sparse k = sum.matrix();
    linear_.analyse(k);
    if (!linear_.factorise(k))
      throw CaseError("member",
                      "the bare frame cannot be computed under a weight: its members differ too much in "
                      "stiffness; check sections and materials");
  }

  BeamVector ends_of_piece(const Piece& p, const Eigen::VectorXd& moved) const {
    BeamVector u;
    for (int k = 0; k < 12; ++k) u[k] = moved[FrameSum::unknown(p.from, p.to, k)];
    return u;
  }

  double stretch(const Wire& w, const Eigen::VectorXd& moved) const {
    const Beam& b = f_.panel_.beams[static_cast<std::size_t>(w.beam)];
    BeamVector u;
    for (int k = 0; k < 12; ++k) u[k] = moved[FrameSum::unknown(b.from, b.to, k)];
    return w.apart.dot(u);
  }

  // Which wires pull follows from the movement and the movement from which wires pull. On the bare frame each pulls its
  // tightness before the weight.
  void move(const Eigen::VectorXd& force, Eigen::VectorXd& moved) {
    for (int round = 0; round < most_wire_rounds; ++round) {
      linear_.solve(force, moved);
      std::vector<char> pulls;
      for (const Wire& w : wires_)
        pulls.push_back(like_.braces[static_cast<std::size_t>(w.brace)].tightness + w.rate * stretch(w, moved) >=
                        -no_pull * force.norm());
      if (pulls == taut_) return;
      factorise(pulls);
    }
    throw CaseError("brace",
                    "under a weight no rest is found between wires that go slack and wires that pull; state how "
                    "tight they are (tightness)");
  }

  void add_stress(std::size_t i, const Eigen::VectorXd& moved, Pushed& out) const {
    const Piece& p = f_.pieces_[i];
    const Beam& beam = beam_of(p);
    const int w = wire_at(p);
    double use = 0;
    if (w >= 0) {
      const Wire& wire = wires_[static_cast<std::size_t>(w)];
      use = wire_use(material_of(p), like_.limits, wire.rate * stretch(wire, moved) / beam.section.area).use;
    } else {
      const BeamForces f = beam_forces(shapes_[i], ends_of_piece(p, moved), 0);
      for (int end : {0, 1}) {
        const double share = end == 0 ? p.share_from : p.share_to;
        const Section& s = share <= 0 ? beam.section_from : share >= 1 ? beam.section_to : beam.section;
        const bool weld = (share <= 0 && beam.weld_from) || (share >= 1 && beam.weld_to);
        use = std::max(use, end_use(material_of(p), like_.limits, s, f, end, weld).use);
      }
    }
    if (use > out.use) out.use = use, out.most_stressed = beam.member;
  }

  const PushFrame& f_;
  const Case& like_;
  std::vector<Wire> wires_;
  std::vector<int> wire_of_;
  std::vector<BeamShape> shapes_;
  std::vector<double> factors_;
  std::vector<int> held_;
  std::vector<char> taut_;
  LinearSolver linear_;
};

std::vector<Pushed> PushFrame::push(const Case& like, const FrameChange& change, const std::vector<PushLoad>& loads,
                                    bool with_stress) const {
  Loaded frame(*this, like, change);
  std::vector<Pushed> out;
  for (const PushLoad& load : loads) out.push_back(frame.under(load, with_stress));
  return out;
}

}  // namespace evenpull
