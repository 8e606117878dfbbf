#include "viz/pictures/pull_picture.hpp"

#include "viz/panel/bands.hpp"
#include "viz/panel/marks.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/panel/zone_means.hpp"
#include "viz/panel/zone_words.hpp"
#include "viz/pictures/skin_picture.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

constexpr double picture_width = SkinPicture::width, margin = SkinPicture::margin, type = SkinPicture::type;
constexpr double head_height = SkinPicture::head_height, legend_height = 150;
// After a good run the pull is nearly even: fine bands show what is left of unevenness.
constexpr int wanted_bands = 18;
// The very strongest few quads sit at corners; a scale made for them would leave one colour for all the rest.
constexpr double share_of_area_on_scale = 0.99;

void draw_head(cairo_t* cr, const Plan& plan, int stage, const std::string& what) {
  const double kelvin = plan.the_case.stages[stage].temperature;
  draw_picture_head(cr, plan, stage, "Pull after " + degrees_both(kelvin) + ": " + what,
                    "Numbers: zone means in lb/in.");
}

void draw_legend(cairo_t* cr, const Plan& plan, const Snapshot& now, const PullScale& scale, bool ticks, double y) {
  draw_pull_bar(cr, {margin, y, 0.56 * picture_width, 5 * type}, scale.bands, scale.open_end, type);
  const double x = margin + 0.59 * picture_width;
  double at = x;
  for (const auto& [which, name] :
       {std::pair{Sample::tight, "tight"}, {Sample::puckered, "puckered"}, {Sample::loose, "loose"}}) {
    draw_state_sample(cr, {at, y + 4, 44, 28}, which, 10);
    at += 52;
    at += draw_text(cr, {at, y + 4}, name, {.size = type}).width + 26;
  }
  double line = y + 44;
  if (ticks) {
    stroke_line(cr, {x, line + 14}, {x + 36, line + 14}, 3);
    line += draw_text(cr, {x + 52, line}, "direction of the larger pull", {.size = type}).height + 4;
  }
  double worst = 0;
  for (float q : now.edge_slip) worst = std::max(worst, std::abs(static_cast<double>(q)));
  if (plan.the_case.blanket.kind == BlanketKind::full_wrap) {
    draw_arrow(cr, {x + 18, line + 30}, {x + 18, line + 2}, 3.5, 13);
    draw_text(cr, {x + 52, line}, "slip, at most " + small_length_both(worst), {.size = type});
  }
}

void draw_map(cairo_t* cr, const Plan& plan, const Snapshot& now, const std::vector<float>& pull,
              const PullScale& scale, bool ticks, const Box& box) {
  const Panel& panel = plan.panel;
  const SkinView view = fit_skins(panel, box, type);
  draw_bands(cr, panel, view, pull, scale.bands, 1);
  draw_state_hatching(cr, panel, view, now, 14);
  if (ticks) draw_direction_ticks(cr, panel, view, now, scale.strongest_pull, 38);
  draw_zone_lines(cr, panel, view, 2.4);
  draw_skin_frame(cr, panel, view, type);
  draw_slip_arrows(cr, panel, view, now.edge_slip, scale.longest_slip, type);
  const auto means = zone_means(panel, pull);
  draw_zone_words(cr, panel, view, 18, 26, [&](const Zone& zone) {
    const double mean = means[&zone - panel.zones.data()];
    return ZoneWords{number_text(pounds_per_inch(mean), 1), zone.label, black, true};
  });
}

double strongest_on_scale(const Panel& panel, const std::vector<float>& pull) {
  std::vector<std::pair<float, double>> by_pull;
  double whole = 0;
  for (std::size_t q = 0; q < panel.quads.size(); ++q) {
    by_pull.emplace_back(pull[q], panel.quads[q].area);
    whole += panel.quads[q].area;
  }
  std::sort(by_pull.begin(), by_pull.end());
  double below = 0;
  for (const auto& [value, area] : by_pull) {
    below += area;
    if (below >= share_of_area_on_scale * whole) return value;
  }
  return by_pull.empty() ? 0 : by_pull.back().first;
}

}  // namespace

int last_stage_shown(const Plan& plan) {
  return std::min(static_cast<int>(plan.the_case.stages.size()) - 1, plan.ceiling.value_or(-1) + 1);
}

PullScale common_scale(const Plan& plan) {
  PullScale scale;
  double strongest = 0;
  for (int stage = 0; stage < static_cast<int>(plan.the_case.stages.size()); ++stage) {
    const Snapshot* now = stage_end(plan, stage);
    if (!now) continue;
    for (float p : now->pull_major) strongest = std::max(strongest, static_cast<double>(p));
    if (stage > last_stage_shown(plan)) continue;
    scale.strongest_pull = std::max(scale.strongest_pull, strongest_on_scale(plan.panel, now->pull_major));
    for (float q : now->edge_slip) scale.longest_slip = std::max(scale.longest_slip, std::abs(static_cast<double>(q)));
  }
  scale.bands = round_bands(scale.strongest_pull, wanted_bands);
  scale.open_end = strongest > scale.bands.bounds.back();
  return scale;
}

void write_largest_pull(const Plan& plan, int stage, const PullScale& scale, const std::string& stem) {
  const Snapshot& now = *stage_end(plan, stage);
  const double map = map_height(plan.panel);
  write_png_and_svg(stem, {picture_width, head_height + map + legend_height}, [&](cairo_t* cr) {
    draw_head(cr, plan, stage, "larger principal pull");
    draw_map(cr, plan, now, now.pull_major, scale, true, {margin, head_height, picture_width - 2 * margin, map});
    draw_legend(cr, plan, now, scale, true, head_height + map + 16);
  });
}

void write_chord_and_span_pull(const Plan& plan, int stage, const PullScale& scale, const std::string& stem) {
  const Snapshot& now = *stage_end(plan, stage);
  const double map = map_height(plan.panel), heading = 56;
  write_png_and_svg(stem, {picture_width, head_height + 2 * (map + heading) + legend_height}, [&](cairo_t* cr) {
    draw_head(cr, plan, stage, "chordwise and spanwise");
    double y = head_height;
    for (const auto& [words, pull] : {std::pair{"Chordwise, leading edge to trailing edge", &now.pull_chord},
                                      {"Spanwise, root to tip", &now.pull_span}}) {
      draw_text(cr, {margin, y + 14}, words, {.size = type + 4, .bold = true});
      draw_map(cr, plan, now, *pull, scale, false, {margin, y + heading, picture_width - 2 * margin, map});
      y += heading + map;
    }
    draw_legend(cr, plan, now, scale, false, y + 16);
  });
}

}  // namespace evenpull::viz
