#include "tests/support/reference_panel.hpp"

#include "solver/frame/joint_turn.hpp"

#include <algorithm>
#include <iomanip>
#include <limits>
#include <sstream>

namespace evenpull::reference {
namespace {

class Writer {
 public:
  Writer() { out_ << std::setprecision(15); }

  template <class... Values>
  void line(const char* word, const Values&... values) {
    out_ << word;
    (add(values), ...);
    out_ << "\n";
  }
  void comment(const std::string& text) { out_ << "# " << text << "\n"; }
  std::string text() const { return out_.str(); }

 private:
  void add(double v) { out_ << ' ' << (v == 0 ? 0.0 : v); }  // no minus zero
  void add(int v) { out_ << ' ' << v; }
  void add(bool v) { out_ << ' ' << (v ? 1 : 0); }
  void add(const char* v) { out_ << ' ' << v; }
  void add(const Eigen::Vector3d& v) {
    for (int k = 0; k < 3; ++k) add(v[k]);
  }
  std::ostringstream out_;
};

// alpha of the ends of a member's pieces, in the order of its beams; where no rib or brace ends it is infinite.
struct Turns {
  double from_up = rigid, from_flat = rigid, to_up = rigid, to_flat = rigid;
  bool any() const { return std::min({from_up, from_flat, to_up, to_flat}) < rigid; }
  static constexpr double rigid = std::numeric_limits<double>::infinity();
};

// Which rib or brace of the case a member is; -1: another one.
struct Jointed {
  int rib = -1, brace = -1;
};

Jointed jointed(const Case& c, std::size_t member) {
  const std::size_t first_rib = c.span_members.size(), first_brace = first_rib + c.ribs.size();
  if (member < first_rib || member >= first_brace + c.braces.size()) return {};
  const auto at = static_cast<int>(member);
  if (member < first_brace) return {at - static_cast<int>(first_rib), -1};
  return {-1, at - static_cast<int>(first_brace)};
}

const JointMake* joint_of(const Case& c, const Jointed& j, bool first) {
  if (j.rib >= 0) return first ? &c.ribs[j.rib].front_joint : &c.ribs[j.rib].rear_joint;
  if (j.brace >= 0) return first ? &c.braces[j.brace].from_joint : &c.braces[j.brace].to_joint;
  return nullptr;
}

void put_turn(const Model& m, const Jointed& j, bool first, double& up, double& flat) {
  const JointMake* make = joint_of(m.the_case, j, first);
  if (!make || make->kind == JointKind::pinned) return;  // hinges stand with the piece
  const JoinedMember ends = j.rib >= 0 ? joined_rib(m.the_case, m.panel, j.rib, first)
                                       : joined_brace(m.the_case, m.panel, j.brace, first);
  const JointTurn turn = turn_of(*make, ends);
  up = alpha_at(turn.up, make->at), flat = alpha_at(turn.flat, make->at);
}

int ends_held_against_warping(const Case& c, const Jointed& j) {
  int held = 0;
  for (bool first : {true, false})
    if (const JointMake* make = joint_of(c, j, first)) held += holds_flanges(*make) ? 1 : 0;
  return held;
}

const char* word(Side s) { return s == Side::top ? "top" : "bottom"; }

const char* word(Tie t) {
  switch (t) {
    case Tie::none: return "free";
    case Tie::glued: return "glued";
    case Tie::bearing: return "bearing";
    case Tie::wrapped: return "wrapped";
  }
  return "";
}

void write_cloth(Writer& w, const Case& c) {
  const Cloth& k = c.cloth;
  w.line("stiffness", k.stiffness.warp, k.stiffness.fill, k.poisson, k.shear);
  w.line("looseness", k.looseness.warp, k.looseness.fill);
  w.line("creep", k.creep_share);
  for (const ShrinkPoint& s : k.curve)
    w.line("curve", s.temperature, s.free_shrink.warp, s.free_shrink.fill, s.pull.warp, s.pull.fill);
  w.line("edge_friction", c.blanket.edge_friction, c.blanket.wrap_angle);
  w.line("rib_friction", c.blanket.inner_ribs == RibTie::free ? 0.0 : c.blanket.rib_friction);
  w.line("nose_friction", c.blanket.rib_friction);
}

void write_section(Writer& w, const Section& s) {
  if (s.shear_up > 0 || s.shear_flat > 0)
    w.line("section", s.area, s.inertia_up, s.inertia_flat, s.torsion, s.reach_up, s.reach_flat, s.reach_twist, s.round,
           s.shear_up, s.shear_flat);
  else
    w.line("section", s.area, s.inertia_up, s.inertia_flat, s.torsion, s.reach_up, s.reach_flat, s.reach_twist,
           s.round);
}

void write_joints(Writer& w, const Model& m, std::size_t member, int beam) {
  const FrameMember& f = m.panel.members[member];
  const Jointed j = jointed(m.the_case, member);
  Turns turns;
  if (beam == f.beams.front()) put_turn(m, j, true, turns.from_up, turns.from_flat);
  if (beam == f.beams.back()) put_turn(m, j, false, turns.to_up, turns.to_flat);
  if (turns.any()) w.line("turns", turns.from_up, turns.from_flat, turns.to_up, turns.to_flat);
  const double warping = m.panel.beams[beam].section.warping;
  const int held = ends_held_against_warping(m.the_case, j);
  if (warping > 0 && held > 0) w.line("warping", warping, held);
}

void write_wire(Writer& w, const Model& m, std::size_t member, const Brace& wire) {
  const FrameMember& f = m.panel.members[member];
  const Beam& b = m.panel.beams[f.beams.front()];
  w.line("wire", b.from, b.to, m.the_case.materials[f.material].youngs_modulus, b.section.area, m.allowable[member],
         wire.tightness);
}

void write_member(Writer& w, const Model& m, std::size_t member) {
  const FrameMember& f = m.panel.members[member];
  const Material& a = m.the_case.materials[f.material];
  w.line("member", a.youngs_modulus, a.shear_modulus, m.allowable[member]);
  for (int b : f.beams) {
    const Beam& beam = m.panel.beams[b];
    w.line("piece", beam.from, beam.to, beam.up, beam.hinge_from, beam.hinge_to);
    for (const Section* s : {&beam.section, &beam.section_from, &beam.section_to}) write_section(w, *s);
    write_joints(w, m, member, b);
  }
}

void write_frame(Writer& w, const Model& m) {
  for (const Joint& j : m.panel.joints) w.line("joint", j.position);
  for (std::size_t i = 0; i < m.panel.members.size(); ++i) {
    w.comment(m.panel.members[i].name);
    const int brace = jointed(m.the_case, i).brace;
    if (brace >= 0 && m.the_case.braces[brace].wire) write_wire(w, m, i, m.the_case.braces[brace]);
    else write_member(w, m, i);
  }
  for (int h = 0; h < 2; ++h)
    for (int i : m.held[h]) w.line("hold", h == 0 ? "ironed" : "in_use", i / 6, i % 6);
}

void write_blanket(Writer& w, const Panel& p) {
  for (const ClothNode& n : p.nodes)
    w.line("node", word(n.side), n.row, n.column, n.placed, n.absent ? "absent" : word(n.tie), n.joint, n.on_nose);
  for (const Quad& q : p.quads) w.line("quad", q.nodes[0], q.nodes[1], q.nodes[2], q.nodes[3], q.zone, q.warp_angle);
}

}  // namespace

std::string statement(const SmallPanel& p, const Model& m) {
  Writer w;
  w.comment(p.name + ", invented; words and units: tests/reference/problem.py");
  write_cloth(w, m.the_case);
  write_frame(w, m);
  write_blanket(w, m.panel);
  for (const Step& s : p.steps) switch (s.kind) {
      case Step::Kind::iron: w.line("iron", s.zone, s.temperature, s.dose); break;
      case Step::Kind::settle: w.line("settle"); break;
      case Step::Kind::release: w.line("release"); break;
    }
  return w.text();
}

}  // namespace evenpull::reference
