// A reduced model for stages after the first (docs/model.md, section 8): where the cloth is tight, a change of shrink of
// one zone in one yarn direction (a cell) changes every gauge in proportion, so the changes are measured once and
// superposed. The load line and the ratchet are kept, cell by cell, with dose phi:
//
//   s_i = max(s_i, (1 - phi) s_i + phi (free_i - give_i N_i)),   N = pull + push x,   x = s - s at the start
//
// so the model stays order-dependent, at the cost of a column or two a step.
#pragma once

#include "sequencer/orders/ways.hpp"
#include "sequencer/replay/gauges.hpp"
#include "sequencer/search/step_model.hpp"

#include <Eigen/Core>

#include <vector>

namespace evenpull::inline sequencer {

/// One stage as it superposes. c cells; units of shrink and pull may be any as long as they fit each other.
struct Influence {
  GaugeLayout layout;
  Eigen::VectorXd start;        ///< gauges before the stage
  Eigen::MatrixXd effect;       ///< gauges x c: change of each by one unit of shrink of each cell
  Eigen::VectorXd shrink;       ///< c: s before the stage
  Eigen::VectorXd pull;         ///< c: own pull of each cell before the stage [N/m]
  Eigen::MatrixXd push;         ///< c x c: change of the pull of cell i by one unit of shrink of cell j
  Eigen::VectorXd free_shrink;  ///< c: s at no pull
  Eigen::VectorXd give;         ///< c: shrink lost per pull [m/N]
  /// Things to be ordered: each a list of zones worked one after the other, each zone a list of cells worked at once.
  std::vector<std::vector<std::vector<int>>> things;
};

class InfluenceModel : public StepModel {
 public:
  /// `doses` of the passes, each over 0 and at most 1.
  InfluenceModel(Influence influence, Ways ways, std::vector<double> doses);

  int size() const override { return static_cast<int>(influence_.things.size()); }
  int passes() const override { return static_cast<int>(doses_.size()); }
  PrefixPtr begin() const override;
  PrefixPtr step(const PrefixPtr& from, int which) const override;
  PrefixPtr finish(const PrefixPtr& whole) const override;
  /// Proof in influence.cpp. 0 unless the first pass is a full one.
  double least_end_use(const Prefix& p) const override;
  int kept_every() const override { return 4; }
  SearchModel kind() const override { return SearchModel::influences; }

  const Influence& influence() const { return influence_; }
  /// Gauges of a prefix that this model made.
  static const Eigen::VectorXd& gauges(const Prefix& p);
  /// Shrink of each cell since the start.
  static const Eigen::VectorXd& gained(const Prefix& p);

 private:
  struct Reached;
  // What bounds the end of one use gauge from below.
  struct Floor {
    int gauge = 0;
    Eigen::VectorXd gains, losses;  // c: effect on this gauge, positive and negative part
    Eigen::MatrixXd
        pair;  // things x things, symmetric: most that the earlier of two takes from the gauge through the later
    Eigen::VectorXd own;  // things: most that the cells of a thing take from each other
    double at_begin = 0;
  };
  void prepare_floor();

  Influence influence_;
  Ways ways_;
  std::vector<double> doses_;
  double floor_of_all_ = 0;              // no order ends with less (order_floor.hpp)
  std::vector<Floor> floors_;            // of the gauges that promise the highest ends
  std::vector<int> thing_of_, zone_of_;  // of each cell; zones by their place in the thing
  Eigen::VectorXd most_gain_;            // c: more no cell can shrink
  Eigen::VectorXd stiffer_;              // c: k of the proof
};

}  // namespace evenpull::inline sequencer
