#include "sequencer/sure/tail_fit.hpp"

#include "sequencer/numbers/normals.hpp"

#include <Eigen/QR>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace evenpull::inline sequencer {
namespace {

constexpr unsigned of_shares = 11, of_edge = 12, of_sheet = 13;  // seeds

}  // namespace

TailFit::TailFit(const std::vector<std::vector<double>>& x, const std::vector<std::vector<double>>& y) {
  assert(!x.empty() && x.size() == y.size() && x.size() > x.front().size() + 1);
  columns_ = x.front().size();
  const auto runs = static_cast<Eigen::Index>(x.size()), columns = static_cast<Eigen::Index>(columns_);
  Eigen::MatrixXd a(runs, columns + 1);
  Eigen::MatrixXd b(runs, static_cast<Eigen::Index>(y.front().size()));
  for (Eigen::Index i = 0; i < runs; ++i) {
    a(i, 0) = 1;
    for (Eigen::Index k = 0; k < columns; ++k)
      a(i, k + 1) = x[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)];
    for (Eigen::Index k = 0; k < b.cols(); ++k) b(i, k) = y[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)];
  }
  const Eigen::MatrixXd slopes = a.colPivHouseholderQr().solve(b);
  const Eigen::MatrixXd left = b - a * slopes;
  for (Eigen::Index k = 0; k < b.cols(); ++k) slopes_.emplace_back(slopes.col(k).begin(), slopes.col(k).end());
  for (Eigen::Index i = 0; i < runs; ++i) residuals_.emplace_back(left.row(i).begin(), left.row(i).end());
}

std::vector<double> TailFit::at(const std::vector<double>& x) const {
  std::vector<double> out;
  for (const std::vector<double>& s : slopes_)
    out.push_back(std::inner_product(x.begin(), x.end(), s.begin() + 1, s.front()));
  return out;
}

double TailFit::scatter(std::size_t number) const {
  double squares = 0;
  for (const std::vector<double>& r : residuals_) squares += r[number] * r[number];
  return std::sqrt(squares / static_cast<double>(residuals_.size() - columns_ - 1));
}

std::vector<double> shares_over(const TailFit& fit, const std::vector<int>& group, double shift,
                                const std::vector<StrengthOf>& strength, int columns, int draws) {
  std::vector<double> over(group.empty() ? 0 : static_cast<std::size_t>(group.back()) + 1, 0.0);
  Normals normal(of_shares), sheet(of_sheet);
  for (int d = 0; d < draws; ++d) {
    const std::vector<double> y = fit.at(normal.row(columns));
    const std::vector<double>& residual = fit.residuals()[normal.below(fit.residuals().size())];
    double drawn[StrengthOf::materials];
    for (double& one : drawn) one = &one == &drawn[StrengthOf::thin_sheet] ? sheet() : normal();
    std::size_t first = over.size();
    for (std::size_t k = 0; k < group.size(); ++k)
      if (y[k] + residual[k] + shift + strength[k].scatter * drawn[strength[k].material] > 0)
        first = std::min(first, static_cast<std::size_t>(group[k]));
    for (std::size_t g = first; g < over.size(); ++g) ++over[g];
  }
  for (double& o : over) o /= draws;
  return over;
}

std::vector<std::vector<double>> draws_at_the_edge(const TailFit& fit, int columns, int count, int among, double most) {
  struct Draw {
    double off = 0;
    std::vector<double> x;
  };
  std::vector<Draw> all;
  Normals normal(of_edge);
  for (int i = 0; i < among; ++i) {
    std::vector<double> x = normal.row(columns);
    if (std::any_of(x.begin(), x.end(), [&](double v) { return std::abs(v) > most; })) continue;
    const std::vector<double> y = fit.at(x);
    all.push_back({std::abs(*std::max_element(y.begin(), y.end())), std::move(x)});
  }
  std::stable_sort(all.begin(), all.end(), [](const Draw& a, const Draw& b) { return a.off < b.off; });
  std::vector<std::vector<double>> out;
  for (std::size_t i = 0; i < std::min(all.size(), static_cast<std::size_t>(count)); ++i)
    out.push_back(std::move(all[i].x));
  return out;
}

}  // namespace evenpull::inline sequencer
