#include "shop/coupon.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/LU>

#include <boost/math/distributions/chi_squared.hpp>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr double gravity = 9.80665;  // m/s^2, standard
constexpr double surely = 0.999;     // of sets of good readings agree better than this
constexpr int most_rounds = 50;
constexpr double still = 1e-12;

double square_of(double x) { return x * x; }

// Unknowns: logarithm of the pull, and the stretch over the usual one.
struct Fit {
  const WeightedSquare& square;
  const std::vector<WeightReading>& readings;
  double usual;      // pull_by_sagging
  double sag_error;  // m

  Eigen::VectorXd sags(const Eigen::Vector2d& x) const {
    Eigen::VectorXd w(static_cast<Eigen::Index>(readings.size()));
    for (Eigen::Index i = 0; i < w.size(); ++i)
      w[i] = sag_of_square(square, readings[static_cast<std::size_t>(i)].mass * gravity, std::exp(x[0]), usual * x[1]);
    return w;
  }
  Eigen::MatrixX2d slopes(const Eigen::Vector2d& x, const Eigen::VectorXd& w) const {
    Eigen::MatrixX2d j(w.size(), 2);
    const double n = std::exp(x[0]);
    for (Eigen::Index i = 0; i < w.size(); ++i) {
      const double stiff = n + 3 * usual * x[1] * square_of(w[i]);
      j(i, 0) = -n * w[i] / stiff;
      j(i, 1) = -usual * w[i] * square_of(w[i]) / stiff;
    }
    return j;
  }
  // Each sag is a reading less the one without weight, which they share.
  Eigen::MatrixXd scatter(const Eigen::VectorXd& w) const {
    Eigen::MatrixXd s = Eigen::MatrixXd::Constant(w.size(), w.size(), 0.5 * square_of(sag_error));
    for (Eigen::Index i = 0; i < w.size(); ++i)
      s(i, i) += 0.5 * square_of(sag_error) + square_of(coupon_error::weight * w[i]);
    return s;
  }
};

// Negative stretch there is none, and no cloth is so stiff.
constexpr double least_stretch = 0.05, most_stretch = 4;

}  // namespace

double coupon_budget(double sigma_read) {
  using namespace coupon_error;
  return std::sqrt(square_of(sigma_read) + square_of(sole * by_sole) + square_of(looseness) + square_of(missed) +
                   square_of(waiting));
}

double coupon_sigma(double sigma_read) {
  return std::max(coupon_error::least, std::hypot(coupon_budget(sigma_read), coupon_error::not_listed));
}

double pull_of_reading(const WeightedSquare& square, const WeightReading& reading, double stiffness) {
  return pull_of_sag(square, reading.mass * gravity, reading.sag) -
         pull_by_sagging(square, stiffness) * square_of(reading.sag);
}

CouponPull coupon_pull(const WeightedSquare& square, const std::vector<WeightReading>& readings, double stiffness,
                       double sag_error) {
  const Fit fit{square, readings, pull_by_sagging(square, stiffness), sag_error};
  Eigen::VectorXd read(static_cast<Eigen::Index>(readings.size()));
  for (Eigen::Index i = 0; i < read.size(); ++i) read[i] = readings[static_cast<std::size_t>(i)].sag;
  Eigen::Vector2d x{std::log(std::max(1.0, pull_of_reading(square, readings.front(), stiffness))), 1};
  const Eigen::Matrix2d known{{0, 0}, {0, 1 / square_of(coupon_error::stretch)}};
  Eigen::Matrix2d covariance;
  double chi = 0;
  for (int round = 0; round < most_rounds; ++round) {
    const Eigen::VectorXd w = fit.sags(x), off = read - w;
    const Eigen::MatrixX2d j = fit.slopes(x, w);
    const Eigen::MatrixXd weight = fit.scatter(w).inverse();
    covariance = (j.transpose() * weight * j + known).inverse();
    const double stretched = (x[1] - 1) / coupon_error::stretch;
    chi = off.dot(weight * off) + square_of(stretched);
    const Eigen::Vector2d before = x;
    x += covariance * (j.transpose() * (weight * off) - known * Eigen::Vector2d(0, x[1] - 1));
    x[0] = std::clamp(x[0], before[0] - 1, before[0] + 1);
    x[1] = std::clamp(x[1], least_stretch, most_stretch);
    if ((x - before).cwiseAbs().maxCoeff() < still) break;
  }
  CouponPull out;
  out.pull = std::exp(x[0]);
  out.sigma_read = std::sqrt(covariance(0, 0));
  out.sigma = coupon_sigma(out.sigma_read);
  out.added_by_sag = fit.usual * x[1] * square_of(fit.sags(x).maxCoeff());
  out.disagreement = chi;
  const double freedom = static_cast<double>(readings.size()) - 1;
  out.contradicts = freedom > 0 && chi > boost::math::quantile(boost::math::chi_squared(freedom), surely);
  return out;
}

bool falls_surely(const CouponPull& cooler, const CouponPull& hotter) {
  return std::log(cooler.pull / hotter.pull) > sigmas_of_95 * std::hypot(cooler.sigma, hotter.sigma);
}

}  // namespace evenpull
