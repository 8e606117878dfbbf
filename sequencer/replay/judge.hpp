// From readings to use of limits (docs/model.md, section 7): collects the governing reading of each limit of a stage.
#pragma once

#include "sequencer/plan/limit.hpp"
#include "solver/readings/readings.hpp"

#include <vector>

namespace evenpull::inline sequencer {

class StageJudge {
 public:
  StageJudge(const Model& m, int stage) : model_(m), stage_(stage) {}

  /// Stress, crippling and waves of thin flats, bows, twist, slip and (if limited) pull difference; unevenness at stage ends only.
  void take(const Readings& r, Moment when);
  void take_buckling(double factor, Moment when);
  /// The frame gave way: more than any limit, and no number.
  void take_giving_way(Moment when);

  /// The governing reading of each limit taken so far.
  const std::vector<LimitReading>& limits() const { return limits_; }

 private:
  void keep(LimitReading l);
  LimitReading reading(Limit limit, Moment when, double value, double allowed) const;
  const Model& model_;
  int stage_;
  std::vector<LimitReading> limits_;
};

/// Largest use of the limits that the whole history must hold: damage and distortion.
double history_use(const std::vector<LimitReading>& limits, bool pessimistic);
/// The reading that governs: largest use of damage and distortion; of finish only where there is no other. There is one.
const LimitReading& governing(const std::vector<LimitReading>& limits);

/// Where a reading was found.
Place place_of(const Panel& p, const Worst& w);

}  // namespace evenpull::inline sequencer
