// One file of some length: an iteration, what it is judged by and how it is asked for more are one thing.
#include "solver/equilibrium/equilibrium.hpp"

#include "solver/cloth/quad_kernel.hpp"
#include "solver/equilibrium/certify.hpp"
#include "solver/equilibrium/holding.hpp"
#include "solver/equilibrium/padded.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace evenpull::inline solver {
namespace {

// A smoothing falls to this share once the iterate has come near what belongs to it, which shows in the gap: its root
// within so much of that of N S = beta I. Falling while the cloth is still on its way leads astray (bench/RECORD.md).
constexpr double fall = 0.2, centred = 1.1;

// Where the cloth pulls more than this many times what a smoothing leaves to loose cloth, that smoothing moves next to
// nothing: there is no way down from it to go.
constexpr double tight = 3;

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

// Wires are taken for taut or slack as each iterate has them so long, which is mostly all it takes; from then on as they
// were last, until all is in balance: where one is wrong the first such is turned and the iteration goes on. Turning the
// first of them ends sooner or later, since the frame's energy is convex (Murty's least-index rule for such problems, from
// memory); a wire is not turned more often than this.
constexpr int wires_free_for = 12, most_turns_of_a_wire = 8;

// Where friction alone is still off it may take so many times longer than all else.
constexpr int patience_with_friction = 5;

bool all_tight(const Model& m, const Covering& s, double smoothing) {
  const double loose = std::sqrt(smoothing / m.softest);
  return std::all_of(s.tension.begin(), s.tension.end(),
                     [&](const Tension& t) { return principal(t.pull).minor > tight * loose; });
}

// What the bound on the pull comes to where N S = beta I.
double bound_of(const Model& m, double smoothing) { return std::sqrt(4 * smoothing / m.softest); }

}  // namespace

Equilibrium::Equilibrium(const Model& m, const SolveOptions& a)
    : model_(m),
      options_(a),
      now_(a),
      cloth_and_frame_(m, a.smoothing),
      rub_(m.unknowns.sliding.size()),
      thresholds_(m),
      residual_(m.unknowns.count),
      rhs_(m.unknowns.count),
      step_(m.unknowns.count) {
  linear_.use(m.analysis);
}

// Friction to residual, right-hand side and tangent; returns the largest distance of a force or of a threshold from its
// law.
double Equilibrium::add_friction(const Covering& before, const Covering& s, int iteration) {
  thresholds_.follow(cloth_and_frame_.force(), iteration);
  double* tangent = cloth_and_frame_.matrix().valuePtr();
  double worst = 0;
  for (std::size_t i = 0; i < rub_.size(); ++i) {
    if (!s.attached.empty() && s.attached[i]) {
      rub_[i] = {};  // the fastening holds, whatever it takes
      continue;
    }
    const SlidingPoint& point = model_.unknowns.sliding[i];
    const Eigen::Vector2d slip = slip_between(point, before.unknowns, s.unknowns);
    const double asked = thresholds_.asked(i), tau = thresholds_.in_use(i), measure = tau + now_.least_threshold;
    const FrictionStep rub = rub_[i] = friction_step(slip, before.friction[i], s.friction[i], tau, now_.sliding_width);
    worst = std::max({worst, (s.friction[i] - rub.predicted).norm() / measure, std::abs(tau - asked) / measure});
    for (int k = 0; k < point.unknowns; ++k) {
      const int n = point.first_unknown + k;
      residual_[n] += s.friction[i][k];
      rhs_[n] += rub.predicted[k];
      tangent[model_.diagonal[n]] += rub.stiffness(k, k);
    }
    if (model_.sliding_cross[i] >= 0) tangent[model_.sliding_cross[i]] += rub.stiffness(0, 1);
  }
  return worst;
}

void Equilibrium::accept(Covering& s) const {
  const std::vector<ClothPoint>& points = cloth_and_frame_.points();
  for (std::size_t t = 0; t < points.size(); ++t)
    if (points[t].hot)
      for (int d = 0; d < 2; ++d) s.shrink[t][d] = shrink_after(points[t], d, s.tension[t].pull[d]);
  const std::vector<Padded>& force = cloth_and_frame_.force();
  for (std::size_t i = 0; i < force.size(); ++i) s.nodal_force[i] = vector(force[i]);
}

// Whether the iterate is an answer; if not, says what it misses by the largest factor. The bound is still that of the
// smoothed law.
bool Equilibrium::passes(SolveReport& r) const {
  const double smoothed = bound_excess * bound_of(model_, now_.smoothing);
  const std::pair<Test, Missed> tests[] = {
      {Test::balance, {"largest force out of balance", r.residual, now_.force_tolerance, "N"}},
      {Test::law,
       {"change of pull that the law of the cloth still asks for", r.tension_change, now_.tension_tolerance, "N/m"}},
      {Test::smoothing, {"error of the pull that smoothing may leave", r.tension_bound, smoothed, "N/m"}},
      {Test::friction,
       {"friction off its law, as a share of its limit", r.threshold_error, now_.friction_tolerance, ""}}};
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
  cloth_and_frame_.set_smoothing(options_.smoothing);
  cloth_and_frame_.follow_wires(s.unknowns);
  cloth_and_frame_.prepare_frame(s);
  cloth_and_frame_.take_state(s);
  cloth_and_frame_.place_nodes(s.unknowns);
  cloth_and_frame_.assemble();
  hold(model_, s, cloth_and_frame_.matrix());
  return cloth_and_frame_.matrix();
}

Buckling Equilibrium::buckling(const Covering& s) {
  // Sliding is left free here: friction would only hold the mode back.
  const Sparse& stiffness = tangent(s);
  if (!linear_.factorise(stiffness)) {
    Buckling at_once;
    at_once.factor = 1;
    return at_once;
  }
  const Sparse geometric = cloth_and_frame_.geometric(s);
  const std::vector<int> held = held_in(model_, s);
  return buckling_of(model_, {stiffness, geometric, held, model_.analysis}, linear_);
}

// Everything a full step along step_.
void Equilibrium::advance(Covering& s) {
  cloth_and_frame_.step(step_);
  for (std::size_t i = 0; i < rub_.size(); ++i) {
    const SlidingPoint& point = model_.unknowns.sliding[i];
    Eigen::Vector2d dq(0, 0);
    for (int k = 0; k < point.unknowns; ++k) dq[k] = step_[point.first_unknown + k];
    s.friction[i] = clip(rub_[i].predicted + rub_[i].stiffness * dq, thresholds_.in_use(i));
    if (point.unknowns == 1) s.friction[i][1] = 0;
  }
  s.unknowns += step_;
}

// On a wild way to balance members may come to forces of any size. Where that leads nowhere they keep those of the state
// before until all else is in balance, and change from there.
SolveReport Equilibrium::solve_from(const Covering& before, Covering& guess, const std::vector<int>& hot_quads,
                                    const PanelLoadLines& lines) {
  const bool held = options_.member_forces_held;
  const SolveReport first = iterate(before, guess, hot_quads, lines, !held);
  if (first.converged || held || first.failed == Test::certainty) return first;
  SolveReport second = iterate(before, guess, hot_quads, lines, false);
  second.iterations += first.iterations;
  return second;
}

SolveReport Equilibrium::iterate(const Covering& before, Covering& guess, const std::vector<int>& hot_quads,
                                 const PanelLoadLines& lines, bool follow) {
  SolveReport report;
  now_ = options_;
  Covering s = guess;
  s.shrink = before.shrink;
  s.axial = before.axial;
  cloth_and_frame_.follow_wires(s.unknowns);
  cloth_and_frame_.prepare_frame(s);
  cloth_and_frame_.take_state(s);
  cloth_and_frame_.place_nodes(s.unknowns);
  const double start = std::max(now_.start_smoothing, now_.smoothing);
  cloth_and_frame_.set_smoothing(all_tight(model_, s, start) ? now_.smoothing : start);
  if (cloth_and_frame_.smoothing() > now_.smoothing) cloth_and_frame_.recentre();
  cloth_and_frame_.heat(hot_quads, lines);
  thresholds_.forget();
  int sharpenings = 0, since = 0;  // iteration at which something more was asked for
  int turns_left = most_turns_of_a_wire * static_cast<int>(model_.wires.size());
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
    if (report.iterations < wires_free_for) cloth_and_frame_.follow_wires(s.unknowns);
    // A first guess need not be near balance.
    if (report.iterations > 0 && follow) cloth_and_frame_.follow_member_forces(s);
    else if (!model_.wires.empty()) cloth_and_frame_.prepare_frame(s);
    cloth_and_frame_.refresh_hot(hot_quads);
    const QuadSums sums = cloth_and_frame_.assemble();
    residual_.setZero();
    cloth_and_frame_.add_frame_force(s.unknowns, residual_);
    add_give(model_, s, residual_);
    if (s.load.size() > 0) residual_ -= s.load;
    rhs_ = residual_;
    cloth_and_frame_.add_nodal(cloth_and_frame_.force(), residual_);
    cloth_and_frame_.add_nodal(cloth_and_frame_.predicted(), rhs_);
    report.threshold_error = add_friction(before, s, report.iterations - since);
    hold(model_, s, residual_);
    hold(model_, s, rhs_);
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
    const bool balanced = passes(report) && report.iterations > 0 && cloth_and_frame_.smoothing() <= now_.smoothing;
    const int wrong_wire = balanced ? cloth_and_frame_.first_wire_off(s.unknowns) : -1;
    if (wrong_wire >= 0) {
      if (turns_left-- == 0) {
        report.missed = {"wires that are neither taut nor slack", 1, 0, ""};
        return give_up(true);
      }
      cloth_and_frame_.turn_wire(wrong_wire);
      since = report.iterations;
      continue;
    }
    if (balanced && !follow && !now_.member_forces_held) {
      follow = true;
      since = report.iterations;
    } else if (balanced) {
      cloth_and_frame_.give_state(s);
      const Assembly& found = cloth_and_frame_;
      certify(model_, {before, s, found.points(), found.places(), found.frame(), thresholds_}, report);
      report.converged = now_.tension_bound <= 0 || report.tension_bound <= now_.tension_bound;
      if (report.converged) {
        report.missed = {};
        break;
      }
      uncertain = {"bound on the error of the pull", report.tension_bound, now_.tension_bound, "N/m"};
      if (sharpenings++ == most_sharpenings || !tighten(report)) return give_up(true);
      since = report.iterations;
    }
    hold(model_, s, cloth_and_frame_.matrix());
    if (!linear_.factorise(cloth_and_frame_.matrix())) {
      if (report.missed.what.empty()) report.missed = {"directions without stiffness", 1, 0, ""};
      return give_up(false);
    }
    rhs_ = -rhs_;
    linear_.solve(rhs_, step_);
    advance(s);
    if (bound <= centred * bound_of(model_, cloth_and_frame_.smoothing()))
      cloth_and_frame_.set_smoothing(std::max(now_.smoothing, fall * cloth_and_frame_.smoothing()));
  }
  if (!report.converged) return give_up(true);
  accept(s);
  guess = std::move(s);
  return report;
}

}  // namespace evenpull::inline solver
