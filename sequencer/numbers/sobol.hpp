// Quasi-random points: Sobol's sequence with a shift that a seed decides (Cranley and Patterson 1976, from memory), so
// that independent estimates of the error can be made. Deterministic.
#pragma once

#include <vector>

namespace evenpull::inline sequencer {

/// `count` points in the unit cube of `dimensions`; each inside (0, 1). Seed 0: the sequence itself.
std::vector<std::vector<double>> sobol_points(int count, int dimensions, unsigned seed = 0);

/// Standard normal quantile of 0 < p < 1.
double normal_quantile(double p);

}  // namespace evenpull::inline sequencer
