#include "sequencer/sure/outcome_model.hpp"

#include "sequencer/replay/loose_cloth.hpp"
#include "sequencer/sure/damage_study.hpp"
#include "sequencer/sure/error_bars.hpp"
#include "sequencer/sure/joint_draws.hpp"
#include "sequencer/sure/outcome_logs.hpp"
#include "sequencer/sure/scenario.hpp"
#include "sequencer/sure/shape_readings.hpp"
#include "sequencer/sure/tail_fit.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <functional>

namespace evenpull::inline sequencer {
namespace {

constexpr double most_beyond_fit = 2;  // of runs not fitted over those fitted
constexpr double most_fallen = 0.1;    // share of runs that gave way before a stage from which readings come
constexpr double largest_shift = 1.5;  // 4.5 times the use: beyond it the model is not that of these chances
constexpr int halvings = 24;

double log_pull(const Outturn& o, const Outturn& planned, const OutcomeModel::Pull& p) {
  const auto s = static_cast<std::size_t>(p.stage), k = static_cast<std::size_t>(p.gauge);
  return std::log(std::max(next_to_nothing, o.bay_pull[s][k]) / std::max(next_to_nothing, planned.bay_pull[s][k]));
}

double log_shape(const Outturn& o, const Outturn& planned, const OutcomeModel::Shape& h) {
  const auto s = static_cast<std::size_t>(h.stage);
  return std::log(std::max(h.least, shape_value(o.end[s], h.limit)) /
                  std::max(h.least, shape_value(planned.end[s], h.limit)));
}

struct Rows {
  std::vector<std::vector<double>> x, y;
  void push(const Rows& from, std::size_t i) { x.push_back(from.x[i]), y.push_back(from.y[i]); }
  std::size_t size() const { return x.size(); }
};

// Root mean square of what a fit to one half misses in the other, by number.
std::vector<double> missed_by_the_other_half(const Rows& all) {
  std::vector<double> squares(all.y.front().size(), 0.0);
  for (const std::size_t half : {0U, 1U}) {
    Rows fitted;
    for (std::size_t i = 0; i < all.size(); ++i)
      if (i % 2 == half) fitted.push(all, i);
    const TailFit fit(fitted.x, fitted.y);
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (i % 2 == half) continue;
      const std::vector<double> at = fit.at(all.x[i]);
      for (std::size_t k = 0; k < at.size(); ++k) squares[k] += (all.y[i][k] - at[k]) * (all.y[i][k] - at[k]);
    }
  }
  for (double& s : squares) s = std::sqrt(s / static_cast<double>(all.size()));
  return squares;
}

// The least shift at which a chance that rises with it comes to `wanted`.
std::optional<double> shift_to(double wanted, const std::function<double(double)>& chance) {
  if (chance(0) >= wanted) return 0.0;
  if (chance(largest_shift) < wanted) return {};
  double low = 0, high = largest_shift;
  for (int i = 0; i < halvings; ++i) (chance(0.5 * (low + high)) < wanted ? low : high) = 0.5 * (low + high);
  return high;
}

void list_numbers(const OutcomeInput& in, OutcomeModel& m) {
  for (const StageVerdict& v : in.judged) {
    if (v.stage > m.last) continue;
    m.can_be_last[static_cast<std::size_t>(v.stage)] = !is_loose(v) && !gave_way_in_study(v) && !v.buckled;
    for (const LimitReading& l : v.limits) {
      if (kind_of(l.limit) == LimitKind::finish) continue;
      const bool damage = kind_of(l.limit) == LimitKind::damage;
      m.uses.push_back({v.stage, l.limit, damage ? share_of_damage(in.the_case, l.limit) : 1.0,
                        std::max(l.use, l.use_of_worse_joints), l.use_plus_minus,
                        damage ? strength_of(in.the_case, in.panel, l.limit) : StrengthOf{}});
    }
  }
  for (int s = 0; s < m.last; ++s)
    for (const Limit limit : shape_limits()) {
      const double least = 0.5 * shape_instrument(limit) / shape_length(in.the_case, limit);
      if (shape_value(in.planned.end[static_cast<std::size_t>(s)], limit) > least)
        m.shapes.push_back({s, limit, least});
    }
  for (int s = 0; s < m.last; ++s) {
    const std::vector<double>& pulls = in.planned.bay_pull[static_cast<std::size_t>(s)];
    for (std::size_t k = 0; k < pulls.size(); ++k)
      if (pulls[k] > next_to_nothing) m.pulls.push_back({s, static_cast<int>(k)});
  }
}

}  // namespace

OutcomeModel outcome_model(const OutcomeInput& in) {
  OutcomeModel m;
  m.last = in.chances.last_stage;
  m.can_be_last.assign(static_cast<std::size_t>(m.last) + 1, false);
  list_numbers(in, m);
  if (m.uses.empty()) return m;

  const int count = numbers_of(in.the_case);
  Rows rows;
  for (const Outturn& o : in.runs) {
    // A run that gave way before its readings has none; there are few, and their fall counts in the chances.
    const bool has_readings = std::all_of(m.pulls.begin(), m.pulls.end(), [&](const OutcomeModel::Pull& p) {
      return !o.fell[static_cast<std::size_t>(p.stage)] && !o.bay_pull[static_cast<std::size_t>(p.stage)].empty();
    });
    if (!has_readings) continue;
    rows.x.push_back(fit_columns(o, count));
    rows.y.emplace_back();
    for (const OutcomeModel::Use& u : m.uses)
      rows.y.back().push_back(log_of_use(o, in.read, u.stage, u.limit, u.share));
    for (const OutcomeModel::Pull& p : m.pulls) rows.y.back().push_back(log_pull(o, in.planned, p));
    for (const OutcomeModel::Shape& h : m.shapes) rows.y.back().push_back(log_shape(o, in.planned, h));
  }
  const auto runs = static_cast<double>(in.runs.size());
  if (static_cast<double>(rows.size()) < (1 - most_fallen) * runs ||
      rows.size() < 2 * static_cast<std::size_t>(count + least_beyond))
    return m;

  const auto pulls = static_cast<Eigen::Index>(m.pulls.size());
  m.seen.resize(static_cast<Eigen::Index>(rows.size()), pulls);
  for (Eigen::Index i = 0; i < m.seen.rows(); ++i)
    for (Eigen::Index k = 0; k < pulls; ++k)
      m.seen(i, k) = rows.y[static_cast<std::size_t>(i)][m.uses.size() + static_cast<std::size_t>(k)];
  const TailFit fit(rows.x, rows.y);
  const auto numbers = static_cast<Eigen::Index>(rows.y.front().size());
  Eigen::MatrixXd slopes(numbers, count), left(static_cast<Eigen::Index>(rows.size()), numbers);
  m.mean.resize(numbers);
  for (Eigen::Index k = 0; k < numbers; ++k) {
    const std::vector<double>& s = fit.slopes()[static_cast<std::size_t>(k)];
    m.mean[k] = s.front();
    for (int j = 0; j < count; ++j) slopes(k, j) = s[static_cast<std::size_t>(j) + 1];
    for (Eigen::Index i = 0; i < left.rows(); ++i)
      left(i, k) = fit.residuals()[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)];
  }
  // What is left over scatters as it does in runs that were not fitted.
  const std::vector<double> missed = missed_by_the_other_half(rows);
  for (Eigen::Index k = 0; k < numbers; ++k) {
    const double fitted = fit.scatter(static_cast<std::size_t>(k));
    const double times = fitted > 0 ? missed[static_cast<std::size_t>(k)] / fitted : 1;
    // Shapes are read beside the pull: where they are foretold badly they scatter more, and no window hangs on them.
    if (k < numbers - static_cast<Eigen::Index>(m.shapes.size())) m.worst_check = std::max(m.worst_check, times);
    left.col(k) *= std::max(1.0, times);
  }
  if (m.worst_check > most_beyond_fit) return m;
  m.slopes = slopes;
  m.covariance = slopes * slopes.transpose() +
                 left.transpose() * left / static_cast<double>(rows.size() - static_cast<std::size_t>(count) - 1);

  const JointDraws before(m);
  for (int s = 0; s <= m.last; ++s) {
    const auto k = static_cast<std::size_t>(s);
    // What was done before the plan was made is not judged.
    if (std::none_of(m.uses.begin(), m.uses.end(), [&](const OutcomeModel::Use& u) { return u.stage <= s; })) {
      m.shape_shift.push_back(0.0), m.damage_shift.push_back(0.0);
      continue;
    }
    const Chance& shape = in.chances.shape[k];
    m.shape_shift.push_back(shift_to(1 - shape.low, [&](double shift) { return before.distorted(s, shift); }));
    const DamageChance& damage = in.chances.damage[k];
    m.damage_shift.push_back(damage.known
                                 ? shift_to(damage.chance(), [&](double shift) { return before.damaged(s, shift); })
                                 : std::nullopt);
  }
  m.runs = static_cast<int>(rows.size());
  return m;
}

}  // namespace evenpull::inline sequencer
