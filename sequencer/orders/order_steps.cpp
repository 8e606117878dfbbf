#include "sequencer/orders/order_steps.hpp"

#include "sequencer/orders/order_trouble.hpp"

#include <cmath>

namespace evenpull::inline sequencer {
namespace {

using Kind = OrderTrouble::Kind;

[[noreturn]] void refuse(Kind kind, std::size_t i, double temperature = 0, int number = 0, int most = 0) {
  throw OrderError({kind, static_cast<int>(i) + 1, temperature, number, most});
}

// Of a bay on one side. What is cut out leaves no strip out between two others but at a leading edge.
int strips_in(const Panel& p, int bay) {
  int n = p.strips;
  while (n > 1 && p.zone(Side::top, bay, n - 1) < 0) --n;
  return n;
}

Step step_from(const Case& c, const Panel& p, const OrderStep& s, std::size_t i) {
  Step out;
  out.stage = -1;
  for (std::size_t k = 0; k < c.stages.size(); ++k)
    if (std::abs(c.stages[k].temperature - s.temperature) < 0.1) out.stage = static_cast<int>(k);
  if (out.stage < 0) refuse(Kind::no_such_stage, i, s.temperature);
  if (s.bay < 1 || s.bay > p.bays) refuse(Kind::no_such_bay, i, 0, s.bay, p.bays);
  const int strips = strips_in(p, s.bay - 1);
  if (s.strip < 1 || s.strip > strips) refuse(Kind::no_such_strip, i, 0, s.strip, strips);
  if (s.pass < 1) refuse(Kind::pass_below_one, i);
  if (!(s.dose > 0 && s.dose <= 1)) refuse(Kind::dose_out_of_range, i);
  out.pass = s.pass;
  out.zone = p.zone(s.side, s.bay - 1, s.strip - 1);
  out.dose = s.dose;
  return out;
}

}  // namespace

std::vector<Step> steps_from(const Case& c, const Panel& p, const std::vector<OrderStep>& order) {
  std::vector<Step> steps;
  for (std::size_t i = 0; i < order.size(); ++i) {
    steps.push_back(step_from(c, p, order[i], i));
    const int before = i > 0 ? steps[i - 1].stage : -1;
    if (steps[i].stage > before + 1) refuse(Kind::stage_left_out, i, c.stages[before + 1].temperature);
    if (steps[i].stage < before) refuse(Kind::temperature_falls, i);
  }
  if (steps.empty()) throw OrderError({Kind::no_steps});
  return steps;
}

}  // namespace evenpull::inline sequencer
