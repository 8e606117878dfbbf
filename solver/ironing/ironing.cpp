#include "solver/ironing/ironing.hpp"

#include "solver/equilibrium/giving_up.hpp"
#include "solver/equilibrium/holding.hpp"
#include "solver/equilibrium/mechanism.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

// Smoothing at settled states relative to the steps, where these are not certified themselves.
constexpr double fine_share = 0.01;

// Path of smoothings [N/m] that a step takes when the plain attempt fails, from very smooth, by way of the usual one, down
// to the wanted one.
std::vector<double> path_to(double wanted, double usual) {
  std::vector<double> path;
  for (double times : {300.0, 30.0, 5.0, 1.0, 0.2, 0.04, 0.01, 3e-3, 1e-3})
    if (times * usual > wanted) path.push_back(times * usual);
  path.push_back(wanted);
  return path;
}

SolveOptions with_smoothing(SolveOptions a, double beta) {
  a.smoothing = beta;
  a.start_smoothing = 0;
  return a;
}

bool is_certified(const SolveOptions& a) { return a.tension_bound > 0; }

// Nothing is read off loose cloth as it was laid on, whose strain need not match to be in balance: no certificate.
SolveOptions uncertified(SolveOptions a) {
  a.tension_bound = 0;
  return a;
}

}  // namespace

Ironing::Ironing(const Model& m, const SolveOptions& a)
    : model_(m),
      options_(a),
      normal_(m, a),
      fine_(m, with_smoothing(a, is_certified(a) ? a.smoothing : a.smoothing * fine_share)),
      lines_(m.triangles.size()) {
  // The row of the seam is glued; what lies behind a node on the nose lies on the nose.
  for (const Quad& q : m.panel.quads)
    over_nose_.push_back(m.panel.nodes[q.nodes[1]].on_nose && m.panel.nodes[q.nodes[2]].on_nose);
}

Covering Ironing::begin() {
  check_stands(model_);
  Covering s = laid_on(model_);
  Equilibrium loose(model_, uncertified(options_));
  const SolveName label = "cloth as laid on";
  const StepReport laid = attempt(loose, s, {}, label);
  if (laid.outcome == Outcome::buckled) throw given_up(model_, laid.solve, label);
  bound_way_ = 0;
  return s;
}

void Ironing::note(const SolveReport& r) {
  worst_residual_ = std::max(worst_residual_, r.residual);
  worst_threshold_ = std::max(worst_threshold_, r.threshold_error);
}

StepReport Ironing::attempt(Equilibrium& first, Covering& s, const std::vector<int>& hot, const SolveName& label) {
  StepReport out;
  out.solve = first.solve(s, hot, lines_);
  iterations_ += out.solve.iterations;
  bool stood = false;  // at the usual smoothing
  if (!out.solve.converged) {
    // The friction force and the origin of slip must stay those of the last accepted state, so each try starts there
    // in these and from the last try in all else.
    Covering guess = s;
    const SolveOptions& wished = first.options();
    const double usual = usual_options(model_).smoothing;
    const std::vector<double> path = path_to(wished.smoothing, usual);
    for (double beta : path) {
      SolveOptions now = with_smoothing(beta > wished.smoothing ? uncertified(wished) : wished, beta);
      // Pull and wrinkle strain come from far less smoothing: a first iteration at twice this one makes them anew.
      if (beta == path.front()) now.start_smoothing = 2 * beta;
      Equilibrium e(model_, now);
      out.solve = e.solve_from(s, guess, hot, lines_);
      iterations_ += out.solve.iterations;
      if (!out.solve.converged) break;
      stood = beta <= usual;
    }
    // A frame that stands at the usual smoothing has not buckled below it: the iteration failed.
    out.solve.stable = out.solve.stable || stood;
    if (out.solve.converged) s = guess;
  }
  if (out.solve.converged) {
    note(out.solve);
    bound_way_ = std::max(bound_way_, out.solve.tension_bound);
    return out;
  }
  const bool unbalanced = !stood && out.solve.failed == Test::balance;
  if (!out.solve.stable || (unbalanced && stands_under_forces_of(s, hot, first.options()))) {
    out.outcome = Outcome::buckled;
    return out;
  }
  throw given_up(model_, out.solve, label);
}

// True where the frame is in balance as long as its members keep the forces they had, or gives way even then, while no
// balance was found under those they come to have: what they do to each other takes away what holds the frame. It gives
// way; to call that an iteration that failed would be to say less than is known.
bool Ironing::stands_under_forces_of(const Covering& before, const std::vector<int>& hot, const SolveOptions& wished) {
  SolveOptions held = uncertified(wished);
  held.member_forces_held = true;
  Covering trial = before;
  const SolveReport r = Equilibrium(model_, held).solve(trial, hot, lines_);
  iterations_ += r.iterations;
  return r.converged || !r.stable;
}

StepReport Ironing::iron(Covering& s, const std::vector<HotZone>& zones, const SolveName& label) {
  std::vector<int> hot;
  for (const auto& [zone, heat] : zones)
    for (int q : model_.panel.zones[zone].quads) {
      hot.push_back(q);
      const PassLines& h = over_nose_[q] && heat->nose ? heat->nose->lines : heat->open.lines;
      for (int t = 4 * q; t < 4 * q + 4; ++t)
        for (int d = 0; d < 2; ++d) lines_[t][d] = load_line(h[d], s.shrink[t][d], model_.the_case.cloth.creep_share);
    }
  return attempt(normal_, s, hot, label);
}

PassLine Ironing::zone_line(int zone, int d, const PassHeat& heat) const {
  const Zone& z = model_.panel.zones[zone];
  PassLine mean{0, 0, 0, 0};
  for (int q : z.quads) {
    const PassLine& l = (over_nose_[q] && heat.nose ? heat.nose->lines : heat.open.lines)[d];
    const double share = model_.panel.quads[q].area / z.area;
    mean.kept += share * l.kept;
    mean.a += share * l.a;
    mean.b += share * l.b;
    mean.creep_pull += share * l.creep_pull;
  }
  return mean;
}

const PassHeat& Ironing::heat(int stage, int pass, double dose, int full_passes, std::optional<double> temperature) {
  const Case& c = model_.the_case;
  const double t = temperature.value_or(c.stages[stage].temperature), contact = stated_contact(c, stage, pass, dose);
  const std::array<double, 4> key{t, dose, contact, static_cast<double>(full_passes)};
  const auto known = heats_.find(key);
  if (known != heats_.end()) return known->second;
  const PassHeat meant = pass_heat(c, t, dose, contact);
  const double warmer = c.iron.swing * top_of_swing_met(full_passes);
  return heats_.emplace(key, warmer > 0 ? as_it_went(c, meant, warmer, 1) : meant).first->second;
}

StepReport Ironing::settle(Covering& s, const SolveName& label) {
  StepReport out = attempt(normal_, s, {}, label);
  if (out.outcome == Outcome::buckled) return out;
  if (!is_certified(options_)) {
    // Down to the fine smoothing in steps of ten: each is a good start for the next. Where one fails the coarser answer
    // stands, with its own, wider bound.
    Equilibrium between(model_, with_smoothing(options_, options_.smoothing * std::sqrt(fine_share)));
    for (Equilibrium* e : {&between, &fine_}) {
      const SolveReport finer = e->solve(s, {}, lines_);
      iterations_ += finer.iterations;
      if (!finer.converged) break;
      out.solve = finer;
    }
    note(out.solve);
  }
  bound_settled_ = std::max(bound_settled_, out.solve.tension_bound);
  return out;
}

StepReport Ironing::release(Covering& s, const SolveName& label) {
  change_hands(model_, Held::in_use, s);
  return settle(s, label);
}

}  // namespace evenpull::inline solver
