#include "viz/words/bench_words.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

constexpr double mm = 1e3;
// Bays whose sags lie that near to each other are told by one range.
constexpr double alike_within = 1.6;

struct Band {
  double low = 1e300, high = 0;
  void widen(double a, double b) { low = std::min(low, a), high = std::max(high, b); }
};

std::string sag_text(const Band& b) {
  return fmt::format("{:.2f} to {:.2f} in ({:.1f} to {:.1f} mm)", inches(b.low), inches(b.high), b.low * mm,
                     b.high * mm);
}

}  // namespace

std::vector<std::string> bench_sentences(const Plan& plan, int stage) {
  if (stage >= static_cast<int>(plan.bench_checks.size())) return {};
  const std::vector<BenchCheck>& checks = plan.bench_checks[static_cast<std::size_t>(stage)];
  if (checks.empty()) return {};
  Band sides[2], all, tap;
  for (const BenchCheck& c : checks) {
    sides[static_cast<int>(c.side)].widen(c.sag_low, c.sag_high);
    all.widen(c.sag_low, c.sag_high);
    tap.widen(c.tap_low, c.tap_high);
  }
  const bool alike = all.high <= alike_within * all.low;
  std::string sag = alike ? sag_text(all) : "";
  for (int side = 0; side < 2 && !alike; ++side)
    if (sides[side].high > 0)
      sag += (sag.empty() ? "" : ", ") + std::string(side == 0 ? "top " : "bottom ") + sag_text(sides[side]);
  const bool some = checks.size() < static_cast<std::size_t>(2 * plan.panel.bays);
  return {
      fmt::format("Weigh: {} on a lid {} across, amid the free cloth of a bay{}, should sag {}. More sag is less pull.",
                  weight_both(checks.front().weight), length_both(check_disc), some ? " where it is tight" : "", sag),
      fmt::format(
          "Tap: some {:.0f} to {:.0f} Hz, rough for the air shut in. Top and bottom of a bay should sound alike.",
          tap.low, tap.high)};
}

}  // namespace evenpull::viz
