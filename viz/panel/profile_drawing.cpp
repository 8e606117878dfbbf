#include "viz/panel/profile_drawing.hpp"

#include "viz/kit/dimension.hpp"
#include "viz/words/print.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace evenpull::viz {

namespace {

// All in pixels.
constexpr double type = 20;
constexpr double head = 40, foot = 104, least_side_room = 14;

double root_chord(const Case& c) { return c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x; }

/// Height above (or, with below, under) the chord line at a chord fraction, as a share of the chord.
double height_at(const Case& c, double fraction, bool below) {
  const auto& p = c.profile;
  for (std::size_t i = 0; i + 1 < p.size(); ++i) {
    if (fraction > p[i + 1].chord_fraction && i + 2 < p.size()) continue;
    const double run = p[i + 1].chord_fraction - p[i].chord_fraction;
    const double t = run > 0 ? std::clamp((fraction - p[i].chord_fraction) / run, 0.0, 1.0) : 0;
    const double a = below ? p[i].bottom : p[i].top, b = below ? p[i + 1].bottom : p[i + 1].top;
    return a + t * (b - a);
  }
  return 0;
}

struct Thickest {
  double share = 0, at = 0, top = 0, bottom = 0;
};

Thickest thickest(const Case& c) {
  Thickest t;
  for (const auto& p : c.profile) {
    t.top = std::max(t.top, p.top);
    t.bottom = std::max(t.bottom, p.bottom);
    if (p.top + p.bottom > t.share) {
      t.share = p.top + p.bottom;
      t.at = p.chord_fraction;
    }
  }
  return t;
}

/// Diameter of a tube as a share of the chord; 0 for any other section.
double tube_share(const Case& c, const SpanMember& m) {
  return m.make.shape.kind == SectionShape::Kind::tube ? m.make.shape.outside_diameter / root_chord(c) : 0;
}

/// Where everything lies: a tube may stand out beyond the chord, or beyond the profile.
struct Layout {
  double chord = 0, side_room = 0;
  double above = 0, below = 0;  ///< the chord line
};

Layout layout(const Case& c, double width) {
  const Thickest t = thickest(c);
  double beyond = 0, above = t.top, below = t.bottom;
  for (const auto& m : c.span_members) {
    const double radius = 0.5 * tube_share(c, m), x = m.chord_fraction;
    if (radius == 0) continue;
    beyond = std::max({beyond, radius - x, radius - (1 - x)});
    const double middle = 0.5 * (height_at(c, x, false) - height_at(c, x, true));
    above = std::max(above, middle + radius);
    below = std::max(below, radius - middle);
  }
  Layout l;
  l.chord = std::min(width - 2 * least_side_room, width / (1 + 2 * beyond));
  l.side_room = 0.5 * (width - l.chord);
  l.above = above * l.chord;
  l.below = below * l.chord;
  return l;
}

/// A tube at its size, half-way between the skins, where it is reckoned to lie.
void draw_tube(cairo_t* cr, Point at, double diameter) {
  cairo_new_sub_path(cr);
  cairo_arc(cr, at.x, at.y, 0.5 * diameter, 0, 2 * M_PI);
  set_ink(cr, black);
  cairo_set_line_width(cr, 3);
  cairo_stroke(cr);
}

}  // namespace

double profile_height(const Case& c, double width) {
  const Layout l = layout(c, width);
  return head + l.above + l.below + foot;
}

void draw_profile(cairo_t* cr, const Case& c, Point top_left, double width) {
  const Thickest t = thickest(c);
  const Layout l = layout(c, width);
  const double chord = l.chord, x0 = top_left.x + l.side_room;
  const double line = top_left.y + head + l.above;
  draw_text(cr, top_left,
            fmt::format("Profile at the root: {} thick at {:.0f} % of the chord", print_length(t.share * root_chord(c)),
                        100 * t.at),
            {.size = type, .bold = true});
  for (std::size_t i = 0; i < c.profile.size(); ++i) {
    const Point p{x0 + c.profile[i].chord_fraction * chord, line - c.profile[i].top * chord};
    i == 0 ? cairo_move_to(cr, p.x, p.y) : cairo_line_to(cr, p.x, p.y);
  }
  for (auto p = c.profile.rbegin(); p != c.profile.rend(); ++p)
    cairo_line_to(cr, x0 + p->chord_fraction * chord, line + p->bottom * chord);
  cairo_close_path(cr);
  set_ink(cr, pale);
  cairo_fill_preserve(cr);
  set_ink(cr, black);
  cairo_set_line_width(cr, 2.5);
  cairo_stroke(cr);
  stroke_line(cr, {x0, line}, {x0 + chord, line}, 1, grey);

  // Cloth on the metal nose: a heavy line from the seam to where it leaves the nose.
  if (c.blanket.nose_chord_fraction > c.blanket.seam_chord_fraction)
    for (bool below : {false, true}) {
      constexpr int pieces = 24;
      for (int i = 0; i <= pieces; ++i) {
        const double f = c.blanket.seam_chord_fraction +
                         (c.blanket.nose_chord_fraction - c.blanket.seam_chord_fraction) * i / pieces;
        const double h = height_at(c, f, below) * chord;
        const Point p{x0 + f * chord, line + (below ? h : -h)};
        i == 0 ? cairo_move_to(cr, p.x, p.y) : cairo_line_to(cr, p.x, p.y);
      }
      set_ink(cr, black);
      cairo_set_line_width(cr, 7);
      cairo_stroke(cr);
    }
  const double below_all = line + l.below + 10;
  double last = -1e9;
  for (const auto& s : c.span_members) {
    const double x = x0 + s.chord_fraction * chord;
    const double top = line - height_at(c, s.chord_fraction, false) * chord,
                 bottom = line + height_at(c, s.chord_fraction, true) * chord;
    if (const double diameter = tube_share(c, s) * chord; diameter > 0)
      draw_tube(cr, {x, 0.5 * (top + bottom)}, diameter);
    else stroke_line(cr, {x, top - 3}, {x, bottom + 3}, 4);
    const std::string words = fmt::format("{:.0f} %", 100 * s.chord_fraction);
    if (x - last < 60) continue;
    last = x;
    draw_centred(cr, {x, below_all + 10}, words, {.size = 18});
  }
  const double dimension = below_all + 40;
  draw_dimension(cr, {x0, dimension}, {x0 + chord, dimension}, "chord " + print_length(root_chord(c)), type);
}

}  // namespace evenpull::viz
