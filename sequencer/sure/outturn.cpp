#include "sequencer/sure/outturn.hpp"

#include "sequencer/sure/error_bars.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace evenpull::inline sequencer {
namespace {

constexpr double counts_as_over = 10;  // use of a frame that gave way, or of a run that found no equilibrium

UseByLimit uses_of(const StageVerdict& v) {
  UseByLimit u;
  for (const LimitReading& l : v.limits) u[l.limit] = l.use;
  return u;
}

}  // namespace

Outturn outturn_of(const std::vector<StageVerdict>& stages, int last) {
  Outturn o;
  o.uses.resize(last + 1), o.zone_pull.resize(last + 1), o.column_slip.resize(last + 1), o.bay_pull.resize(last + 1),
      o.end.resize(last + 1);
  o.fell.assign(last + 1, true);
  o.loose.resize(last + 1);
  for (const StageVerdict& v : stages) {
    if (v.stage > last) continue;
    o.uses[v.stage] = uses_of(v);
    o.zone_pull[v.stage] = v.zone_pull;
    o.column_slip[v.stage] = v.column_slip;
    o.bay_pull[v.stage] = v.bay_pull;
    o.end[v.stage] = v.summary.end;
    o.fell[v.stage] = v.buckled;
    o.loose[v.stage] = v.summary.loose_zones;
  }
  return o;
}

std::vector<CorrectionByLimit> corrections(const Outturn& full, const Outturn& reduced) {
  std::vector<CorrectionByLimit> out(full.uses.size());
  for (std::size_t s = 0; s < full.uses.size(); ++s)
    for (const auto& [limit, use] : full.uses[s]) {
      Correction& c = out[s][limit];
      const auto r = reduced.uses[s].find(limit);
      if (r == reduced.uses[s].end()) continue;
      if (limit == Limit::unevenness) c.beside = use * use - r->second * r->second;
      else if (r->second > 0) c.by = use / r->second;
      if (full.fell[s] || reduced.fell[s]) c = {std::max(1.0, c.by), std::max(0.0, c.beside)};
    }
  return out;
}

std::vector<CorrectionByLimit> raised(std::vector<CorrectionByLimit> corrections,
                                      const std::vector<CorrectionByLimit>& to_full, const std::vector<Pair>& pairs) {
  for (std::size_t s = 0; s < corrections.size(); ++s)
    for (auto& [limit, correction] : corrections[s]) {
      double sum = 0;
      int counted = 0;
      for (const Pair& p : pairs) {
        if (p.full.fell[s] || p.reduced.fell[s]) continue;
        const auto full = p.full.uses[s].find(limit);
        const double reduced = corrected_use(p.reduced, to_full, static_cast<int>(s), limit);
        if (full == p.full.uses[s].end() || full->second <= 0 || reduced <= 0) continue;
        sum += std::log(full->second / reduced);
        ++counted;
      }
      if (counted > 0) correction.by *= std::max(1.0, std::exp(sum / counted));
    }
  return corrections;
}

double corrected_use(const Outturn& o, const std::vector<CorrectionByLimit>& corrections, int stage, Limit limit) {
  if (o.fell[stage]) return counts_as_over;
  const auto use = o.uses[stage].find(limit);
  if (use == o.uses[stage].end()) return 0;
  const auto c = corrections[stage].find(limit);
  if (c == corrections[stage].end()) return use->second;
  return c->second.by * std::sqrt(std::max(0.0, use->second * use->second + c->second.beside));
}

std::vector<std::vector<int>> loose_by_itself(const Outturn& full, const Outturn& reduced) {
  std::vector<std::vector<int>> out(full.loose.size());
  for (std::size_t s = 0; s < out.size(); ++s)
    std::set_difference(reduced.loose[s].begin(), reduced.loose[s].end(), full.loose[s].begin(), full.loose[s].end(),
                        std::back_inserter(out[s]));
  return out;
}

std::vector<bool> never_hold(const std::vector<StageVerdict>& judged, const Outturn& full, const Outturn& reduced) {
  std::vector<bool> out(full.loose.size());
  bool known = true;
  for (std::size_t s = 0; s < out.size(); ++s) {
    for (const StageVerdict& v : judged)
      if (v.stage == static_cast<int>(s)) known = known && !gave_way_in_study(v);
    out[s] = !known || !std::includes(reduced.loose[s].begin(), reduced.loose[s].end(), full.loose[s].begin(),
                                      full.loose[s].end());
  }
  return out;
}

bool keeps_shape(const Outturn& o, const ModelReading& reading, int stage) {
  if (!reading.gave_way.empty() && reading.gave_way[static_cast<std::size_t>(stage)]) return false;
  for (int s = 0; s <= stage; ++s) {
    if (o.fell[static_cast<std::size_t>(s)]) return false;
    for (const auto& [limit, use] : o.uses[static_cast<std::size_t>(s)])
      if (kind_of(limit) == LimitKind::distortion && corrected_use(o, reading.corrections, s, limit) > 1) return false;
  }
  return true;
}

bool holds(const Outturn& o, const ModelReading& reading, int stage) {
  if (!reading.never.empty() && reading.never[stage]) return false;
  if (!std::includes(reading.not_counted[stage].begin(), reading.not_counted[stage].end(), o.loose[stage].begin(),
                     o.loose[stage].end()))
    return false;
  for (int s = 0; s <= stage; ++s) {
    if (o.fell[s]) return false;
    for (const auto& [limit, use] : o.uses[s])
      if (limit != Limit::waves && (s == stage || limit != Limit::unevenness) &&
          corrected_use(o, reading.corrections, s, limit) > 1)
        return false;
  }
  return true;
}

std::vector<Limit> limits_of(const Outturn& o) {
  std::vector<Limit> limits;
  for (const UseByLimit& u : o.uses)
    for (const auto& [limit, use] : u)
      if (std::find(limits.begin(), limits.end(), limit) == limits.end()) limits.push_back(limit);
  return limits;
}

}  // namespace evenpull::inline sequencer
