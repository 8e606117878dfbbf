#include "sequencer/search/step_model.hpp"

namespace evenpull::inline sequencer {

PrefixPtr walk(const StepModel& m, PrefixPtr from, const std::vector<int>& order) {
  const std::size_t all = order.size() * static_cast<std::size_t>(m.passes());
  for (std::size_t i = static_cast<std::size_t>(from->steps); i < all && from->stands; ++i)
    from = m.step(from, order[i % order.size()]);
  return from->stands ? m.finish(from) : from;
}

}  // namespace evenpull::inline sequencer
