// What a spot of cloth goes through when the iron comes and leaves: docs/model.md, section 4.
#pragma once

#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline solver {

/// What lies under the cloth: nothing (an open bay), or a sheet of metal or wood.
struct Backing {
  double thickness = 0;  ///< m; 0 = open bay
  HeatSolid solid{};
  bool open() const { return thickness <= 0; }
};

/// The metal or wooden nose that the cloth bears on, if the case has one.
std::optional<Backing> nose_backing(const Case& c);

/// One touch of the iron.
struct Touch {
  double sole_temperature = 0;  ///< true, before the cloth drains it [K]
  double contact = 0;           ///< s: a placed dwell, or the sole's length along the stroke / speed
};

/// Temperature of the cloth over time at one place under the sole.
struct SpotHistory {
  std::vector<double> time;         ///< s from the touch on
  std::vector<double> temperature;  ///< K
};

struct HeatHistory {
  std::vector<SpotHistory> spots;  ///< from the middle of the sole to its edge, each standing for an equal share of it
  double peak = 0;                 ///< hottest cloth [K]
  double sag = 0;                  ///< most that the sole fell [K]
  bool heater_at_stop = false;     ///< the thermostat asked for more than the heater has
};

/// Cells of a sheet under half of the sole and beyond it, or layers of wood in depth.
struct HeatMesh {
  int under = 4;
  int beyond = 6;
};

/// Cloth of the case over a backing, at room temperature before the touch. Exact for fixed conductances (still air at
/// its value for the middle of the range); integrated where the heater is at its stop.
HeatHistory heat_history(const Case& c, const Backing& b, const Touch& touch, const HeatMesh& mesh = {});

}  // namespace evenpull::inline solver
