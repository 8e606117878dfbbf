// Why a stage is safe, or what it lacks: the one verdict (docs/model.md, section 9).
#pragma once

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

enum class Lacking {
  as_stated,       ///< a limit of damage or distortion does not hold with the values as stated, error bar added
  tight,           ///< cloth is loose at its end
  readings,        ///< what was read fits neither what was stated nor itself
  damage,          ///< something is damaged too often
  damage_unknown,  ///< how often is not known: what checks the fit scatters about it
  shape,           ///< it is not sure enough that no limit of distortion is passed
  coats            ///< the coats to come tauten, and no data say how much pull they add
};

struct StageSafety {
  int stage = 0;
  std::vector<Lacking> lacking{};
  bool safe() const { return lacking.empty(); }
};

/// The hottest stage that lacks nothing.
inline std::optional<int> hottest_safe(const std::vector<StageSafety>& stages) {
  std::optional<int> best;
  for (const StageSafety& s : stages)
    if (s.safe()) best = s.stage;
  return best;
}

}  // namespace evenpull::inline sequencer
