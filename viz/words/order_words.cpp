#include "viz/words/order_words.hpp"

#include "viz/words/wording.hpp"

#include <fmt/core.h>

namespace evenpull::viz {

namespace {

const char* mirror_text(Mirror m) {
  switch (m) {
    case Mirror::sides: return "sides exchanged";
    case Mirror::ends: return "root and tip exchanged";
    case Mirror::both: return "sides exchanged, root and tip exchanged";
  }
  return "";
}

std::string family_name(const OrderId& o) {
  switch (o.family) {
    case Family::none: break;
    case Family::one_side: return "one side after the other";
    case Family::root_to_tip: return "root to tip, sides alternating";
    case Family::halving: return "centre-out halving, sides alternating";
    case Family::jumping: return "jumping, sides alternating";
    case Family::halving_in_runs: return fmt::format("centre-out halving in runs of {} bays", o.bays_in_run);
    case Family::halving_one_side: return "one side after the other, centre-out halving";
    case Family::halving_by_strips: return "centre-out halving, sides alternating strip by strip";
    case Family::strips_then_bays: return "centre-out halving, strip by strip in the first stage, then bay by bay";
    case Family::searched: return "searched";
    case Family::searched_for_last: return "searched for the last stage";
    case Family::searched_by_stage: return "searched stage by stage";
    case Family::searched_few_turns: return "searched, turn-overs priced dearly";
    case Family::searched_rest: return "searched for the rest of the pass";
    case Family::as_given: return "as given";
  }
  return "";
}

// An order of whole bays, run by run.
std::string bay_by_bay(const std::vector<BayOfSide>& bays) {
  std::string text = "Bay by bay, counted from the root, each from the leading edge back:";
  for (std::size_t i = 0; i < bays.size(); ++i) {
    const bool turned = i == 0 || bays[i - 1].side != bays[i].side;
    if (turned) text += std::string(i ? ";" : "") + (bays[i].side == Side::top ? " top " : " bottom ");
    text += (turned ? "" : ", ") + std::to_string(bays[i].bay + 1);
  }
  return text + ".";
}

constexpr const char* halving_rule =
    "The centre bay first, then the middle of each gap; each bay on both sides before the next.";

std::string family_rule(const OrderId& o) {
  switch (o.family) {
    case Family::none: break;
    case Family::one_side: return "All of the top from root to tip, then all of the bottom.";
    case Family::root_to_tip:
      return "From root to tip bay by bay: one side of the bay, turn over, the other side, then the next bay.";
    case Family::halving: return halving_rule;
    case Family::jumping:
      return "One end bay, the other end bay, the middle, then the middle of each gap; each bay on both sides before "
             "the next.";
    case Family::halving_in_runs:
      return fmt::format(
          "The centre bay first, then the middle of each gap: {} bays on top, turn over, the same bays on the "
          "bottom, turn over, the next bays.",
          o.bays_in_run);
    case Family::halving_one_side:
      return "All of the top, the centre bay first, then the middle of each gap; then all of the bottom in the same "
             "order.";
    case Family::halving_by_strips:
      return "The centre bay first, then the middle of each gap; strip by strip on both sides, each beginning on the "
             "side "
             "worked last.";
    case Family::strips_then_bays:
      return "The centre bay first, then the middle of each gap. First stage: strip by strip on both sides, each "
             "beginning on the side worked last. Later stages: each bay on both sides before the next.";
    case Family::searched:
    case Family::searched_for_last:
    case Family::searched_few_turns: return o.bays.empty() ? "No rule: follow the numbers." : bay_by_bay(o.bays);
    case Family::searched_by_stage:
      return "No rule, and each stage has an order of its own: follow the numbers of its page.";
    case Family::searched_rest:
      return std::string("The rest of this pass has no rule: follow the numbers. Then: ") + halving_rule;
    case Family::as_given: return "The order you gave.";
  }
  return "";
}

}  // namespace

std::string order_name(const OrderId& o) {
  std::string text = family_name(o);
  for (const Mirror m : o.mirrored) text += fmt::format(" ({})", mirror_text(m));
  return text;
}

std::string order_rule(const OrderId& o) {
  std::string text = family_rule(o);
  for (const Mirror m : o.mirrored) text += fmt::format(" Mirrored: {}.", mirror_text(m));
  return text;
}

const char* model_text(OrderModel m) {
  switch (m) {
    case OrderModel::coarse: return "coarse";
    case OrderModel::between: return "half";
    case OrderModel::full: return "full";
  }
  return "";
}

std::string step_text(const Plan& plan, const Step& s) {
  return fmt::format("{:.0f} F, pass {}, {}",
                     fahrenheit(plan.the_case.stages[static_cast<std::size_t>(s.stage)].temperature), s.pass,
                     plan.panel.zones[static_cast<std::size_t>(s.zone)].label);
}

std::string snapshot_text(const Plan& plan, const Snapshot& s) {
  return s.step == 0 ? "before ironing" : step_text(plan, plan.steps.at(static_cast<std::size_t>(s.step) - 1));
}

std::string snapshot_words(const Plan& plan, const Snapshot& s) {
  if (s.step == 0) return snapshot_text(plan, s);
  const Step& step = plan.steps.at(static_cast<std::size_t>(s.step) - 1);
  return fmt::format("{}, pass {}, {}",
                     degrees_f(plan.the_case.stages[static_cast<std::size_t>(step.stage)].temperature), step.pass,
                     plan.panel.zones[static_cast<std::size_t>(step.zone)].label);
}

std::string solve_text(const SolveName& n) {
  std::string text = n.pass > 0 ? fmt::format("{:.0f} F, pass {}, {}", fahrenheit(n.temperature), n.pass, n.what)
                                : n.what;
  switch (n.part) {
    case SolveName::Part::itself: break;
    case SolveName::Part::settling: return text + ", settling";
    case SolveName::Part::released: return text + ", released";
  }
  return text;
}

std::string certificate_text(const Plan& plan, const Certificate& c) {
  switch (c.when) {
    case Moment::on_the_way: return step_text(plan, plan.steps.at(static_cast<std::size_t>(c.step) - 1));
    case Moment::stage_end: return "stage end";
    case Moment::released: return "released";
  }
  return "";
}

std::string node_text(const Plan& plan, const PassZone& v) {
  return fmt::format("{}\\n{:.0f} F, pass {}", plan.panel.zones[static_cast<std::size_t>(v.zone)].label,
                     fahrenheit(plan.the_case.stages[static_cast<std::size_t>(v.stage)].temperature), v.pass);
}

std::string order_trouble_text(const OrderTrouble& t) {
  using Kind = OrderTrouble::Kind;
  const std::string which = t.step > 0 ? fmt::format("step {}: ", t.step) : "";
  switch (t.kind) {
    case Kind::no_such_stage: return which + "the case has no stage at " + degrees_both(t.temperature);
    case Kind::no_such_bay:
      return which + fmt::format("bay {} does not exist; the panel has bays 1 to {}", t.number, t.most);
    case Kind::no_such_strip:
      return which + fmt::format("strip {} does not exist; that bay has strips 1 to {}", t.number, t.most);
    case Kind::pass_below_one: return which + "passes are counted from 1";
    case Kind::dose_out_of_range: return which + "a dose is more than 0 and at most 1";
    case Kind::stage_left_out:
      return which +
             fmt::format(
                 "the order leaves out the stage at {}; work its zones first, or take that stage out of the case",
                 degrees_both(t.temperature));
    case Kind::temperature_falls:
      return which + "the temperature falls; list the steps from the coolest stage to the hottest";
    case Kind::no_steps: return "there are no steps";
    case Kind::nothing_left:
      return "every pass of every stage is done, so there is nothing left to plan; `replay` computes what was worked";
    case Kind::pass_not_stated:
      return fmt::format("pass {} was begun at {}, for which the case has {} passes; state that pass in the case",
                         t.number, degrees_both(t.temperature), t.most);
  }
  return "";
}

}  // namespace evenpull::viz
