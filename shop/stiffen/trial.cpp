#include "shop/stiffen/trial.hpp"

#include "solver/statement/errors.hpp"

#include <algorithm>
#include <mutex>
#include <numeric>

namespace evenpull {
namespace {

// A limit that comes nearer by less than this share of itself is not told: the mesh of a first look moves it as much.
constexpr double untold_change = 0.03;
// Nor one that stays so far from its allowed value.
constexpr double far_from_limit = 0.3;

// Progress of jobs that run side by side, as the mean of theirs.
class Shares {
 public:
  Shares(std::size_t jobs, const std::function<void(double)>& tell) : share_(jobs, 0), tell_(tell) {}
  void set(std::size_t job, double share) {
    if (!tell_) return;
    const std::lock_guard<std::mutex> one(lock_);
    share_[job] = std::max(share_[job], share);
    tell_(std::accumulate(share_.begin(), share_.end(), 0.0) / static_cast<double>(share_.size()));
  }

 private:
  std::mutex lock_;
  std::vector<double> share_;
  const std::function<void(double)>& tell_;
};

std::optional<Standing> stands_with(const Case& c, const Candidate& k, int stage, Accuracy accuracy,
                                    const std::function<void(double)>& progress) {
  PlanOptions options;
  options.accuracy = accuracy;
  options.progress = [&](double share, PlanPart) { progress(share); };
  try {
    return standing_of(make_plan(with_candidate(c, k), options), stage);
  } catch (const NotConverged&) {
    return {};
  } catch (const CaseError&) {  // a frame that cannot be computed so
    return {};
  }
}

void run_all(const TrialOptions& options, std::size_t jobs,
             const std::function<void(std::size_t, const std::function<void(double)>&)>& work) {
  Shares shares(jobs, options.progress);
  const auto one = [&](int i) {
    const auto job = static_cast<std::size_t>(i);
    work(job, [&](double share) { shares.set(job, share); });
    shares.set(job, 1);
  };
  const ParallelFor parallel = options.parallel ? options.parallel : ParallelFor(one_by_one);
  parallel(static_cast<int>(jobs), one);
}

}  // namespace

Standing standing_of(const Plan& plan, int stage) {
  Standing s;
  s.bears = plan.ceiling;
  for (const StageSummary& x : plan.stages)
    if (x.stage <= stage) s.gave_way = s.gave_way || x.gave_way;
  for (const LimitReading& l : plan.limits) {
    if (l.stage > stage || kind_of(l.limit) == LimitKind::finish || l.gave_way) continue;
    s.use = std::max(s.use, l.use);
    const auto known =
        std::find_if(s.limits.begin(), s.limits.end(), [&](const LimitUse& u) { return u.limit == l.limit; });
    if (known == s.limits.end()) s.limits.push_back({l.limit, l.use});
    else known->use = std::max(known->use, l.use);
  }
  std::sort(s.limits.begin(), s.limits.end(), [](const LimitUse& a, const LimitUse& b) { return a.limit < b.limit; });
  return s;
}

std::vector<LimitUse> worse_limits(const Standing& before, const Standing& after) {
  std::vector<LimitUse> out;
  if (before.gave_way) {  // nothing to compare with: what is beyond its limit is told
    for (const LimitUse& now : after.limits)
      if (now.use > 1) out.push_back(now);
    return out;
  }
  for (const LimitUse& now : after.limits) {
    double was = 0;
    for (const LimitUse& x : before.limits)
      if (x.limit == now.limit) was = x.use;
    const bool near = now.use > far_from_limit;
    if (near && now.use > was * (1 + untold_change)) out.push_back(now);
  }
  return out;
}

std::vector<Trial> try_candidates(const Case& c, const std::vector<Candidate>& candidates, const Standing& before,
                                  int stage, const TrialOptions& options) {
  std::vector<Trial> out(candidates.size());
  run_all(options, candidates.size(), [&](std::size_t i, const std::function<void(double)>& progress) {
    Trial& t = out[i];
    t.candidate = candidates[i];
    t.added = added_mass(c, t.candidate);
    t.after = stands_with(c, t.candidate, stage, options.accuracy, progress);
    if (t.after) t.worse = worse_limits(before, *t.after);
  });
  return out;
}

void confirm(const Case& c, std::vector<Trial>& ranked, std::size_t first, int stage, const TrialOptions& options) {
  run_all(options, std::min(first, ranked.size()), [&](std::size_t i, const std::function<void(double)>& progress) {
    ranked[i].confirmed = stands_with(c, ranked[i].candidate, stage, options.accuracy, progress);
  });
}

}  // namespace evenpull
