#include "viz/words/part_words.hpp"

#include "viz/words/time_words.hpp"

#include <fmt/format.h>

#include <cmath>

namespace evenpull::viz {
namespace {

constexpr double too_early = 0.02;      // of the whole: nothing is told of the time yet
constexpr double told_in_minutes = 90;  // s
constexpr double seconds_step = 5, minutes_step = 0.5;

}  // namespace

const char* part_text(PlanPart part) {
  switch (part) {
    case PlanPart::passes: return "choosing the passes";
    case PlanPart::search: return "looking for an order";
    case PlanPart::ranking: return "comparing orders";
    case PlanPart::finalists: return "comparing the best orders";
    case PlanPart::in_full: return "the best order, step by step";
    case PlanPart::given_order: return "the order given, step by step";
    case PlanPart::error_bars: return "error bars";
    case PlanPart::setting: return "a setting between two stages";
    case PlanPart::chances: return "chances";
    case PlanPart::another_order: return "another order, which may be surer";
  }
  return "";
}

std::string time_left(double share, double seconds) {
  if (share < too_early || share >= 1) return {};
  const double left = seconds * (1 - share) / share;
  if (left < seconds_step) return "a few seconds left";
  if (left < told_in_minutes) return fmt::format("about {:.0f} s left", std::ceil(left / seconds_step) * seconds_step);
  return fmt::format("about {:g} min left", std::ceil(left / 60 / minutes_step) * minutes_step);
}

std::string done_text(double seconds) { return "done in " + duration_text(seconds); }

}  // namespace evenpull::viz
