#include "viz/pictures/frame_picture.hpp"

#include "viz/kit/text.hpp"
#include "viz/panel/marks.hpp"
#include "viz/panel/zone_means.hpp"
#include "viz/sheet/sheet_frame.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace evenpull::viz {

namespace {

// All in pixels.
constexpr double picture_width = 1600, margin = 40, list_width = 440;
constexpr double type = 22, title_type = 34, head_height = 112;
constexpr double row_height = 34, badge = 15, list_head = 94;
constexpr std::size_t most_listed = 40;  ///< members; the picture would grow beyond what can be drawn
constexpr double least_line = 5, most_line = 13;
// The largest movement is drawn about this share of the chord.
constexpr double drawn_share_of_chord = 0.16;

struct Ranked {
  int member = 0;
  double use = 0;
};

std::vector<Ranked> rank_members(const Panel& panel, const Snapshot& now) {
  std::vector<Ranked> ranked;
  for (std::size_t m = 0; m < panel.members.size(); ++m) {
    double worst = 0;
    for (int b : panel.members[m].beams) worst = std::max(worst, static_cast<double>(now.beam_use[b]));
    ranked.push_back({static_cast<int>(m), worst});
  }
  std::stable_sort(ranked.begin(), ranked.end(), [](const Ranked& a, const Ranked& b) { return a.use > b.use; });
  return ranked;
}

/// Up to 500: what needs more to be seen need not be seen.
double round_factor(double wanted) {
  double best = 1;
  for (double power = 1; power <= 100; power *= 10)
    for (double m : {1.0, 2.0, 5.0})
      if (m * power <= wanted) best = m * power;
  return best;
}

/// Joints on paper: plan view, or seen along the chord from behind the trailing edge.
class FrameView {
 public:
  FrameView(const Panel& panel, const Snapshot& now, double width) : panel_(panel), now_(now) {
    constexpr double far = std::numeric_limits<double>::max();
    x_low_ = y_low_ = far;
    double x_high = -far, y_high = -far, flat = 0;
    for (std::size_t j = 0; j < panel.joints.size(); ++j) {
      const auto& p = panel.joints[j].position;
      x_low_ = std::min(x_low_, p.x());
      x_high = std::max(x_high, p.x());
      y_low_ = std::min(y_low_, p.y());
      y_high = std::max(y_high, p.y());
      for (int k = 0; k < 2; ++k)
        flat = std::max(flat, std::abs(static_cast<double>(now.joint_displacement[6 * j + k])));
      up_most_ = std::max(up_most_, std::abs(static_cast<double>(now.joint_displacement[6 * j + 2])));
    }
    scale_ = std::min(width / (y_high - y_low_), 620 / (x_high - x_low_));
    chord_ = (x_high - x_low_) * scale_;
    const double wanted = drawn_share_of_chord * (x_high - x_low_);
    factor_ = flat > 0 ? round_factor(wanted / flat) : 1;
    up_factor_ = up_most_ > 0 ? round_factor(wanted / up_most_) : 1;
  }
  double factor() const { return factor_; }
  double chord() const { return chord_; }
  double room_for_movement() const { return drawn_share_of_chord * chord_; }
  /// Of its own for up and down, where a panel is much stiffer or softer than in its plane.
  double factor_up_and_down() const { return up_factor_; }
  double room_up_and_down() const { return up_most_ * up_factor_ * scale_; }
  Point plan(int joint, double factor) const {
    const auto p = moved(joint, factor);
    return {origin.x + (p.y() - y_low_) * scale_, origin.y + (p.x() - x_low_) * scale_};
  }
  Point behind(int joint, double factor, double y0) const {
    const double y = panel_.joints[joint].position.y(), up = factor * now_.joint_displacement[6 * joint + 2];
    return {origin.x + (y - y_low_) * scale_, y0 - up * scale_};
  }
  Point origin;

 private:
  Eigen::Vector3d moved(int joint, double factor) const {
    const float* d = &now_.joint_displacement[6 * joint];
    return panel_.joints[joint].position + factor * Eigen::Vector3d(d[0], d[1], d[2]);
  }
  const Panel& panel_;
  const Snapshot& now_;
  double x_low_ = 0, y_low_ = 0, scale_ = 1, chord_ = 1, factor_ = 1, up_factor_ = 1, up_most_ = 0;
};

void draw_badge(cairo_t* cr, Point at, int rank) {
  cairo_arc(cr, at.x, at.y, badge, 0, 2 * M_PI);
  set_ink(cr, white);
  cairo_fill_preserve(cr);
  set_ink(cr, black);
  cairo_set_line_width(cr, 2);
  cairo_stroke(cr);
  draw_centred(cr, at, std::to_string(rank), {.size = rank > 9 ? 17.0 : 20.0, .bold = true});
}

void draw_members(cairo_t* cr, const Panel& panel, const Snapshot& now, const FrameView& view, const Bands& bands) {
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
  const double dash[] = {7, 6};
  cairo_set_dash(cr, dash, 2, 0);
  for (const auto& b : panel.beams) stroke_line(cr, view.plan(b.from, 0), view.plan(b.to, 0), 1.5, grey);
  cairo_set_dash(cr, nullptr, 0, 0);
  // Least used first, so that the worst lies on top; a black casing keeps pale colours visible on paper.
  std::vector<int> order(panel.beams.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return now.beam_use[a] < now.beam_use[b]; });
  for (bool casing : {true, false})
    for (int i : order) {
      const double use = now.beam_use[i], width = least_line + (most_line - least_line) * std::clamp(use, 0.0, 1.0);
      stroke_line(cr, view.plan(panel.beams[i].from, view.factor()), view.plan(panel.beams[i].to, view.factor()),
                  casing ? width + 4 : width, casing ? black : bands.colour_of(use));
    }
}

void draw_badges(cairo_t* cr, const Panel& panel, const FrameView& view, const std::vector<Ranked>& ranked) {
  for (std::size_t r = 0; r < std::min(ranked.size(), most_listed); ++r) {
    const auto& joints = panel.members[ranked[r].member].joints;
    if (joints.size() < 2) continue;
    const auto role = panel.members[ranked[r].member].role;
    const bool rib = role == MemberRole::end_rib || role == MemberRole::inner_rib || role == MemberRole::tip_bow;
    // Off the middle, where ribs and span members would put their badges on one another.
    const std::size_t at = static_cast<std::size_t>((rib ? 0.62 : 0.45) * static_cast<double>(joints.size() - 1));
    const Point p = view.plan(joints[at], view.factor()), q = view.plan(joints[at + 1], view.factor());
    draw_badge(cr, {(p.x + q.x) / 2, (p.y + q.y) / 2}, static_cast<int>(r) + 1);
  }
}

/// Span members seen from behind; gives nothing but lines and their names.
void draw_from_behind(cairo_t* cr, const Panel& panel, const FrameView& view, double y0, double width) {
  stroke_line(cr, {view.origin.x, y0}, {view.origin.x + width, y0}, 1.5, grey);
  const std::map<MemberRole, std::vector<double>> dashes{{MemberRole::leading_edge, {3, 7}},
                                                         {MemberRole::spar, {14, 8}},
                                                         {MemberRole::trailing_edge, {}},
                                                         {MemberRole::pocket_front, {2, 4}}};
  for (const auto& m : panel.members) {
    const auto dash = dashes.find(m.role);
    if (dash == dashes.end()) continue;
    cairo_set_dash(cr, dash->second.data(), static_cast<int>(dash->second.size()), 0);
    for (std::size_t i = 0; i + 1 < m.joints.size(); ++i)
      stroke_line(cr, view.behind(m.joints[i], view.factor_up_and_down(), y0),
                  view.behind(m.joints[i + 1], view.factor_up_and_down(), y0), 4);
    cairo_set_dash(cr, nullptr, 0, 0);
  }
}

void draw_list(cairo_t* cr, const Panel& panel, const std::vector<Ranked>& ranked, const Box& box, const Bands& bands) {
  draw_text(cr, {box.x, box.y},
            "Use of the stress limit at the end of the stage; on the way it may be more, see the sheet",
            {.size = type, .bold = true, .width = box.width});
  double y = box.y + list_head;
  const std::size_t shown = std::min(ranked.size(), most_listed);
  for (std::size_t r = 0; r < shown; ++r, y += row_height) {
    draw_badge(cr, {box.x + badge, y + row_height / 2 - 3}, static_cast<int>(r) + 1);
    fill_box(cr, {box.x + 44, y + 4, 40, 20}, bands.colour_of(ranked[r].use));
    stroke_box(cr, {box.x + 44, y + 4, 40, 20}, 1.5);
    const bool over = ranked[r].use > 1;
    draw_text(cr, {box.x + 96, y}, fmt::format("{:.2f}{}", ranked[r].use, over ? " OVER" : ""),
              {.size = type, .bold = true});
    const double x = box.x + (over ? 236 : 164);
    draw_text(cr, {x, y}, cut_to_width(cr, panel.members[ranked[r].member].name, {.size = type}, box.right() - x),
              {.size = type});
  }
  if (shown < ranked.size())
    draw_text(cr, {box.x, y}, fmt::format("and {} more, of {:.2f} at most", ranked.size() - shown, ranked[shown].use),
              {.size = type});
}

}  // namespace

void write_frame_picture(const Plan& plan, int stage, const std::string& stem) {
  const Snapshot& now = *stage_end(plan, stage);
  const Panel& panel = plan.panel;
  const auto ranked = rank_members(panel, now);
  Bands bands;
  for (int i = 0; i <= 6; ++i) bands.bounds.push_back(0.2 * i);
  const double width = picture_width - 3 * margin - list_width;
  FrameView view(panel, now, width - 20);
  const double room = view.room_for_movement() + 30;
  const double plan_height = view.chord() + 2 * room, up = view.room_up_and_down() + 24, behind_height = 2 * up + 60,
               legend = 110;
  const double list_height = list_head + row_height * static_cast<double>(std::min(ranked.size(), most_listed + 1));
  const double body = std::max(plan_height + behind_height + legend, list_height + 20);
  write_png_and_svg(stem, {picture_width, head_height + body}, [&](cairo_t* cr) {
    draw_text(cr, {margin, 18}, "The frame after " + degrees_both(plan.the_case.stages[stage].temperature),
              {.size = title_type, .bold = true});
    draw_text(cr, {margin, 66}, title_and_marks(cr, plan, "", type, picture_width - 2 * margin), {.size = type});
    view.origin = {margin + 10, head_height + room};
    draw_text(cr, {margin, head_height - 4},
              fmt::format("Plan view, bow exaggerated {:.0f} times (dashed: before); leading edge above, root left",
                          view.factor()),
              {.size = type});
    draw_members(cr, panel, now, view, bands);
    draw_badges(cr, panel, view, ranked);
    const double y = head_height + plan_height;
    draw_text(cr, {margin, y},
              fmt::format("Up and down, {:.0f} times: trailing edge solid, spars dashed, leading edge dotted{}",
                          view.factor_up_and_down(), panel.pockets.empty() ? "" : ", pockets close dots"),
              {.size = type});
    draw_from_behind(cr, panel, view, y + 40 + up, width - 20);
    const double bar = y + behind_height + 20;
    draw_text(cr, {margin, bar - 1}, "use", {.size = type, .bold = true});
    draw_use_bar(cr, {margin + 70, bar, width - 140, 60}, bands, type);
    draw_list(cr, panel, ranked, {picture_width - margin - list_width, head_height, list_width, body - 10}, bands);
  });
}

}  // namespace evenpull::viz
