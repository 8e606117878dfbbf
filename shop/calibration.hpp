// From thermometer readings at marks of the dial to the true sole temperature with its uncertainty, and back to the mark
// that a stage wants. Least squares on a straight line, or on a parabola where the readings ask for one (Student's t of
// the bend; any textbook of regression, e.g. Draper and Smith, Applied Regression Analysis, from memory).
#pragma once

#include "solver/statement/case.hpp"

#include <Eigen/Core>

#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

namespace evenpull {

/// Marks of a dial that lie closer than this nobody can set apart: judgement.
inline constexpr double closest_marks = 0.01;
/// True where two marks lie so close; 0.30 and 0.31 as a computer holds them do not.
inline bool no_dial_shows_apart(double lower, double upper) { return upper - lower < closest_marks * (1 - 1e-9); }

/// The curve could not be fitted; what() is a sentence that says what to read again.
struct ReadingsError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// Mean true temperature at a mark: T = c0 + c1 x + c2 x^2, x from the middle of the marks.
class DialCurve {
 public:
  /// Readings with marks rising. Throws ReadingsError when there are fewer than two marks, marks too close to tell apart, or
  /// means that do not rise.
  /// `assumed_scatter` [K] is the scatter of single readings (one sigma) where there are too few to tell.
  DialCurve(const std::vector<DialReading>& readings, double assumed_scatter);

  double at(double dial) const;          ///< K
  double plus_minus(double dial) const;  ///< 95 % of the mean curve [K]
  double slope(double dial) const;       ///< K a mark
  bool bent() const { return coefficients_.size() == 3; }
  double scatter() const { return scatter_; }  ///< one sigma of single readings about the curve [K]
  bool scatter_known() const { return freedom_ > 0; }
  double lowest() const { return low_; }  ///< marks that were read
  double highest() const { return high_; }

  /// The mark for a mean true temperature; none outside the marks read, widened by a tenth of their range.
  std::optional<double> mark_for(double temperature) const;

 private:
  void fit(int terms);
  Eigen::VectorXd row(double dial, Eigen::Index terms) const;

  std::vector<double> dial_, sole_;
  double middle_ = 0, low_ = 0, high_ = 0;
  Eigen::VectorXd coefficients_;
  Eigen::MatrixXd covariance_;  ///< (X'X)^-1
  double scatter_ = 0;
  int freedom_ = 0;
};

/// One stage on the card.
struct DialSetting {
  double temperature = 0;           ///< wanted, true [K]
  std::optional<double> mark;       ///< to be set, rounded to `decimals`; none: outside what was read
  int decimals = 0;                 ///< as many as the mark needs for its rounding to cost no more than 1 degF
  double mark_plus_minus = 0;       ///< what the uncertainty is in marks
  double plus_minus = 0;            ///< 95 % of the mean [K]
  double coolest = 0, hottest = 0;  ///< at the mark as rounded, with that and the swing [K]
  bool mean_in_damage = false;      ///< the mean itself may stand above 375 °F
  bool swing_in_damage = false;     ///< at moments the sole may stand above 400 °F
};

/// Above these true temperatures polyester loses tension; nothing is planned above the second [K] (docs/data.md).
inline constexpr double damage_begins = (375 + 459.67) / 1.8;
inline constexpr double damage_certain = (400 + 459.67) / 1.8;

DialSetting setting_for_stage(const DialCurve& curve, double temperature, double swing);

/// Mean of what was read at a mark [K].
double mean_of(const DialReading& reading);

/// Half the range of the readings at the mark where they scatter most; 0 unless some mark has three or more.
double measured_swing(const std::vector<DialReading>& readings);

}  // namespace evenpull
