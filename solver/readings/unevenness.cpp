#include "solver/readings/unevenness.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline solver {
namespace {

double mean_of(const std::vector<ZonePull>& side, double ZonePull::*pull) {
  double sum = 0, area = 0;
  for (const ZonePull& z : side) sum += z.area * z.*pull, area += z.area;
  return area > 0 ? sum / area : 0;
}

std::optional<double> variation(const std::vector<ZonePull>& side, double ZonePull::*pull, double mean, double least) {
  if (mean <= 0 || mean < least) return {};
  double squares = 0, area = 0;
  for (const ZonePull& z : side) squares += z.area * (z.*pull - mean) * (z.*pull - mean), area += z.area;
  return std::sqrt(squares / area) / mean;
}

}  // namespace

double Unevenness::worst() const { return std::max(chord.value_or(0), span.value_or(0)); }

Unevenness unevenness_of(const std::vector<ZonePull>& side) {
  const double chord = mean_of(side, &ZonePull::chord), span = mean_of(side, &ZonePull::span);
  const double least = least_carried * std::max(chord, span);
  return {variation(side, &ZonePull::chord, chord, least), variation(side, &ZonePull::span, span, least)};
}

}  // namespace evenpull::inline solver
