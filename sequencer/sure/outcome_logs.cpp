#include "sequencer/sure/outcome_logs.hpp"

#include "sequencer/sure/scenario.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {

std::vector<double> fit_columns(const Outturn& o, int count) {
  std::vector<double> x(o.sigmas);
  x.resize(static_cast<std::size_t>(count), 0.0);
  for (double& v : x) v = std::clamp(v, -most_sigmas, most_sigmas);
  return x;
}

double log_of_use(const Outturn& o, const std::vector<CorrectionByLimit>& read, int stage, Limit limit, double share) {
  constexpr double fell_counts_as = 1.5;
  if (o.fell[static_cast<std::size_t>(stage)]) return std::log(fell_counts_as);
  return std::log(std::max(next_to_nothing, corrected_use(o, read, stage, limit) * share));
}

}  // namespace evenpull::inline sequencer
