#include "viz/pictures/buckling_picture.hpp"

#include "viz/kit/text.hpp"
#include "viz/sheet/sheet_frame.hpp"
#include "viz/words/check_words.hpp"
#include "viz/words/limit_words.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace evenpull::viz {

namespace {

// All in pixels.
constexpr double picture_width = 1600, margin = 40, gap = 50;
constexpr double type = 22, title_type = 34, sentence_type = 28;
constexpr double head_height = 200;
constexpr double thin = 2, thick = 5, ring = 17;
constexpr double most_chord = 460;  ///< on paper
// A shape has no size of its own: its largest movement is drawn as this share of the chord, in every view.
constexpr double drawn_share_of_chord = 0.2;

struct Axes {
  int across = 1, down = 0;
  double down_sign = 1;
};
constexpr Axes plan_view{1, 0, 1}, from_behind{1, 2, -1}, from_tip{0, 2, -1};

class ModeView {
 public:
  ModeView(const Panel& panel, const BucklingMode& mode) : panel_(panel), mode_(mode) {
    constexpr double far = std::numeric_limits<double>::max();
    low_.fill(far);
    high_.fill(-far);
    double most = 0;
    for (std::size_t j = 0; j < panel.joints.size(); ++j) {
      for (int k = 0; k < 3; ++k) {
        low_[k] = std::min(low_[k], panel.joints[j].position[k]);
        high_[k] = std::max(high_[k], panel.joints[j].position[k]);
      }
      most = std::max(most, move(static_cast<int>(j)).norm());
      if (most > move(largest_).norm()) largest_ = static_cast<int>(j);
    }
    // Room for the shape on every side of the plan, and for the view from the tip beside it.
    const double chord = high_[0] - low_[0], span = high_[1] - low_[1], out = drawn_share_of_chord * chord;
    scale_ = std::min((picture_width - 2 * margin - gap) / (span + chord + 4 * out), most_chord / chord);
    factor_ = most > 0 ? out / most : 0;
    out_ = out * scale_;
  }

  double out() const { return out_; }
  double size(int axis) const { return (high_[axis] - low_[axis]) * scale_; }
  int largest() const { return largest_; }

  /// Where a joint lies with the upper left corner of the still frame at `at`.
  Point place(int joint, Point at, const Axes& axes, bool moved) const {
    const Eigen::Vector3d p = panel_.joints[joint].position + (moved ? factor_ : 0) * move(joint);
    const double down = axes.down_sign > 0 ? p[axes.down] - low_[axes.down] : high_[axes.down] - p[axes.down];
    return {at.x + (p[axes.across] - low_[axes.across]) * scale_, at.y + down * scale_};
  }

  void draw(cairo_t* cr, Point at, const Axes& axes) const {
    cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
    for (bool moved : {false, true})
      for (const Beam& b : panel_.beams)
        stroke_line(cr, place(b.from, at, axes, moved), place(b.to, at, axes, moved), moved ? thick : thin,
                    moved ? value_colour(0.25) : grey);
    const Point most = place(largest_, at, axes, true);
    cairo_arc(cr, most.x, most.y, ring, 0, 2 * M_PI);
    set_ink(cr, black);
    cairo_set_line_width(cr, 3);
    cairo_stroke(cr);
  }

 private:
  Eigen::Vector3d move(int joint) const {
    return {mode_.joint[6 * joint], mode_.joint[6 * joint + 1], mode_.joint[6 * joint + 2]};
  }
  const Panel& panel_;
  const BucklingMode& mode_;
  std::array<double, 3> low_{}, high_{};
  int largest_ = 0;
  double scale_ = 1, factor_ = 0, out_ = 0;
};

const BucklingMode* mode_of(const Plan& plan, int stage) {
  for (const StageSummary& s : plan.stages)
    if (s.stage == stage && s.buckling_mode) return &*s.buckling_mode;
  return nullptr;
}

}  // namespace

bool write_buckling_picture(const Plan& plan, int stage, const std::string& path) {
  const BucklingMode* mode = mode_of(plan, stage);
  if (!mode) return false;
  const ModeView view(plan.panel, *mode);
  const double line = 1.7 * type;
  const double plan_top = head_height + line + view.out(), behind_top = plan_top + view.size(0) + view.out() + line;
  const double behind_middle = behind_top + line + view.out() + view.size(2) / 2;
  const double height = behind_middle + view.size(2) / 2 + view.out() + margin;
  write_png(path, {picture_width, height}, [&](cairo_t* cr) {
    draw_text(cr, {margin, 18},
              "How the frame would buckle, after " + degrees_both(plan.the_case.stages[stage].temperature),
              {.size = title_type, .bold = true});
    draw_text(cr, {margin, 66}, title_and_marks(cr, plan, "", type, picture_width - 2 * margin), {.size = type});
    draw_text(cr, {margin, 104}, buckling_sentence(*mode), {.size = sentence_type, .bold = true});
    draw_text(
        cr, {margin, 150},
        fmt::format("Ringed, where it moves most: {}. State: {}. Wanted: at least {:.1f} times.",
                    place_text(plan.panel, mode->where), moment_text(mode->when), plan.the_case.limits.buckling_factor),
        {.size = type});
    const Point plan_at{margin + view.out(), plan_top};
    draw_text(cr, {margin, head_height},
              "Plan view: leading edge above, root left. Thin: as it stands. Thick: the shape, "
              "its size of no meaning",
              {.size = type});
    view.draw(cr, plan_at, plan_view);
    draw_text(cr, {margin, behind_top}, "From behind the trailing edge, up and down", {.size = type});
    view.draw(cr, {plan_at.x, behind_middle - view.size(2) / 2}, from_behind);
    const double tip_x = plan_at.x + view.size(1) + 2 * view.out() + gap;
    draw_text(cr, {tip_x - view.out(), behind_top}, "From the tip", {.size = type});
    view.draw(cr, {tip_x, behind_middle - view.size(2) / 2}, from_tip);
  });
  return true;
}

}  // namespace evenpull::viz
