#include "sequencer/search/coarse_model.hpp"

#include "sequencer/replay/full_passes.hpp"
#include "sequencer/replay/replay.hpp"
#include "solver/equilibrium/attaching.hpp"

#include <array>
#include <cmath>

namespace evenpull::inline sequencer {

struct CoarseModel::State : Prefix {
  Covering covering;
  Eigen::VectorXd gauges;
};

namespace {

// Mean shrink of each zone in warp and fill.
std::vector<std::array<double, 2>> shrink_of(const Panel& p, const Covering& s) {
  std::vector<std::array<double, 2>> mean(p.zones.size(), {0, 0});
  for (std::size_t z = 0; z < p.zones.size(); ++z)
    for (int q : p.zones[z].quads)
      for (int t = 4 * q; t < 4 * q + 4; ++t)
        for (int d = 0; d < 2; ++d) mean[z][d] += 0.25 * p.quads[q].area / p.zones[z].area * s.shrink[t][d];
  return mean;
}

// Shrink below which a change cannot be told from the tolerances of a step.
constexpr double least_gain = 1e-4;

}  // namespace

CoarseModel::CoarseModel(const Model& m, int stage, Covering start, Things things, std::vector<int> worked_full)
    : m_(m),
      stage_(stage),
      things_(std::move(things)),
      layout_(gauge_layout(m)),
      ways_(ways_between(m.the_case, m.panel, things_)),
      worked_full_(std::move(worked_full)) {
  worked_full_.resize(m.panel.zones.size(), 0);
  auto s = std::make_shared<State>();
  s->covering = std::move(start);
  attach_before(m, m.the_case.stages[stage].temperature, s->covering);
  read(*s, false);
  begin_ = s;
}

const Covering& CoarseModel::covering(const Prefix& p) { return static_cast<const State&>(p).covering; }
const Eigen::VectorXd& CoarseModel::gauges(const Prefix& p) { return static_cast<const State&>(p).gauges; }

CoarseModel::~CoarseModel() {
  for (std::atomic<Ironing*>& place : idle_) delete place.load();
}

std::unique_ptr<Ironing> CoarseModel::borrow() const {
  for (std::atomic<Ironing*>& place : idle_)
    if (Ironing* i = place.exchange(nullptr)) return std::unique_ptr<Ironing>(i);
  return std::make_unique<Ironing>(m_);
}

void CoarseModel::give_back(std::unique_ptr<Ironing> i) const {
  for (std::atomic<Ironing*>& place : idle_) {
    Ironing* none = nullptr;
    if (place.compare_exchange_strong(none, i.get())) {
      static_cast<void>(i.release());
      return;
    }
  }
}

void CoarseModel::read(State& s, bool at_end) const {
  const Readings r = read_off(m_, s.covering);
  s.gauges = gauges_of(m_, layout_, r);
  take_gauges(layout_, s.gauges, s.tally);
  if (at_end) s.tally.unevenness = r.unevenness;
}

// One solve with an iron of its own; none where it finds no equilibrium, and then the iron is not used again.
std::optional<Outcome> CoarseModel::solved(const std::function<StepReport(Ironing&)>& solve) const {
  std::unique_ptr<Ironing> ironing = borrow();
  try {
    const Outcome out = solve(*ironing).outcome;
    give_back(std::move(ironing));
    return out;
  } catch (const NotConverged&) {
    ++unsolved_;
    return {};
  }
}

void CoarseModel::solve(State& s, const std::function<StepReport(Ironing&)>& solve) const {
  const std::optional<Outcome> out = solved(solve);
  s.solved = out.has_value();
  s.stands = s.solved && *out != Outcome::buckled;
}

// Full passes that a zone has met with the last of so many passes of this stage; 0 if that one is light.
int CoarseModel::full_passes(int zone, int passes) const {
  const int here = full_passes_of(m_.the_case.stages[stage_].doses, passes);
  return here > 0 ? here + worked_full_[zone] : 0;
}

PrefixPtr CoarseModel::step(const PrefixPtr& from, int which) const {
  auto s = std::make_shared<State>(static_cast<const State&>(*from));
  const int pass = s->steps / size() + 1;
  const double dose = m_.the_case.stages[stage_].doses[static_cast<std::size_t>(pass) - 1];
  for (int z : things_[which]) {
    const std::string label = "search, " + m_.panel.zones[z].label;
    solve(*s, [&](Ironing& iron) {
      return iron.iron(s->covering, z, iron.heat(stage_, pass, dose, full_passes(z, pass)), label);
    });
    if (!s->stands) break;
    read(*s, false);
  }
  if (s->last >= 0) {
    s->tally.travel += ways_.travel(s->last, which);
    s->tally.turn_overs += ways_.turn_over(s->last, which);
  }
  s->last = which;
  ++s->steps;
  return s;
}

PrefixPtr CoarseModel::finish(const PrefixPtr& whole) const {
  auto s = std::make_shared<State>(static_cast<const State&>(*whole));
  solve(*s, [&](Ironing& i) { return i.settle(s->covering, "search, settling"); });
  if (s->stands) {
    read(*s, true);
    // Released it must hold as well; the next stage goes on with the fixture in place.
    State free = *s;
    solve(*s, [&](Ironing& i) { return i.release(free.covering, "search, released"); });
    if (s->stands) {
      read(free, false);
      s->tally = joined(s->tally, free.tally);
      s->tally.unevenness = free.tally.unevenness;
      s->tally.travel = free.tally.travel;
      s->tally.turn_overs = free.tally.turn_overs;
    }
  }
  return s;
}

// Friction makes the effect of a zone depend on when it is worked: cloth slides where it is pulled little and sticks where
// it is pulled much. So each cell is measured twice and the mean is taken: as the first to be worked, and as the last, by
// taking its shrink away again from the state that a whole pass leaves. Where one of the two gives way the other stands alone.
Influence CoarseModel::measure(const std::vector<int>& reference, const ParallelFor& parallel) const {
  const Covering& first = covering(*begin_);
  const Stage& stage = m_.the_case.stages[stage_];
  // Of the last pass, which decides what later stages find; its dose goes into the model by itself.
  const double dose = stage.doses.back();
  const int passes = static_cast<int>(stage.doses.size());
  std::unique_ptr<Ironing> iron = borrow();
  const int zones = static_cast<int>(m_.panel.zones.size()), cells = 2 * zones;
  const auto shrink = shrink_of(m_.panel, first);
  const ZonePulls pulls = read_off(m_, first).zones;

  Influence out;
  out.layout = layout_;
  out.start = gauges(*begin_);
  out.effect = Eigen::MatrixXd::Zero(layout_.size(), cells);
  out.push = Eigen::MatrixXd::Zero(cells, cells);
  out.shrink.resize(cells), out.pull.resize(cells), out.free_shrink.resize(cells), out.give.resize(cells);
  for (int i = 0; i < cells; ++i) {
    const int z = i / 2, d = i % 2;
    out.shrink[i] = shrink[z][d];
    out.pull[i] = (d == 0 ? pulls.warp : pulls.fill)[z];
    const PassLine line = iron->zone_line(z, d, iron->heat(stage_, passes, dose, full_passes(z, passes)));
    out.free_shrink[i] = line.a / dose;
    out.give[i] = line.b / dose;
  }
  give_back(std::move(iron));
  for (const std::vector<int>& thing : things_) {
    out.things.emplace_back();
    for (int z : thing) out.things.back().push_back({2 * z, 2 * z + 1});
  }
  PrefixPtr all = begin_;
  for (std::size_t i = 0; i < reference.size() && all->stands; ++i) all = step(all, reference[i]);
  const Covering& last = covering(*all);
  const auto shrunk = shrink_of(m_.panel, last);
  parallel(zones, [&](int z) {
    const std::string label = "influence of " + m_.panel.zones[z].label;
    for (int d = 0; d < 2; ++d) {
      const double gain = std::max(shrunk[z][d] - shrink[z][d], least_gain);
      const int cell = 2 * z + d;
      int measured = 0;
      for (int when = 0; when < 2; ++when) {  // as the first, as the last
        const Covering& from = when == 0 ? first : last;
        const double change = when == 0 ? gain : -gain;
        Covering s = from;
        for (int q : m_.panel.zones[z].quads)
          for (int t = 4 * q; t < 4 * q + 4; ++t) s.shrink[t][d] += change;
        if (solved([&](Ironing& i) { return i.rebalance(s, label); }).value_or(Outcome::buckled) == Outcome::buckled)
          continue;
        ++measured;
        const Readings r = read_off(m_, s), before = read_off(m_, from);
        out.effect.col(cell) += (gauges_of(m_, layout_, r) - gauges_of(m_, layout_, before)) / change;
        for (int i = 0; i < cells; ++i) {
          const auto& now = i % 2 == 0 ? r.zones.warp : r.zones.fill;
          const auto& then = i % 2 == 0 ? before.zones.warp : before.zones.fill;
          out.push(i, cell) += (now[i / 2] - then[i / 2]) / change;
        }
      }
      if (measured == 0) ++unmeasured_;
      if (measured > 1) out.effect.col(cell) /= measured, out.push.col(cell) /= measured;
    }
  });
  return out;
}

}  // namespace evenpull::inline sequencer
