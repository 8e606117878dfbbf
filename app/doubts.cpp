// What is possible but unusual, and so more often a slip than a wish.
#include "app/case_parts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

// Usual ranges of covered surfaces: judgement.
constexpr double widest_usual_bay = 0.5;  // m
constexpr double thickest_usual = 0.25;   // of the chord
constexpr double thinnest_usual = 0.01;   // of the chord
constexpr double loosest_usual = 0.03;    // looseness
constexpr double full_dose_is_at_least = 0.85;  // what a stated dwell gives is never quite 1

}  // namespace

void find_doubts(Case& c) {
  const auto doubt = [&](std::string sentence) { c.doubts.push_back(std::move(sentence)); };
  for (size_t i = 1; i < c.ribs.size(); ++i)
    if (c.ribs[i].station - c.ribs[i - 1].station > widest_usual_bay)
      doubt(fmt::format("Ribs {} and {} stand {} apart, more than is usual.", i, i + 1,
                        print_length(c.ribs[i].station - c.ribs[i - 1].station)));
  double thickest = 0;
  for (const auto& p : c.profile) thickest = std::max(thickest, p.top + p.bottom);
  if (thickest > thickest_usual || thickest < thinnest_usual)
    doubt(fmt::format("The panel is {:.1f} % of its chord thick, which is unusual; heights are half thicknesses.",
                      thickest * 100));
  if (std::max(c.cloth.looseness.warp, c.cloth.looseness.fill) > loosest_usual)
    doubt("The cloth is laid on looser than the usual 0 to 3 %.");
  if (const double peak = to_degF(c.stages.back().temperature) + c.iron.swing * 1.8; peak > polyester_refuse_degF)
    doubt(fmt::format("With its swing the iron reaches {:.0f} °F at times: let it settle before it touches cloth.",
                      peak));
  if (c.stages.front().doses.back() < full_dose_is_at_least) doubt("The first stage ends without a full pass.");
  if (c.approved_last_stage && c.stages.back().temperature < *c.approved_last_stage - 1)
    doubt(fmt::format("The approved data ask for {}, but the last stage of the case is {}.",
                      print_temperature(*c.approved_last_stage), print_temperature(c.stages.back().temperature)));
}

}  // namespace evenpull
