// The sheet's standing sentences and those made from the case. Short, plain, for the bench.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// Printed on the first page, always.
std::vector<std::string> cautions();
/// What to look for and measure after a stage, with the allowed amounts of the case.
std::vector<std::string> checks_after_stage(const Plan& plan, int stage);
/// A loss of thickness below this, a hundredth of an inch, is not worth a word [m].
constexpr double least_loss_said = 0.25e-3;
/// What the sag of the cloth takes off the profile between ribs, and where.
std::string thickness_sentence(const ThicknessLoss& loss);
/// Mean pull to expect after a stage, chordwise / spanwise by side, and the loss of thickness where it is worth a word.
std::vector<std::string> expected_sentences(const Plan& plan, int stage);
/// What the frame would do at how many times the present pull.
std::string buckling_sentence(const BucklingMode& mode);
/// What the numbers rest on: cloth, blanket, ties, iron, doses, supports.
std::vector<std::string> assumptions(const Plan& plan);
/// What the numbers do not cover.
std::vector<std::string> limits_of_validity(const Plan& plan);
/// Size of the model, error bars and residuals.
std::vector<std::string> how_computed(const Plan& plan);
/// Inner ribs free or glued.
std::vector<std::string> bounds_in_words(const Plan& plan);
/// "hinge on the main spar at 10.6 in (270 mm) (holds x, y, z)"
std::string support_words(const Case& c, const Support& support);
/// "key: value (why)"
std::vector<std::string> defaults_in_words(const Plan& plan);

}  // namespace evenpull::viz
