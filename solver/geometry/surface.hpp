// The covered surface as a function of bay, place within the bay and chord fraction: plan outline times profile.
#pragma once

#include "solver/statement/case.hpp"

#include <Eigen/Core>

namespace evenpull::inline solver {

/// A spanwise place: bay (from 0) and share of the way from its inboard to its outboard rib.
struct SpanPlace {
  int bay = 0;
  double share = 0;
};

class Surface {
 public:
  explicit Surface(const Case& c) : case_(c) {}
  /// Point of the covered surface [m].
  Eigen::Vector3d skin(Side side, double chord_fraction, SpanPlace p) const;
  /// Point half-way between both skins, where members lie [m].
  Eigen::Vector3d middle(double chord_fraction, SpanPlace p) const;
  /// Distance between the skins [m].
  double depth(double chord_fraction, SpanPlace p) const;
  /// Chord at a place, without the bulge of a tip bow [m].
  double chord(SpanPlace p) const;
  /// Mean length of both skins from the LE to a chord fraction, as a share of the chord, of the stated profile.
  double arc(double chord_fraction) const;
  /// Chord fraction at which `arc` has a value.
  double chord_fraction_at_arc(double arc_share) const;
  /// Slope dx/dy of the trailing edge, mean over the span.
  double trailing_edge_sweep() const;
  /// Top and bottom height at a chord fraction as shares of the chord.
  ProfilePoint profile(double chord_fraction) const;

 private:
  double station(SpanPlace p) const;
  Eigen::Vector2d plan(double chord_fraction, SpanPlace p) const;
  double height(Side side, double chord_fraction, SpanPlace p) const;
  const Case& case_;
};

}  // namespace evenpull::inline solver
