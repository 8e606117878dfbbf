// What to look for and measure after a stage.
#pragma once

#include "sequencer/plan/plan.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

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

}  // namespace evenpull::viz
