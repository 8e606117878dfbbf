#include "viz/panel/bands.hpp"

#include <cairo.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace evenpull::viz {

namespace {

struct Corner {
  Point at;
  double value = 0;
};
using Polygon = std::vector<Corner>;

/// Keeps the part of a polygon where sign * (value - level) >= 0.
Polygon cut(const Polygon& polygon, double level, int sign) {
  Polygon kept;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Corner &p = polygon[i], &q = polygon[(i + 1) % polygon.size()];
    const double a = sign * (p.value - level), b = sign * (q.value - level);
    if (a >= 0) kept.push_back(p);
    if ((a > 0 && b < 0) || (a < 0 && b > 0)) {
      const double t = a / (a - b);
      kept.push_back({{p.at.x + t * (q.at.x - p.at.x), p.at.y + t * (q.at.y - p.at.y)}, level});
    }
  }
  return kept;
}

std::vector<double> corner_values(const Panel& panel, const std::vector<float>& per_quad) {
  std::vector<double> values(panel.quads.size() * 4, 0.0), sum(panel.nodes.size(), 0.0),
      weight(panel.nodes.size(), 0.0);
  for (int bay = 0; bay < panel.bays; ++bay) {
    std::fill(sum.begin(), sum.end(), 0.0);
    std::fill(weight.begin(), weight.end(), 0.0);
    for (std::size_t q = 0; q < panel.quads.size(); ++q) {
      if (panel.quads[q].bay != bay) continue;
      for (int n : panel.quads[q].nodes) {
        sum[n] += panel.quads[q].area * per_quad[q];
        weight[n] += panel.quads[q].area;
      }
    }
    for (std::size_t q = 0; q < panel.quads.size(); ++q) {
      if (panel.quads[q].bay != bay) continue;
      for (int i = 0; i < 4; ++i) {
        const int n = panel.quads[q].nodes[i];
        values[4 * q + i] = weight[n] > 0 ? sum[n] / weight[n] : per_quad[q];
      }
    }
  }
  return values;
}

/// `values`: four a quad.
std::vector<Polygon> triangles(const Panel& panel, const SkinView& view, const std::vector<double>& values) {
  std::vector<Polygon> all;
  all.reserve(panel.quads.size() * 4);
  for (std::size_t q = 0; q < panel.quads.size(); ++q) {
    std::array<Corner, 4> c;
    Corner middle;
    for (int i = 0; i < 4; ++i) {
      c[i] = {view.at(panel.nodes[panel.quads[q].nodes[i]]), values[4 * q + i]};
      middle.at.x += c[i].at.x / 4;
      middle.at.y += c[i].at.y / 4;
      middle.value += c[i].value / 4;
    }
    for (int i = 0; i < 4; ++i) all.push_back({c[i], c[(i + 1) % 4], middle});
  }
  return all;
}

void trace(cairo_t* cr, const Polygon& polygon) {
  for (std::size_t i = 0; i < polygon.size(); ++i)
    i == 0 ? cairo_move_to(cr, polygon[i].at.x, polygon[i].at.y) : cairo_line_to(cr, polygon[i].at.x, polygon[i].at.y);
  cairo_close_path(cr);
}

void trace_level(cairo_t* cr, const Polygon& t, double level) {
  std::vector<Point> ends;
  for (std::size_t i = 0; i < t.size(); ++i) {
    const Corner &p = t[i], &q = t[(i + 1) % t.size()];
    if ((p.value < level) == (q.value < level)) continue;
    const double s = (level - p.value) / (q.value - p.value);
    ends.push_back({p.at.x + s * (q.at.x - p.at.x), p.at.y + s * (q.at.y - p.at.y)});
  }
  if (ends.size() != 2) return;
  cairo_move_to(cr, ends[0].x, ends[0].y);
  cairo_line_to(cr, ends[1].x, ends[1].y);
}

/// Strokes at 45 degrees over a box, black on white so that they show on every colour.
void stroke_hatching(cairo_t* cr, const Box& box, double spacing, bool crossed) {
  const double reach = box.width + box.height;
  for (const auto& [ink, width] : {std::pair{white, 0.24}, std::pair{black, 0.10}}) {
    for (double d = 0; d < reach; d += spacing) {
      cairo_move_to(cr, box.x + d, box.y);
      cairo_line_to(cr, box.x + d - box.height, box.bottom());
      if (!crossed) continue;
      cairo_move_to(cr, box.right() - d, box.y);
      cairo_line_to(cr, box.right() - d + box.height, box.bottom());
    }
    set_ink(cr, ink);
    cairo_set_line_width(cr, width * spacing);
    cairo_stroke(cr);
  }
}

void paint(cairo_t* cr, const std::vector<Polygon>& all, const Bands& bands, double line_width) {
  for (int band = 0; band < bands.count(); ++band) {
    for (const auto& t : all) {
      Polygon part = t;
      // The outermost bands take what lies beyond the scale, so that no cloth is left unpainted.
      if (band > 0) part = cut(part, bands.bounds[band], 1);
      if (band + 1 < bands.count() && !part.empty()) part = cut(part, bands.bounds[band + 1], -1);
      if (part.size() > 2) trace(cr, part);
    }
    set_ink(cr, bands.colour(band));
    cairo_fill_preserve(cr);
    // Neighbouring pieces would show a hairline of paper between them.
    cairo_set_line_width(cr, 0.5 * line_width);
    cairo_stroke(cr);
  }
  for (int band = 1; band < bands.count(); ++band)
    for (const auto& t : all) trace_level(cr, t, bands.bounds[band]);
  set_ink(cr, black);
  cairo_set_line_width(cr, line_width);
  cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
  cairo_stroke(cr);
}

}  // namespace

void draw_bands(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& per_quad,
                const Bands& bands, double line_width) {
  paint(cr, triangles(panel, view, corner_values(panel, per_quad)), bands, line_width);
}

void draw_node_bands(cairo_t* cr, const Panel& panel, const SkinView& view, const std::vector<float>& per_node,
                     const Bands& bands, double line_width) {
  std::vector<double> values;
  for (const auto& q : panel.quads)
    for (int n : q.nodes) values.push_back(per_node[n]);
  paint(cr, triangles(panel, view, values), bands, line_width);
}

void draw_state_hatching(cairo_t* cr, const Panel& panel, const SkinView& view, const Snapshot& now, double spacing) {
  for (int state : {0, 1}) {
    cairo_save(cr);
    for (std::size_t q = 0; q < panel.quads.size(); ++q) {
      if (now.state[q] != state) continue;
      Polygon quad;
      for (int n : panel.quads[q].nodes) quad.push_back({view.at(panel.nodes[n]), 0});
      trace(cr, quad);
    }
    if (state == 0) {
      // Nothing pulls there, so there is no value to show.
      set_ink(cr, pale);
      cairo_fill_preserve(cr);
    }
    cairo_clip(cr);
    stroke_hatching(cr, view.whole(), spacing, state == 0);
    cairo_restore(cr);
  }
}

void draw_direction_ticks(cairo_t* cr, const Panel& panel, const SkinView& view, const Snapshot& now, double strongest,
                          double spacing) {
  if (!(strongest > 0) || panel.quads.empty()) return;
  const auto& some = panel.quads[panel.quads.size() / 4].nodes;
  const Point a = view.at(panel.nodes[some[0]]), b = view.at(panel.nodes[some[1]]), d = view.at(panel.nodes[some[3]]);
  const int each_row = std::max(1, static_cast<int>(std::ceil(spacing / std::hypot(b.x - a.x, b.y - a.y))));
  const int each_column = std::max(1, static_cast<int>(std::ceil(spacing / std::hypot(d.x - a.x, d.y - a.y))));
  for (const auto& [ink, width] : {std::pair{white, 0.13}, std::pair{black, 0.065}}) {
    for (std::size_t q = 0; q < panel.quads.size(); ++q) {
      const Quad& quad = panel.quads[q];
      if (now.state[q] == 0 || quad.row % each_row != each_row / 2 || quad.column % each_column != each_column / 2)
        continue;
      double x = 0, y = 0;
      for (int n : quad.nodes) {
        x += panel.nodes[n].placed.x() / 4;
        y += panel.nodes[n].placed.y() / 4;
      }
      const double half = 0.45 * spacing / view.scale() * std::min(1.0, now.pull_major[q] / strongest);
      const double dx = half * std::sin(now.major_angle[q]), dy = half * std::cos(now.major_angle[q]);
      const Point p = view.at(quad.side, x - dx, y - dy), r = view.at(quad.side, x + dx, y + dy);
      cairo_move_to(cr, p.x, p.y);
      cairo_line_to(cr, r.x, r.y);
    }
    set_ink(cr, ink);
    cairo_set_line_width(cr, width * spacing);
    cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
    cairo_stroke(cr);
  }
}

void draw_state_sample(cairo_t* cr, const Box& box, Sample which, double spacing) {
  fill_box(cr, box, pale);
  if (which != Sample::tight) {
    cairo_save(cr);
    cairo_rectangle(cr, box.x, box.y, box.width, box.height);
    cairo_clip(cr);
    stroke_hatching(cr, box, spacing, which == Sample::loose);
    cairo_restore(cr);
  }
  stroke_box(cr, box, 1);
}

}  // namespace evenpull::viz
