#include "sequencer/sure/frame_range.hpp"

#include "solver/frame/joint_turn.hpp"

#include <algorithm>
#include <cmath>

namespace evenpull::inline sequencer {
namespace {

// One sigma in the logarithm of what a clamp or rest gives: a weight and a dial gauge on one bench, another day. Judgement.
constexpr double give_spread = 0.4;
constexpr double end_of_give = 2;  // sigmas

bool gives(const Case& c) {
  const auto any = [](const std::vector<Support>& s) {
    return std::any_of(s.begin(), s.end(), [](const Support& one) { return one.give > 0; });
  };
  return any(c.while_ironed) || any(c.in_use);
}

void scale_give(Case& c, double sigmas) {
  for (std::vector<Support>* set : {&c.while_ironed, &c.in_use})
    for (Support& s : *set) s.give *= std::exp(give_spread * sigmas);
}

}  // namespace

int numbers_of_frame(const Case& c) { return static_cast<int>(joints_that_vary(c).size()) + (gives(c) ? 1 : 0); }

bool any_joint_unstated(const Case& c) {
  const std::vector<JointKind> kinds = joints_that_vary(c);
  return std::find(kinds.begin(), kinds.end(), JointKind::unstated) != kinds.end();
}

bool frame_varies(const Case& c) { return numbers_of_frame(c) > 0; }

bool range_counts(const Case& c) {
  const std::vector<JointKind> kinds = joints_that_vary(c);
  return gives(c) || std::any_of(kinds.begin(), kinds.end(), [](JointKind k) { return k != JointKind::unstated; });
}

void draw_frame(Case& c, const double* sigmas) {
  const std::vector<JointKind> kinds = joints_that_vary(c);
  for (std::size_t k = 0; k < kinds.size(); ++k) draw_joints(c, kinds[k], sigmas[k]);
  if (gives(c)) scale_give(c, sigmas[kinds.size()]);
}

Case with_joints_at(const Case& c, JointEnd end) {
  Case out = c;
  const bool soft = end == JointEnd::softest;
  for (const JointKind k : joints_that_vary(c)) put_joints_at_end(out, k, soft);
  scale_give(out, soft ? end_of_give : -end_of_give);
  return out;
}

}  // namespace evenpull::inline sequencer
