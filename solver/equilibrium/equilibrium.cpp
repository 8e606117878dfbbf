#include "solver/equilibrium/equilibrium.hpp"

#include "solver/equilibrium/certify.hpp"
#include "solver/equilibrium/holding.hpp"
#include "solver/equilibrium/padded.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull {
namespace {

constexpr double root2 = 1.41421356237309504880;

// Share to which a falling smoothing drops with each iteration; slower and faster ones took as many or more (bench/).
constexpr double fall = 0.5;

// At an accepted answer N S = beta I in every triangle, hence a gap of 2 beta area; of its root this much more is let
// pass. A triangle whose pull has fallen to next to nothing moves by next to nothing: small steps alone would not show
// that it is still on its way.
constexpr double bound_excess = 1.05;

// An iteration whose bound on the pull [N/m] has grown beyond this does not come back, and soon divides by nothing.
constexpr double ran_away = 1e10;

// An answer that is found but not certain enough is sharpened so often before it is given up: its smoothing, or the
// tolerance and the sliding width of its friction, by what they took too much, within these factors each time.
constexpr int most_sharpenings = 8;
constexpr double least_sharpening = 0.5, most_sharpening = 0.05;
// Of its share of the gap, what a part is sharpened to: a little less, so that once is mostly enough.
constexpr double sharpen_below = 0.7;

// Where friction alone is still off it may take so many times longer than all else.
constexpr int patience_with_friction = 5;

QuadLaw law_of(const Model& m, double smoothing) {
  QuadLaw law;
  for (int i = 0; i < 3; ++i)
    for (int j = 0; j <= i; ++j) law.compliance[lower_index(i, j)] = m.compliance(i, j);
  law.softest = m.softest;
  law.smoothing = smoothing;
  return law;
}

}  // namespace

Equilibrium::Equilibrium(const Model& m, const Accuracy& a)
    : model_(m),
      accuracy_(a),
      now_(a),
      law_(law_of(m, a.smoothing)),
      matrix_(m.pattern),
      frame_(m.beams.size()),
      points_(m.triangles.size()),
      states_(m.shapes.size()),
      work_(m.shapes.size()),
      blocks_(m.tangent.pairs()),
      x_(m.panel.nodes.size()),
      du_(x_),
      force_(x_),
      predicted_(x_),
      rub_(m.unknowns.sliding.size()),
      thresholds_(m),
      residual_(m.unknowns.count),
      rhs_(m.unknowns.count),
      step_(m.unknowns.count) {
  linear_.use(m.analysis);
  for (ClothPoint& p : points_) p.cold = &m.compliance;
}

void Equilibrium::prepare_frame(const Covering& s) {
  for (std::size_t b = 0; b < frame_.size(); ++b)
    frame_[b] = model_.beam_elastic[b] + s.axial[b] * model_.beam_geometric[b];
}

// The members' geometric stiffness under the forces that they have in the present shape: what is out of balance is so
// under these. The tangent leaves out how they change, which costs no iterations (bench/RECORD.md).
void Equilibrium::follow_member_forces(Covering& s) {
  for (std::size_t b = 0; b < frame_.size(); ++b)
    s.axial[b] = axial_force(model_.beams[b], ends_of(model_.panel.beams[b], s.unknowns));
  prepare_frame(s);
}

// Pull, wrinkle strain and shrink of a covering, all cold.
void Equilibrium::take_state(const Covering& s) {
  for (std::size_t t = 0; t < points_.size(); ++t) {
    QuadState& q = states_[t / 4];
    for (int k = 0; k < 3; ++k) {
      q.pull[k][t % 4] = s.tension[t].pull[k];
      q.wrinkle[k][t % 4] = s.tension[t].wrinkle[k];
    }
    points_[t].hot = false;
    for (int d = 0; d < 2; ++d) {
      points_[t].shrink[d] = s.shrink[t][d];
      q.shift[d][t % 4] = s.shrink[t][d] - model_.looseness[d];
      q.more_shrink[d][t % 4] = q.more_give[d][t % 4] = 0;
    }
  }
}

void Equilibrium::give_state(Covering& s) const {
  for (std::size_t t = 0; t < points_.size(); ++t)
    for (int k = 0; k < 3; ++k) {
      s.tension[t].pull[k] = states_[t / 4].pull[k][t % 4];
      s.tension[t].wrinkle[k] = states_[t / 4].wrinkle[k][t % 4];
    }
}

// Pull and wrinkle strain of an answer at a small smoothing, moved to the present larger one: in the principal frame of
// Z = c N - S both follow from n c - beta / n = z. What the law still misses then, the first iteration mends.
void Equilibrium::recentre() {
  const double c = 0.5 * (model_.compliance(0, 0) + model_.compliance(1, 1));
  const double beta = law_.smoothing;
  for (QuadState& q : states_)
    for (int t = 0; t < 4; ++t) {
      const double z0 = c * q.pull[0][t] - q.wrinkle[0][t], z1 = c * q.pull[1][t] - q.wrinkle[1][t];
      const double z2 = (c * q.pull[2][t] - q.wrinkle[2][t]) / root2;
      // R = sqrt(Z^2 + 4 beta c I), closed form for 2 x 2.
      const double m0 = z0 * z0 + z2 * z2 + 4 * beta * c, m1 = z1 * z1 + z2 * z2 + 4 * beta * c, m2 = z2 * (z0 + z1);
      const double root = std::sqrt(std::max(0.0, m0 * m1 - m2 * m2));
      const double scale = 1 / std::sqrt(m0 + m1 + 2 * root);
      const double r[3] = {(m0 + root) * scale, (m1 + root) * scale, m2 * scale};
      const double z[3] = {z0, z1, z2};
      for (int k = 0; k < 3; ++k) {
        const double mandel = k == 2 ? root2 : 1;
        q.pull[k][t] = mandel * (r[k] + z[k]) / (2 * c);
        q.wrinkle[k][t] = mandel * (r[k] - z[k]) / 2;
      }
    }
}

// The law of the hot triangles changed: they start from its own answer at the present shape.
void Equilibrium::heat(const std::vector<int>& hot_quads, const PanelLoadLines& lines) {
  for (int q : hot_quads)
    for (int c = 0; c < 4; ++c) {
      const int t = 4 * q + c;
      ClothPoint& p = points_[t];
      p.hot = true;
      p.line[0] = lines[t][0];
      p.line[1] = lines[t][1];
      Corners x;
      for (int i = 0; i < 3; ++i) x.row(i) = vector(x_[model_.panel.quads[q].nodes[triangle_corners[c][i]]]);
      Mandel e = green_lagrange(deformation(model_.triangles[t], x)) - model_.looseness;
      e[0] += p.shrink[0];
      e[1] += p.shrink[1];
      Tension fresh;
      if (solve_law(p, e, law_.smoothing, fresh) < 0) continue;
      for (int k = 0; k < 3; ++k) {
        states_[q].pull[k][c] = fresh.pull[k];
        states_[q].wrinkle[k][c] = fresh.wrinkle[k];
      }
    }
}

// Shrink of the hot triangles at their present pull, and how it falls with it.
void Equilibrium::refresh_hot(const std::vector<int>& hot_quads) {
  for (int q : hot_quads)
    for (int c = 0; c < 4; ++c)
      for (int d = 0; d < 2; ++d) {
        const ClothPoint& p = points_[4 * q + c];
        const double pull = states_[q].pull[d][c];
        states_[q].more_shrink[d][c] = shrink_after(p, d, pull) - p.shrink[d];
        states_[q].more_give[d][c] = give_while_hot(p, d, pull);
      }
}

void Equilibrium::displace(const Eigen::VectorXd& d, std::vector<Padded>& u) const {
  for (std::size_t i = 0; i < u.size(); ++i) {
    const NodeMap& m = model_.unknowns.nodes[i];
    const double* own = d.data() + m.index[0];
    if (m.is_free()) {
      u[i] = {own[0], own[1], own[2], 0};
    } else {
      const Eigen::Vector3d v = displacement(m, d);
      u[i] = {v[0], v[1], v[2], 0};
    }
  }
}

void Equilibrium::place_nodes(const Eigen::VectorXd& d) {
  displace(d, x_);
  for (std::size_t i = 0; i < x_.size(); ++i)
    for (int k = 0; k < 3; ++k) x_[i][k] += model_.panel.nodes[i].placed[k];
}

void Equilibrium::add_nodal(const std::vector<Padded>& nodal, Eigen::VectorXd& r) const {
  for (std::size_t i = 0; i < nodal.size(); ++i) {
    const NodeMap& m = model_.unknowns.nodes[i];
    if (m.is_free())
      for (int k = 0; k < 3; ++k) r[m.index[0] + k] += nodal[i][k];
    else
      for (int k = 0; k < m.count; ++k) r[m.index[k]] += m.column.col(k).dot(vector(nodal[i]));
  }
}

void Equilibrium::add_frame_force(const Eigen::VectorXd& d, Eigen::VectorXd& r) const {
  for (std::size_t b = 0; b < frame_.size(); ++b) {
    const Beam& beam = model_.panel.beams[b];
    const BeamVector f = frame_[b].lazyProduct(ends_of(beam, d));
    r.segment<6>(6 * beam.from) += f.head<6>();
    r.segment<6>(6 * beam.to) += f.tail<6>();
  }
}

void Equilibrium::add_frame(const std::vector<BeamMatrix>& beams, double* values) const {
  for (std::size_t b = 0; b < beams.size(); ++b)
    for (int i = 0; i < 12; ++i)
      for (int j = 0; j <= i; ++j) values[model_.beam_positions[b][lower_index(i, j)]] += beams[b](i, j);
}

// Nodal forces, and the tangent without friction, at the present places and pulls.
QuadSums Equilibrium::assemble() {
  std::fill(force_.begin(), force_.end(), Padded{});
  std::fill(predicted_.begin(), predicted_.end(), Padded{});
  std::fill(blocks_.begin(), blocks_.end(), NodeBlock{});
  const QuadSums sums =
      evaluate_quads(model_.shapes, states_, x_.data(), law_, work_,
                     {force_.data(), predicted_.data(), model_.tangent.of_quads().data(), blocks_.data()});
  std::fill_n(matrix_.valuePtr(), matrix_.nonZeros(), 0.0);
  model_.tangent.add(blocks_, own_blocks_, matrix_.valuePtr());
  add_frame(frame_, matrix_.valuePtr());
  return sums;
}

// Friction to residual, right-hand side and tangent; returns the largest distance of a force or of a threshold from its
// law.
double Equilibrium::add_friction(const Covering& before, const Covering& s, int iteration) {
  thresholds_.follow(force_, iteration);
  double worst = 0;
  for (std::size_t i = 0; i < rub_.size(); ++i) {
    const SlidingPoint& point = model_.unknowns.sliding[i];
    const Eigen::Vector2d slip = slip_between(point, before.unknowns, s.unknowns);
    const double asked = thresholds_.asked(i), tau = thresholds_.in_use(i), measure = tau + now_.least_threshold;
    const FrictionStep rub = rub_[i] = friction_step(slip, before.friction[i], s.friction[i], tau, now_.sliding_width);
    worst = std::max({worst, (s.friction[i] - rub.predicted).norm() / measure, std::abs(tau - asked) / measure});
    for (int k = 0; k < point.unknowns; ++k) {
      const int n = point.first_unknown + k;
      residual_[n] += s.friction[i][k];
      rhs_[n] += rub.predicted[k];
      matrix_.valuePtr()[model_.diagonal[n]] += rub.stiffness(k, k);
    }
    if (model_.sliding_cross[i] >= 0) matrix_.valuePtr()[model_.sliding_cross[i]] += rub.stiffness(0, 1);
  }
  return worst;
}

void Equilibrium::accept(Covering& s) const {
  for (std::size_t t = 0; t < points_.size(); ++t)
    if (points_[t].hot)
      for (int d = 0; d < 2; ++d) s.shrink[t][d] = shrink_after(points_[t], d, s.tension[t].pull[d]);
  for (std::size_t i = 0; i < force_.size(); ++i) s.nodal_force[i] = vector(force_[i]);
}

// Whether the iterate is an answer; if not, says what it misses by the largest factor. The bound is still that of the
// smoothed law.
bool Equilibrium::passes(SolveReport& r) const {
  const double smoothed = bound_excess * std::sqrt(4 * now_.smoothing / model_.softest);
  const std::pair<Test, Missed> tests[] = {
      {Test::balance, {"largest force out of balance", r.residual, now_.force_tolerance, "N"}},
      {Test::law, {"change of pull that the law of the cloth still asks for", r.tension_change, now_.tension_tolerance, "N/m"}},
      {Test::smoothing, {"error of the pull that smoothing may leave", r.tension_bound, smoothed, "N/m"}},
      {Test::friction, {"friction off its law, as a share of its limit", r.threshold_error, now_.friction_tolerance, ""}}};
  double worst = 1;
  for (const auto& [test, missed] : tests) {
    if (missed.value <= worst * missed.allowed) continue;
    worst = missed.value / missed.allowed;
    r.failed = test;
    r.missed = missed;
  }
  return worst <= 1;
}

// Asks more of the part that takes too much of the gap allowed.
bool Equilibrium::tighten(const SolveReport& r) {
  const double allowed = 0.5 * now_.tension_bound * now_.tension_bound * model_.softest * model_.cloth_area;
  const auto sharper = [](double part, double share) {
    return part > share ? std::clamp(sharpen_below * share / part, most_sharpening, least_sharpening) : 1.0;
  };
  const double cloth = sharper(r.gap - r.friction_gap, share_of_cloth * allowed);
  const double friction = sharper(r.friction_gap, (1 - share_of_cloth) * allowed);
  now_.smoothing *= cloth;
  now_.friction_tolerance *= friction;
  now_.sliding_width *= friction;
  return cloth < 1 || friction < 1;
}

SolveReport Equilibrium::solve(Covering& state, const std::vector<int>& hot_quads, const PanelLoadLines& lines) {
  Covering answer = state;
  const SolveReport report = solve_from(state, answer, hot_quads, lines);
  if (report.converged) state = std::move(answer);
  return report;
}

const Sparse& Equilibrium::tangent(const Covering& s) {
  law_.smoothing = accuracy_.smoothing;
  prepare_frame(s);
  take_state(s);
  place_nodes(s.unknowns);
  assemble();
  hold(model_, s.held, matrix_);
  return matrix_;
}

// Everything a full step along step_.
void Equilibrium::advance(Covering& s) {
  displace(step_, du_);
  advance_quads(model_.shapes, work_, du_.data(), law_.smoothing, states_);
  for (std::size_t i = 0; i < rub_.size(); ++i) {
    const SlidingPoint& point = model_.unknowns.sliding[i];
    Eigen::Vector2d dq(0, 0);
    for (int k = 0; k < point.unknowns; ++k) dq[k] = step_[point.first_unknown + k];
    s.friction[i] = clip(rub_[i].predicted + rub_[i].stiffness * dq, thresholds_.in_use(i));
    if (point.unknowns == 1) s.friction[i][1] = 0;
  }
  s.unknowns += step_;
  for (std::size_t i = 0; i < x_.size(); ++i)
    for (int k = 0; k < 3; ++k) x_[i][k] += du_[i][k];
}

// On a wild way to balance members may come to forces of any size. Where that leads nowhere they keep those of the state
// before until all else is in balance, and change from there.
SolveReport Equilibrium::solve_from(const Covering& before, Covering& guess, const std::vector<int>& hot_quads,
                                    const PanelLoadLines& lines) {
  const bool held = accuracy_.member_forces_held;
  const SolveReport first = iterate(before, guess, hot_quads, lines, !held);
  if (first.converged || held || first.failed == Test::certainty) return first;
  SolveReport second = iterate(before, guess, hot_quads, lines, false);
  second.iterations += first.iterations;
  return second;
}

SolveReport Equilibrium::iterate(const Covering& before, Covering& guess, const std::vector<int>& hot_quads,
                                 const PanelLoadLines& lines, bool follow) {
  SolveReport report;
  now_ = accuracy_;
  Covering s = guess;
  s.shrink = before.shrink;
  s.axial = before.axial;
  prepare_frame(s);
  take_state(s);
  place_nodes(s.unknowns);
  law_.smoothing = std::max(now_.start_smoothing, now_.smoothing);
  if (law_.smoothing > now_.smoothing) recentre();
  heat(hot_quads, lines);
  thresholds_.forget();
  int sharpenings = 0, since = 0;  // iteration at which something more was asked for
  Missed uncertain;
  // An answer that stands and cannot be made more certain is no frame that gives way.
  const auto give_up = [&](bool stable) {
    report.stable = stable || sharpenings > 0;
    if (sharpenings > 0) report.failed = Test::certainty, report.missed = uncertain;
    return report;
  };
  const auto may_go_on = [&] {
    const int most = now_.most_iterations * (report.failed == Test::friction ? patience_with_friction : 1);
    return report.iterations - since <= most;
  };
  for (report.iterations = 0; may_go_on(); ++report.iterations) {
    if (report.iterations > 0 && follow) follow_member_forces(s);  // a first guess need not be near balance
    refresh_hot(hot_quads);
    const QuadSums sums = assemble();
    residual_.setZero();
    add_frame_force(s.unknowns, residual_);
    if (s.load.size() > 0) residual_ -= s.load;
    rhs_ = residual_;
    add_nodal(force_, residual_);
    add_nodal(predicted_, rhs_);
    report.threshold_error = add_friction(before, s, report.iterations - since);
    hold(model_, s.held, residual_);
    hold(model_, s.held, rhs_);
    const double residual = residual_.cwiseAbs().maxCoeff();
    const double bound = std::sqrt(2 * sums.gap / (model_.softest * model_.cloth_area));
    if (!std::isfinite(residual) || bound > ran_away) {
      report.missed.what += report.missed.what.empty() ? "finite forces: the iteration ran away at once"
                                                       : ", before the iteration ran away";
      return give_up(true);
    }
    report.residual = residual;
    report.tension_change = sums.tension_change;
    report.tension_bound = bound;
    if (now_.watch) now_.watch(report);
    const bool balanced = passes(report) && report.iterations > 0 && law_.smoothing <= now_.smoothing;
    if (balanced && !follow && !now_.member_forces_held) {
      follow = true;
      since = report.iterations;
    } else if (balanced) {
      give_state(s);
      certify(model_, {before, s, points_, x_, frame_, thresholds_}, report);
      report.converged = now_.tension_bound <= 0 || report.tension_bound <= now_.tension_bound;
      if (report.converged) {
        report.missed = {};
        break;
      }
      uncertain = {"bound on the error of the pull", report.tension_bound, now_.tension_bound, "N/m"};
      if (sharpenings++ == most_sharpenings || !tighten(report)) return give_up(true);
      since = report.iterations;
    }
    hold(model_, s.held, matrix_);
    if (!linear_.factorise(matrix_)) {
      if (report.missed.what.empty()) report.missed = {"directions without stiffness", 1, 0, ""};
      return give_up(false);
    }
    rhs_ = -rhs_;
    linear_.solve(rhs_, step_);
    advance(s);
    law_.smoothing = std::max(now_.smoothing, fall * law_.smoothing);
  }
  if (!report.converged) return give_up(true);
  accept(s);
  guess = std::move(s);
  return report;
}

}  // namespace evenpull
