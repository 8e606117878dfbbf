#include "sequencer/choice/mid_work.hpp"

#include "sequencer/orders/order_trouble.hpp"
#include "sequencer/replay/full_passes.hpp"
#include "sequencer/replay/replay.hpp"
#include "sequencer/search/coarse_model.hpp"
#include "solver/equilibrium/attaching.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

// A zone that, worked next, brings the use over its limit, or this much above what the best order ever reaches, must wait.
constexpr double too_early = 0.15;

bool in(const std::vector<int>& zones, int z) { return std::find(zones.begin(), zones.end(), z) != zones.end(); }

// A case whose only stage is the pass begun.
Case pass_alone(const Case& c, const Begun& b) {
  const double dose = c.stages[b.stage].doses[static_cast<std::size_t>(b.pass) - 1];
  Case one = c;
  one.stages = {{c.stages[b.stage].temperature, {dose}, {stated_contact(c, b.stage, b.pass, dose)}}};
  return one;
}

}  // namespace

Begun where_it_stands(const Panel& p, const std::vector<Step>& done) {
  Begun b;
  b.stage = done.back().stage, b.pass = done.back().pass;
  for (const Step& s : done)
    if (s.stage == b.stage && s.pass == b.pass) b.worked.push_back(s.zone);
  for (int z = 0; z < static_cast<int>(p.zones.size()); ++z)
    if (!in(b.worked, z)) b.left.push_back(z);
  return b;
}

void check_goes_on(const Case& c, const Panel& p, const std::vector<Step>& done) {
  const Begun b = where_it_stands(p, done);
  const std::size_t passes = c.stages[b.stage].doses.size(), pass = static_cast<std::size_t>(b.pass);
  if (b.left.empty() && pass >= passes && b.stage + 1 == static_cast<int>(c.stages.size()))
    throw OrderError({OrderTrouble::Kind::nothing_left});
  if (!b.left.empty() && pass > passes)
    throw OrderError(
        {OrderTrouble::Kind::pass_not_stated, 0, c.stages[b.stage].temperature, b.pass, static_cast<int>(passes)});
}

std::vector<Step> go_on(const Case& c, const Panel& p, const std::vector<Step>& done, const Order& order) {
  const Begun b = where_it_stands(p, done);
  std::vector<Step> steps = done;
  for (Step& s : steps) s.done = true;
  for (int z : order.rest) {
    Step s;
    s.stage = b.stage, s.pass = b.pass, s.zone = z;
    s.dose = c.stages[b.stage].doses[static_cast<std::size_t>(b.pass) - 1];
    steps.push_back(s);
  }
  for (const Step& s : steps_of(c, p, order)) {
    if (s.stage < b.stage || (s.stage == b.stage && s.pass < b.pass)) continue;
    const bool begun = s.stage == b.stage && s.pass == b.pass;
    if (begun && (in(b.worked, s.zone) || !order.rest.empty())) continue;
    steps.push_back(s);
  }
  number_steps(p, steps);
  return steps;
}

std::optional<Note> note_on_done(const RestFound& found) {
  if (!found.stands) return note::DoneGaveWay{};
  if (found.use_so_far > 1) return note::DoneOverLimit{found.use_so_far};
  return {};
}

RestFound search_rest(const Case& c, const std::vector<Step>& done, int width, const ParallelFor& parallel) {
  RestFound out;
  const Panel whole = build_panel(c, {search_nodes});
  const Begun b = where_it_stands(whole, done);
  const Model before(c, {search_nodes});
  Ironing ironing(before);
  Covering s = ironing.begin();
  FullPasses full(whole.zones.size());
  for (const Step& step : done) {
    const std::string label = "steps done, " + whole.zones[step.zone].label;
    attach_before(before, c.stages[step.stage].temperature, s);
    const PassHeat& heat = ironing.heat(step.stage, step.pass, step.dose, full.with(step));
    out.stands = ironing.iron(s, step.zone, heat, label).outcome != Outcome::buckled;
    if (!out.stands) return out;
    out.use_so_far = std::max(out.use_so_far, tally_of(c.limits, read_off(before, s)).use);
  }
  if (b.left.empty()) return out;

  const Model m(pass_alone(c, b), {search_nodes});
  Things things;
  for (int z : b.left) things.push_back({z});
  const CoarseModel model(m, 0, s, things, full.in_stage(b.stage));
  const Found found = beam_search(model, {}, width, parallel);
  if (!found.stands) return out;
  out.rest = zones_in(things, found.order);

  // Each zone as the very next, and if that is too early, the place in the best order from which it is not.
  std::vector<PrefixPtr> prefixes = {model.begin()};
  for (int i : found.order) prefixes.push_back(model.step(prefixes.back(), i));
  const double best = prefixes.back()->tally.use;
  // Of these no equilibrium was found somewhere: they wait, but nobody knows of a load. Each its own byte, for threads.
  std::vector<char> unknown(things.size(), false);
  const auto early = [&](const PrefixPtr& from, int i) {
    const PrefixPtr p = model.step(from, i);
    if (!p->solved) unknown[i] = true;
    return !p->stands || p->tally.use > std::max(best, std::min(1.0, best + too_early));
  };
  std::vector<std::optional<note::MustWait>> waits(things.size());
  parallel(static_cast<int>(things.size()), [&](int i) {
    const std::size_t place = std::find(found.order.begin(), found.order.end(), i) - found.order.begin();
    if (!early(prefixes[0], i)) return;
    std::size_t from = 1;
    while (from < place && early(prefixes[from], i)) ++from;
    const std::vector<int> first(found.order.begin(), found.order.begin() + static_cast<std::ptrdiff_t>(from));
    waits[i] = {things[i][0], zones_in(things, first), unknown[i] != 0};
  });
  for (std::optional<note::MustWait>& w : waits)
    if (w) out.waits.push_back(std::move(*w));
  return out;
}

}  // namespace evenpull::inline sequencer
