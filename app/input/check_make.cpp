// Whether a section can be what the place asks for: a nose is a member, and what is as deep as the panel needs a panel that
// is deep there.
#include "app/input/case_parts.hpp"
#include "solver/statement/member_section.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

/// Half a millimetre, the least height that may be stated.
constexpr double least_depth = 0.0005;

bool is_as_deep_as_the_panel(const MemberMake& make) {
  return is_as_deep_as_its_place(make.shape) ||
         std::any_of(make.changes.begin(), make.changes.end(),
                     [](const ShapeFrom& change) { return is_as_deep_as_its_place(change.shape); });
}

double least_chord(const Outline& o) {
  const auto x_at = [](const std::vector<PlanPoint>& line, double y) {
    size_t i = 1;
    while (i + 1 < line.size() && line[i].y < y) ++i;
    return line[i - 1].x + (y - line[i - 1].y) / (line[i].y - line[i - 1].y) * (line[i].x - line[i - 1].x);
  };
  double least = o.trailing_edge.front().x - o.leading_edge.front().x;
  for (const auto* line : {&o.leading_edge, &o.trailing_edge})
    for (const auto& p : *line) least = std::min(least, x_at(o.trailing_edge, p.y) - x_at(o.leading_edge, p.y));
  return least;
}

/// Share of the chord; straight between the points, below which the surface does not fall.
double depth_at(const std::vector<ProfilePoint>& profile, double fraction) {
  size_t i = 1;
  while (i + 1 < profile.size() && profile[i].chord_fraction < fraction) ++i;
  const auto &a = profile[i - 1], &b = profile[i];
  const double t = (fraction - a.chord_fraction) / (b.chord_fraction - a.chord_fraction);
  return a.top + a.bottom + t * (b.top + b.bottom - a.top - a.bottom);
}

void refuse_a_nose(const CaseTable& owner, const MemberMake& make, const char* what) {
  if (make.shape.kind == SectionShape::Kind::closed_nose)
    owner.context().fail(owner.path("section") + ".shape",
                         fmt::format("= \"closed nose\" is a shape for a member along the span, not for {}", what));
}

}  // namespace

void check_depth(const CaseTable& owner, const MemberMake& make, const Case& c, double from, double to) {
  if (!is_as_deep_as_the_panel(make)) return;
  const double chord = least_chord(c.outline);
  std::vector<double> places = {from, to};
  for (const auto& p : c.profile)
    if (p.chord_fraction > from && p.chord_fraction < to) places.push_back(p.chord_fraction);
  for (const double at : places)
    if (const double depth = depth_at(c.profile, at) * chord; depth < least_depth)
      owner.context().fail(
          owner.path("section"),
          fmt::format("has no height, so it is as deep as the panel, and at {:.4g} % of the chord that is only {} "
                      "(profile.at, {}); write its height, or correct the profile",
                      100 * at, print_length(depth), owner.context().line_of("profile.at")));
}

void check_rib(const CaseTable& owner, const MemberMake& make, const Case& c) {
  refuse_a_nose(owner, make, "a rib");
  check_depth(owner, make, c, c.span_members.front().chord_fraction, 1);
}

void check_tip_bow(const CaseTable& owner, const MemberMake& make) { refuse_a_nose(owner, make, "a tip bow"); }

void check_brace(const CaseTable& owner, const MemberMake& make, const char* what) {
  refuse_a_nose(owner, make, what);
  if (is_as_deep_as_the_panel(make))
    owner.context().fail(owner.path("section"),
                         fmt::format("has no height, and {} is not as deep as the panel; write its height", what));
}

void check_pocket_front(const CaseTable& owner, const MemberMake& make, const Case& c, double chord_fraction) {
  refuse_a_nose(owner, make, "a pocket's front");
  check_depth(owner, make, c, chord_fraction, chord_fraction);
}

void check_low_rib(const CaseTable& owner, const MemberMake& make) {
  if (is_as_deep_as_the_panel(make))
    owner.context().fail(
        owner.path("touches_cloth"),
        "= false: but the rib's section has no height, so it is as deep as the panel and the cloth lies "
        "on it; write its height, or leave touches_cloth out");
}

}  // namespace evenpull
