#include "sequencer/orders/families.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

// Round by round the middle of every gap that is left, from left to right, until all are taken.
void halve_gaps(int n, std::vector<int>& order) {
  while (static_cast<int>(order.size()) < n) {
    std::vector<int> taken = order;
    std::sort(taken.begin(), taken.end());
    taken.push_back(n);
    int from = 0;
    for (int t : taken) {
      if (t > from) order.push_back((from + t - 1) / 2);
      from = t + 1;
    }
  }
}

std::vector<int> root_to_tip(int n) {
  std::vector<int> o;
  for (int i = 0; i < n; ++i) o.push_back(i);
  return o;
}

// Both sides of each bay in turn; the side that was worked last begins the next bay, which saves every other turn-over.
std::vector<int> alternate_bays(const Panel& p, const std::vector<int>& bays) {
  std::vector<int> blocks;
  int first = 0;
  for (int b : bays) {
    blocks.push_back(first * p.bays + b);
    blocks.push_back((1 - first) * p.bays + b);
    first = 1 - first;
  }
  return zones_of_blocks(p, blocks);
}

// Both sides of each strip in turn, beginning on the side that was worked last.
std::vector<int> alternate_strips(const Panel& p, const std::vector<int>& bays) {
  std::vector<int> zones;
  int first = 0;
  for (int b : bays)
    for (int k = 0; k < p.strips; ++k) {
      if (p.zone(Side::top, b, k) < 0) continue;  // cut out on both sides alike
      zones.push_back(p.zone(static_cast<Side>(first), b, k));
      zones.push_back(p.zone(static_cast<Side>(1 - first), b, k));
      first = 1 - first;
    }
  return zones;
}

std::vector<int> one_side_first(const Panel& p, const std::vector<int>& bays) {
  std::vector<int> blocks;
  for (int side = 0; side < 2; ++side)
    for (int b : bays) blocks.push_back(side * p.bays + b);
  return zones_of_blocks(p, blocks);
}

// Where cloth is cut out in one half of the span, zones of the other half are nobody's mirror image: each follows the
// last zone of its own bay and side.
void take_in_what_has_no_image(const Panel& p, std::vector<int>& zones) {
  for (int z = 0; z < static_cast<int>(p.zones.size()); ++z) {
    if (std::find(zones.begin(), zones.end(), z) != zones.end()) continue;
    const auto last = std::find_if(zones.rbegin(), zones.rend(), [&](int other) {
      return p.zones[other].side == p.zones[z].side && p.zones[other].bay == p.zones[z].bay;
    });
    zones.insert(last.base() == zones.begin() ? zones.end() : last.base(), z);
  }
}

}  // namespace

std::vector<int> centre_out_halving(int n) {
  std::vector<int> order;
  if (n > 0) order.push_back((n - 1) / 2);
  halve_gaps(n, order);
  return order;
}

std::vector<int> jumping(int n) {
  std::vector<int> order;
  if (n > 0) order.push_back(0);
  if (n > 1) order.push_back(n - 1);
  halve_gaps(n, order);
  return order;
}

std::vector<int> halving_in_runs(int bays, int bays_in_run) {
  const std::vector<int> order = centre_out_halving(bays);
  std::vector<int> blocks;
  for (int from = 0; from < bays; from += bays_in_run)
    for (int side = 0; side < 2; ++side)
      for (int i = from; i < std::min(bays, from + bays_in_run); ++i) blocks.push_back(side * bays + order[i]);
  return blocks;
}

std::vector<int> zones_of_blocks(const Panel& p, const std::vector<int>& blocks) {
  std::vector<int> zones;
  for (int block : blocks)
    for (int k = 0; k < p.strips; ++k)
      if (const int z = p.zone(static_cast<Side>(block / p.bays), block % p.bays, k); z >= 0) zones.push_back(z);
  return zones;
}

std::vector<Order> order_families(const Panel& p, int stages) {
  const std::vector<int> steady = root_to_tip(p.bays), halving = centre_out_halving(p.bays), jumps = jumping(p.bays);
  std::vector<Order> all = {
      {{Family::one_side}, one_side_first(p, steady), 0},
      {{Family::root_to_tip}, alternate_bays(p, steady), 1},
      {{Family::halving}, alternate_bays(p, halving), 2},
      {{Family::jumping}, alternate_bays(p, jumps), 3},
  };
  for (int run = p.bays; run > 1 && p.bays > 2; run = (run + 1) / 2) {
    const OrderId id = run == p.bays ? OrderId{Family::halving_one_side} : OrderId{Family::halving_in_runs, run};
    all.push_back({id, zones_of_blocks(p, halving_in_runs(p.bays, run)), 2});
  }
  std::stable_sort(all.begin(), all.end(), [](const Order& a, const Order& b) { return a.ease < b.ease; });
  if (p.strips > 1) all.push_back({{Family::halving_by_strips}, alternate_strips(p, halving), 4});
  if (p.strips > 1 && stages > 1) {
    Order o{{Family::strips_then_bays}, alternate_strips(p, halving), 5};
    o.by_stage.assign(static_cast<std::size_t>(stages), alternate_bays(p, halving));
    o.by_stage.front() = o.zones;
    all.push_back(std::move(o));
  }
  return all;
}

Order mirrored(const Panel& p, const Order& o, bool sides, bool ends) {
  Order out = o;
  const auto image = [&](int z) {
    const Zone& from = p.zones[z];
    const Side side = sides != (from.side == Side::bottom) ? Side::bottom : Side::top;
    return p.zone(side, ends ? p.bays - 1 - from.bay : from.bay, from.strip);
  };
  const auto mirror = [&](std::vector<int>& zones) {
    for (int& z : zones) z = image(z);
    std::erase(zones, -1);
    take_in_what_has_no_image(p, zones);
  };
  mirror(out.zones);
  for (std::vector<int>& stage : out.by_stage) mirror(stage);
  if (sides || ends) out.id.mirrored.push_back(sides && ends ? Mirror::both : sides ? Mirror::sides : Mirror::ends);
  return out;
}

std::vector<Step> steps_of(const Case& c, const Panel& p, const Order& o) {
  std::vector<Step> steps;
  for (std::size_t s = 0; s < c.stages.size(); ++s)
    for (std::size_t pass = 0; pass < c.stages[s].doses.size(); ++pass)
      for (int z : o.by_stage.empty() ? o.zones : o.by_stage[s]) {
        Step step;
        step.stage = static_cast<int>(s);
        step.pass = static_cast<int>(pass) + 1;
        step.zone = z;
        step.dose = c.stages[s].doses[pass];
        steps.push_back(step);
      }
  number_steps(p, steps);
  return steps;
}

void number_steps(const Panel& p, std::vector<Step>& steps) {
  for (std::size_t i = 0; i < steps.size(); ++i) {
    Step& s = steps[i];
    const bool same_pass = i > 0 && steps[i - 1].stage == s.stage && steps[i - 1].pass == s.pass;
    if (!same_pass) {
      s.run = s.place = 1;
      continue;
    }
    s.place = steps[i - 1].place + 1;
    s.run = steps[i - 1].run + (p.zones[steps[i - 1].zone].side != p.zones[s.zone].side ? 1 : 0);
  }
}

int turn_overs(const Panel& p, const std::vector<Step>& steps, int last_stage) {
  int n = 0;
  for (std::size_t i = 1; i < steps.size() && steps[i].stage <= last_stage; ++i)
    n += !steps[i].done && p.zones[steps[i - 1].zone].side != p.zones[steps[i].zone].side ? 1 : 0;
  return n;
}

int turn_overs_a_pass(const std::vector<Step>& steps, int last_stage) {
  int most = 0, here = 0;
  for (std::size_t i = 1; i < steps.size() && steps[i].stage <= last_stage; ++i) {
    const bool same_pass = steps[i].stage == steps[i - 1].stage && steps[i].pass == steps[i - 1].pass;
    here = !same_pass ? 0 : here + (steps[i].done ? 0 : steps[i].run - steps[i - 1].run);
    most = std::max(most, here);
  }
  return most;
}

double longest_run(const Panel& p, const std::vector<Step>& steps, int stage) {
  double of_side[2] = {0, 0};
  int zones_of_side[2] = {0, 0};
  for (const Zone& z : p.zones) of_side[static_cast<int>(z.side)] += z.area, ++zones_of_side[static_cast<int>(z.side)];
  double longest = 0, area = 0, zones = 0;
  const Step* before = nullptr;
  for (const Step& s : steps) {
    if (s.stage != stage) continue;
    const Zone& z = p.zones[static_cast<std::size_t>(s.zone)];
    const bool goes_on = before && before->pass == s.pass &&
                         p.zones[static_cast<std::size_t>(before->zone)].side == z.side;
    area = (goes_on ? area : 0) + z.area / of_side[static_cast<int>(z.side)];
    zones = (goes_on ? zones : 0) + 1.0 / zones_of_side[static_cast<int>(z.side)];
    longest = std::max(longest, std::min(area, zones));
    before = &s;
  }
  return longest;
}

std::vector<Step> split_steps(const Panel& whole, const Panel& split, const std::vector<Step>& steps) {
  const int parts = split.strips / whole.strips;
  std::vector<Step> out;
  for (const Step& s : steps) {
    const Zone& z = whole.zones[s.zone];
    for (int part = 0; part < parts; ++part) {
      Step h = s;
      h.zone = split.zone(z.side, z.bay, parts * z.strip + part);
      if (h.zone >= 0) out.push_back(h);
    }
  }
  number_steps(split, out);
  return out;
}

}  // namespace evenpull::inline sequencer
