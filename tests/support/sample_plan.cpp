#include "tests/support/sample_plan.hpp"

#include "sequencer/choice/heat_plan.hpp"
#include "sequencer/sure/bench_checks.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace evenpull {

namespace {

// Centre first, then each gap's middle; only plausible, not the sequencer's.
std::vector<int> centre_out(int n) {
  std::vector<int> order;
  for (int step = 0; static_cast<int>(order.size()) < n; ++step) {
    const int bay = n / 2 + (step % 2 ? (step + 1) / 2 : -step / 2);
    if (bay >= 0 && bay < n) order.push_back(bay);
  }
  return order;
}

std::vector<int> zones_as_worked(const Panel& p, int zones_per_run) {
  std::vector<int> by_side[2], all;
  for (Side side : {Side::top, Side::bottom})
    for (int bay : centre_out(p.bays))
      for (int strip = 0; strip < p.strips; ++strip) by_side[int(side)].push_back(p.zone(side, bay, strip));
  const std::size_t n = by_side[0].size();
  for (std::size_t i = 0; i < n; i += zones_per_run)
    for (const auto& side : by_side)
      for (std::size_t k = i; k < std::min(n, i + zones_per_run); ++k) all.push_back(side[k]);
  return all;
}

void add_steps(Plan& plan, const SampleWish& wish) {
  const auto zones = zones_as_worked(plan.panel, wish.zones_per_run);
  for (int s = 0; s < static_cast<int>(plan.the_case.stages.size()); ++s)
    for (int pass = 1; pass <= static_cast<int>(plan.the_case.stages[s].doses.size()); ++pass)
      for (int i = 0, run = 0; i < static_cast<int>(zones.size()); ++i) {
        if (i == 0 || plan.panel.zones[zones[i]].side != plan.panel.zones[zones[i - 1]].side) ++run;
        plan.steps.push_back({s, pass, run, i + 1, zones[i], plan.the_case.stages[s].doses[pass - 1]});
      }
}

Snapshot blank(const Panel& p) {
  Snapshot s;
  const std::size_t nq = p.quads.size();
  for (auto* a : {&s.pull_warp, &s.pull_fill, &s.pull_major, &s.pull_minor, &s.pull_chord, &s.pull_span, &s.major_angle,
                  &s.shrink_warp, &s.shrink_fill})
    a->assign(nq, 0.f);
  s.state.assign(nq, 0);
  s.displacement.assign(p.nodes.size() * 3, 0.f);
  s.sag.assign(p.nodes.size(), 0.f);
  s.edge_slip.assign(p.columns, 0.f);
  s.joint_displacement.assign(p.joints.size() * 6, 0.f);
  s.beam_use.assign(p.beams.size(), 0.f);
  return s;
}

void work_quads(Snapshot& s, const Panel& p, const Step& step) {
  static constexpr double target[] = {350, 600, 900};
  for (int q : p.zones[step.zone].quads) {
    const double xi = double(p.quads[q].row) / (p.rows - 1), eta = double(p.quads[q].column) / (p.columns - 1);
    const double level = target[step.stage] * (p.quads[q].side == Side::top ? 1.0 : 0.94);
    const double chord = level * (0.9 + 0.25 * std::sin(3 * xi + 5 * eta)), span = level * (0.8 + 0.3 * xi * eta);
    s.pull_chord[q] += float(step.dose * (chord - s.pull_chord[q]));
    s.pull_span[q] += float(step.dose * (span - s.pull_span[q]));
    if (step.stage == 0 && eta > 0.85 && xi > 0.6) s.pull_span[q] = 0;
    if (step.stage == 0 && eta > 0.9 && xi > 0.85) s.pull_chord[q] = 0;
    s.pull_warp[q] = s.pull_span[q];
    s.pull_fill[q] = s.pull_chord[q];
    s.pull_major[q] = std::max(s.pull_chord[q], s.pull_span[q]) * 1.03f;
    s.pull_minor[q] = std::min(s.pull_chord[q], s.pull_span[q]) * 0.97f;
    s.major_angle[q] = s.pull_chord[q] > s.pull_span[q] ? float(1.3 + 0.4 * eta) : float(0.2 * xi);
    s.state[q] = s.pull_major[q] < 10 ? 0 : s.pull_minor[q] < 10 ? 1 : 2;
    s.shrink_warp[q] = std::max(s.shrink_warp[q], float(0.02 * (step.stage + 1) * step.dose));
    s.shrink_fill[q] = s.shrink_warp[q];
  }
}

void move_frame(Snapshot& s, const Panel& p, double load) {
  const double span = p.joints[p.edge_joint.back()].position.y();
  for (std::size_t j = 0; j < p.joints.size(); ++j) {
    const auto& at = p.joints[j].position;
    s.joint_displacement[6 * j] =
        float(-0.004 * load * at.x() / 0.4 * std::pow(std::sin(6 * at.y() / span * 3.14159), 2));
    s.joint_displacement[6 * j + 1] = float(0.002 * load * (at.y() / span - 0.5) * std::sin(3.14159 * at.x() / 0.4));
    s.joint_displacement[6 * j + 2] = float(0.003 * load * at.y() / span * (at.x() / 0.4 - 0.3));
  }
  for (std::size_t b = 0; b < p.beams.size(); ++b) {
    const auto role = p.members[p.beams[b].member].role;
    const double share = role == MemberRole::end_rib || role == MemberRole::tip_bow ? 1.0
                         : role == MemberRole::trailing_edge                        ? 0.8
                         : role == MemberRole::inner_rib                            ? 0.25
                                                                                    : 0.35;
    s.beam_use[b] = float(load * share * (0.7 + 0.3 * std::sin(0.7 * double(b))));
  }
  for (int k = 0; k < p.columns; ++k)
    s.edge_slip[k] = float(0.0024 * load * std::sin(3.14159 * k / (p.columns - 1)) * (k * 2 > p.columns ? -0.6 : 1));
  for (std::size_t n = 0; n < p.nodes.size(); ++n) {
    // Deepest at mid-bay and at 40 % of the rows, a trace outward near the trailing edge of the bottom.
    const double along = double(p.nodes[n].row) / (p.rows - 1),
                 bays = p.bays * double(p.nodes[n].column) / (p.columns - 1);
    const double depth = std::pow(std::sin(3.14159 * bays), 2) * std::sin(3.14159 * along) * (1.2 - along);
    s.sag[n] = float((p.nodes[n].side == Side::top ? 0.008 : 0.006) * load * depth);
    if (p.nodes[n].side == Side::bottom && along > 0.8) s.sag[n] = -0.3f * s.sag[n];
  }
  for (std::size_t n = 0; n < p.nodes.size(); ++n)
    s.displacement[3 * n + 2] = float(-0.002 * load * (p.nodes[n].side == Side::top ? 1 : -1));
}

// Invented, as all of this plan.
void read_off(Snapshot& s, double load) {
  s.twist = 0.011 * load;
  s.tip_turn = -0.009 * load;
  s.difference_chord = 70 * load;
  s.difference_span = -40 * load;
}

void add_snapshots(Plan& plan) {
  static constexpr double load[] = {0.56, 0.83, 1.31};
  plan.snapshots.push_back(blank(plan.panel));
  plan.stage_end_snapshot.resize(plan.the_case.stages.size());
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const Step& step = plan.steps[i];
    Snapshot s = plan.snapshots.back();
    s.step = int(i) + 1;
    work_quads(s, plan.panel, step);
    move_frame(s, plan.panel, load[step.stage]);
    read_off(s, load[step.stage]);
    plan.snapshots.push_back(std::move(s));
    plan.stage_end_snapshot[step.stage] = int(i) + 1;
  }
}

// Invented chances, one zone in seven at risk.
void add_chances(Plan& plan) {
  Chances& k = plan.chances;
  k.scenarios = 128;
  k.nodes = 352;
  k.confidence = 0.9;
  k.damage_wanted = 0.01;
  k.last_stage = 1;
  k.holds = {{126, 128, 0.945, 0.998}, {112, 128, 0.805, 0.927}};
  k.shape = {{127, 128, 0.957, 0.9998}, {124, 128, 0.922, 0.991}};
  k.damage = {{0.0003, {0, 128, 0, 0.028}}, {0.006, {1, 128, 0.0002, 0.043}}};
  k.edge = {16, 0.021, 0.04, 0.035, 0.031};
  plan.nominal = 1;
  plan.safety = {{0}, {1}, {2, {Lacking::as_stated}}};
  k.risk_stage = k.governing_stage = 1;
  k.limits = {{Limit::stress, 1, {16, 128, 0.073, 0.195}}, {Limit::slip, 1, {0, 128, 0, 0.028}}};
  k.governing = Limit::stress;
  k.explained = 0.94;
  k.weights = {{Unsure::pull, 0.25, 0.71, 0.62, 0.79, 1}, {Unsure::cloth_stiffness, 0.25, 0.12, 0.07, 0.19, -1}};
  for (std::size_t z = 0; z < plan.panel.zones.size(); ++z) {
    const int uneven = z % 7 == 0 ? 40 : 3;
    k.zones.push_back({{uneven, 128, 0.01, 0.4}, {z % 5 == 0 ? 20 : 0, 128, 0, 0.3}});
  }
  k.agreement = {8, 480, 1.08, 0.031, 0.052, 8};
}

BucklingMode sample_mode(const Panel& p, double factor) {
  BucklingMode m;
  m.factor = factor;
  m.when = Moment::released;
  m.where.kind = Place::Kind::trailing_edge, m.where.station = 0.9;
  m.residual = 1e-9;
  m.least_proven = true;
  const double span = p.joints[p.edge_joint.back()].position.y(), chord = p.joints[p.edge_joint[0]].position.x();
  const auto bow = [&](const Eigen::Vector3d& at) -> Eigen::Vector3d {
    const double aft = at.x() / chord;
    return Eigen::Vector3d(-0.8 * aft, 0, 0.6 * aft * aft) * std::sin(3 * 3.14159 * at.y() / span);
  };
  for (const Joint& j : p.joints) {
    for (int k = 0; k < 3; ++k) m.joint.push_back(float(bow(j.position)[k]));
    for (int k = 0; k < 3; ++k) m.joint.push_back(0.f);
  }
  for (const ClothNode& n : p.nodes)
    for (int k = 0; k < 3; ++k) m.node.push_back(float(bow(n.placed)[k]));
  return m;
}

int last_rib(const Panel& p) {
  int last = 0;
  for (std::size_t m = 0; m < p.members.size(); ++m)
    if (p.members[m].role == MemberRole::end_rib) last = static_cast<int>(m);
  return last;
}

void add_readings(Plan& plan, bool no_ceiling) {
  const double grow = no_ceiling ? 1.9 : 1;
  for (int s = 0; s < 3; ++s) {
    const double level[] = {0.56 * grow, 0.83 * grow, 1.31 * grow}, u = level[s];
    const double pm = 0.02 * (s + 1);
    const int end_rib = last_rib(plan.panel);
    const Place rib{Place::Kind::across_member, end_rib, 1.8, 0.5}, bay{Place::Kind::bay, -1, 0, 0, 2},
        edge{Place::Kind::trailing_edge, -1, 0.9}, whole{};
    plan.limits.push_back({Limit::stress, rib, Moment::on_the_way, s, u * 120.5e6, 120.5e6, u, pm, 0, true});
    plan.limits.push_back({Limit::edge_bow, bay, Moment::stage_end, s, u * 0.8 * 0.01, 0.01, u * 0.8, pm, 0, true});
    plan.limits.push_back(
        {Limit::twist, whole, Moment::released, s, u * 0.6 * 0.00873, 0.00873, u * 0.6, pm / 2, 0, true});
    plan.limits.push_back({Limit::buckling, whole, Moment::released, s, 2 / (u * 0.5), 2, u * 0.5, pm / 2, 0, true});
    plan.limits.push_back({Limit::slip, edge, Moment::on_the_way, s, u * 0.45 * 0.005, 0.005, u * 0.45, pm, 0, true});
    if (s == 2)
      plan.limits.push_back({Limit::unevenness, whole, Moment::stage_end, s, 0.14, 0.25, 0.56, 0.05, 0, true});
    StageSummary sum;
    sum.stage = s;
    const double pull[] = {350, 600, 900};
    for (int side = 0; side < 2; ++side) {
      sum.mean_pull_chord[side] = pull[s] * (side ? 0.94 : 1.0);
      sum.mean_pull_span[side] = pull[s] * (side ? 0.9 : 0.95);
      sum.mean_pull_fill[side] = sum.mean_pull_chord[side];
      sum.mean_pull_warp[side] = sum.mean_pull_span[side];
      sum.unevenness[side] = {0.09 + 0.02 * side, 0.12 + 0.02 * side};
    }
    sum.loose_share = s == 0 ? 0.03 : 0;
    sum.worst_slip = u * 0.45 * 0.005;
    sum.twist = u * 0.6 * 0.00873;
    sum.buckling_factor = 2 / (u * 0.5);
    sum.buckling_mode = sample_mode(plan.panel, *sum.buckling_factor);
    sum.thickness_loss = {0.0135 * level[s], 0.0077 * level[s], 0.0058 * level[s], 0.045, 2, 0.41};
    sum.thickness_loss_by_bay.assign(plan.panel.bays, sum.thickness_loss);
    for (int b = 0; b < plan.panel.bays; ++b) sum.thickness_loss_by_bay[b].bay = b;
    sum.worst_use = u;
    sum.passes = u < 1;
    for (NumberStudy* study : {&sum.pull_chord_study[0], &sum.pull_chord_study[1], &sum.pull_span_study[0],
                               &sum.pull_span_study[1], &sum.slip_study}) {
      const bool slip = study == &sum.slip_study;
      study->mesh = {{0.04, 0.98}, {0.02, 1}};
      study->mesh_plus_minus = slip ? 0.1e-3 : 6;
      study->zone_plus_minus = slip ? 0.2e-3 : 11;
    }
    plan.stages.push_back(sum);
  }
}

void add_orders(Plan& plan) {
  const auto add = [&](Family family, OrderModel model, double use, double slip, int turns, bool chosen) {
    OrderResult o;
    o.order.family = family, o.model = model, o.stages_passed = chosen ? 2 : 1, o.worst_use = use;
    o.unevenness_final = 0.11 + use / 20;
    o.worst_pull_difference_chordwise = 60 * use, o.worst_pull_difference_spanwise = 75 * use * use;
    o.worst_slip = slip, o.worst_twist = 0.005 * use, o.pull_spread_along_span = 55 * use;
    o.turn_overs = turns, o.turn_overs_a_pass = turns / 4, o.chosen = chosen;
    plan.orders.push_back(o);
  };
  add(Family::halving, OrderModel::full, 0.83, 0.0019, 83, true);
  add(Family::jumping, OrderModel::full, 0.88, 0.0021, 83, false);
  add(Family::root_to_tip, OrderModel::coarse, 0.97, 0.0026, 83, false);
  add(Family::one_side, OrderModel::full, 1.21, 0.0041, 6, false);
  add(Family::searched, OrderModel::coarse, 0.86, 0.0020, 83, false);
}

// Why, and what to do, as the readings have it.
// One that guards a stage that is safe as planned, one that opens the stage beyond.
void add_windows(Plan& plan) {
  for (const int stage : {0, 1}) {
    StageWindow w{stage, stage + 1, stage == *plan.ceiling, 0.5};
    w.damage = 0.004, w.shape = 0.93, w.inside = stage == 0 ? 0.81 : 0.17;
    for (const Side side : {Side::top, Side::bottom})
      for (int bay = 0; bay < std::min(3, plan.panel.bays); ++bay)
        w.bays.push_back({side, bay, 2.5e-3, stage == 0 ? 2.1e-3 : 2.8e-3, 4.9e-3});
    plan.windows.push_back(std::move(w));
  }
  for (const int stage : {0, 1, 2}) {
    const double grow = 1 + 0.4 * stage;
    plan.chances.shapes.push_back({Limit::edge_bow, stage, 0.0012 * grow, 0.0025 * grow});
    plan.chances.shapes.push_back({Limit::end_rib_bow, stage, 0.0008 * grow, 0.0016 * grow});
    plan.chances.shapes.push_back({Limit::twist, stage, 0.0004 * grow, 0.0015 * grow});
    plan.chances.shapes.push_back({Limit::slip, stage, 0.0009 * grow, 0.0021 * grow});
  }
}

void add_advice(Plan& plan, int last_safe) {
  const auto stress_at = [&](int stage) {
    return *std::find_if(plan.limits.begin(), plan.limits.end(),
                         [&](const LimitReading& l) { return l.limit == Limit::stress && l.stage == stage; });
  };
  Advice& a = plan.advice;
  StageStop stop;
  stop.stage = last_safe + 1, stop.over = stress_at(stop.stage);
  a.stops = {stop};
  if (last_safe < 0) {
    a.items = {advice::DoNotIron{}, advice::StopAndAsk{}};
    return;
  }
  a.up_to = Advice::UpTo::holds;
  a.closest = stress_at(last_safe);
  a.items.push_back(advice::AskedTooHot{plan.the_case.stages.back().temperature});
}

}  // namespace

Plan sample_plan(const SampleWish& wish) {
  Plan plan;
  plan.the_case = sample_case(wish);
  plan.panel = sample_panel(plan.the_case, wish);
  add_steps(plan, wish);
  add_snapshots(plan);
  add_readings(plan, wish.no_ceiling);
  add_orders(plan);
  plan.order = plan.orders.front().order;
  plan.bounds = {{RibTie::free, {0.54, 0.87, 1.36}, 0.16, 0.0031}, {RibTie::glued, {0.50, 0.79, 1.22}, 0.12, 0.0018}};
  plan.solve.nodes = int(plan.panel.nodes.size());
  plan.solve.steps = int(plan.steps.size());
  plan.solve.iterations = 900;
  plan.solve.worst_residual = 3e-7;
  plan.solve.tension_error_bound = 2.1;
  plan.solve.tension_error_bound_on_the_way = 20;
  plan.study = {{500, 0.052, 1}, {plan.solve.nodes, 0.026, 1}, {4200, 0.017, 1}, {plan.solve.nodes, 0.026, 2}};
  plan.solve.mesh_change = 0.02;
  plan.solve.zone_change = 0.03;
  plan.heat = plan_heat(plan.the_case, plan.panel);
  add_chances(plan);
  plan.notes = {note::SteadyAgainstJumping{0.97, 80, 0.88, 72}, note::BarsDecide{2}};
  if (!wish.no_ceiling) {
    plan.ceiling = 1;
    plan.setting = (318 - 32) / 1.8 + 273.15;
  }
  add_advice(plan, plan.ceiling.value_or(-1));
  plan.bench_checks = bench_checks_by_stage(plan);
  if (wish.windows) add_windows(plan);
  return plan;
}

}  // namespace evenpull
