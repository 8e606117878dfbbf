// What would buy a stage: candidates, what they change and weigh, and how they are ranked. Panels are invented.
#include "shop/stiffen/ranking.hpp"
#include "solver/equilibrium/mechanism.hpp"
#include "tests/support/sample_case.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

using namespace evenpull;

namespace {

UsualStock stock() {
  const Material spruce{"spruce", 10.8e9, 0.69e9, 70e6, Strength::rupture};
  const Material alloy{"light tube", 68.9e9, 25.9e9, 241e6, Strength::yield};
  const Material steel{"steel tube", 200e9, 77e9, 345e6, Strength::yield};
  return {spruce, alloy, steel, {0.060, 0.090, 0.120}};
}

// What stops it is a limit read at a member of that role.
StageBar stopped_at(const Panel& p, Limit limit, MemberRole role) {
  StageBar bar;
  bar.stage = 1;
  LimitReading l;
  l.limit = limit, l.use = 1.4, l.value = 0.014, l.allowed = 0.01;
  for (std::size_t m = 0; m < p.members.size(); ++m)
    if (p.members[m].role == role && l.where.member < 0) l.where.member = static_cast<int>(m);
  l.where.kind = role == MemberRole::end_rib ? Place::Kind::across_member : Place::Kind::along_member;
  bar.over = l;
  return bar;
}

bool has(const std::vector<Candidate>& all, StiffenKind kind) {
  return std::any_of(all.begin(), all.end(), [&](const Candidate& k) { return k.kind == kind; });
}

std::vector<Candidate> for_limit(const Case& c, Limit limit, MemberRole role) {
  const Panel p = build_panel(c, {coarse_nodes});
  return candidates_for(c, p, stopped_at(p, limit, role), stock());
}

Trial trial(StiffenKind kind, bool comes_out, double use, std::optional<int> bears) {
  Trial t;
  t.candidate.kind = kind;
  t.candidate.comes_out = comes_out;
  Standing s;
  s.use = use, s.bears = bears;
  t.after = s;
  return t;
}

Standing at_use(double use) {
  Standing s;
  s.use = use, s.bears = 0;
  return s;
}

}  // namespace

TEST_CASE("for an end rib that bows battens are tried, outside ones that come off first", "[stiffen]") {
  const auto all = for_limit(sample::light_rudder(4), Limit::end_rib_bow, MemberRole::end_rib);
  REQUIRE(all.size() >= 4);
  CHECK(all.front().kind == StiffenKind::outside_batten);
  CHECK(all.front().comes_out);
  CHECK(has(all, StiffenKind::end_batten));
  CHECK(has(all, StiffenKind::stiffer_rib));
  CHECK(has(all, StiffenKind::lighter_cloth));
  CHECK_FALSE(has(all, StiffenKind::edge_batten));
}

TEST_CASE("candidates are numbered from 1, few, and never more supports in use", "[stiffen]") {
  for (const Limit limit : {Limit::end_rib_bow, Limit::edge_bow, Limit::twist, Limit::buckling, Limit::stress}) {
    const Case c = sample::light_rudder(4);
    const auto all = for_limit(c, limit, MemberRole::trailing_edge);
    REQUIRE(!all.empty());
    CHECK(all.size() <= most_candidates);
    for (std::size_t i = 0; i < all.size(); ++i) {
      CHECK(all[i].number == static_cast<int>(i) + 1);
      const Case changed = with_candidate(c, all[i]);
      CHECK(changed.in_use.size() == c.in_use.size());
      CHECK(changed.stages.size() == c.stages.size());
      CHECK_NOTHROW(check_stands(Model(changed, {search_nodes})));
    }
  }
}

TEST_CASE("no stick is offered against slip or cloth that stays loose", "[stiffen]") {
  const auto slip = for_limit(sample::light_rudder(4), Limit::slip, MemberRole::trailing_edge);
  for (const Candidate& k : slip) CHECK(k.kind == StiffenKind::lighter_cloth);
  const Case c = sample::light_rudder(4);
  StageBar loose;
  loose.loose_zones = {0};
  CHECK(candidates_for(c, build_panel(c, {coarse_nodes}), loose, stock()).empty());
}

TEST_CASE("a strip through the ribs leaves every other member where it was", "[stiffen]") {
  const Case c = sample::light_rudder(4);
  const auto all = for_limit(c, Limit::buckling, MemberRole::spar);
  const auto strip = std::find_if(all.begin(), all.end(), [](const Candidate& k) { return k.strip.has_value(); });
  REQUIRE(strip != all.end());
  const Case changed = with_candidate(c, *strip);
  REQUIRE(changed.span_members.size() == c.span_members.size() + 1);
  for (std::size_t i = 0; i < c.in_use.size(); ++i)
    CHECK(changed.span_members[static_cast<std::size_t>(changed.in_use[i].member)].name ==
          c.span_members[static_cast<std::size_t>(c.in_use[i].member)].name);
}

// Mass by hand: spruce of 420 kg/m^3 (from memory, solver/heat/thermal.cpp), 3/4 by 1/2 in along both end ribs.
TEST_CASE("what stays is weighed, with its place and its way behind the hinges", "[stiffen]") {
  const Case c = sample::light_rudder(4);
  const auto all = for_limit(c, Limit::end_rib_bow, MemberRole::end_rib);
  const auto batten =
      std::find_if(all.begin(), all.end(), [](const Candidate& k) { return k.kind == StiffenKind::end_batten; });
  REQUIRE(batten != all.end());
  const AddedMass m = added_mass(c, *batten);
  const double front = c.outline.trailing_edge.front().x * c.span_members.front().chord_fraction;
  const double back = c.outline.trailing_edge.front().x;
  CHECK(m.mass == Approx(2 * 420 * 0.75 * 0.5 * 0.0254 * 0.0254 * (back - front)));
  CHECK(m.centre[0] == Approx((front + back) / 2));
  REQUIRE(m.behind_hinge);
  CHECK(*m.behind_hinge == Approx((back - front) / 2));
}

TEST_CASE("bearing the stage goes before helping, what comes out before what stays, gain for cost after", "[stiffen]") {
  const Standing before = at_use(1.5);
  std::vector<Trial> all{trial(StiffenKind::end_batten, false, 1.49, 0),     // nothing
                         trial(StiffenKind::outside_batten, true, 1.2, 0),   // helps, out
                         trial(StiffenKind::stiffer_rib, false, 0.4, 1),     // bears, stays
                         trial(StiffenKind::bay_blocks, false, 0.8, 1),      // bears, stays, cheaper
                         trial(StiffenKind::bench_fixture, true, 0.99, 1)};  // bears, out
  rank(all, before, 1);
  std::vector<StiffenKind> order;
  for (const Trial& t : all) order.push_back(t.candidate.kind);
  CHECK(order == std::vector<StiffenKind>{StiffenKind::bench_fixture, StiffenKind::bay_blocks, StiffenKind::stiffer_rib,
                                          StiffenKind::outside_batten, StiffenKind::end_batten});
}

TEST_CASE("the ranking does not hang on the order in which ways were tried, and falls in each of its keys",
          "[stiffen]") {
  std::mt19937 chance(7);
  std::vector<Trial> all;
  for (int i = 0; i < 24; ++i) {
    const double use = 0.5 + 0.05 * static_cast<double>(chance() % 25);
    all.push_back(trial(static_cast<StiffenKind>(i % 11), i % 3 == 0, use, use <= 1 ? 1 : 0));
    all.back().candidate.number = i;
  }
  const Standing before = at_use(1.3);
  rank(all, before, 1);
  const auto value = [&](const Trial& t) {
    return std::tuple(help_of(before, t, 1), !t.candidate.comes_out, -gain_of(before, t) / cost_of(t.candidate.kind));
  };
  for (std::size_t i = 1; i < all.size(); ++i) CHECK(value(all[i - 1]) <= value(all[i]));
  std::vector<Trial> other = all;
  std::reverse(other.begin(), other.end());
  rank(other, before, 1);
  for (std::size_t i = 0; i < all.size(); ++i) CHECK(value(all[i]) == value(other[i]));
}

TEST_CASE("a limit that comes nearer is always told", "[stiffen]") {
  Standing before = at_use(1.4), after = at_use(0.9);
  before.limits = {{Limit::end_rib_bow, 1.4}, {Limit::stress, 0.5}, {Limit::twist, 0.05}};
  after.limits = {{Limit::end_rib_bow, 0.6}, {Limit::stress, 0.9}, {Limit::edge_bow, 0.7}, {Limit::twist, 0.06}};
  const auto worse = worse_limits(before, after);
  REQUIRE(worse.size() == 2);
  CHECK(worse[0].limit == Limit::stress);
  CHECK(worse[1].limit == Limit::edge_bow);
}

TEST_CASE("a frame that gave way and stands with it has gained, one that gives way has not", "[stiffen]") {
  Standing gave_way;
  gave_way.gave_way = true;
  const Trial stands = trial(StiffenKind::end_batten, false, 0.8, 1);
  CHECK(gain_of(gave_way, stands) > 0);
  Trial falls = stands;
  falls.after->gave_way = true;
  falls.after->bears = {};
  CHECK(help_of(at_use(1.2), falls, 1) == Help::nothing);
  falls.after.reset();
  CHECK(help_of(at_use(1.2), falls, 1) == Help::unknown);
}

TEST_CASE(
    "tried through the solver, a batten that stays lifts the bow of an end rib more than a stouter one that comes off",
    "[stiffen]") {
  Case c = sample::light_rudder(2);
  c.iron = {1.0, 0.3, 0, 6, 0};  // one zone a bay and side
  c.stages.resize(1);
  c.stages[0].doses = {1};
  c.limits.bow_per_spacing = 0.004;
  PlanOptions quick;
  quick.accuracy = Accuracy::quick;
  const Plan plan = make_plan(c, quick);
  const Standing before = standing_of(plan, 0);
  StageBar bar = bar_of(plan, 0);
  bar.over->limit = Limit::end_rib_bow;  // whatever is worst here
  std::vector<Candidate> all = candidates_for(c, plan.panel, bar, stock());
  all.erase(std::remove_if(all.begin(), all.end(), [](const Candidate& k) { return k.battens.empty(); }), all.end());
  REQUIRE(all.size() == 2);
  const auto of = [](const Standing& s, Limit limit) {
    for (const LimitUse& u : s.limits)
      if (u.limit == limit) return u.use;
    return 0.0;
  };
  const auto trials = try_candidates(c, all, before, 0, {});
  const double bare = of(before, Limit::end_rib_bow);
  for (const Trial& t : trials) {
    REQUIRE(t.after);
    const double now = of(*t.after, Limit::end_rib_bow);
    CHECK(now < (t.candidate.comes_out ? 1.03 : 0.85) * bare);
    if (t.candidate.comes_out) CHECK(now > 0.5 * bare);  // off, the bare rib bears what was ironed in
    for (const LimitUse& u : t.after->limits)
      if (u.use > 0.3 && u.use > 1.03 * of(before, u.limit))
        CHECK(std::any_of(t.worse.begin(), t.worse.end(), [&](const LimitUse& w) { return w.limit == u.limit; }));
  }
}
