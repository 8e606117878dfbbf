// What must not be exceeded, and what was read of it. The words are in viz/words/limit_words.hpp.
#pragma once

#include "sequencer/numbers/number_study.hpp"
#include "sequencer/plan/place.hpp"

namespace evenpull::inline sequencer {

/// In the order of their words, so that lists by limit are the same wherever they are made. `stress` is that of metal.
enum class Limit {
  buckling,
  end_rib_bow,
  pull_difference,
  slip,
  stress,
  wood_stress,
  edge_bow,
  twist,
  unevenness,
  crippling,
  hinge_line_bow,
  whole_edge_bow,
  pocket_room,
  waves
};

/// What passing it means.
enum class LimitKind {
  damage,      ///< the frame itself: a reserve is held
  distortion,  ///< the shape: wanted, and told how surely it is kept
  finish       ///< the look of the cloth: told, and bars no stage
};
constexpr LimitKind kind_of(Limit l) {
  switch (l) {
    case Limit::stress:
    case Limit::wood_stress:
    case Limit::crippling:
    case Limit::buckling: return LimitKind::damage;
    case Limit::waves:
    case Limit::unevenness: return LimitKind::finish;
    default: return LimitKind::distortion;
  }
}

/// When a reading was taken.
enum class Moment { on_the_way, stage_end, released };

/// One limit at one stage of an order.
struct LimitReading {
  Limit limit = Limit::stress;
  Place where{};
  Moment when = Moment::on_the_way;
  int stage = 0;
  double value = 0, allowed = 0;  ///< Pa, m, rad, N/m or 1, as the limit has it
  double use = 0;                 ///< share of the limit taken up
  double use_plus_minus = 0;
  /// Use with the joints of the frame at that end of their range which is worse for this limit; 0: none has a range that
  /// counts.
  double use_of_worse_joints = 0;
  bool judgement = true;     ///< the allowed value is engineering judgement
  NumberStudy study{};       ///< of the use
  bool gave_way = false;     ///< the frame gave way: value and use stand for "too much" and are no numbers to print
  double lasting = 1;        ///< of a bow: the value is so many times what it reads at once (wood creeps)
  bool compression = false;  ///< of a stress: the pressed fibre, which bears another stress than the pulled one
  bool at_weld = false;      ///< of a stress: beside a weld
};

}  // namespace evenpull::inline sequencer
