#include "viz/words/search_words.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

// A gap above this tells a reader nothing.
constexpr double no_use = 0.5;

std::string turn_overs_text(int n) { return std::to_string(n) + (n == 1 ? " turn-over" : " turn-overs"); }

std::string what_is_proven(const StageSearch& r) {
  if (r.unsolved > 0 && !r.exact && r.least_cost <= 0)
    return fmt::format(
        "nothing is proven about other orders: in {} of {} steps that were tried no equilibrium was found, and the "
        "orders with these were left out; the best of the rest has a worst use of {:.2f}",
        r.unsolved, r.steps, r.use);
  if (r.exact)
    return fmt::format("no order of the {} pieces costs less than the best that was found: worst use {:.2f}", r.things,
                       r.use);
  if (r.gap() > no_use)
    return fmt::format(
        "nothing useful is proven about other orders; the best of {} steps tried has a worst use of {:.2f}", r.steps,
        r.use);
  return fmt::format(
      "no order of the {} pieces can bring the worst use below {:.2f}; the best found has {:.2f}, and all in all "
      "it costs at most {:.0f} % more than the best there can be",
      r.things, r.least_use, r.use, 100 * r.gap());
}

}  // namespace

std::string trade_sentence(const std::vector<TradeOff>& points) {
  if (!is_a_trade(points)) return "";
  const TradeOff &many = points.front(), &few = points.back();
  return fmt::format(
      "{} a pass keep the worst pull difference at {} and the use at {:.2f}; {} {} them {} and "
      "{:.2f} (coarse mesh).",
      turn_overs_text(many.turn_overs_a_pass), pull_both(many.difference), many.use,
      turn_overs_text(few.turn_overs_a_pass), few.turn_overs_a_pass == 1 ? "makes" : "make", pull_both(few.difference),
      few.use);
}

std::string proof_sentence(const Plan& plan) {
  if (plan.searched.empty()) return "";
  const auto s = std::min(static_cast<std::size_t>(plan.ceiling.value_or(0)), plan.searched.size() - 1);
  const StageSearch& r = plan.searched[s];
  return fmt::format("How good is the order? At {} {} (in the quick model that searched: {}).",
                     degrees_both(plan.the_case.stages[static_cast<std::size_t>(r.stage)].temperature),
                     what_is_proven(r), search_model_text(r.model));
}

const char* search_model_text(SearchModel m) {
  switch (m) {
    case SearchModel::coarse_mesh: return "coarse mesh, every prefix computed";
    case SearchModel::influences: return "influences superposed, with load line and ratchet";
  }
  return "";
}

}  // namespace evenpull::viz
