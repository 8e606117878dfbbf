// How sure the plan is, in words for the bench.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// How often something bends for good and how many keep their shape, up to the hottest safe stage; empty without one or without
/// a study.
std::string sure_words(const Plan& plan);
/// What the chances rest on, each limit, what to measure next, zones at risk.
std::vector<std::string> sure_sentences(const Plan& plan);
/// Zones with a risk of at least `least`, worst first.
struct RiskyZone {
  int zone = 0;
  double risk = 0;
};
std::vector<RiskyZone> risky_zones(const Plan& plan, bool slides, double least);

/// "pull of the cloth".
const char* unsure_text(Unsure u);
/// "± 25 %", "± 7 °F".
std::string spread_text(const InputWeight& w);

}  // namespace evenpull::viz
