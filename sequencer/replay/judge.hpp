// From readings to use of limits (docs/model.md, section 7): collects the governing reading of each limit of a stage.
#pragma once

#include "sequencer/plan/limit.hpp"
#include "solver/readings/readings.hpp"

#include <vector>

namespace evenpull::inline sequencer {

class StageJudge {
 public:
  StageJudge(const Model& m, int stage) : model_(m), stage_(stage) {}

  /// Stress, bows, twist, slip and (if limited) pull difference; unevenness at stage ends only.
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

/// Largest use of the limits that the whole history must hold (all but unevenness, which only the last stage must).
double history_use(const std::vector<LimitReading>& limits, bool pessimistic);
double unevenness_use(const std::vector<LimitReading>& limits, bool pessimistic);
/// The reading that governs: largest use, unevenness included. There is one at least.
const LimitReading& governing(const std::vector<LimitReading>& limits);

/// Where a reading was found.
Place place_of(const Panel& p, const Worst& w);

}  // namespace evenpull::inline sequencer
