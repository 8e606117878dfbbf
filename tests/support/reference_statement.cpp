#include "tests/support/reference_panel.hpp"

#include <iomanip>
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

void write_frame(Writer& w, const Model& m) {
  for (const Joint& j : m.panel.joints) w.line("joint", j.position);
  for (std::size_t i = 0; i < m.panel.members.size(); ++i) {
    const FrameMember& f = m.panel.members[i];
    const Material& a = m.the_case.materials[f.material];
    w.comment(f.name);
    w.line("member", a.youngs_modulus, a.shear_modulus, m.allowable[i]);
    for (int b : f.beams) {
      const Beam& beam = m.panel.beams[b];
      w.line("piece", beam.from, beam.to, beam.up, beam.hinge_from, beam.hinge_to);
      for (const Section* s : {&beam.section, &beam.section_from, &beam.section_to}) write_section(w, *s);
    }
  }
  for (int h = 0; h < 2; ++h)
    for (int i : m.held[h]) w.line("hold", h == 0 ? "ironed" : "in_use", i / 6, i % 6);
}

void write_blanket(Writer& w, const Panel& p) {
  for (const ClothNode& n : p.nodes)
    w.line("node", word(n.side), n.row, n.column, n.placed, word(n.tie), n.joint, n.on_nose);
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
