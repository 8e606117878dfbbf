// How the cloth is laid on and fastened.
#include "app/input/case_parts.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr Range share_range{0, 0.9, "measured from the leading edge; the nose usually ends at 10 to 40 % of the chord"};
constexpr Range friction_range{0, 1.5, "cloth on metal has about 0.15 to 0.30, on varnished wood 0.25 to 0.45"};

/// Chord fraction where the metal nose ends, if a member closes one.
double nose_end(const Case& c) {
  for (const auto& m : c.span_members)
    if (m.make.shape.kind == SectionShape::Kind::closed_nose) return m.chord_fraction;
  return 0;
}

// Cloth slides worse over varnished wood than over metal (docs/data.md).
struct UsualFriction {
  double value;
  const char *printed, *why;
};
UsualFriction usual_friction(const Case& c, const MemberMake& under) {
  const bool wood = c.materials[static_cast<size_t>(under.material)].kind == Strength::rupture;
  return wood ? UsualFriction{0.35, "0.35", "cloth on varnished wood; estimate"}
              : UsualFriction{0.25, "0.25", "cloth on bare or primed metal; estimate"};
}

void read_edge(const CaseTable& t, const Case& c, Blanket& b) {
  if (b.kind == BlanketKind::two_sheets) {
    for (const auto* key : {"wrap_angle", "edge_friction", "edge_tacked"})
      if (t.has(key))
        t.fail(key,
               "has a meaning only with kind = \"full wrap\"; two sheets are glued to the trailing edge; leave it out");
    return;
  }
  b.wrap_angle = t.quantity_or("wrap_angle", Quantity::angle,
                               {0, 3.5, "a thin trailing edge turns the cloth by about 170 deg"},
                               {170 * M_PI / 180, "170 deg", "thin trailing edge; estimate"});
  const UsualFriction edge = usual_friction(c, c.span_members.back().make);
  b.edge_friction =
      t.quantity_or("edge_friction", Quantity::fraction, friction_range, {edge.value, edge.printed, edge.why});
  b.edge_glued = t.flag_or("edge_tacked", false,
                           "a full wrap usually lies loose round the trailing edge; common practice, no source");
}

/// How thick the sheet of the nose is: the iron has to heat it.
void read_nose_sheet(const CaseTable& t, Case& c) {
  const bool nose = c.blanket.nose_chord_fraction > c.blanket.seam_chord_fraction;
  const Range range{0.0001, 0.02, "sheet of a nose is 0.016 to 0.032 in (0.4 to 0.8 mm), plywood 1 to 2 mm"};
  if (!nose) {
    if (t.has("nose_sheet")) t.fail("nose_sheet", "has a meaning only where the cloth lies on a nose behind the seam");
    return;
  }
  if (nose_end(c) > 0) c.blanket.nose_sheet = t.quantity_if("nose_sheet", Quantity::length, range).value_or(0);
  else
    c.blanket.nose_sheet =
        t.quantity_or("nose_sheet", Quantity::length, range, {0.0005, "0.5 mm (0.020 in)", default_estimate});
}

}  // namespace

void read_blanket(const CaseTable& top, Case& c) {
  const auto t = top.table("blanket",
                           {"kind", "seam", "metal_nose_to", "nose_sheet", "wrap_angle", "edge_friction", "edge_tacked",
                            "inner_ribs", "rib_friction"},
                           "[blanket] with kind = \"full wrap\"");
  auto& b = c.blanket;
  const double chord = c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x;
  b.kind = static_cast<BlanketKind>(t.choice("kind", {"full wrap", "two sheets"}));
  if (const auto* seam = t.find("seam")) {
    b.seam_chord_fraction = t.share_or_length(
        *seam, t.path("seam"), chord, {0, 0.5, "the seam lies on or near the leading edge, 0 to 20 % of the chord"});
  } else {
    t.context().note_default(t.path("seam"), "0 (on the leading edge)", default_from_practice);
  }
  if (const auto* nose = t.find("metal_nose_to")) {
    b.nose_chord_fraction = t.share_or_length(*nose, t.path("metal_nose_to"), chord, share_range);
  } else {
    b.nose_chord_fraction = nose_end(c);
    t.context().note_default(
        t.path("metal_nose_to"),
        b.nose_chord_fraction > 0 ? fmt::format("{} %", print_number(b.nose_chord_fraction * 100)) : "no metal nose",
        b.nose_chord_fraction > 0 ? "where the closed nose ends" : "no member is a closed nose");
  }
  read_nose_sheet(t, c);
  read_edge(t, c, b);
  const int inner = t.choice_if("inner_ribs", {"bearing", "free", "glued"});
  b.inner_ribs = static_cast<RibTie>(std::max(0, inner));
  if (inner < 0)
    t.context().note_default(t.path("inner_ribs"), "bearing",
                             "ribs are laced after the cloth is taut (AC 43.13-1B par. 2-11)");
  const UsualFriction rib = usual_friction(c, c.ribs[c.ribs.size() / 2].make);
  b.rib_friction = t.quantity_or("rib_friction", Quantity::fraction, friction_range, {rib.value, rib.printed, rib.why});
}

}  // namespace evenpull
