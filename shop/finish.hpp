// What comes onto the cloth after the iron and is weighed with it: tapes and coats; how long each part of the job takes.
#pragma once

#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull {

struct Tapes {
  double areal_mass = 0;                                                     ///< with what holds them [kg/m^2]
  double leading_edge = 0, trailing_edge = 0, end_ribs = 0, inner_ribs = 0;  ///< widths [m]; 0: none there
};

struct Coats {
  double dry_mass = 0;  ///< of all coats together [kg/m^2 of cloth]
  double off = 0;       ///< one sigma, a share
};

/// At the bench, without waiting [s].
struct PartTimes {
  double frame_check = 0;
  double cutting = 0;
  double gluing = 0;     ///< a metre of glue line and coat
  double attaching = 0;  ///< a rib
  double taping = 0;     ///< a metre
  double inspection = 0;
};

struct Finish {
  std::optional<Tapes> tapes{};  ///< none: not stated
  std::optional<Coats> coats{};  ///< none: not stated
  PartTimes times{};
  std::vector<DefaultUsed> taken{};  ///< what the case left out
};

}  // namespace evenpull
