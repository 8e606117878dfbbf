#include "sequencer/plan/job_time.hpp"

#include <algorithm>

namespace evenpull::inline sequencer {
namespace {

double seconds_on(const Case& c, const Panel& p, const Zone& z, const PassHeat& pass) {
  const double covered = c.iron.sole_length * c.iron.sole_width * (1 - c.iron.overlap);
  double seconds = 0;
  for (const int q : z.quads) {
    const Quad& quad = p.quads[static_cast<std::size_t>(q)];
    const auto bears = [&](int corner) {
      return p.nodes[static_cast<std::size_t>(quad.nodes[static_cast<std::size_t>(corner)])].on_nose;
    };
    const SpotHeat& spot = pass.nose && bears(1) && bears(2) ? *pass.nose : pass.open;
    seconds += quad.area / covered * spot.contact;
  }
  return seconds;
}

}  // namespace

std::vector<StageTime> stage_times(const Case& c, const Panel& p, const std::vector<Step>& steps,
                                   const std::vector<StageHeat>& heat, int last) {
  std::vector<StageTime> out;
  const Step* before = nullptr;
  for (const Step& s : steps) {
    if (s.stage > last || s.stage >= static_cast<int>(heat.size())) break;
    const Step* previous = before;
    before = &s;
    if (s.done) continue;
    if (out.empty() || out.back().stage != s.stage) {
      out.emplace_back();
      out.back().stage = s.stage;
      out.back().waiting = c.wanted.check_time;
    }
    const Zone& zone = p.zones[static_cast<std::size_t>(s.zone)];
    const auto& passes = heat[static_cast<std::size_t>(s.stage)].passes;
    if (!passes.empty())
      out.back().ironing += seconds_on(
          c, p, zone, passes[std::min(passes.size() - 1, static_cast<std::size_t>(std::max(0, s.pass - 1)))]);
    if (!previous || c.both_sides_reachable || p.zones[static_cast<std::size_t>(previous->zone)].side == zone.side)
      continue;
    ++out.back().turn_overs;
    out.back().turning += c.wanted.turn_over_time;
  }
  return out;
}

}  // namespace evenpull::inline sequencer
