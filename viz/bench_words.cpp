#include "viz/bench_words.hpp"

#include "sequencer/bench_check.hpp"
#include "viz/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

constexpr double pounds_per_kilogram = 1 / 0.45359237;
constexpr double mm = 1e3;

std::string weight_text(double kilograms) {
  return fmt::format("{:.1f} lb ({:.0f} g)", kilograms * pounds_per_kilogram, kilograms * 1e3);
}

struct Band {
  double low = 1e300, high = 0;
  void widen(double a, double b) { low = std::min(low, a), high = std::max(high, b); }
};

std::string sag_text(const Band& b) {
  return fmt::format("{:.2f} to {:.2f} in ({:.1f} to {:.1f} mm)", inches(b.low), inches(b.high), b.low * mm, b.high * mm);
}

}  // namespace

std::vector<std::string> bench_sentences(const Plan& plan, int stage) {
  const std::vector<BenchCheck> checks = bench_checks(plan, stage);
  if (checks.empty()) return {};
  // The bay nearest to the middle of the span stands for the panel; the others are named by their range.
  const auto off = [&](const BenchCheck& c) { return std::abs(2 * c.bay + 1 - plan.panel.bays); };
  int shown = checks.front().bay, least = 1 << 20;
  for (const BenchCheck& c : checks)
    if (off(c) < least) least = off(c), shown = c.bay;
  std::string here;
  Band others, tap;
  for (const BenchCheck& c : checks) {
    if (c.bay != shown) {
      others.widen(c.sag_low, c.sag_high);
      continue;
    }
    Band b;
    b.widen(c.sag_low, c.sag_high);
    here += (here.empty() ? "" : ", ") + std::string(c.side == Side::top ? "top " : "bottom ") + sag_text(b);
    tap.widen(c.tap_low, c.tap_high);
  }
  std::string weigh = fmt::format("Weight: lay {} on a lid {} across, in the middle of the free cloth of bay {}. It should sag: {}",
                                  weight_text(checks.front().weight), length_both(check_disc), shown + 1, here);
  if (others.high > 0) weigh += "; other bays " + sag_text(others);
  weigh += ". Sags more: less pull than reckoned; sags less: more.";
  return {weigh, fmt::format("Tap bay {}: about {:.0f} to {:.0f} Hz on a tone meter. Air shut in behind the cloth makes this "
                             "rough: use it to compare bays, top with bottom.",
                             shown + 1, tap.low, tap.high)};
}

}  // namespace evenpull::viz
