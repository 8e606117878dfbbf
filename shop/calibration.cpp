#include "shop/calibration.hpp"

#include <Eigen/LU>

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <sstream>
#include <stdexcept>

namespace evenpull {
namespace {

constexpr double two_sided = 0.975;  // of a 95 % interval
constexpr double widened_by = 0.1;   // of the range of marks
constexpr int marks_for_a_bend = 3;
constexpr int root_bits = 40;
constexpr double most_lost_to_rounding = 1 / 1.8;  // K: 1 degF, which no thermometer on a sole tells
constexpr int most_decimals = 6;                   // beyond what marks `closest_marks` apart can ask for

// With no freedom left the scatter is an assumption, taken as known.
double quantile(int freedom) {
  return freedom > 0 ? boost::math::quantile(boost::math::students_t(freedom), two_sided)
                     : boost::math::quantile(boost::math::normal(), two_sided);
}

std::string number(double v) {
  constexpr int digits = 12;  // so that marks that differ hardly are seen to differ
  std::ostringstream s;
  s.precision(digits);
  s << v;
  return s.str();
}

int decimals_for(double slope) {
  int decimals = 0;
  for (double half = 0.5; half * slope > most_lost_to_rounding && decimals < most_decimals; half /= 10) ++decimals;
  return decimals;
}

}  // namespace

DialCurve::DialCurve(const std::vector<DialReading>& readings, double assumed_scatter) : scatter_(assumed_scatter) {
  if (readings.size() < 2)
    throw ReadingsError("one mark of the dial is not enough: read the sole at two marks at least, better at four");
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (i > 0 && readings[i].dial <= readings[i - 1].dial)
      throw ReadingsError("mark " + number(readings[i].dial) + " follows mark " + number(readings[i - 1].dial) +
                          ": list marks from cool to hot, each once");
    if (i > 0 && no_dial_shows_apart(readings[i - 1].dial, readings[i].dial))
      throw ReadingsError("marks " + number(readings[i - 1].dial) + " and " + number(readings[i].dial) +
                          " lie closer than " + number(closest_marks) +
                          ", which no dial shows: read the sole at marks further apart");
    if (i > 0 && mean_of(readings[i]) <= mean_of(readings[i - 1]))
      throw ReadingsError("the readings do not rise from mark " + number(readings[i - 1].dial) + " to mark " +
                          number(readings[i].dial) +
                          ": wait until the thermostat has clicked twice after each change and read again");
    for (double t : readings[i].sole) dial_.push_back(readings[i].dial), sole_.push_back(t);
  }
  low_ = readings.front().dial;
  high_ = readings.back().dial;
  middle_ = 0.5 * (low_ + high_);
  fit(2);
  if (readings.size() <= marks_for_a_bend || freedom_ < 2) return;
  const DialCurve straight = *this;
  fit(3);
  const double bend = std::abs(coefficients_[2]), sure = quantile(freedom_) * scatter_ * std::sqrt(covariance_(2, 2));
  const bool rises = slope(low_) > 0 && slope(high_) > 0;
  if (bend <= sure || !rises) *this = straight;
}

Eigen::VectorXd DialCurve::row(double dial, Eigen::Index terms) const {
  Eigen::VectorXd r(terms);
  for (Eigen::Index i = 0; i < terms; ++i) r[i] = std::pow(dial - middle_, static_cast<double>(i));
  return r;
}

void DialCurve::fit(int terms) {
  const auto n = static_cast<Eigen::Index>(dial_.size());
  Eigen::MatrixXd x(n, terms);
  for (Eigen::Index i = 0; i < n; ++i) x.row(i) = row(dial_[static_cast<std::size_t>(i)], terms).transpose();
  const Eigen::Map<const Eigen::VectorXd> y(sole_.data(), n);
  covariance_ = (x.transpose() * x).inverse();
  coefficients_ = covariance_ * (x.transpose() * y);
  freedom_ = static_cast<int>(n) - terms;
  if (freedom_ > 0) scatter_ = std::sqrt((y - x * coefficients_).squaredNorm() / freedom_);
}

double DialCurve::at(double dial) const { return row(dial, coefficients_.size()).dot(coefficients_); }

double DialCurve::plus_minus(double dial) const {
  const Eigen::VectorXd r = row(dial, coefficients_.size());
  return quantile(freedom_) * scatter_ * std::sqrt(r.dot(covariance_ * r));
}

double DialCurve::slope(double dial) const {
  return coefficients_[1] + (bent() ? 2 * coefficients_[2] * (dial - middle_) : 0);
}

std::optional<double> DialCurve::mark_for(double temperature) const {
  const double room = widened_by * (high_ - low_), low = low_ - room, high = high_ + room;
  const auto off = [&](double dial) { return at(dial) - temperature; };
  if (off(low) > 0 || off(high) < 0 || slope(low) <= 0 || slope(high) <= 0) return {};
  std::uintmax_t most = 100;
  const auto bracket =
      boost::math::tools::toms748_solve(off, low, high, boost::math::tools::eps_tolerance<double>(root_bits), most);
  return 0.5 * (bracket.first + bracket.second);
}

DialSetting setting_for_stage(const DialCurve& curve, double temperature, double swing) {
  DialSetting s;
  s.temperature = temperature;
  s.mark = curve.mark_for(temperature);
  if (!s.mark) return s;
  s.decimals = decimals_for(curve.slope(*s.mark));
  const double unit = std::pow(10.0, -s.decimals);
  s.mark = unit * std::round(*s.mark / unit);
  const double mean = curve.at(*s.mark);  // of what is set, not of what was wished
  s.plus_minus = curve.plus_minus(*s.mark);
  s.mark_plus_minus = s.plus_minus / curve.slope(*s.mark);
  s.coolest = mean - s.plus_minus - swing;
  s.hottest = mean + s.plus_minus + swing;
  s.mean_in_damage = mean + s.plus_minus > damage_begins;
  s.swing_in_damage = s.hottest > damage_certain;
  return s;
}

double mean_of(const DialReading& reading) {
  return std::accumulate(reading.sole.begin(), reading.sole.end(), 0.0) / static_cast<double>(reading.sole.size());
}

double measured_swing(const std::vector<DialReading>& readings) {
  double swing = 0;
  for (const DialReading& r : readings)
    if (r.sole.size() >= 3) {
      const auto [low, high] = std::minmax_element(r.sole.begin(), r.sole.end());
      swing = std::max(swing, 0.5 * (*high - *low));
    }
  return swing;
}

}  // namespace evenpull
