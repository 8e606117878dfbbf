#include "viz/pictures/moving_picture.hpp"

#include "viz/kit/film.hpp"
#include "viz/panel/bands.hpp"
#include "viz/panel/marks.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/sheet/sheet_frame.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

// All in pixels.
constexpr double width = 960, margin = 24, type = 16, title_type = 24;
constexpr double head_height = 92, clock_height = 46, legend_height = 84;
constexpr double least_map = 240, most_map = 640;
// More frames than this show no more, and the file grows with them.
constexpr std::size_t most_frames = 60;
constexpr double seconds_a_step = 0.25, seconds_at_a_stage_end = 2.0, seconds_at_the_beginning = 1.0;

double map_height_here(const Panel& panel) {
  const SkinView trial = fit_skins(panel, {0, 0, width - 2 * margin, 1e5}, type);
  return std::clamp(trial.whole().height + 2 * skin_margins(type).label, least_map, most_map);
}

/// One colour a quad, with sharp edges: many of these are drawn, and none is looked at for long.
void fill_quads(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& pull,
                const Bands& bands) {
  cairo_set_antialias(cr, CAIRO_ANTIALIAS_NONE);
  for (int band = 0; band < bands.count(); ++band) {
    bool any = false;
    for (std::size_t q = 0; q < panel.quads.size(); ++q) {
      const auto above = std::upper_bound(bands.bounds.begin(), bands.bounds.end(), static_cast<double>(pull[q]));
      const int of = std::clamp(static_cast<int>(above - bands.bounds.begin()) - 1, 0, bands.count() - 1);
      if (of != band) continue;
      const auto& n = panel.quads[q].nodes;
      trace_nodes(cr, panel, view, {n[0], n[1], n[2], n[3]});
      any = true;
    }
    if (!any) continue;
    set_ink(cr, bands.colour(band));
    cairo_fill(cr);
  }
  cairo_set_antialias(cr, CAIRO_ANTIALIAS_DEFAULT);
}

void outline(cairo_t* cr, const Panel& panel, const SkinView& view, int zone) {
  for (const auto& [line, ink] : {std::pair{8.0, white}, std::pair{5.0, black}}) {
    trace_outlines(cr, panel, view, zone_outlines(panel, panel.zones.at(zone)));
    set_ink(cr, ink);
    cairo_set_line_width(cr, line);
    cairo_stroke(cr);
  }
}

/// A bar that fills with the steps, divided by stages.
void draw_clock(cairo_t* cr, const Plan& plan, std::size_t step, std::size_t last, const Box& box) {
  const double each = box.width / static_cast<double>(std::max<std::size_t>(1, last));
  fill_box(cr, {box.x, box.y, each * static_cast<double>(step), 12}, grey);
  stroke_box(cr, {box.x, box.y, box.width, 12}, 1.4);
  for (std::size_t i = 0; i < last; ++i) {
    if (i > 0 && plan.steps[i].stage == plan.steps[i - 1].stage) continue;
    const double x = box.x + each * static_cast<double>(i);
    stroke_line(cr, {x, box.y - 3}, {x, box.y + 15}, 1.4);
    draw_text(cr, {x + 3, box.y + 15}, degrees_f(plan.the_case.stages[plan.steps[i].stage].temperature),
              {.size = type});
  }
}

void draw_moment(cairo_t* cr, const Plan& plan, std::size_t step, std::size_t last, const PullScale& scale,
                 const SkinView& view, double map) {
  const Snapshot& now = plan.snapshots[step];
  std::string title = "Before ironing";
  if (step > 0) {
    const Step& s = plan.steps[step - 1];
    title = fmt::format("Step {}: {} at {}, pass {}", step, plan.panel.zones.at(s.zone).label,
                        degrees_f(plan.the_case.stages[s.stage].temperature), s.pass);
  }
  draw_text(cr, {margin, 10}, title, {.size = title_type, .bold = true});
  draw_text(cr, {margin, 44}, title_and_marks(cr, plan, "", type, width - 2 * margin), {.size = type});
  if (!plan.ceiling)
    draw_text(cr, {width - margin, 14}, "NOT SAFE: do not iron", {.size = type, .bold = true, .align = Align::right});
  draw_text(cr, {margin, 66}, "Larger pull in the cloth; the heavy outline is the zone just ironed", {.size = type});
  fill_quads(cr, plan.panel, view, now.pull_major, scale.bands);
  draw_state_hatching(cr, plan.panel, view, now, 9);
  draw_zone_lines(cr, plan.panel, view, 1.2);
  draw_skin_frame(cr, plan.panel, view, type);
  draw_slip_arrows(cr, plan.panel, view, now.edge_slip, scale.longest_slip, type);
  if (step > 0) outline(cr, plan.panel, view, plan.steps[step - 1].zone);
  const double y = head_height + map;
  draw_clock(cr, plan, step, last, {margin, y + 8, width - 2 * margin, 0});
  draw_pull_bar(cr, {margin, y + clock_height, 0.62 * width, legend_height}, scale.bands, scale.open_end, type);
  double x = margin + 0.65 * width;
  for (const auto& [which, name] : {std::pair{Sample::puckered, "puckered"}, {Sample::loose, "loose"}}) {
    draw_state_sample(cr, {x, y + clock_height + 24, 34, 22}, which, 8);
    x += 42 + draw_text(cr, {x + 42, y + clock_height + 25}, name, {.size = type}).width + 18;
  }
}

}  // namespace

bool write_moving_picture(const Plan& plan, const PullScale& scale, const std::string& path) {
  const auto beyond = std::find_if(plan.steps.begin(), plan.steps.end(),
                                   [&](const Step& s) { return s.stage > plan.ceiling.value_or(0); });
  const auto worked = static_cast<std::size_t>(beyond - plan.steps.begin());
  if (worked == 0 || plan.snapshots.size() < 2) return false;
  const std::size_t last = std::min(worked, plan.snapshots.size() - 1);
  const double map = map_height_here(plan.panel);
  const SkinView view = fit_skins(plan.panel, {margin, head_height, width - 2 * margin, map}, type);
  PullScale slip = scale;  // on the way cloth slips further than at the stage ends that the scale was made from
  for (std::size_t i = 0; i <= last; ++i)
    for (float q : plan.snapshots[i].edge_slip)
      slip.longest_slip = std::max(slip.longest_slip, std::abs(static_cast<double>(q)));
  const std::size_t stride = last / most_frames + 1;
  Film film({width, head_height + map + clock_height + legend_height});
  for (std::size_t i = 0; i <= last; ++i) {
    const bool ends = i == last || (i > 0 && plan.steps[i - 1].stage != plan.steps[i].stage);
    if (i % stride != 0 && !ends) continue;
    const double seconds = i == 0 ? seconds_at_the_beginning
                           : ends ? seconds_at_a_stage_end
                                  : seconds_a_step * static_cast<double>(stride);
    film.add(seconds, [&](cairo_t* cr) { draw_moment(cr, plan, i, last, slip, view, map); });
  }
  film.write(path);
  return true;
}

}  // namespace evenpull::viz
