// How often something real is damaged, where too few scenarios break anything to be counted: logarithms of what they came to,
// each as a share of where damage begins, fitted to the numbers that draw a scenario, and the fit drawn often
// (docs/model.md, section 9).
#pragma once

#include <vector>

namespace evenpull::inline sequencer {

/// Linear least squares of several numbers on the same columns. Residuals are kept run by run, so that numbers of one run
/// stay together.
class TailFit {
 public:
  /// x: runs x columns; y: runs x numbers, logarithms: over 0 is damage. There are more runs than columns + 1.
  TailFit(const std::vector<std::vector<double>>& x, const std::vector<std::vector<double>>& y);

  std::vector<double> at(const std::vector<double>& x) const;
  /// Root mean square of the residuals of one number, for the columns that they cost.
  double scatter(std::size_t number) const;
  const std::vector<std::vector<double>>& residuals() const { return residuals_; }
  /// By number: the constant, then a slope for each column.
  const std::vector<std::vector<double>>& slopes() const { return slopes_; }

 private:
  std::vector<std::vector<double>> slopes_;  // by number: constant first
  std::vector<std::vector<double>> residuals_;
  std::size_t columns_ = 0;
};

/// What bears a number scatters: by so much (log sigma), with all others of the same material.
struct StrengthOf {
  enum Material { metal, wood, thin_sheet, materials };  ///< thin_sheet: how flats cripple
  Material material = metal;
  double scatter = 0;
};

/// Shares of `draws` draws in which any of the first 1, 2, ... groups of numbers is over 0. `group`: of each number, rising from
/// 0. Each number is raised by `shift`, which is one for all, and by its strength's scatter times a normal draw that all of a
/// material share. The same draws every time.
std::vector<double> shares_over(const TailFit& fit, const std::vector<int>& group, double shift,
                                const std::vector<StrengthOf>& strength, int columns, int draws);

/// `count` of the draws of x, the first `among` of them, for which the largest number of the fit comes nearest to 0; no column
/// beyond `most` sigmas.
std::vector<std::vector<double>> draws_at_the_edge(const TailFit& fit, int columns, int count, int among, double most);

}  // namespace evenpull::inline sequencer
