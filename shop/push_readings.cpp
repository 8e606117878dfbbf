#include "shop/push_readings.hpp"

#include "sequencer/numbers/normals.hpp"
#include "sequencer/numbers/sobol.hpp"
#include "sequencer/sure/frame_range.hpp"
#include "solver/frame/joint_turn.hpp"

#include <Eigen/Cholesky>
#include <Eigen/QR>

#include <boost/math/distributions/chi_squared.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

namespace evenpull {
namespace {

constexpr double farthest = 4;            // sigmas to which a factor is followed: beyond, a section is stated wrongly
constexpr double least_end_share = 1e-4;  // of a range drawn evenly: what lies nearer to its ends counts as there
constexpr double chance_of_alarm = 0.02;  // as for readings of sag: 2 in 100
constexpr double end_of_95 = 0.025;
constexpr int points_a_term = 3;
constexpr int kept_apart = 5;  // every fifth point measures the error and is left out of the fit that it measures
constexpr double even_enough = 0.05;  // a movement that never falls below this share of its most has a logarithm
constexpr int draws = 4096;
constexpr double share_before = 0.3,
                 wider = 1.4;  // of the draws, those from before the readings; of the rest, their spread
constexpr unsigned draws_seed = 31;
constexpr int most_rounds = 40;
constexpr double least_damping = 1e-6, most_damping = 1e8, settled = 1e-9, step_of_slope = 1e-3;

int degree_for(int factors) {
  constexpr int degrees[] = {0, 8, 7, 5, 4, 4};
  return factors < 6 ? degrees[factors] : 3;
}

double share_below(double sigmas) { return 0.5 * std::erfc(-sigmas / std::sqrt(2.0)); }

// All products of powers whose sum is at most `degree`.
std::vector<std::vector<int>> terms_up_to(int factors, int degree) {
  std::vector<std::vector<int>> out{std::vector<int>(static_cast<std::size_t>(factors), 0)};
  for (int f = 0; f < factors; ++f) {
    const std::vector<std::vector<int>> before = out;
    for (const auto& term : before) {
      const int used = std::accumulate(term.begin(), term.end(), 0);
      for (int p = 1; used + p <= degree; ++p) {
        out.push_back(term);
        out.back()[static_cast<std::size_t>(f)] = p;
      }
    }
  }
  return out;
}

constexpr std::size_t most_degree = 8;
using Chebyshev = std::array<double, most_degree + 1>;

Chebyshev chebyshev_at(double x) {
  Chebyshev t{1, x};
  for (std::size_t k = 2; k < t.size(); ++k) t[k] = 2 * x * t[k - 1] - t[k - 2];
  return t;
}

double to_unit(double sigmas, bool by_share) {
  return by_share ? std::clamp(2 * share_below(sigmas) - 1, -1.0, 1.0) : std::clamp(sigmas / farthest, -1.0, 1.0);
}

double from_unit(double x, bool by_share) {
  if (!by_share) return farthest * x;
  return normal_quantile(std::clamp(0.5 * (x + 1), least_end_share, 1 - least_end_share));
}

// Evenly on the circle above: where Chebyshev polynomials are even in size.
std::vector<Eigen::VectorXd> points_for(const std::vector<char>& by_share, int count) {
  std::vector<Eigen::VectorXd> out;
  for (const auto& u : sobol_points(count, static_cast<int>(by_share.size()))) {
    Eigen::VectorXd z(static_cast<Eigen::Index>(by_share.size()));
    for (std::size_t k = 0; k < by_share.size(); ++k)
      z[static_cast<Eigen::Index>(k)] = from_unit(-std::cos(M_PI * u[k]), by_share[k]);
    out.push_back(std::move(z));
  }
  return out;
}

Eigen::VectorXd read_of(const std::vector<PushTest>& tests) {
  std::vector<double> out;
  for (const PushTest& t : tests)
    for (const PushReading& r : t.readings) out.push_back(r.down);
  return Eigen::Map<Eigen::VectorXd>(out.data(), static_cast<Eigen::Index>(out.size()));
}

/// Chi-square of readings and factors together, its slopes, and its least value.
class Misfit {
 public:
  Misfit(std::function<Eigen::VectorXd(const Eigen::VectorXd&)> movements, Eigen::VectorXd read, Eigen::VectorXd off)
      : movements_(std::move(movements)), read_(std::move(read)), off_(std::move(off)) {}

  Eigen::VectorXd missed(const Eigen::VectorXd& z) const { return (movements_(z) - read_).cwiseQuotient(off_); }
  double at(const Eigen::VectorXd& z) const { return missed(z).squaredNorm() + z.squaredNorm(); }

  Eigen::MatrixXd slopes(const Eigen::VectorXd& z) const {
    Eigen::MatrixXd j(read_.size(), z.size());
    for (Eigen::Index k = 0; k < z.size(); ++k) {
      Eigen::VectorXd up = z, down = z;
      up[k] += step_of_slope, down[k] -= step_of_slope;
      j.col(k) = (missed(up) - missed(down)) / (2 * step_of_slope);
    }
    return j;
  }

  // Half the second derivative (Gauss-Newton).
  Eigen::MatrixXd curvature(const Eigen::VectorXd& z) const {
    const Eigen::MatrixXd j = slopes(z);
    return j.transpose() * j + Eigen::MatrixXd::Identity(z.size(), z.size());
  }

  // Levenberg and Marquardt, from memory.
  Eigen::VectorXd least(Eigen::VectorXd z) const {
    double now = at(z), damping = 1e-3;
    for (int round = 0; round < most_rounds && damping < most_damping; ++round) {
      const Eigen::MatrixXd j = slopes(z);
      const Eigen::VectorXd down = -(j.transpose() * missed(z) + z);
      Eigen::MatrixXd h = j.transpose() * j + Eigen::MatrixXd::Identity(z.size(), z.size());
      bool better = false;
      double gained = 0;
      while (!better && damping < most_damping) {
        Eigen::MatrixXd damped = h;
        damped.diagonal() *= 1 + damping;
        Eigen::VectorXd next = z + damped.llt().solve(down);
        next = next.cwiseMax(-farthest).cwiseMin(farthest);
        const double there = at(next);
        better = there < now;
        if (better) gained = now - there, z = next, now = there, damping = std::max(least_damping, damping / 10);
        else damping *= 10;
      }
      if (!better || gained < settled * (1 + now)) break;
    }
    return z;
  }

 private:
  std::function<Eigen::VectorXd(const Eigen::VectorXd&)> movements_;
  Eigen::VectorXd read_, off_;
};

// From as stated and from either end of what may turn: movement against stiffness of joints is a step, and a start on
// its flat part goes nowhere.
Eigen::VectorXd best_fit(const Misfit& misfit, int factors) {
  Eigen::VectorXd best = misfit.least(Eigen::VectorXd::Zero(factors));
  for (const double start : {-1.0, 1.0}) {
    const Eigen::VectorXd z = misfit.least(Eigen::VectorXd::Constant(factors, start));
    if (misfit.at(z) < misfit.at(best)) best = z;
  }
  return best;
}

struct Weighed {
  std::vector<Eigen::VectorXd> at;
  std::vector<double> weight;
};

// Draws of a mixture: round the best fit, and as before any reading. Weights: what they should be drawn by over what
// they are.
Weighed draw_round(const Misfit& misfit, const Eigen::VectorXd& best) {
  const Eigen::Index n = best.size();
  const Eigen::MatrixXd curvature = misfit.curvature(best) / (wider * wider);
  const Eigen::LLT<Eigen::MatrixXd> root(curvature);
  const Eigen::MatrixXd upper = root.matrixU();
  const double log_det = upper.diagonal().array().log().sum();
  Weighed out;
  std::vector<double> logs;
  for (const auto& u : sobol_points(draws, static_cast<int>(n) + 1, draws_seed)) {
    Eigen::VectorXd x(n);
    for (Eigen::Index k = 0; k < n; ++k) x[k] = normal_quantile(u[static_cast<std::size_t>(k)]);
    const bool before = u[static_cast<std::size_t>(n)] < share_before;
    const Eigen::VectorXd z = before ? x : Eigen::VectorXd(best + upper.triangularView<Eigen::Upper>().solve(x));
    const double as_before = std::log(share_before) - 0.5 * z.squaredNorm();
    const double round = std::log(1 - share_before) + log_det - 0.5 * (upper * (z - best)).squaredNorm();
    const double most = std::max(as_before, round);
    const double drawn_by = most + std::log(std::exp(as_before - most) + std::exp(round - most));
    out.at.push_back(z);
    logs.push_back(-0.5 * misfit.at(z) - drawn_by);
  }
  const double most = *std::max_element(logs.begin(), logs.end());
  double sum = 0;
  for (double l : logs) out.weight.push_back(std::exp(l - most)), sum += out.weight.back();
  for (double& w : out.weight) w /= sum;
  return out;
}

// A share of the weight lies below.
double weighed_quantile(const Weighed& w, Eigen::Index factor, double share) {
  std::vector<std::size_t> order(w.at.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(),
            [&](std::size_t a, std::size_t b) { return w.at[a][factor] < w.at[b][factor]; });
  double below = 0;
  for (const std::size_t i : order)
    if ((below += w.weight[i]) >= share) return w.at[i][factor];
  return w.at[order.back()][factor];
}

PushKnown known_of(const Weighed& w, Eigen::Index factor) {
  PushKnown k;
  double square = 0;
  for (std::size_t i = 0; i < w.at.size(); ++i) {
    k.mean += w.weight[i] * w.at[i][factor];
    square += w.weight[i] * w.at[i][factor] * w.at[i][factor];
  }
  k.deviation = std::sqrt(std::max(0.0, square - k.mean * k.mean));
  k.low = weighed_quantile(w, factor, end_of_95), k.high = weighed_quantile(w, factor, 1 - end_of_95);
  return k;
}

// What a reading may be off by, the surface's own error with it.
Eigen::VectorXd off_of(const PushSurface& surface, const std::vector<PushTest>& tests, const PushErrors& errors) {
  return (push_sigmas(tests, errors).cwiseAbs2() + surface.error().cwiseAbs2()).cwiseSqrt();
}

Misfit misfit_of(const PushSurface& surface, const Eigen::VectorXd& times, const std::vector<PushTest>& tests,
                 const PushErrors& errors) {
  return {[&surface, times](const Eigen::VectorXd& z) { return Eigen::VectorXd(surface.at(z).cwiseProduct(times)); },
          read_of(tests), off_of(surface, tests, errors)};
}

std::vector<double> plain(const Eigen::VectorXd& v) { return {v.data(), v.data() + v.size()}; }

}  // namespace

std::vector<PushFactor> push_factors(const Case& c, const Panel& p, bool each_group) {
  std::vector<PushFactor> out;
  if (each_group) {
    for (const MemberGroup g : {MemberGroup::edges, MemberGroup::spars, MemberGroup::ribs})
      if (std::any_of(p.members.begin(), p.members.end(), [&](const FrameMember& m) { return group_of(m.role) == g; }))
        out.push_back({PushFactor::What::group, g, {}});
  } else {
    out.push_back({});
  }
  const std::vector<JointKind> kinds = joints_that_vary(c);
  for (const JointKind k : kinds) out.push_back({PushFactor::What::joints, {}, k});
  if (numbers_of_frame(c) > static_cast<int>(kinds.size())) out.push_back({PushFactor::What::supports, {}, {}});
  return out;
}

Case joints_drawn(const Case& c, const std::vector<PushFactor>& factors, const Eigen::VectorXd& sigmas) {
  std::vector<double> of_frame;
  for (std::size_t i = 0; i < factors.size(); ++i)
    if (factors[i].what == PushFactor::What::joints || factors[i].what == PushFactor::What::supports)
      of_frame.push_back(sigmas[static_cast<Eigen::Index>(i)]);
  of_frame.resize(static_cast<std::size_t>(numbers_of_frame(c)), 0);  // what is tried beside the factors stays as it is
  Case out = c;
  if (!of_frame.empty()) draw_frame(out, of_frame.data());
  return out;
}

FrameChange stiffness_drawn(const Case& c, const std::vector<PushFactor>& factors, const Eigen::VectorXd& sigmas) {
  FrameChange out;
  for (std::size_t i = 0; i < factors.size(); ++i) {
    const double by = std::exp(c.spreads.member_stiffness * sigmas[static_cast<Eigen::Index>(i)]);
    if (factors[i].what == PushFactor::What::all_members) out.stiffness.fill(by);
    if (factors[i].what == PushFactor::What::group) out.stiffness[static_cast<std::size_t>(factors[i].group)] = by;
  }
  return out;
}

Eigen::VectorXd push_movements(const PushFrame& frame, const Case& c, const std::vector<PushFactor>& factors,
                               const std::vector<PushTest>& tests, const Eigen::VectorXd& sigmas) {
  std::vector<PushLoad> loads;
  for (const PushTest& t : tests) loads.push_back(t.load);
  const auto pushed = frame.push(joints_drawn(c, factors, sigmas), stiffness_drawn(c, factors, sigmas), loads);
  std::vector<double> out;
  for (std::size_t t = 0; t < tests.size(); ++t)
    for (const PushReading& r : tests[t].readings) out.push_back(pushed[t].down[static_cast<std::size_t>(r.place)]);
  return Eigen::Map<Eigen::VectorXd>(out.data(), static_cast<Eigen::Index>(out.size()));
}

PushSurface::PushSurface(const std::vector<PushFactor>& factors, const Exact& exact) {
  for (const PushFactor& f : factors) by_share_.push_back(f.what == PushFactor::What::joints);
  powers_ = terms_up_to(static_cast<int>(factors.size()), degree_for(static_cast<int>(factors.size())));
  const int count = std::max(points_a_term * static_cast<int>(powers_.size()), 2 * kept_apart);
  const std::vector<Eigen::VectorXd> points = points_for(by_share_, count);
  Eigen::MatrixXd terms(count, static_cast<Eigen::Index>(powers_.size())), values;
  for (int i = 0; i < count; ++i) {
    const Eigen::VectorXd v = exact(points[static_cast<std::size_t>(i)]);
    if (i == 0) values.resize(count, v.size());
    values.row(i) = v;
    terms.row(i) = row(points[static_cast<std::size_t>(i)]);
  }
  Eigen::MatrixXd fitted = values;
  for (Eigen::Index r = 0; r < values.cols(); ++r) {
    const double low = values.col(r).minCoeff(), high = values.col(r).maxCoeff();
    const double sign = high > -low ? 1 : -1, most = std::max(std::abs(low), std::abs(high));
    signs_.push_back(sign);
    logs_.push_back((sign * values.col(r)).minCoeff() > even_enough * most);
    if (logs_.back()) fitted.col(r) = (sign * values.col(r)).array().log();
  }
  // The error first, by points that its fit did not see.
  std::vector<int> seen, unseen;
  for (int i = 0; i < count; ++i) (i % kept_apart == kept_apart - 1 ? unseen : seen).push_back(i);
  const auto rows = [](const Eigen::MatrixXd& of, const std::vector<int>& which) {
    Eigen::MatrixXd out(static_cast<Eigen::Index>(which.size()), of.cols());
    for (std::size_t i = 0; i < which.size(); ++i) out.row(static_cast<Eigen::Index>(i)) = of.row(which[i]);
    return out;
  };
  coefficients_ = rows(terms, seen).colPivHouseholderQr().solve(rows(fitted, seen));
  error_ = Eigen::VectorXd::Zero(values.cols());
  for (const int i : unseen)
    error_ += (at(points[static_cast<std::size_t>(i)]) - values.row(i).transpose()).cwiseAbs2();
  error_ = (error_ / static_cast<double>(unseen.size())).cwiseSqrt();
  coefficients_ = terms.colPivHouseholderQr().solve(fitted);
}

Eigen::VectorXd PushSurface::row(const Eigen::VectorXd& sigmas) const {
  Eigen::VectorXd out = Eigen::VectorXd::Ones(static_cast<Eigen::Index>(powers_.size()));
  for (std::size_t k = 0; k < by_share_.size(); ++k) {
    const Chebyshev of = chebyshev_at(to_unit(sigmas[static_cast<Eigen::Index>(k)], by_share_[k]));
    for (std::size_t t = 0; t < powers_.size(); ++t)
      out[static_cast<Eigen::Index>(t)] *= of[static_cast<std::size_t>(powers_[t][k])];
  }
  return out;
}

Eigen::VectorXd PushSurface::at(const Eigen::VectorXd& sigmas) const {
  Eigen::VectorXd out = coefficients_.transpose() * row(sigmas);
  for (Eigen::Index r = 0; r < out.size(); ++r)
    if (logs_[static_cast<std::size_t>(r)]) out[r] = signs_[static_cast<std::size_t>(r)] * std::exp(out[r]);
  return out;
}

Eigen::VectorXd push_sigmas(const std::vector<PushTest>& tests, const PushErrors& errors) {
  Eigen::VectorXd out = read_of(tests);
  for (double& v : out) v = std::hypot(errors.reading, errors.share * v);
  return out;
}

double allowed_misfit(int readings) {
  return boost::math::quantile(boost::math::complement(boost::math::chi_squared(readings), chance_of_alarm));
}

PushFit best_push_fit(const PushSurface& surface, const Eigen::VectorXd& times, const std::vector<PushTest>& tests,
                      const PushErrors& errors) {
  const Misfit misfit = misfit_of(surface, times, tests, errors);
  PushFit out{best_fit(misfit, surface.factors()), 0};
  out.misfit = misfit.at(out.at);
  return out;
}

PushAnswer what_pushes_say(const PushSurface& surface, const std::vector<PushTest>& tests, const PushErrors& errors) {
  const Eigen::VectorXd read = read_of(tests);
  const Misfit misfit = misfit_of(surface, Eigen::VectorXd::Ones(read.size()), tests, errors);
  PushAnswer out;
  out.best = best_fit(misfit, surface.factors());
  const Weighed weighed = draw_round(misfit, out.best);
  out.mean.resize(out.best.size());
  for (Eigen::Index k = 0; k < out.best.size(); ++k) {
    out.factors.push_back(known_of(weighed, k));
    out.mean[k] = out.factors.back().mean;
  }
  out.read = plain(read), out.off = plain(off_of(surface, tests, errors));
  out.explained = plain(surface.at(out.best));
  out.misfit = misfit.at(out.best);
  out.allowed = allowed_misfit(static_cast<int>(read.size()));
  return out;
}

}  // namespace evenpull
