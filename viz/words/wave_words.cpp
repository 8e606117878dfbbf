#include "viz/words/wave_words.hpp"

#include "solver/frame/thin_flats.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

// Depth of the waves at a reading [m]; 0: the place has no folded edge.
double depth_at(const Plan& plan, const LimitReading& l) {
  constexpr double same_place = 1e-6;  // m
  double depth = 0;
  const std::vector<BeamFlats> flats = flats_of_beams(plan.the_case, plan.panel);
  for (std::size_t b = 0; b < flats.size(); ++b) {
    const Beam& beam = plan.panel.beams[b];
    if (!flats[b].folded_edge || beam.member != l.where.member) continue;
    for (const int joint : {beam.from, beam.to})
      if (std::abs(plan.panel.joints[static_cast<std::size_t>(joint)].position.y() - l.where.station) < same_place)
        depth = std::max(depth, wave_depth(flats[b].metal, flats[b].bay, flats[b].leg_buckling, l.value));
  }
  return depth;
}

}  // namespace

std::string waves_text(const Plan& plan) {
  const int stage = plan.ceiling.value_or(0);
  for (const LimitReading& l : plan.limits) {
    if (l.limit != Limit::waves || l.stage != stage || l.use <= 1) continue;
    const double depth = depth_at(plan, l);
    return fmt::format(
        "At {} the legs of the trailing edge may go wavy beside the ribs (worst: {}){}. That is looks, not strength, "
        "and "
        "bars no stage; but the cloth keeps pulling, and the waves do not go away. Ribs closer together, thicker sheet "
        "or "
        "a lower last stage avoid them.",
        stage_both(plan.the_case, stage), place_text(plan.panel, l.where),
        depth > 0 ? ", by about " + small_length_both(depth) : "");
  }
  return "";
}

}  // namespace evenpull::viz
