#include "sequencer/search/order_finder.hpp"

#include "sequencer/orders/zone_graph.hpp"
#include "sequencer/plan/accuracy.hpp"
#include "sequencer/search/coarse_model.hpp"
#include "sequencer/search/influence.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// Up to so many zones each is put in order by itself; more are kept together bay by bay.
constexpr int most_single_zones = 30;
// Turn-overs priced dearly, so that orders with long runs are found too.
constexpr double dear_turn_over = 0.02;
// The influences are measured once more if they miss the use of the order found by more than this.
constexpr double drift = 0.03;
// Best-first search has closed the gap up to so many.
constexpr std::size_t most_to_the_end = 12;

// Work for the first stage, in whole orders: mostly they are left half-way.
long first_orders(Accuracy a) { return a == Accuracy::quick ? 8 : a == Accuracy::normal ? 40 : 200; }

SearchOptions later_search_options(Accuracy a, std::size_t things) {
  SearchOptions e;
  // More pieces than can be gone through to the end gain nothing from many steps: the floor of all orders rules there.
  const bool to_the_end = things <= most_to_the_end;
  e.most_steps = a == Accuracy::quick ? 50'000 : a == Accuracy::fine ? 2'000'000 : to_the_end ? 400'000 : 50'000;
  e.width = 64;
  e.most_tries = a == Accuracy::quick ? 50'000 : 200'000;
  return e;
}

std::vector<BayOfSide> bays_of(const Panel& p, const Things& bays, const std::vector<int>& order) {
  std::vector<BayOfSide> out;
  for (const int i : order) {
    const Zone& z = p.zones[bays[i].front()];
    out.push_back({z.side, z.bay});
  }
  return out;
}

double limit_share(const Tally& a, const Tally& b) { return std::abs(a.use - b.use); }

}  // namespace

// The models that were built on the way.
struct OrderFinder::Desk {
  Desk(const Case& c, Accuracy a) : mesh(c, search_mesh(a)) {}
  Model mesh;
  Prices prices;
  Things things;
  std::vector<std::unique_ptr<CoarseModel>> coarse;         // by stage, each from the end of the one before
  std::vector<std::unique_ptr<InfluenceModel>> influences;  // by stage; none for the first
  std::vector<Found> found;                                 // by stage
  Found few_turns;                                          // of the first stage
};

OrderFinder::OrderFinder(const Case& c, Accuracy accuracy, ParallelFor parallel)
    : case_(c), accuracy_(accuracy), parallel_(std::move(parallel)), desk_(std::make_unique<Desk>(c, accuracy)) {
  const Panel& p = desk_->mesh.panel;
  const bool single = accuracy != Accuracy::quick && static_cast<int>(p.zones.size()) <= most_single_zones;
  desk_->things = single ? single_zones(p) : whole_bays(p);
  desk_->prices = prices_of(c);
}

OrderFinder::~OrderFinder() = default;

// Only where its zones come thing by thing; else empty.
std::vector<int> OrderFinder::in_things(const Order& o) const {
  std::vector<int> out;
  for (std::size_t at = 0; at < o.zones.size();) {
    int which = -1;
    for (std::size_t t = 0; t < desk_->things.size(); ++t)
      if (desk_->things[t].front() == o.zones[at]) which = static_cast<int>(t);
    if (which < 0) return {};
    for (int z : desk_->things[which])
      if (at >= o.zones.size() || o.zones[at++] != z) return {};
    out.push_back(which);
  }
  return out;
}

Order OrderFinder::as_order(const std::vector<int>& things) const {
  Order o;
  o.zones = zones_in(desk_->things, things);
  o.ease = 9;
  if (static_cast<int>(desk_->things.size()) == 2 * desk_->mesh.panel.bays) {
    o.id.bays = bays_of(desk_->mesh.panel, desk_->things, things);
    o.ease = 8;
  }
  return o;
}

void OrderFinder::search_first() {
  Ironing ironing(desk_->mesh);
  desk_->coarse.push_back(std::make_unique<CoarseModel>(desk_->mesh, 0, ironing.begin(), desk_->things));
  desk_->influences.push_back(nullptr);
  const CoarseModel& m = *desk_->coarse.front();
  const long most = first_orders(accuracy_) * m.size() * m.passes();
  std::vector<std::vector<int>> seeds;
  for (const Order& o : order_families(desk_->mesh.panel))
    if (std::vector<int> t = in_things(o); !t.empty()) seeds.push_back(std::move(t));
  std::vector<Found> tries(seeds.size());
  parallel_(static_cast<int>(seeds.size()), [&](int i) { tries[i] = evaluate(m, desk_->prices, seeds[i]); });
  if (std::none_of(tries.begin(), tries.end(), [](const Found& f) { return f.stands; }))
    tries.push_back(beam_search(m, desk_->prices, 1, parallel_));
  long steps = 0;
  const auto best_for = [&](const Prices& prices, long most_steps) {
    Found best = tries.front();
    for (const Found& f : tries)
      if (f.stands && (!best.stands || cost_of(f.tally, prices) < cost_of(best.tally, prices))) best = f;
    if (!best.stands) return best;
    best = improve(m, prices, best.order, most_steps, parallel_);
    steps += best.steps;
    return best;
  };
  for (const Found& f : tries) steps += f.steps;
  Found best = best_for(desk_->prices, most);
  if (best.stands && accuracy_ != Accuracy::quick && desk_->prices.turn_over > 0) {
    Prices dear = desk_->prices;
    dear.turn_over = dear_turn_over;
    desk_->few_turns = best_for(dear, most / 2);
  }
  best.steps = steps;
  desk_->found.push_back(std::move(best));
}

void OrderFinder::search_later(int stage) {
  const CoarseModel& before = *desk_->coarse.back();
  const Found& order_before = desk_->found.back();
  const PrefixPtr end = walk(before, before.begin(), order_before.order);
  if (!end->stands) return;
  desk_->coarse.push_back(
      std::make_unique<CoarseModel>(desk_->mesh, stage, CoarseModel::covering(*end), desk_->things));
  const CoarseModel& m = *desk_->coarse.back();
  std::vector<int> reference = order_before.order;
  StageSearch report;
  for (int round = 0; round < 2; ++round) {
    auto influences =
        std::make_unique<InfluenceModel>(m.measure(reference, parallel_), m.ways(), case_.stages[stage].doses);
    Found f = search_orders(*influences, desk_->prices, later_search_options(accuracy_, desk_->things.size()),
                            parallel_, {reference});
    if (!f.stands) return;
    const Found truth = evaluate(m, desk_->prices, f.order);
    const bool drifts = limit_share(truth.tally, f.tally) > drift * truth.tally.use;
    if (static_cast<int>(desk_->influences.size()) <= stage) {
      desk_->influences.push_back(std::move(influences));
      desk_->found.push_back(f);
    } else {
      desk_->influences[stage] = std::move(influences);
      desk_->found[stage] = f;
      report.measured_again = true;
    }
    if (!drifts || !truth.stands) break;
    reference = f.order;
  }
  stages_[stage].measured_again = report.measured_again;
}

std::vector<Order> OrderFinder::find() {
  const int stages = static_cast<int>(case_.stages.size());
  stages_.assign(stages, {});
  search_first();
  if (!desk_->found.front().stands) {
    stages_.clear();
    return {};
  }
  for (int s = 1; s < stages && static_cast<int>(desk_->found.size()) == s; ++s) search_later(s);
  stages_.resize(desk_->found.size());
  for (std::size_t s = 0; s < stages_.size(); ++s) {
    const Found& f = desk_->found[s];
    StageSearch& r = stages_[s];
    r.stage = static_cast<int>(s);
    r.model = f.model;
    r.things = static_cast<int>(desk_->things.size());
    r.by_zones = desk_->things.size() == desk_->mesh.panel.zones.size();
    r.cost = f.cost, r.least_cost = f.least_cost;
    r.use = f.tally.use, r.least_use = f.least_use;
    r.exact = f.exact;
    r.steps = f.steps;
    r.unsolved = desk_->coarse[s]->unsolved();
    // The bound of the first stage is one of the coarse mesh itself, over orders that this one left out.
    // That of a later stage is one of its influences.
    const bool nothing_proven = s == 0 ? r.unsolved > 0 : desk_->coarse[s]->unmeasured() > 0;
    if (nothing_proven) r.exact = false, r.least_cost = r.least_use = 0;
  }

  std::vector<Order> orders;
  const auto add = [&](Order o, Family family) {
    o.id.family = family;
    for (const Order& known : orders)
      if (known.zones == o.zones && known.by_stage == o.by_stage) return;
    orders.push_back(std::move(o));
  };
  add(as_order(desk_->found.front().order), Family::searched);
  if (static_cast<int>(desk_->found.size()) == stages && stages > 1) {
    add(as_order(desk_->found.back().order), Family::searched_for_last);
    Order own = as_order(desk_->found.front().order);
    for (const Found& f : desk_->found) own.by_stage.push_back(zones_in(desk_->things, f.order));
    own.id.bays.clear();
    own.ease = 10;
    add(std::move(own), Family::searched_by_stage);
  }
  if (desk_->few_turns.stands) add(as_order(desk_->few_turns.order), Family::searched_few_turns);
  return orders;
}

std::vector<ModelError> OrderFinder::foretell(const Order& order, const std::vector<Step>& steps,
                                              const std::vector<Tally>& moments) const {
  std::vector<ModelError> out(stages_.size());
  for (std::size_t s = 0; s < out.size(); ++s) out[s].stage = static_cast<int>(s);
  // Zone by zone, so that every order can be walked whatever the things of the search were.
  const Things zones = single_zones(desk_->mesh.panel);
  std::size_t at = 0;
  for (std::size_t s = 0; s < out.size(); ++s) {
    const std::vector<int>& zones_of_stage = order.by_stage.empty() ? order.zones : order.by_stage[s];
    std::unique_ptr<StepModel> model;
    if (s == 0) {
      model = std::make_unique<CoarseModel>(desk_->mesh, 0, CoarseModel::covering(*desk_->coarse[0]->begin()), zones);
    } else {
      Influence i = desk_->influences[s]->influence();
      i.things.clear();
      for (int z = 0; z < static_cast<int>(zones.size()); ++z) i.things.push_back({{2 * z, 2 * z + 1}});
      model = std::make_unique<InfluenceModel>(std::move(i), Ways{}, case_.stages[s].doses);
    }
    PrefixPtr p = model->begin();
    const std::size_t count = zones_of_stage.size() * case_.stages[s].doses.size();
    for (std::size_t k = 0; k < count && at < steps.size() && p->stands; ++k, ++at) {
      if (steps[at].stage != static_cast<int>(s) || steps[at].zone != zones_of_stage[k % zones_of_stage.size()])
        return out;
      p = model->step(p, steps[at].zone);
      if (!p->stands) break;
      Tally now;
      const GaugeLayout& layout = desk_->coarse[0]->layout();
      take_gauges(layout, s == 0 ? CoarseModel::gauges(*p) : InfluenceModel::gauges(*p), now);
      out[s].use = std::max(out[s].use, std::abs(now.use - moments[at].use));
      out[s].difference = std::max(out[s].difference, std::abs(now.difference - moments[at].difference));
      out[s].slip = std::max(out[s].slip, std::abs(now.slip - moments[at].slip));
    }
  }
  return out;
}

}  // namespace evenpull::inline sequencer
