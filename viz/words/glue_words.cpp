#include "viz/words/glue_words.hpp"

#include "viz/words/time_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {
namespace {

constexpr double fluid_ounce = 29.5735295625e-6;  // m^3, exactly: 231 in^3 / 128
constexpr double square_foot = 0.09290304;        // m^2, exactly
constexpr double millilitre = 1e-6;

const char* line_name(LineAt at) {
  switch (at) {
    case LineAt::leading_edge: return "leading edge";
    case LineAt::trailing_edge: return "trailing edge";
    case LineAt::end_rib: return "end rib";
    case LineAt::inner_rib: return "inner ribs";
    case LineAt::pocket_front: return "front of pocket";
    case LineAt::pocket_side: return "sides of pocket";
    case LineAt::hinge_gap: return "round hinge gap";
  }
  return "";
}

std::string place_of(const Case& c, const GlueLine& l) {
  const std::string name = line_name(l.at);
  const auto index = static_cast<std::size_t>(std::max(0, l.index));
  if (l.at == LineAt::end_rib) return fmt::format("{} {}", name, l.index + 1);
  if (l.at == LineAt::pocket_front || l.at == LineAt::pocket_side)
    return fmt::format("{}: {}", name, c.pockets[index].name);
  if (l.at == LineAt::hinge_gap) return fmt::format("{} {}", name, l.index + 1);
  return name;
}

std::string glue_line_text(const Case& c, const GlueLine& l) {
  const bool both = l.at == LineAt::trailing_edge && c.blanket.kind == BlanketKind::full_wrap;
  return place_of(c, l) + (both ? ", tacked" : l.side == Side::top ? ", top" : ", bottom");
}

std::string coats_text(int coats) { return coats == 1 ? "1 coat" : fmt::format("{} coats", coats); }

}  // namespace

std::string swing_past_adhesive(const Case& c, const Adhesive& a) {
  const double hottest_sole = c.stages.back().temperature + c.iron.swing;
  if (!a.hottest || hottest_sole <= *a.hottest + same_for_adhesive) return "";
  return fmt::format(
      "At {} an iron that swings by {} reaches {} at times, more than the {} that the adhesive bears: "
      "ask its maker whether "
      "that counts, and keep the sole off the glue lines while it is at its hottest.",
      degrees_both(c.stages.back().temperature), swing_both(c.iron.swing), degrees_both(hottest_sole),
      degrees_both(*a.hottest));
}

std::string adhesive_bears_sentence(double bears, double coolest) {
  return fmt::format(
      "The adhesive bears no more than {} by its maker, as the case states (adhesive.hottest): stages from {} on were "
      "left "
      "out. Iron no hotter over glued cloth; ask its maker before you change that.",
      degrees_both(bears), degrees_both(coolest));
}

std::string volume_both(double v) { return fmt::format("{:.1f} fl oz ({:.0f} mL)", v / fluid_ounce, v / millilitre); }

std::string area_both(double a) { return fmt::format("{:.2f} ft² ({:.3f} m²)", a / square_foot, a); }

std::string volume_range(const Volume& v) {
  return fmt::format("{:.1f} to {:.1f} fl oz ({:.0f} to {:.0f} mL)", v.low / fluid_ounce, v.high / fluid_ounce,
                     v.low / millilitre, v.high / millilitre);
}

std::vector<GlueRow> glue_rows(const Case& c, const std::vector<GlueLine>& lines) {
  struct Sum {
    std::string name;
    double length = 0, area = 0;
  };
  std::vector<Sum> sums;
  for (const GlueLine& l : lines) {
    const std::string name = glue_line_text(c, l);
    auto at = std::find_if(sums.begin(), sums.end(), [&](const Sum& s) { return s.name == name; });
    if (at == sums.end()) at = sums.insert(sums.end(), {name});
    at->length += l.length, at->area += l.area();
  }
  std::vector<GlueRow> out;
  for (const Sum& s : sums)
    out.push_back({s.name, length_both(s.length), length_both(s.area / s.length), area_both(s.area)});
  return out;
}

std::vector<GlueVolumeRow> glue_volume_rows(const GlueNeed& n, const Adhesive& a) {
  std::vector<GlueVolumeRow> out;
  const auto add = [&](const std::string& what, int coats, const Volume& v) {
    if (coats > 0)
      out.push_back({fmt::format("{}, {}", what, coats_text(coats)), volume_both(v.likely), volume_range(v)});
  };
  add("pre-coat on the frame", a.pre_coats, n.pre_coat);
  add("lay-in", a.lay_in_coats, n.lay_in);
  add("brush-through", a.brush_through_coats, n.brush_through);
  out.push_back({fmt::format("all, with {} lost in brush and pot", percent_text(a.lost)), volume_both(n.in_all.likely),
                 volume_range(n.in_all)});
  return out;
}

std::string glue_headline(const GlueNeed& n) {
  return fmt::format("Likely {}; have {} at hand", volume_both(n.in_all.likely), volume_both(n.in_all.high));
}

std::string waiting_text(const std::optional<double>& seconds) {
  return seconds ? duration_text(*seconds) + " by its maker" : "not stated: ask its maker";
}

std::vector<std::string> glue_steps(const Adhesive& a) {
  std::vector<std::string> out;
  const std::string between = "Wait: " + waiting_text(a.between) + ".";
  if (a.pre_coats > 0)
    out.push_back(fmt::format("Pre-coat the lines on the bare frame, {}. {}", coats_text(a.pre_coats), between));
  if (a.lay_in_coats > 0)
    out.push_back(fmt::format("Lay in: {} on each line, cloth into it at once, smooth, just not loose. {}",
                              coats_text(a.lay_in_coats), a.brush_through_coats > 0 ? between : ""));
  if (a.brush_through_coats > 0)
    out.push_back(fmt::format("Brush through the cloth, {}.", coats_text(a.brush_through_coats)));
  out.push_back(
      fmt::format("Before the iron: {}. Time alone does not say that it is dry: look and feel along every line.",
                  waiting_text(a.waiting)));
  return out;
}

std::vector<std::string> glue_warnings(const Case& c, const Adhesive& a) {
  std::vector<std::string> out;
  if (!a.hottest) {
    out.push_back(
        "What heat the adhesive bears is not stated: ask its maker, and write it into the case (adhesive.hottest). "
        "Until then "
        "nobody knows at which stage the glue lines let go.");
  } else if (!a.left_out.empty()) {
    out.push_back(adhesive_bears_sentence(*a.hottest, a.left_out.front()));
  }
  if (const std::string swing = swing_past_adhesive(c, a); !swing.empty()) out.push_back(swing);
  if (!a.waiting)
    out.push_back(
        "How long it waits before the iron is not stated: ask its maker (adhesive.waiting_time). Never guess it.");
  return out;
}

std::string taken_sentence(const std::vector<DefaultUsed>& taken) {
  if (taken.empty()) return "";
  std::string text;
  for (const DefaultUsed& d : taken) text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", d.key, d.value);
  return "Taken because the case does not say (all judgement or common practice without a source): " + text + ".";
}

std::vector<std::string> glue_notes(const std::vector<DefaultUsed>& taken) {
  std::vector<std::string> out{
      "The likely amount counts every coat on every line. Of 100 such jobs 95 take an amount in the range, by what is "
      "not known of "
      "coverage.",
      "Ventilate, no flame, no hot iron near wet adhesive or its vapour. What adhesive and what overlap: the approved "
      "data say."};
  if (const std::string text = taken_sentence(taken); !text.empty()) out.push_back(text);
  return out;
}

}  // namespace evenpull::viz
