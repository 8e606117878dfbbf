#include "sequencer/sure/damage_study.hpp"

#include "sequencer/sure/outcome_logs.hpp"
#include "sequencer/sure/scenario.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// Judgement, all of them.
constexpr double crushing_of_rupture = 0.55;
constexpr double damaged_at_factor = 1.25;
// A check at the edge: so many runs, picked from so many draws; no verdict where they scatter so many times as much as the
// scenarios, unless by less than what meshes leave open anyway.
constexpr int edge_runs = 16, edge_draws = 4000;
constexpr double too_much_scatter = 2, least_scatter = 0.03;
constexpr int draws = 20000;

}  // namespace

double share_of_damage(const Case& c, Limit limit) {
  switch (limit) {
    case Limit::buckling: return damaged_at_factor / c.limits.buckling_factor;
    case Limit::wood_stress: return c.limits.rupture_share / crushing_of_rupture;
    case Limit::crippling: return c.limits.crippling_share;
    default: return c.limits.yield_share;
  }
}

StrengthOf strength_of(const Case& c, const Panel& p, Limit limit) {
  const StrengthOf metal{StrengthOf::metal, c.spreads.metal_strength}, wood{StrengthOf::wood, c.spreads.wood_strength};
  if (limit == Limit::stress) return metal;
  if (limit == Limit::wood_stress) return wood;
  if (limit == Limit::crippling) return {StrengthOf::thin_sheet, c.spreads.crippling};
  StrengthOf most;
  for (const FrameMember& m : p.members) {
    const bool is_metal = c.materials[static_cast<std::size_t>(m.material)].kind == Strength::yield;
    const StrengthOf own = is_metal ? metal : wood;
    if (own.scatter > most.scatter) most = own;
  }
  return most;
}

DamageStudy::DamageStudy(const Case& c, const Panel& p, const std::vector<Outturn>& runs,
                         const std::vector<CorrectionByLimit>& read, const Outturn& judged, int last)
    : read_(read), runs_(runs), last_(last), columns_(numbers_of(c)) {
  for (int s = 0; s <= last; ++s)
    for (const auto& [limit, use] : judged.uses[static_cast<std::size_t>(s)])
      if (kind_of(limit) == LimitKind::damage)
        numbers_.push_back({s, limit, share_of_damage(c, limit), strength_of(c, p, limit)});
  if (numbers_.empty() || static_cast<int>(runs.size()) < columns_ + least_beyond) return;
  std::vector<std::vector<double>> x, y;
  for (const Outturn& o : runs) {
    x.push_back(columns(o));
    y.emplace_back();
    for (const Number& n : numbers_) y.back().push_back(logarithm(o, n));
  }
  fit_.emplace(x, y);
}

std::vector<double> DamageStudy::columns(const Outturn& o) const { return fit_columns(o, columns_); }

double DamageStudy::logarithm(const Outturn& o, const Number& n) const {
  return log_of_use(o, read_, n.stage, n.limit, n.share);
}

std::vector<std::vector<double>> DamageStudy::at_the_edge() const {
  if (!fit_) return {};
  return draws_at_the_edge(*fit_, columns_, edge_runs, edge_draws, most_sigmas);
}

std::vector<DamageChance> DamageStudy::chances(const std::vector<Outturn>& at_edge, EdgeCheck& check) const {
  std::vector<DamageChance> out(static_cast<std::size_t>(last_) + 1);
  for (int s = 0; s <= last_; ++s) {
    int hits = 0;
    for (const Outturn& o : runs_)
      hits += std::any_of(numbers_.begin(), numbers_.end(),
                          [&](const Number& n) { return n.stage <= s && logarithm(o, n) > 0; });
    out[static_cast<std::size_t>(s)].counted = chance_of(hits, static_cast<int>(runs_.size()));
    out[static_cast<std::size_t>(s)].known = numbers_.empty() || fit_.has_value();
  }
  if (!fit_) return out;

  double squares = 0, usual = 0;
  for (const Outturn& o : at_edge) {
    const std::vector<double> fitted = fit_->at(columns(o));
    const auto k = static_cast<std::size_t>(std::max_element(fitted.begin(), fitted.end()) - fitted.begin());
    const double off = logarithm(o, numbers_[k]) - fitted[k];
    check.mean += off, squares += off * off;
    usual += fit_->scatter(k) * fit_->scatter(k);
    ++check.runs;
  }
  bool known = check.runs > 0;
  if (check.runs > 1) {
    check.mean /= check.runs;
    check.scatter =
        std::sqrt(std::max(0.0, squares / check.runs - check.mean * check.mean) * check.runs / (check.runs - 1));
    check.fit_scatter = std::sqrt(usual / check.runs);
    if (check.mean > 0) check.shift = check.mean + check.scatter / std::sqrt(check.runs);
    known = check.scatter <= too_much_scatter * std::max(check.fit_scatter, least_scatter);
  }
  std::vector<int> groups;
  std::vector<StrengthOf> strengths;
  for (const Number& n : numbers_) groups.push_back(n.stage), strengths.push_back(n.strength);
  const std::vector<double> over = shares_over(*fit_, groups, check.shift, strengths, columns_, draws);
  for (std::size_t s = 0; s < out.size(); ++s) {
    out[s].known = known;
    if (!over.empty()) out[s].fitted = over[std::min(s, over.size() - 1)];
  }
  return out;
}

}  // namespace evenpull::inline sequencer
