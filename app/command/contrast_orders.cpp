#include "app/command/contrast_orders.hpp"

namespace evenpull {
namespace {

struct Block {
  Side side = Side::top;
  int bay = 0;
};

std::vector<OrderStep> in_every_pass(const Case& c, const Panel& p, int last_stage, const std::vector<Block>& blocks) {
  std::vector<OrderStep> steps;
  for (int s = 0; s <= last_stage; ++s) {
    const Stage& stage = c.stages.at(static_cast<size_t>(s));
    for (size_t pass = 0; pass < stage.doses.size(); ++pass)
      for (const Block& b : blocks)
        for (int strip = 0; strip < p.strips; ++strip)
          if (p.zone(b.side, b.bay, strip) >= 0)
            steps.push_back(
                {stage.temperature, static_cast<int>(pass) + 1, b.side, b.bay + 1, strip + 1, stage.doses[pass]});
  }
  return steps;
}

}  // namespace

std::vector<OrderStep> one_side_first(const Case& c, const Panel& p, int last_stage) {
  std::vector<Block> blocks;
  for (Side side : {Side::top, Side::bottom})
    for (int bay = 0; bay < p.bays; ++bay) blocks.push_back({side, bay});
  return in_every_pass(c, p, last_stage, blocks);
}

std::vector<OrderStep> root_to_tip(const Case& c, const Panel& p, int last_stage) {
  std::vector<Block> blocks;
  for (int bay = 0; bay < p.bays; ++bay) {
    const bool top_first = bay % 2 == 0;
    blocks.push_back({top_first ? Side::top : Side::bottom, bay});
    blocks.push_back({top_first ? Side::bottom : Side::top, bay});
  }
  return in_every_pass(c, p, last_stage, blocks);
}

}  // namespace evenpull
