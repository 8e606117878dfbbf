// One drawing, piece by piece from the outline inward; its pieces share scale and room, so they stay together.
#include "viz/panel/survey_plan.hpp"

#include "viz/kit/dimension.hpp"
#include "viz/kit/uncrowded.hpp"
#include "viz/panel/attach_marks.hpp"
#include "viz/panel/skin_view.hpp"
#include "viz/words/attach_words.hpp"
#include "viz/words/print.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

// All in pixels.
constexpr double type = 20, small_type = 18;
constexpr double name_room = 300, tip_room = 110;  ///< left and right of the panel, for names and chord dimensions
constexpr double upper_room = 46;                  ///< above it, for supports
constexpr double tallest = 640;
constexpr double station_row = 70, close_stations = 118;
constexpr double station_words = 76;  ///< "1800 mm" and a space
constexpr double chord_room = 30;     ///< for the dimension of the root chord
constexpr double name_step = 1.25 * type;
constexpr double longest_brace_name = 200;
constexpr double hatch_spacing = 14;
constexpr double same_station = 1e-6;         ///< m
constexpr std::size_t labels_at_a_place = 4;  ///< supports that share one place and are named there
const Colour zone_ink{0.25, 0.35, 0.60};

double width_of_role(MemberRole role) {
  switch (role) {
    case MemberRole::leading_edge:
    case MemberRole::trailing_edge:
    case MemberRole::tip_bow: return 6;
    case MemberRole::end_rib:
    case MemberRole::pocket_front:
    case MemberRole::spar: return 5;
    default: return 3;
  }
}

double interpolate_x(const std::vector<PlanPoint>& line, double y) {
  for (std::size_t i = 0; i + 1 < line.size(); ++i)
    if (y <= line[i + 1].y || i + 2 == line.size()) {
      const double run = line[i + 1].y - line[i].y, t = run > 0 ? (y - line[i].y) / run : 0;
      return line[i].x + t * (line[i + 1].x - line[i].x);
    }
  return line.empty() ? 0 : line.front().x;
}

}  // namespace

SurveyPlan::SurveyPlan(const Case& c, const Panel& panel, double x, double y, double width)
    : case_(c), panel_(panel), left_(x + name_room), top_(y + upper_room), outer_(x) {
  x_low_ = 1e9;
  x_high_ = y_high_ = -1e9;
  for (const auto* line : {&c.outline.leading_edge, &c.outline.trailing_edge})
    for (const auto& p : *line) {
      x_low_ = std::min(x_low_, p.x);
      x_high_ = std::max(x_high_, p.x);
      y_high_ = std::max(y_high_, p.y);
    }
  y_high_ += c.outline.tip_bow_depth;
  scale_ = std::min((width - name_room - tip_room) / y_high_, tallest / (x_high_ - x_low_));
  right_ = left_ + y_high_ * scale_;
}

Point SurveyPlan::at(double x, double y) const { return {left_ + y * scale_, top_ + (x - x_low_) * scale_}; }
Point SurveyPlan::joint(int index) const {
  return at(panel_.joints[index].position.x(), panel_.joints[index].position.y());
}
double SurveyPlan::lower_edge() const { return top_ + (x_high_ - x_low_) * scale_; }
double SurveyPlan::stations_bottom() const {
  bool close = false;
  for (std::size_t i = 0; i + 1 < case_.ribs.size(); ++i)
    close = close || (case_.ribs[i + 1].station - case_.ribs[i].station) * scale_ < close_stations;
  return lower_edge() + 40 + (close ? 2 : 1) * station_row;
}
double SurveyPlan::bottom() const { return stations_bottom() + 50; }

Point SurveyPlan::support_place(const Support& s, double station) const {
  const double le = interpolate_x(case_.outline.leading_edge, station);
  const double te = interpolate_x(case_.outline.trailing_edge, station);
  const double share = s.member >= 0 && s.member < static_cast<int>(case_.span_members.size())
                           ? case_.span_members[s.member].chord_fraction
                           : 0;
  return at(le + share * (te - le), station);
}

void SurveyPlan::draw_zones(cairo_t* cr) const {
  set_ink(cr, zone_ink);
  cairo_set_line_width(cr, 1.5);
  for (const auto& zone : panel_.zones) {
    if (zone.side != Side::top) continue;
    for (const auto& nodes : zone_outlines(panel_, zone)) {
      for (std::size_t i = 0; i < nodes.size(); ++i) {
        const auto& p = panel_.nodes[nodes[i]].placed;
        const Point q = at(p.x(), p.y());
        i == 0 ? cairo_move_to(cr, q.x, q.y) : cairo_line_to(cr, q.x, q.y);
      }
      cairo_close_path(cr);
    }
  }
  cairo_stroke(cr);
}

Point SurveyPlan::number_place(const Zone& zone) const {
  const auto place = [&](int n) { return at(panel_.nodes[n].placed.x(), panel_.nodes[n].placed.y()); };
  const auto outlines = zone_outlines(panel_, zone);
  Point sum, roomiest;
  double count = 0, most = -1;
  for (int q : zone.quads) {
    Point quad;
    for (int n : panel_.quads[q].nodes) {
      const Point p = place(n);
      sum = {sum.x + p.x, sum.y + p.y};
      quad = {quad.x + p.x / 4, quad.y + p.y / 4};
      ++count;
    }
    double near = 1e9;
    for (const auto& nodes : outlines)
      for (int n : nodes) near = std::min(near, std::hypot(place(n).x - quad.x, place(n).y - quad.y));
    if (near > most) most = near, roomiest = quad;
  }
  const bool whole = std::none_of(panel_.cut_outs.begin(), panel_.cut_outs.end(), [&](const CutOut& c) {
    return c.first_row == 0 && c.first_column < panel_.rib_columns[zone.bay + 1] &&
           c.last_column > panel_.rib_columns[zone.bay];
  });
  return whole || zone.strip > 0 ? Point{sum.x / count, sum.y / count} : roomiest;
}

void SurveyPlan::draw_numbers(cairo_t* cr) const {
  Uncrowded numbers;
  for (const auto& zone : panel_.zones) {
    if (zone.side != Side::top || zone.quads.empty()) continue;
    // Bottom zones lie under the top ones and carry the same number.
    const std::string number = zone.label.substr(zone.label.find_first_of("0123456789") == std::string::npos ? 0 : 1);
    const TextStyle style{.size = type, .bold = true, .colour = zone_ink};
    numbers.add(cr, number_place(zone), number, style);
  }
}

void SurveyPlan::draw_outline(cairo_t* cr) const {
  set_ink(cr, pale);
  const auto& le = case_.outline.leading_edge;
  const auto& te = case_.outline.trailing_edge;
  for (std::size_t i = 0; i < le.size(); ++i) {
    const Point p = at(le[i].x, le[i].y);
    i == 0 ? cairo_move_to(cr, p.x, p.y) : cairo_line_to(cr, p.x, p.y);
  }
  for (const auto& m : panel_.members)
    if (m.role == MemberRole::tip_bow)
      for (int j : m.joints) cairo_line_to(cr, joint(j).x, joint(j).y);
  for (auto p = te.rbegin(); p != te.rend(); ++p) cairo_line_to(cr, at(p->x, p->y).x, at(p->x, p->y).y);
  cairo_close_path(cr);
  cairo_fill_preserve(cr);
  set_ink(cr, black);
  cairo_set_line_width(cr, 1.5);
  cairo_stroke(cr);
}

// Paper with strokes, and how large the hole is.
void SurveyPlan::draw_cut_outs(cairo_t* cr) const {
  for (std::size_t k = 0; k < panel_.cut_outs.size(); ++k) {
    const CutOut& c = panel_.cut_outs[k];
    const auto corner = [&](int row, int column) {
      const auto& p = panel_.nodes[panel_.node(Side::top, row, column)].placed;
      return at(p.x(), p.y());
    };
    const Point corners[] = {corner(c.first_row, c.first_column), corner(c.first_row, c.last_column),
                             corner(c.last_row, c.last_column), corner(c.last_row, c.first_column)};
    for (int i = 0; i < 4; ++i)
      i == 0 ? cairo_move_to(cr, corners[i].x, corners[i].y) : cairo_line_to(cr, corners[i].x, corners[i].y);
    cairo_close_path(cr);
    set_ink(cr, white);
    cairo_fill_preserve(cr);
    cairo_save(cr);
    cairo_clip_preserve(cr);
    cairo_new_path(cr);
    const double low = std::min(corners[0].y, corners[1].y), high = std::max(corners[2].y, corners[3].y);
    for (double x = corners[0].x - (high - low); x < corners[1].x; x += hatch_spacing)
      stroke_line(cr, {x, high}, {x + high - low, low}, 1, grey);
    cairo_restore(cr);
    cairo_new_path(cr);
    // A pocket says in itself what it is where there is room; the legend has all by their letters.
    const bool pocket = k < case_.pockets.size();
    const std::string letter = cut_out_letter(case_, k);
    const TextStyle plain{.size = small_type}, bold{.size = small_type, .bold = true};
    const std::string words = pocket ? letter + ", " + case_.pockets[k].name : letter;
    const Extent size = measure_text(cr, words, plain);
    const double middle = (corners[0].x + corners[1].x) / 2;
    if (pocket && size.width + 12 < corners[1].x - corners[0].x && size.height < high - low) {
      fill_box(cr, {middle - size.width / 2 - 3, (low + high - size.height) / 2, size.width + 6, size.height}, white);
      draw_centred(cr, {middle, (low + high) / 2}, words, plain);
    } else {
      draw_centred(cr, {middle, pocket ? high + 14 : top_ - 14}, letter, bold);
    }
  }
}

bool SurveyPlan::lies_below_the_cloth(const FrameMember& m) const {
  if (m.role != MemberRole::inner_rib) return false;
  for (std::size_t r = 0; r < case_.ribs.size(); ++r)
    if (!case_.ribs[r].touches_cloth &&
        std::abs(panel_.joints[m.joints.front()].position.y() - case_.ribs[r].station) < same_station)
      return true;
  return false;
}

// A batten is drawn on the outer side of what it lies along.
Point SurveyPlan::beside_member(const FrameMember& m) const {
  constexpr double off = 8;
  const Point a = joint(m.joints.front()), b = joint(m.joints.back());
  if (std::abs(b.x - a.x) > std::abs(b.y - a.y)) return {0, off};
  return {a.x < 0.5 * (left_ + right_) ? -off : off, 0};
}

void SurveyPlan::draw_members(cairo_t* cr) const {
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
  for (const auto& m : panel_.members) {
    const double dash[] = {12, 9}, apart[] = {6, 9};
    if (m.role == MemberRole::brace || m.role == MemberRole::batten) cairo_set_dash(cr, dash, 2, 0);
    const bool low = lies_below_the_cloth(m);
    const Point beside = m.role == MemberRole::batten ? beside_member(m) : Point{0, 0};
    for (std::size_t i = 0; i < m.joints.size(); ++i) {
      const Point p = joint(m.joints[i]);
      if (i == 0) cairo_move_to(cr, p.x + beside.x, p.y + beside.y);
      else cairo_line_to(cr, p.x + beside.x, p.y + beside.y);
    }
    if (low) {
      // Over the line between two zones, which would show in the gaps.
      set_ink(cr, pale);
      cairo_set_line_width(cr, width_of_role(m.role) + 2);
      cairo_stroke_preserve(cr);
      cairo_set_dash(cr, apart, 2, 0);
    }
    set_ink(cr, m.role == MemberRole::inner_rib ? grey : black);
    cairo_set_line_width(cr, width_of_role(m.role));
    cairo_stroke(cr);
    cairo_set_dash(cr, nullptr, 0, 0);
  }
}

void SurveyPlan::draw_fastenings(cairo_t* cr) const {
  constexpr double mark = 15, aft = 0.84;  // of the rib's length, clear of most spars and numbers
  for (const Attachment& a : case_.attachments)
    for (const int rib : a.ribs) {
      if (a.how == AttachHow::left) continue;
      const double y = case_.ribs[static_cast<std::size_t>(rib)].station;
      const double le = interpolate_x(case_.outline.leading_edge, y),
                   te = interpolate_x(case_.outline.trailing_edge, y);
      const auto along = [&](double share) { return at(le + share * (te - le), y); };
      draw_fastening(cr, along(case_.blanket.seam_chord_fraction), along(1), a.how, mark);
      draw_moment(cr, along(aft), moment_mark(case_, a), type);
    }
}

// Members along the span and both edges run on a little and break off in a zigzag.
void SurveyPlan::draw_going_on(cairo_t* cr) const {
  constexpr double run_on = 14, tooth = 5, pitch = 9;
  for (const bool outboard : {false, true}) {
    if (!(outboard ? case_.cloth_goes_on_outboard : case_.cloth_goes_on_inboard)) continue;
    const double way = outboard ? run_on : -run_on;
    const auto& le = case_.outline.leading_edge;
    const auto& te = case_.outline.trailing_edge;
    const PlanPoint front = outboard ? le.back() : le.front(), back = outboard ? te.back() : te.front();
    const Point from = at(front.x, front.y), to = at(back.x, back.y);
    for (std::size_t m = 0; m < case_.span_members.size(); ++m) {
      // A pocket leaves a trailing edge in pieces: the last one reaches the outboard end.
      const FrameMember* member = &panel_.members[m];
      for (const FrameMember& piece : panel_.members)
        if (outboard && piece.span_member == static_cast<int>(m)) member = &piece;
      const Point p = joint(outboard ? member->joints.back() : member->joints.front());
      stroke_line(cr, p, {p.x + way, p.y}, width_of_role(member->role), black);
    }
    stroke_line(cr, from, {from.x + way, from.y}, 1.5, black);
    stroke_line(cr, to, {to.x + way, to.y}, 1.5, black);
    cairo_move_to(cr, from.x + way, from.y);
    double sign = 1;
    for (double y = from.y + pitch; y < to.y; y += pitch, sign = -sign)
      cairo_line_to(cr, from.x + way + sign * tooth, y);
    cairo_line_to(cr, to.x + way, to.y);
    set_ink(cr, black);
    cairo_set_line_width(cr, 2);
    cairo_stroke(cr);
  }
}

std::size_t SurveyPlan::names_shown() const {
  const std::size_t room = static_cast<std::size_t>((stations_bottom() - top_) / name_step);
  return case_.span_members.size() <= room ? case_.span_members.size() : room - 1;
}

void SurveyPlan::draw_names(cairo_t* cr) const {
  double last = -1e9;
  const std::size_t shown = names_shown();
  const double words_right = left_ - 56;
  for (std::size_t i = 0; i < shown; ++i) {
    const auto& s = case_.span_members[i];
    const double le = case_.outline.leading_edge.front().x, te = case_.outline.trailing_edge.front().x;
    const Point p = at(le + s.chord_fraction * (te - le), 0);
    // Not so low that the next ones find no room.
    const double y =
        std::max(std::min(p.y, stations_bottom() - static_cast<double>(shown - i) * name_step), last + name_step);
    last = y;
    const TextStyle style{.size = type, .bold = true, .align = Align::right};
    // Room left of it for the dimension of the root chord.
    const std::string name = cut_to_width(cr, s.name, style, words_right - outer_ - chord_room);
    const Extent size = measure_text(cr, name, style);
    fill_box(cr, {words_right - size.width - 6, y - size.height / 2, size.width + 12, size.height}, white);
    draw_text(cr, {words_right, y - size.height / 2}, name, style);
    stroke_line(cr, {words_right + 6, y}, {p.x - 6, p.y}, 1.5, grey);
  }
  if (shown < case_.span_members.size())
    draw_text(cr, {words_right, last + name_step}, fmt::format("and {} more", case_.span_members.size() - shown),
              {.size = type, .align = Align::right});
  Uncrowded names;
  for (const auto& m : panel_.members) {
    if (m.role != MemberRole::brace && m.role != MemberRole::tip_bow && m.role != MemberRole::batten) continue;
    const Point a = joint(m.joints[m.joints.size() / 2]), b = joint(m.joints[(m.joints.size() - 1) / 2]);
    const TextStyle style{.size = small_type};
    const std::string name = cut_to_width(cr, m.name, style, longest_brace_name);
    const Extent size = measure_text(cr, name, style);
    const bool bow = m.role == MemberRole::tip_bow;
    const Point c{(a.x + b.x) / 2 + (bow ? size.height / 2 + 8 : 0), (a.y + b.y) / 2};
    if (!bow && !names.take({c.x - size.width / 2, c.y - size.height / 2, size.width, size.height})) continue;
    if (!bow) fill_box(cr, {c.x - size.width / 2 - 3, c.y - size.height / 2, size.width + 6, size.height}, white);
    draw_centred(cr, c, name, style, bow ? M_PI / 2 : 0);
  }
}

void SurveyPlan::draw_stations(cairo_t* cr) const {
  const double base = lower_edge() + 40;
  double last_x = -1e9, last_in[] = {-1e9, -1e9};
  bool lower = false;
  for (std::size_t i = 0; i < case_.ribs.size(); ++i) {
    const double y = case_.ribs[i].station;
    const Point p = at(interpolate_x(case_.outline.trailing_edge, y), y);
    lower = p.x - last_x < close_stations ? !lower : false;
    last_x = p.x;
    // Too many to be named: those that find room are.
    if (p.x - last_in[lower] < station_words) continue;
    last_in[lower] = p.x;
    const double row = base + (lower ? station_row : 0);
    stroke_line(cr, {p.x, p.y + 8}, {p.x, row - 2}, 1, grey);
    draw_centred(cr, {p.x, row + 12}, "rib " + std::to_string(i + 1), {.size = small_type, .bold = true});
    draw_centred(cr, {p.x, row + 33}, print_inches(y), {.size = small_type});
    draw_centred(cr, {p.x, row + 53}, print_millimetres(y), {.size = small_type});
  }
  const double line = stations_bottom() + 26;
  draw_dimension(cr, {left_, line}, {right_, line}, "span " + print_length(y_high_), type);
}

void SurveyPlan::draw_supports(cairo_t* cr) const {
  Uncrowded labels;
  const auto draw_all = [&](const std::vector<Support>& supports, bool ironed) {
    for (std::size_t i = 0; i < supports.size(); ++i) {
      const auto& s = supports[i];
      const auto symbol = ironed ? draw_ironed_symbol : draw_in_use_symbol;
      if (s.whole_length)
        for (const auto& rib : case_.ribs) symbol(cr, support_place(s, rib.station));
      const Point p = support_place(s, s.whole_length ? 0 : s.station);
      symbol(cr, p);
      // Several at one place (a hinge and a horn) share one label.
      std::string label;
      bool said = false;
      std::size_t here = 0;
      for (std::size_t k = 0; k < supports.size(); ++k) {
        const Point q = support_place(supports[k], supports[k].whole_length ? 0 : supports[k].station);
        if (std::hypot(q.x - p.x, q.y - p.y) > 20) continue;
        said = said || k < i;
        if (++here > labels_at_a_place) continue;
        label += (label.empty() ? "" : " ") + std::string(ironed ? "I" : "U") + std::to_string(k + 1);
      }
      if (said) continue;
      if (here > labels_at_a_place) label += fmt::format(" +{}", here - labels_at_a_place);
      const Point words = ironed ? Point{p.x + 16, p.y + 6} : Point{p.x + 16, p.y - 30};
      const TextStyle style{.size = small_type, .bold = true};
      const Extent size = measure_text(cr, label, style);
      const Box box{words.x - 2, words.y, size.width + 4, size.height};
      if (!labels.take(box)) continue;
      fill_box(cr, box, white);
      draw_text(cr, words, label, style);
    }
  };
  draw_all(case_.while_ironed, true);
  draw_all(case_.in_use, false);
}

void SurveyPlan::draw_chords(cairo_t* cr) const {
  const auto chord = [&](double y, double line, const char* name) {
    const double le = interpolate_x(case_.outline.leading_edge, y), te = interpolate_x(case_.outline.trailing_edge, y);
    const Point a = at(le, y), b = at(te, y);
    for (const Point& p : {a, b}) stroke_line(cr, p, {line, p.y}, 1, grey);
    draw_dimension(cr, {line, a.y}, {line, b.y}, name + print_length(te - le), small_type);
  };
  chord(0, outer_ + 16, "");
  const double bow = case_.outline.tip_bow_depth * scale_ + (case_.outline.tip_bow_depth > 0 ? 24 : 0);
  chord(case_.outline.span(), at(0, case_.outline.span()).x + bow + 56, "");
}

void SurveyPlan::draw(cairo_t* cr) const {
  draw_outline(cr);
  draw_chords(cr);
  draw_zones(cr);
  draw_cut_outs(cr);
  draw_numbers(cr);
  draw_members(cr);
  draw_fastenings(cr);
  draw_going_on(cr);
  draw_names(cr);
  draw_stations(cr);
  draw_supports(cr);
}

std::string cut_out_letter(const Case& c, std::size_t which) {
  return which < c.pockets.size() ? fmt::format("P{}", which + 1) : fmt::format("G{}", which - c.pockets.size() + 1);
}

void draw_ironed_symbol(cairo_t* cr, Point at) {
  cairo_move_to(cr, at.x, at.y);
  cairo_line_to(cr, at.x - 13, at.y + 24);
  cairo_line_to(cr, at.x + 13, at.y + 24);
  cairo_close_path(cr);
  set_ink(cr, white);
  cairo_fill_preserve(cr);
  set_ink(cr, black);
  cairo_set_line_width(cr, 3);
  cairo_stroke(cr);
}

void draw_in_use_symbol(cairo_t* cr, Point at) {
  cairo_arc(cr, at.x, at.y, 11, 0, 2 * M_PI);
  set_ink(cr, black);
  cairo_set_line_width(cr, 3.5);
  cairo_stroke(cr);
  cairo_arc(cr, at.x, at.y, 4, 0, 2 * M_PI);
  cairo_fill(cr);
}

}  // namespace evenpull::viz
