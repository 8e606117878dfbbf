#include "shop/push_choice.hpp"

#include "sequencer/numbers/normals.hpp"
#include "sequencer/sure/frame_range.hpp"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>
#include <limits>

namespace evenpull {
namespace {

constexpr std::size_t most_pushes = 3, few = 3;
constexpr double third_adds = 0.1;  // of what is known by two weights, that a third must add
constexpr double unlike =
    0.25;  // of the panel's size: a second place nearer to the weight than this reads the same again
constexpr double worth_reading = 3;  // sigmas of a reading: a second place that moves less tells nothing
constexpr int frames_drawn = 64;     // for the range that is expected
constexpr unsigned frames_seed = 7;
constexpr double outer_share = 0.025;

// Where members cross ribs, which anybody finds, and the middles of ribs; half-way between ribs too where those are
// few.
std::vector<FramePlace> candidates(const Case& c, const PushFrame& frame) {
  std::vector<FramePlace> out;
  const bool few_ribs = c.ribs.size() <= few;
  const auto add = [&](const FramePlace& p) {
    if (frame.has(p) && frame.moves(p)) out.push_back(p);
  };
  for (std::size_t m = 0; m < c.span_members.size(); ++m)
    for (std::size_t r = 0; r < c.ribs.size(); ++r) {
      add({false, static_cast<int>(m), c.ribs[r].station});
      if (few_ribs && r + 1 < c.ribs.size())
        add({false, static_cast<int>(m), 0.5 * (c.ribs[r].station + c.ribs[r + 1].station)});
    }
  for (std::size_t r = 0; r < c.ribs.size(); ++r)
    add({true, static_cast<int>(r), 0.5 * frame.rib_length(static_cast<int>(r))});
  return out;
}

/// Movements under 1 N at each place, of all places, and how they follow the factors.
struct Answers {
  std::vector<std::vector<double>> down;            ///< [load][place], m/N, as stated
  std::vector<std::vector<Eigen::VectorXd>> slope;  ///< a sigma of each factor
  std::vector<double> use;                          ///< of each load, a newton, worst
};

std::vector<PushLoad> one_newton_everywhere(std::size_t places) {
  std::vector<PushLoad> out;
  for (std::size_t i = 0; i < places; ++i) out.push_back({static_cast<int>(i), 1});
  return out;
}

Answers answers_of(const Case& c, const PushFrame& frame, const std::vector<PushFactor>& factors, std::size_t places) {
  const auto loads = one_newton_everywhere(places);
  const auto n = static_cast<Eigen::Index>(factors.size());
  Answers out;
  out.use.assign(places, 0);
  const auto note_use = [&](const std::vector<Pushed>& pushed) {
    for (std::size_t i = 0; i < places; ++i) out.use[i] = std::max(out.use[i], pushed[i].use);
  };
  const auto stated = frame.push(c, {}, loads, true);
  note_use(stated);
  for (const JointEnd end : {JointEnd::softest, JointEnd::stiffest})
    note_use(frame.push(with_joints_at(c, end), {}, loads, true));
  for (const Pushed& p : stated) out.down.push_back(p.down);
  out.slope.assign(places, std::vector<Eigen::VectorXd>(places, Eigen::VectorXd::Zero(n)));
  for (Eigen::Index k = 0; k < n; ++k) {
    const Eigen::VectorXd one = Eigen::VectorXd::Unit(n, k);
    const auto up = frame.push(joints_drawn(c, factors, one), stiffness_drawn(c, factors, one), loads);
    const auto down = frame.push(joints_drawn(c, factors, -one), stiffness_drawn(c, factors, -one), loads);
    for (std::size_t i = 0; i < places; ++i)
      for (std::size_t j = 0; j < places; ++j) out.slope[i][j][k] = 0.5 * (up[i].down[j] - down[i].down[j]);
  }
  return out;
}

double largest(const std::vector<double>& v) {
  double most = 0;
  for (double x : v) most = std::max(most, std::abs(x));
  return most;
}

double log_det(const Eigen::MatrixXd& m) {
  return 2 * Eigen::MatrixXd(m.llt().matrixL()).diagonal().array().log().sum();
}

// What one reading adds to what is known, in sigmas before.
Eigen::MatrixXd information(const Answers& a, std::size_t load, std::size_t place, double newtons,
                            const PushErrors& errors) {
  const double off = std::hypot(errors.reading, errors.share * newtons * a.down[load][place]);
  const Eigen::VectorXd s = newtons / off * a.slope[load][place];
  return s * s.transpose();
}

struct Pick {
  std::size_t load = 0, other = 0;
  double kilograms = 0;
  double known = -std::numeric_limits<double>::infinity();
  Eigen::MatrixXd after;
};

double size_of(const Panel& p) {
  Eigen::Vector3d low = p.joints.front().position, high = low;
  for (const Joint& j : p.joints) low = low.cwiseMin(j.position), high = high.cwiseMax(j.position);
  return (high - low).norm();
}

Pick best_pick(const PushFrame& frame, const std::vector<FramePlace>& places, const Answers& a,
               const PushErrors& errors, const Eigen::MatrixXd& known, const std::vector<std::size_t>& taken,
               double least_movement) {
  const double apart = unlike * size_of(frame.panel());
  Pick best;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double kilograms = heaviest_weight(a.use[i], largest(a.down[i]));
    if (kilograms <= 0 || std::find(taken.begin(), taken.end(), i) != taken.end()) continue;
    if (gravity * kilograms * a.down[i][i] < least_movement) continue;
    const Eigen::MatrixXd own = known + information(a, i, i, gravity * kilograms, errors);
    for (std::size_t j = 0; j < places.size(); ++j) {
      if ((frame.position(places[i]) - frame.position(places[j])).norm() < apart) continue;
      if (gravity * kilograms * std::abs(a.down[i][j]) < worth_reading * errors.reading) continue;
      const Eigen::MatrixXd after = own + information(a, i, j, gravity * kilograms, errors);
      const double says = log_det(after);
      if (says > best.known) best = {i, j, kilograms, says, after};
    }
    if (log_det(own) > best.known) best = {i, i, kilograms, log_det(own), own};
  }
  return best;
}

// What 95 of 100 frames would read, by draws of the factors.
void add_ranges(const Case& c, PushFrame& frame, PushChoice& out) {
  std::vector<FramePlace> places;
  std::vector<PushTest> tests;
  for (const ChosenPush& p : out.pushes) {
    PushTest t{{static_cast<int>(places.size()), gravity * p.kilograms}, {}};
    places.push_back(p.load);
    for (const ChosenRead& r : p.reads) {
      t.readings.push_back({static_cast<int>(places.size()), 0});
      places.push_back(r.place);
    }
    tests.push_back(t);
  }
  frame.set_places(places);
  const auto n = static_cast<Eigen::Index>(out.factors.size());
  std::vector<std::vector<double>> drawn;
  for (const auto& u : sobol_points(frames_drawn, static_cast<int>(n), frames_seed)) {
    Eigen::VectorXd z(n);
    for (Eigen::Index k = 0; k < n; ++k) z[k] = normal_quantile(u[static_cast<std::size_t>(k)]);
    const Eigen::VectorXd moved = push_movements(frame, c, out.factors, tests, z);
    drawn.resize(static_cast<std::size_t>(moved.size()));
    for (Eigen::Index i = 0; i < moved.size(); ++i) drawn[static_cast<std::size_t>(i)].push_back(moved[i]);
  }
  std::size_t i = 0;
  for (ChosenPush& p : out.pushes)
    for (ChosenRead& r : p.reads) {
      auto& d = drawn[i++];
      std::sort(d.begin(), d.end());
      const auto outer = static_cast<std::size_t>(outer_share * frames_drawn);
      r.low = d[outer], r.high = d[d.size() - 1 - outer];
    }
}

}  // namespace

const std::vector<double>& usual_weights() {
  static const std::vector<double> list{0.1, 0.2, 0.5, 1, 2, 5, 10, 20};
  return list;
}

double heaviest_weight(double use_per_newton, double movement_per_newton) {
  double best = 0;
  for (const double kg : usual_weights())
    if (gravity * kg * use_per_newton <= most_push_use && gravity * kg * movement_per_newton <= most_push_movement)
      best = kg;
  return best;
}

PushChoice choose_pushes(const Case& c, PushFrame& frame, bool each_group, const PushErrors& errors) {
  PushChoice out;
  out.factors = push_factors(c, frame.panel(), each_group);
  const std::vector<FramePlace> places = candidates(c, frame);
  frame.set_places(places);
  const Answers a = answers_of(c, frame, out.factors, places.size());
  const auto n = static_cast<Eigen::Index>(out.factors.size());
  Eigen::MatrixXd known = Eigen::MatrixXd::Identity(n, n);
  std::vector<std::size_t> taken;
  while (taken.size() < most_pushes) {
    Pick pick = best_pick(frame, places, a, errors, known, taken, least_push_movement);
    if (pick.kilograms <= 0) pick = best_pick(frame, places, a, errors, known, taken, 0);
    if (pick.kilograms <= 0) break;
    if (taken.size() == most_pushes - 1 && pick.known < (1 + third_adds) * log_det(known)) break;
    known = pick.after;
    taken.push_back(pick.load);
    ChosenPush push{places[pick.load], pick.kilograms, gravity * pick.kilograms * a.use[pick.load], {}};
    push.reads.push_back({places[pick.load], gravity * pick.kilograms * a.down[pick.load][pick.load]});
    if (pick.other != pick.load)
      push.reads.push_back({places[pick.other], gravity * pick.kilograms * a.down[pick.load][pick.other]});
    out.pushes.push_back(std::move(push));
  }
  const Eigen::MatrixXd left = known.llt().solve(Eigen::MatrixXd::Identity(n, n));
  for (Eigen::Index k = 0; k < n; ++k) out.deviation_after.push_back(std::sqrt(left(k, k)));
  add_ranges(c, frame, out);
  return out;
}

}  // namespace evenpull
