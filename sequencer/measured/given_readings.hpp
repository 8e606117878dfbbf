// What the model of outcomes says once sags, tones, bows, twist or slip were read: the one inference for all readings
// (docs/model.md, section 10).
#pragma once

#include "sequencer/plan/window.hpp"
#include "sequencer/sure/joint_draws.hpp"
#include "sequencer/sure/outcome_model.hpp"

#include <Eigen/Cholesky>

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

/// One reading to come: of which number, and what it may be off by in the logarithm of that.
struct ReadingPlace {
  int pull = 0;       ///< by OutcomeModel::pulls, then shapes
  double own = 0;     ///< of this reading alone: ruler, place
  double common = 0;  ///< of all readings of its stage and kind: weight, lid, formula, mesh
  double times =
      -1;  ///< log of the number over that of the reading, each over what was expected: a sag falls as the pull rises
};

/// What holds given the readings.
struct Given {
  double effective = 0;           ///< of the kinds of under-done bays, so many count
  std::vector<double> use_times;  ///< by OutcomeModel::uses: median given the readings over that before
  Eigen::VectorXd mean, weights;  ///< of the logs of uses without under-done bays; of the kinds of these
};

/// Why a stage is not to be gone on to, given readings.
enum class NotYet { nothing, as_stated, damage, shape, too_few };

class GivenReadings {
 public:
  GivenReadings(const OutcomeModel& m, std::vector<ReadingPlace> places);

  /// `read`: log of each reading over that expected.
  Given at(const std::vector<double>& read) const;
  /// Chance that something is damaged by the end of a stage; 1 where it is not known.
  double damage(const Given& g, int stage) const;
  /// Chance that no limit of distortion is passed by then; 0 where it is not known.
  double shape(const Given& g, int stage) const;
  /// Whether all holds for the whole history up to `stage`, given these.
  NotYet stands_against(const Given& g, int stage, double damage_wanted, double confidence) const;

  /// The model given these, under-done bays by their mean and scatter: what further readings are set beside.
  OutcomeModel model_after(const std::vector<double>& read) const;
  /// Inputs given these, in sigmas of what was stated of each: in the order of numbers_of. None where the slopes were not kept.
  std::vector<ReadingsTold::Input> inputs(const std::vector<double>& read) const;

  /// Chance of a reading up to that of place `i`, given all the others.
  double chance_of_up_to(std::size_t i, const std::vector<double>& read) const;

  /// Sets of readings as they come in without knowing: sets x places, logs of reading over that expected; pulls as the scenarios had
  /// them where those are kept, else drawn. The same every time.
  Eigen::MatrixXd whole_sets(int count) const;

 private:
  Eigen::VectorXd off(const std::vector<double>& read) const;
  Eigen::VectorXd weights_of(const Eigen::VectorXd& off) const;

  const OutcomeModel& m_;
  std::vector<ReadingPlace> places_;
  Eigen::MatrixXd under_done_;  // kinds x places: logs of pull that is lacking
  Eigen::MatrixXd spread_;      // of the logs of pulls as read
  Eigen::LDLT<Eigen::MatrixXd> solve_;
  Eigen::MatrixXd gain_;  // uses, then pulls x places
  Eigen::MatrixXd left_;  // covariance given the readings
  std::optional<JointDraws> draws_;
};

}  // namespace evenpull::inline sequencer
