#include "viz/pictures/pictures.hpp"

#include "viz/panel/zone_means.hpp"
#include "viz/pictures/buckling_picture.hpp"
#include "viz/pictures/frame_picture.hpp"
#include "viz/pictures/moving_picture.hpp"
#include "viz/pictures/order_pictures.hpp"
#include "viz/pictures/pull_picture.hpp"
#include "viz/pictures/risk_picture.hpp"
#include "viz/pictures/sag_picture.hpp"
#include "viz/words/wording.hpp"

namespace evenpull {

std::vector<std::string> write_pictures(const Plan& plan, const std::string& directory) {
  using namespace viz;
  std::vector<std::string> names;
  const auto scale = common_scale(plan);
  const auto both = [&](const std::string& stem) {
    names.push_back(stem + ".png");
    names.push_back(stem + ".svg");
    return stem;
  };
  int frame_stage = -1;
  for (int stage = 0; stage <= last_stage_shown(plan); ++stage) {
    if (!stage_end(plan, stage)) continue;
    const std::string stem = "pull_" + stage_in_name(plan.the_case, stage);
    write_largest_pull(plan, stage, scale, directory + "/" + both(stem + "_largest"));
    write_chord_and_span_pull(plan, stage, scale, directory + "/" + both(stem + "_chord_and_span"));
    // The frame is shown after the hottest safe stage; without one, after the first, to show what gives way.
    if (frame_stage < 0 || stage <= plan.ceiling.value_or(-1)) frame_stage = stage;
  }
  for (int stage = 0; stage <= plan.ceiling.value_or(-1); ++stage) {
    const std::string name = "order_" + stage_in_name(plan.the_case, stage) + ".png";
    if (write_route_picture(plan, stage, directory + "/" + name)) names.push_back(name);
  }
  if (write_turn_over_picture(plan, directory + "/turn_overs.png")) names.push_back("turn_overs.png");
  if (frame_stage >= 0) {
    write_frame_picture(plan, frame_stage, directory + "/" + both("frame_use"));
    if (write_buckling_picture(plan, frame_stage, directory + "/frame_buckling.png"))
      names.push_back("frame_buckling.png");
    names.push_back("sag_between_ribs.png");
    write_sag_picture(plan, frame_stage, directory + "/" + names.back());
  }
  if (write_risk_picture(plan, directory + "/uneven_pull_risk.png")) names.push_back("uneven_pull_risk.png");
  if (write_moving_picture(plan, scale, directory + "/step_by_step.png")) names.push_back("step_by_step.png");
  return names;
}

}  // namespace evenpull
