#include "viz/words/runs.hpp"

#include "viz/words/wording.hpp"

#include <algorithm>
#include <map>

namespace evenpull::viz {

namespace {

bool same_runs(const std::vector<Run>& a, const std::vector<Run>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Run& p, const Run& q) {
    return p.number == q.number && p.zones == q.zones && p.done == q.done;
  });
}

bool all_done(const Run& run) {
  return std::all_of(run.done.begin(), run.done.end(), [](char d) { return d != 0; });
}

bool all_done(const StageOrder& order) {
  return std::all_of(order.runs.begin(), order.runs.end(), [](const Run& r) { return all_done(r); });
}

}  // namespace

std::vector<StageOrder> orders_of_stage(const Plan& plan, int stage) {
  std::map<int, StageOrder> by_pass;
  std::map<int, bool> to_work;
  for (const auto& step : plan.steps) {
    if (step.stage != stage) continue;
    auto& order = by_pass[step.pass];
    if (order.passes.empty()) {
      order.passes.push_back(step.pass);
      order.doses.push_back(step.dose);
    }
    // What was done before the plan was made, at whatever dose, nobody works again.
    if (!step.done) {
      if (!to_work[step.pass]) order.doses.front() = step.dose;
      else if (order.doses.front() != step.dose) order.mixed = true;
      to_work[step.pass] = true;
    }
    if (order.runs.empty() || order.runs.back().number != step.run) order.runs.push_back({step.run, {}, {}, {}, {}});
    order.runs.back().zones.push_back(step.zone);
    order.runs.back().places.push_back(step.place);
    order.runs.back().doses.push_back(step.dose);
    order.runs.back().done.push_back(step.done ? 1 : 0);
  }
  std::vector<StageOrder> orders;
  for (auto& [pass, order] : by_pass) {
    if (all_done(order)) continue;
    const auto same = std::find_if(orders.begin(), orders.end(), [&, &order = order](const StageOrder& o) {
      return !o.mixed && !order.mixed && same_runs(o.runs, order.runs);
    });
    if (same == orders.end()) {
      orders.push_back(std::move(order));
    } else {
      same->passes.push_back(pass);
      same->doses.push_back(order.doses.front());
    }
  }
  return orders;
}

bool one_order_throughout(const Plan& plan, int last) {
  std::vector<Run> first;
  for (int stage = 0; stage <= last; ++stage) {
    const auto orders = orders_of_stage(plan, stage);
    if (orders.size() != 1) return false;
    if (stage == 0) first = orders.front().runs;
    if (!same_runs(first, orders.front().runs)) return false;
  }
  return true;
}

std::string run_side(const Panel& panel, const Run& run) {
  bool top = false, bottom = false;
  for (int z : run.zones) (panel.zones.at(z).side == Side::top ? top : bottom) = true;
  return top && bottom ? "BOTH" : top ? "TOP" : "BOTTOM";
}

std::string run_zones(const Panel& panel, const Run& run, bool with_doses) {
  std::string text;
  for (std::size_t i = 0; i < run.zones.size(); ++i) {
    if (!run.done.empty() && run.done[i]) continue;
    text += (text.empty() ? "" : " ") + panel.zones.at(run.zones[i]).label;
    if (with_doses) text += " " + dose_word(run.doses[i]);
  }
  if (text.empty()) return run_done;
  return text;
}

std::vector<std::string> places_by_zone(const Panel& panel, const StageOrder& order) {
  std::vector<std::string> places(panel.zones.size());
  for (const auto& run : order.runs)
    for (std::size_t i = 0; i < run.zones.size(); ++i) {
      auto& text = places.at(run.zones[i]);
      if (!run.done.empty() && run.done[i]) {
        text = "done";
        continue;
      }
      text += (text.empty() ? "" : ", ") + std::to_string(run.places[i]);
    }
  return places;
}

}  // namespace evenpull::viz
