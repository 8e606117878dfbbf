// Between which sags under a weight the work may go on to the next stage (docs/model.md, section 10).
#pragma once

#include "sequencer/plan/chances.hpp"
#include "sequencer/plan/limit.hpp"
#include "solver/geometry/panel.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

struct BayWindow {
  Side side = Side::top;
  int bay = 0;
  double expected = 0, least = 0, most = 0;  ///< m
};

/// After a stage, cloth cold: go on only if every listed bay sags by at least this and at most that.
struct StageWindow {
  int stage = 0;
  int next = 0;                   ///< the stage it opens
  bool needed = false;            ///< nothing but readings opens that stage: without them it is not safe
  double weight = 0;              ///< kg
  std::vector<BayWindow> bays{};  ///< empty: no reading that could be trusted makes the next stage safe
  double damage = 0;              ///< chance of damage by the end of the next stage: the worst of any reading inside
  double shape = 0;               ///< chance of keeping the shape until then: the worst of any reading inside
  double inside = 0;              ///< how many of 100 jobs like this one (as a share) read inside in every bay
  bool opens() const { return !bays.empty(); }
};

/// What somebody read: a sag under a weight, the tone of a tap, or a bow, twist or slip.
struct Measured {
  Side side = Side::top;
  int bay = 0;
  int stage = 0;                 ///< after it, cloth cold
  double weight = 0;             ///< kg, on the lid of check_disc
  double sag = 0;                ///< m, with the weight less without
  double tone = 0;               ///< Hz; above 0: of a tap on that bay, instead of a sag
  std::optional<Limit> shape{};  ///< a reading of the shape instead, of the whole panel
  double value = 0;              ///< of the shape: m as it is read at the place that a sheet names
};

/// What readings say.
struct ReadingsTold {
  struct Of {
    Measured reading;
    std::optional<double>
        expected{};            ///< m, or Hz of a tone; none: not used, since that bay or shape is not fit for it
    bool contradicts = false;  ///< fits neither what was expected nor the other readings
  };
  std::vector<Of> readings{};
  bool tighter_than_any = false,
       looser_than_any = false;           ///< than 98 of 100 sets of readings: something is not as stated
  bool used = false;                      ///< the verdict rests on them
  std::vector<double> damage{}, shape{};  ///< by stage, given the readings: chance of damage, of keeping the shape
  double pull_times = 1;  ///< median of the pull given the readings over that before, mean of the bays read
  /// An input estimated anew, in sigmas of what was stated of it: 0 and 1 before.
  struct Input {
    Unsure what = Unsure::pull;
    double mean = 0, sigma = 1;
  };
  std::vector<Input> inputs{};
};

}  // namespace evenpull::inline sequencer
