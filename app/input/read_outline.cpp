// Outline and thickness profile.
#include "app/input/case_parts.hpp"
#include "app/input/instead.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace evenpull {
namespace {

constexpr Range span_range{0.1, 8, "a span is usually 0.5 to 4 m (20 to 160 in)"};
constexpr Range chord_range{0.05, 3, "a chord is usually 0.15 to 1.5 m (6 to 60 in)"};
constexpr Range point_range{-10, 10, "points lie within a few metres of the leading edge at the inboard end"};
constexpr Range bow_range{0.005, 2, "a tip bow usually bulges 50 to 300 mm (2 to 12 in) beyond the last station"};

std::vector<PlanPoint> read_polyline(const CaseTable& outline, const std::string& key) {
  const auto& list = outline.list(
      key,
      {2, most::outline_points, key + " = [[\"0 mm\", \"0 mm\"], [\"40 mm\", \"1800 mm\"]] (chordwise, spanwise)"});
  std::vector<PlanPoint> points;
  for (size_t i = 0; i < list.size(); ++i) {
    const auto& pair = list[i];
    const auto at = nth(outline.path(key), i);
    if (pair.kind != Entry::Kind::list || pair.list.size() != 2)
      outline.context().fail(
          at,
          fmt::format("= {} must be a pair [chordwise, spanwise], for example [\"40 mm\", \"1800 mm\"]", pair.shown()));
    points.push_back({outline.number_of(pair.list[0], nth(at, 0), Quantity::length, point_range),
                      outline.number_of(pair.list[1], nth(at, 1), Quantity::length, point_range)});
    if (points.size() > 1 && points.back().y <= points[points.size() - 2].y)
      outline.context().fail(at,
                             fmt::format("= {} is not farther out than the point before it ({}, {}); points run from "
                                         "the inboard end to the tip",
                                         pair.list[1].shown(), list[i - 1].list[1].shown(),
                                         outline.context().line_of(nth(outline.path(key), i - 1))));
  }
  if (points.front().y != 0)
    outline.context().fail(
        nth(outline.path(key), 0),
        fmt::format("= {} must start at the inboard end rib: the second number of the first point is "
                    "\"0 mm\"",
                    list[0].list[1].shown()));
  return points;
}

double x_at(const std::vector<PlanPoint>& line, double y) {
  for (size_t i = 1; i < line.size(); ++i)
    if (y <= line[i].y || i + 1 == line.size()) {
      const double t = (y - line[i - 1].y) / (line[i].y - line[i - 1].y);
      return line[i - 1].x + t * (line[i].x - line[i - 1].x);
    }
  return line.back().x;
}

void check_not_crossed(const CaseTable& outline, const Outline& o) {
  std::vector<double> stations;
  for (const auto& p : o.leading_edge) stations.push_back(p.y);
  for (const auto& p : o.trailing_edge) stations.push_back(p.y);
  std::sort(stations.begin(), stations.end());
  for (const double y : stations)
    if (x_at(o.trailing_edge, y) - x_at(o.leading_edge, y) < chord_range.low)
      outline.context().fail(
          outline.path("trailing_edge"),
          fmt::format("the outline crosses itself or has no chord left at {} from the inboard end; the "
                      "trailing edge must lie behind the leading edge (larger first number) everywhere",
                      print_length(y)));
}

void read_from_chords(const CaseTable& outline, Outline& o) {
  const double span = outline.quantity("span", Quantity::length, span_range);
  const double chord = outline.quantity("chord", Quantity::length, chord_range);
  const double tip = outline.quantity_if("tip_chord", Quantity::length, chord_range).value_or(chord);
  const int straight = std::max(0, outline.choice_if("straight_edge", {"leading edge", "trailing edge"}));
  if (tip != chord && !outline.has("straight_edge"))
    outline.context().note_default(outline.path("straight_edge"), "leading edge", default_estimate);
  const double sweep = straight == 1 ? round_12(chord - tip) : 0;
  o.leading_edge = {{0, 0}, {sweep, span}};
  o.trailing_edge = {{chord, 0}, {round_12(sweep + tip), span}};
}

/// Tables of airfoils count the lower surface downwards with a minus. Here top counts up and bottom down: a surface
/// that lies beyond the chord line for the most part is such a table far more often than a shape.
void refuse_signs_of_a_table(const CaseTable& profile, const std::string& key, const std::vector<double>& heights) {
  if (heights.empty() || std::accumulate(heights.begin(), heights.end(), 0.0) >= 0) return;
  const auto at = static_cast<size_t>(std::min_element(heights.begin(), heights.end()) - heights.begin());
  const auto& entry = profile.find(key)->list[at];
  auto turned = entry;
  turned.text.erase(turned.text.find('-'), 1);
  profile.context().fail(
      nth(profile.path(key), at),
      fmt::format(
          "= {} is below zero, as in tables of airfoils; here profile.top counts up from the chord line and "
          "profile.bottom down, both without a minus sign: write {}, and the others so too. (If this surface really "
          "lies beyond the chord line, measure both heights from a line between the two surfaces.)",
          entry.shown(), turned.shown()));
}

/// Beyond which ends the wing goes on: one word or a list.
void read_goes_on(const CaseTable& outline, Case& c) {
  const auto* entry = outline.find("goes_on_beyond");
  if (!entry) return;
  const std::string example = "goes_on_beyond = [\"inboard end\"], or \"outboard end\", or both";
  const auto take = [&](const Entry& e, const std::string& key) {
    const auto word = e.kind == Entry::Kind::text ? plain_word(e.text) : std::string();
    const bool inboard = word == "inboard end", outboard = word == "outboard end";
    if (!inboard && !outboard)
      outline.context().fail(key, fmt::format("= {} is no end of a panel; write {}", e.shown(), example));
    bool& flag = inboard ? c.cloth_goes_on_inboard : c.cloth_goes_on_outboard;
    if (flag) outline.context().fail(key, fmt::format("= {} is stated twice; write it once", e.shown()));
    flag = true;
  };
  if (entry->kind == Entry::Kind::text) return take(*entry, outline.path("goes_on_beyond"));
  const auto& list = outline.list("goes_on_beyond", {1, 2, example});
  for (size_t i = 0; i < list.size(); ++i) take(list[i], nth(outline.path("goes_on_beyond"), i));
}

std::vector<double> heights(const CaseTable& profile, const std::string& key, double chord, size_t count) {
  const Range range{-0.05, 0.5, "half a thickness is usually 2 to 10 % of the chord"};
  const auto& list = profile.list(key, {0, most::profile_points, key + " = [\"0 mm\", \"20 mm\", ..., \"3 mm\"]"});
  if (list.size() != count)
    profile.context().fail(profile.path(key),
                           fmt::format("has {} heights for {} chord stations in profile.at ({}); one belongs to each",
                                       list.size(), count, profile.context().line_of(profile.path("at"))));
  const auto read = [&](Range allowed) {
    std::vector<double> out;
    for (size_t i = 0; i < count; ++i)
      out.push_back(profile.share_or_length(list[i], nth(profile.path(key), i), chord, allowed));
    return out;
  };
  refuse_signs_of_a_table(profile, key, read({-range.high, range.high, range.usual}));
  return read(range);
}

/// From skin to skin, laid half above and half below a mid line that may be bowed.
void take_from_mid_line(const CaseTable& profile, double chord, std::vector<double>& top_heights,
                        std::vector<double>& bottom_heights) {
  std::vector<double> mid(top_heights.size(), 0);
  if (profile.has("mid_line")) {
    const Range range{-0.2, 0.2, "a mid line is bowed by 0 to 6 % of the chord, up counted positive"};
    const auto& list =
        profile.list("mid_line", {top_heights.size(), top_heights.size(),
                                  "mid_line = [\"0 mm\", \"8 mm\", ..., \"0 mm\"], one for each station"});
    for (size_t i = 0; i < mid.size(); ++i)
      mid[i] = profile.share_or_length(list[i], nth(profile.path("mid_line"), i), chord, range);
  }
  for (size_t i = 0; i < mid.size(); ++i) {
    const double half = 0.5 * top_heights[i];
    top_heights[i] = half + mid[i];
    bottom_heights[i] = half - mid[i];
  }
}

}  // namespace

void read_outline(const CaseTable& top, Case& c) {
  const auto outline = top.table(
      "outline", {"span", "chord", "tip_chord", "straight_edge", "leading_edge", "trailing_edge", "goes_on_beyond"},
      "[outline] with span = \"1800 mm\" and chord = \"350 mm\"");
  if (outline.has("leading_edge") || outline.has("trailing_edge")) {
    for (const auto* key : {"span", "chord", "tip_chord", "straight_edge"})
      if (outline.has(key))
        outline.fail(key, "cannot stand beside leading_edge and trailing_edge; state one or the other");
    c.outline.leading_edge = read_polyline(outline, "leading_edge");
    c.outline.trailing_edge = read_polyline(outline, "trailing_edge");
    if (c.outline.leading_edge.back().y != c.outline.trailing_edge.back().y)
      outline.context().fail(
          outline.path("trailing_edge"),
          fmt::format("ends at {} from the inboard end, but leading_edge ({}) at {}; the two must end at "
                      "the same distance",
                      print_length(c.outline.trailing_edge.back().y),
                      outline.context().line_of(outline.path("leading_edge")),
                      print_length(c.outline.leading_edge.back().y)));
    if (c.outline.span() < span_range.low || c.outline.span() > span_range.high)
      outline.context().fail(outline.path("leading_edge"),
                             fmt::format("gives a span of {}; {}", print_length(c.outline.span()), span_range.usual));
  } else {
    read_from_chords(outline, c.outline);
  }
  check_not_crossed(outline, c.outline);
  read_goes_on(outline, c);
  if (const auto* bow = top.find("tip_bow");
      bow && bow->kind == Entry::Kind::list && bow->list.size() > 1 && bow->list.front().kind == Entry::Kind::table)
    top.context().fail("tip_bow", instead_of("", "bows"));
  if (const auto* bow = top.find("tip_bow"); bow && bow->kind == Entry::Kind::table) {
    const CaseTable tip(top.context(), *bow, "tip_bow", {"depth", "thickness", "section", "material"});
    if (c.cloth_goes_on_outboard)
      top.context().fail("tip_bow", fmt::format("ends the panel, and outline.goes_on_beyond ({}) says that it goes on "
                                                "there; leave one of the two out",
                                                top.context().line_of("outline.goes_on_beyond")));
    c.outline.tip_bow_depth = tip.quantity("depth", Quantity::length, bow_range);
    c.tip_thickness =
        tip.quantity("thickness", Quantity::length, {0.002, 0.3, "a tip bow is usually 8 to 30 mm thick"});
  }
}

void read_profile(const CaseTable& top, Case& c) {
  const auto profile = top.table("profile", {"at", "height", "top", "bottom", "thickness", "mid_line"},
                                 "[profile] with at = [0, \"5 %\", ..., \"100 %\"] and height = [...]");
  const double chord = c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x;
  const auto& at = profile.list("at", {2, most::profile_points,
                                       "at = [0, \"5 %\", \"25 %\", \"100 %\"], chord stations from "
                                       "leading to trailing edge"});
  const bool mirrored = profile.has("height");
  if (mirrored && (profile.has("top") || profile.has("bottom")))
    profile.context().fail(profile.path("height"),
                           "stands for both sides; leave out top and bottom, or state those two instead");
  const bool whole = profile.has("thickness");
  for (const auto* half : {"height", "top", "bottom"})
    if (whole && profile.has(half))
      profile.context().fail(profile.path("thickness"),
                             fmt::format("counts from skin to skin and {} ({}) from the chord line; state one or the "
                                         "other",
                                         half, profile.context().line_of(profile.path(half))));
  if (!whole && profile.has("mid_line"))
    profile.context().fail(profile.path("mid_line"),
                           "has a meaning only beside thickness, which counts from skin to skin; top and bottom hold "
                           "the bow of the mid line already");
  auto top_heights = heights(profile, whole ? "thickness" : mirrored ? "height" : "top", chord, at.size());
  auto bottom_heights = whole || mirrored ? top_heights : heights(profile, "bottom", chord, at.size());
  if (whole) take_from_mid_line(profile, chord, top_heights, bottom_heights);
  for (size_t i = 0; i < at.size(); ++i) {
    const auto key = nth(profile.path("at"), i);
    const double x = profile.share_or_length(at[i], key, chord, {0, 1, "stations run from 0 to 100 % of the chord"});
    if (i > 0 && x <= c.profile.back().chord_fraction)
      profile.context().fail(
          key, fmt::format("= {} is not behind the station before it ({}, {}); stations must rise", at[i].shown(),
                           at[i - 1].shown(), profile.context().line_of(nth(profile.path("at"), i - 1))));
    if (top_heights[i] + bottom_heights[i] < 0)
      profile.context().fail(
          nth(profile.path(whole      ? "thickness"
                           : mirrored ? "height"
                                      : "top"),
              i),
          fmt::format("at {} top and bottom cross: together they must not be negative", at[i].shown()));
    c.profile.push_back({x, top_heights[i], bottom_heights[i]});
  }
  if (c.profile.front().chord_fraction != 0 || c.profile.back().chord_fraction != 1)
    profile.context().fail(
        profile.path("at"),
        fmt::format("runs from {} to {} of the chord, and must run from the leading edge (0) to the trailing "
                    "edge (\"100 %\", here {})",
                    print_number(c.profile.front().chord_fraction), print_number(c.profile.back().chord_fraction),
                    print_length(chord)));
}

}  // namespace evenpull
