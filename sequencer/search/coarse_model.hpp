// The reduced model of the first stage (docs/model.md, section 8): a coarse mesh of the same nonlinear model. While cloth
// is loose nothing superposes, so each prefix is computed; a prefix is kept, so that one more step costs one small solve.
#pragma once

#include "sequencer/orders/ways.hpp"
#include "sequencer/search/influence.hpp"
#include "sequencer/search/step_model.hpp"
#include "solver/ironing/ironing.hpp"

#include <array>
#include <atomic>
#include <functional>
#include <optional>

namespace evenpull::inline sequencer {

class CoarseModel : public StepModel {
 public:
  /// One stage of the model's case from the state `start` (as laid on, or as the stage before left it). The model is
  /// kept by reference. `worked_full`: how often each zone was worked full in this stage before; empty: never.
  /// A prefix for which no equilibrium is found does not stand, and is counted as unsolved.
  CoarseModel(const Model& m, int stage, Covering start, Things things, std::vector<int> worked_full = {});
  ~CoarseModel() override;

  int size() const override { return static_cast<int>(things_.size()); }
  int passes() const override { return static_cast<int>(m_.the_case.stages[stage_].doses.size()); }
  PrefixPtr begin() const override { return begin_; }
  PrefixPtr step(const PrefixPtr& from, int which) const override;
  PrefixPtr finish(const PrefixPtr& whole) const override;
  SearchModel kind() const override { return SearchModel::coarse_mesh; }

  const Things& things() const { return things_; }
  const GaugeLayout& layout() const { return layout_; }
  /// The state of a prefix that this model made.
  static const Covering& covering(const Prefix& p);
  static const Eigen::VectorXd& gauges(const Prefix& p);

  /// How many prefixes, ends and influences found no equilibrium: where there are any, nothing is proven about the orders
  /// that were left out with them.
  int unsolved() const { return unsolved_; }
  /// Of how many cells no influence could be measured: the reduced model takes them for nothing, so it proves nothing.
  int unmeasured() const { return unmeasured_; }

  /// Influences of this stage from `start` to the end of a pass in the order `reference`.
  Influence measure(const std::vector<int>& reference, const ParallelFor& parallel) const;
  const Ways& ways() const { return ways_; }

 private:
  struct State;
  std::unique_ptr<Ironing> borrow() const;
  void give_back(std::unique_ptr<Ironing> i) const;
  void read(State& s, bool at_end) const;
  std::optional<Outcome> solved(const std::function<StepReport(Ironing&)>& solve) const;
  void solve(State& s, const std::function<StepReport(Ironing&)>& solve) const;
  int full_passes(int zone, int passes) const;

  const Model& m_;
  int stage_;
  Things things_;
  GaugeLayout layout_;
  Ways ways_;
  PrefixPtr begin_;
  std::vector<int> worked_full_;  // by zone, before `start`
  mutable std::atomic<int> unsolved_{0}, unmeasured_{0};
  mutable std::array<std::atomic<Ironing*>, 16> idle_{};  // their factors and work space are worth keeping
};

}  // namespace evenpull::inline sequencer
