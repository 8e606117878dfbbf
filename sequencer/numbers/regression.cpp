#include "sequencer/numbers/regression.hpp"

#include <boost/random/mersenne_twister.hpp>
#include <boost/random/uniform_int_distribution.hpp>

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

constexpr int resamples = 400;
constexpr double interval_low = 0.05, interval_high = 0.95;
constexpr unsigned resampling_seed = 20;

std::vector<double> solve_standardised(const std::vector<std::vector<double>>& x, const std::vector<double>& y,
                                       const std::vector<int>& rows, double& explained) {
  const auto n = static_cast<Eigen::Index>(rows.size()), k = static_cast<Eigen::Index>(x.front().size());
  Eigen::MatrixXd a(n, k);
  Eigen::VectorXd b(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < k; ++j) a(i, j) = x[rows[i]][j];
    b[i] = y[rows[i]];
  }
  a.rowwise() -= a.colwise().mean();
  b.array() -= b.mean();
  const double total = b.squaredNorm();
  explained = 0;
  if (!(total > 0)) return std::vector<double>(k, 0.0);
  Eigen::MatrixXd normal = a.transpose() * a;
  const Eigen::VectorXd beta = normal.ldlt().solve(a.transpose() * b);
  std::vector<double> out;
  for (Eigen::Index j = 0; j < k; ++j) out.push_back(beta[j] * std::sqrt(normal(j, j) / total));
  explained = 1 - (b - a * beta).squaredNorm() / total;
  return out;
}

}  // namespace

std::vector<ColumnWeight> weigh_columns(const std::vector<std::vector<double>>& x, const std::vector<double>& y,
                                        double& explained) {
  std::vector<ColumnWeight> out;
  explained = 0;
  const int n = static_cast<int>(y.size());
  if (n == 0 || n <= 2 * static_cast<int>(x.front().size())) return out;
  std::vector<int> rows(n);
  for (int i = 0; i < n; ++i) rows[i] = i;
  const std::vector<double> beta = solve_standardised(x, y, rows, explained);
  std::vector<std::vector<double>> shares(beta.size());
  boost::random::mt19937 random(resampling_seed);
  boost::random::uniform_int_distribution<int> any(0, n - 1);
  for (int r = 0; r < resamples; ++r) {
    for (int& row : rows) row = any(random);
    double ignored = 0;
    const std::vector<double> again = solve_standardised(x, y, rows, ignored);
    for (std::size_t j = 0; j < beta.size(); ++j) shares[j].push_back(again[j] * again[j]);
  }
  for (std::size_t j = 0; j < beta.size(); ++j) {
    std::sort(shares[j].begin(), shares[j].end());
    const auto quantile = [&](double p) { return shares[j][static_cast<std::size_t>(p * (resamples - 1))]; };
    out.push_back({static_cast<int>(j), beta[j] * beta[j], quantile(interval_low), quantile(interval_high),
                   beta[j] < 0 ? -1.0 : 1.0});
  }
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.share > b.share; });
  return out;
}

}  // namespace evenpull::inline sequencer
