#include "solver/equilibrium/mechanism.hpp"

#include "solver/cloth/shrink.hpp"
#include "solver/equilibrium/covering.hpp"
#include "solver/numerics/linear_solver.hpp"
#include "solver/statement/errors.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace evenpull::inline solver {
namespace {

// Strain of a motion as a share of what its unknowns would take one by one. Without strain it is rounding squared, 1e-20
// and less as the eigenvector is found; the softest frame that was ever stated has 1e-9. Below `too_soft` a Newton step
// would lose all its digits.
constexpr double no_strain = 1e-17;
constexpr double too_soft = 1e-13;
// Keeps the factorisation of a mechanism alive: far above rounding of a matrix with ones on its diagonal. Where rounding is
// larger after all, so is the shift that is tried next: the softest motion stays the softest.
constexpr double first_shift = 1e-12, last_shift = 1e-4, shift_grows = 100;
constexpr int rounds = 10;

// A frame that would move by more than so many times its own size, were the pull of the cloth to hang on its softest
// motion, is a slip in a number and not a frame (judgement: the lightest demo panel moves by 2).
constexpr double absurd_motion = 1000;

const char* motion_word(int component) {
  constexpr const char* words[6] = {"moves chordwise",       "moves along the span", "moves up and down",
                                    "turns about the chord", "turns about the span", "turns in the panel's plane"};
  return words[component];
}

// The bare frame with every unknown scaled by the stiffness that its members have with rigid ends, so that neither
// units nor sizes count: ones on the diagonal where ends are rigid.
class BareFrame {
 public:
  BareFrame(const Model& m, Held h, bool with_wires = true)
      : m_(m), size_(6 * static_cast<int>(m.panel.joints.size())), held_(size_, 0), left_out_(m.beams.size(), 0) {
    if (!with_wires)
      for (const Wire& w : m.wires) left_out_[w.beam] = 1;
    for (std::size_t b = 0; b < m.beams.size(); ++b)
      if (!m.stands(b, h)) left_out_[b] = 1;
    for (int i : m.held[static_cast<int>(h)])
      if (i < size_) held_[i] = 1;  // beyond that is creep of cloth
    ground_ = Eigen::VectorXd::Zero(size_);
    for (const Spring& s : m.springs[static_cast<int>(h)]) ground_[s.unknown] = s.stiffness;
    own_ = ground_;
    for (std::size_t b = 0; b < m.beams.size(); ++b) {
      if (left_out_[b]) continue;
      BeamShape rigid = m.beams[b];
      rigid.turn_from = rigid.turn_to = EndTurn{};
      const BeamMatrix k = beam_stiffness(rigid);
      for (int i = 0; i < 12; ++i) own_[unknown(b, i)] += k(i, i);
    }
  }

  // Unknowns of the softest motion, by inverse iteration; none if no shift lets it be found.
  std::optional<Eigen::VectorXd> softest() const {
    LinearSolver linear;
    bool found = false;
    for (double shift = first_shift; !found && shift <= last_shift; shift *= shift_grows) {
      const Sparse k = scaled(shift);
      linear.analyse(k);
      found = linear.factorise(k);
    }
    if (!found) return {};
    Eigen::VectorXd x(size_), y;
    for (int i = 0; i < size_; ++i) x[i] = held_[i] ? 0 : 1.0 + 0.37 * std::sin(1.7 * i);  // no symmetry to hide behind
    for (int round = 0; round < rounds; ++round) {
      linear.solve(x.normalized(), y);
      for (int i = 0; i < size_; ++i) x[i] = held_[i] ? 0 : y[i];
    }
    for (int i = 0; i < size_; ++i) x[i] *= scale(i);
    return x;
  }

  // Energy of each beam [N m].
  std::vector<double> energies(const Eigen::VectorXd& x) const {
    std::vector<double> out;
    for (std::size_t b = 0; b < m_.beams.size(); ++b) {
      BeamVector u;
      for (int i = 0; i < 12; ++i) u[i] = x[unknown(b, i)];
      out.push_back(left_out_[b] ? 0 : beam_energy(m_.beams[b], u));
    }
    return out;
  }

  // Energy of the supports that give [N m].
  double of_supports(const Eigen::VectorXd& x) const { return 0.5 * x.dot(ground_.cwiseProduct(x)); }

  // Energy if each unknown moved by itself [N m].
  double one_by_one(const Eigen::VectorXd& x) const { return 0.5 * x.dot(own_.cwiseProduct(x)); }

 private:
  int unknown(std::size_t b, int k) const {
    const Beam& beam = m_.panel.beams[b];
    return k < 6 ? 6 * beam.from + k : 6 * beam.to + k - 6;
  }
  double scale(int i) const { return own_[i] > 0 ? 1 / std::sqrt(own_[i]) : 1; }

  Sparse scaled(double shift) const {
    std::vector<Eigen::Triplet<double>> entries;
    for (std::size_t b = 0; b < m_.beams.size(); ++b)
      for (int i = 0; i < 12 && !left_out_[b]; ++i)
        for (int j = 0; j < 12; ++j) {
          const int row = unknown(b, i), column = unknown(b, j);
          if (row < column || held_[row] || held_[column]) continue;
          entries.emplace_back(row, column, scale(row) * m_.beam_elastic[b](i, j) * scale(column));
        }
    for (int i = 0; i < size_; ++i)
      entries.emplace_back(i, i, held_[i] ? 1.0 : shift + scale(i) * ground_[i] * scale(i));
    Sparse k(size_, size_);
    k.setFromTriplets(entries.begin(), entries.end());
    return k;
  }

  const Model& m_;
  int size_;
  std::vector<char> held_, left_out_;
  Eigen::VectorXd own_, ground_;
};

// Diagonal of the box round all joints [m].
double size_of(const Panel& p) {
  Eigen::Vector3d low = p.joints.front().position, high = low;
  for (const Joint& j : p.joints) low = low.cwiseMin(j.position), high = high.cwiseMax(j.position);
  return (high - low).norm();
}

// Pull that the hottest stage leaves in cloth held both ways [N/m]; 0 where the case states none.
double hottest_pull(const Model& m) {
  if (m.the_case.cloth.curve.size() < 2 || m.the_case.stages.empty()) return 0;
  const ShrinkState s = shrink_at(m.the_case.cloth, m.compliance, m.the_case.stages.back().temperature);
  return std::max(s.fixed_length_pull[0], s.fixed_length_pull[1]);
}

int member_at(const Panel& p, int joint) {
  for (std::size_t i = 0; i < p.members.size(); ++i) {
    const auto& joints = p.members[i].joints;
    if (std::find(joints.begin(), joints.end(), joint) != joints.end()) return static_cast<int>(i);
  }
  return -1;
}

int most_strained(const Panel& p, const std::vector<double>& energies) {
  std::vector<double> of(p.members.size(), 0);
  for (std::size_t b = 0; b < energies.size(); ++b) of[p.beams[b].member] += energies[b];
  return static_cast<int>(std::max_element(of.begin(), of.end()) - of.begin());
}

const char* supports_key(Held h) { return h == Held::while_ironed ? "supports.while_ironed" : "supports.in_use"; }

const char* key_of(MemberRole r) {
  switch (r) {
    case MemberRole::end_rib:
    case MemberRole::inner_rib: return "ribs";
    case MemberRole::tip_bow: return "tip_bow";
    case MemberRole::brace: return "brace";
    case MemberRole::batten: return "batten";
    case MemberRole::pocket_front: return "pocket";
    default: return "member";
  }
}

// Wires hold one way only, and slack ones let the frame rattle. Where it would not stand without them, one that its softest
// motion draws on must be tight already.
void check_held_by_tight_wires(const Model& m, Held h) {
  if (m.wires.empty()) return;
  const BareFrame frame(m, h, false);
  const std::optional<Eigen::VectorXd> softest = frame.softest();
  if (!softest) return;
  double energy = 0;
  for (double e : frame.energies(*softest)) energy += e;
  if (energy / frame.one_by_one(*softest) >= no_strain) return;
  double most = 0;
  std::vector<double> pulls;
  for (const Wire& w : m.wires) {
    pulls.push_back(std::abs(w.apart.dot(ends_of(m.panel.beams[w.beam], *softest))));
    most = std::max(most, pulls.back());
  }
  constexpr double rounding = 1e-6;
  const Wire* only = nullptr;
  for (std::size_t i = 0; i < pulls.size(); ++i) {
    if (pulls[i] <= rounding * most) continue;
    if (m.the_case.braces[m.wires[i].brace].tightness > 0) return;
    if (!only) only = &m.wires[i];
  }
  if (only)
    throw CaseError("brace", "without its wires the frame (" + std::string(supports_key(h)) +
                                 ") would not stand, and the wire \"" + m.the_case.braces[only->brace].name +
                                 "\" that holds it is not drawn tight: it cannot push, so the frame rattles; state how "
                                 "tight it and the wire that crosses it are (tightness), or what else holds the frame");
}

void check_stands(const Model& m, Held h) {
  const Mechanism mech = find_mechanism(m, h);
  if (!mech.found && !mech.soft) return;
  const Panel& p = m.panel;
  const std::string name = mech.member >= 0 ? p.members[mech.member].name : "a joint";
  const std::string near = std::to_string(std::lround(1000 * p.joints[mech.joint].position.y())) + " mm along the span";
  if (mech.found)
    throw CaseError(supports_key(h), "nothing holds the " + name + ": near " + near + " it " + mech.motion +
                                         " freely; state a support there, or fix the joint that should carry it");
  throw CaseError(key_of(p.members[mech.member].role),
                  "the frame is held (" + std::string(supports_key(h)) + "), but far too softly: the " + name +
                      " gives way so easily that near " + near + " the panel " + mech.motion +
                      " far too much under the pull of its cloth; check the section and the material of the " + name +
                      ", or state a support near there");
}

}  // namespace

Mechanism find_mechanism(const Model& m, Held h) {
  const BareFrame frame(m, h);
  const std::optional<Eigen::VectorXd> softest = frame.softest();
  if (!softest)
    throw CaseError("member",
                    "the bare frame cannot be computed: its members differ too much in stiffness, or one has none; "
                    "check sections and materials");
  const Eigen::VectorXd& x = *softest;
  const std::vector<double> energies = frame.energies(x);
  double energy = frame.of_supports(x), most = 0;
  for (double e : energies) energy += e;
  const double size = size_of(m.panel);
  Mechanism out;
  int component = 0;
  for (int i = 0; i < x.size(); ++i) {
    const double moved = std::abs(x[i]) * (i % 6 < 3 ? 1 : size);
    if (moved > most) most = moved, out.joint = i / 6, component = i % 6;
  }
  if (out.joint < 0) return out;  // everything is held
  out.strain = energy / frame.one_by_one(x);
  out.stiffness = 2 * energy / (most * most);
  out.motion = motion_word(component);
  out.found = out.strain < no_strain;
  out.soft = !out.found && (out.strain < too_soft || out.stiffness * absurd_motion < hottest_pull(m));
  out.member = out.soft ? most_strained(m.panel, energies) : member_at(m.panel, out.joint);
  return out;
}

void check_stands(const Model& m) {
  for (Held h : {Held::while_ironed, Held::in_use}) {
    check_stands(m, h);
    check_held_by_tight_wires(m, h);
  }
}

void check_stands(const Case& c) { check_stands(Model(c, {coarse_nodes})); }

}  // namespace evenpull::inline solver
