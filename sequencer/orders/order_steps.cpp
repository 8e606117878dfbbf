#include "sequencer/orders/order_steps.hpp"

#include "sequencer/plan/temperature_text.hpp"
#include "solver/statement/errors.hpp"

#include <cmath>
#include <string>

namespace evenpull {
namespace {

Step step_from(const Case& c, const Panel& p, const OrderStep& s, std::size_t number) {
  const std::string which = "step " + std::to_string(number + 1) + ": ";
  Step out;
  out.stage = -1;
  for (std::size_t i = 0; i < c.stages.size(); ++i)
    if (std::abs(c.stages[i].temperature - s.temperature) < 0.1) out.stage = static_cast<int>(i);
  if (out.stage < 0) throw CaseError("order", which + "the case has no stage at " + temperature_text(s.temperature));
  if (s.bay < 1 || s.bay > p.bays)
    throw CaseError("order", which + "bay " + std::to_string(s.bay) + " does not exist; the panel has bays 1 to " +
                                 std::to_string(p.bays));
  if (s.strip < 1 || s.strip > p.strips)
    throw CaseError("order", which + "strip " + std::to_string(s.strip) + " does not exist; each bay has strips 1 to " +
                                 std::to_string(p.strips));
  if (s.pass < 1) throw CaseError("order", which + "passes are counted from 1");
  if (!(s.dose > 0 && s.dose <= 1)) throw CaseError("order", which + "a dose is more than 0 and at most 1");
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
    if (steps[i].stage > before + 1)
      throw CaseError("order", "step " + std::to_string(i + 1) + ": the order leaves out the stage at " +
                                   temperature_text(c.stages[before + 1].temperature) +
                                   "; work its zones first, or take that stage out of the case");
    if (steps[i].stage < before)
      throw CaseError("order", "step " + std::to_string(i + 1) +
                                   ": the temperature falls; list the steps from the coolest stage to the hottest");
  }
  if (steps.empty()) throw CaseError("order", "there are no steps");
  return steps;
}

}  // namespace evenpull
