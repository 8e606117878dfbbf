// The cloth: by class and the defaults that go with it, or by the user's own numbers.
#include "app/input/case_parts.hpp"
#include "app/input/cloth_defaults.hpp"
#include "viz/words/print.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

constexpr Range mass_range{0.02, 0.4, "cloth usually has 50 to 130 g/m^2 (1.5 to 3.8 oz/yd^2)"};
constexpr Range stiffness_range{5e3, 2e6, "polyester cloth usually has 50 to 300 kN/m (300 to 1700 lb/in)"};
constexpr Range shear_range{50, 2e5, "woven cloth usually has 0.5 to 10 kN/m (3 to 57 lb/in)"};
constexpr Range shrink_range{0, 0.25, "free shrink is usually 4 to 14 %"};
constexpr Range pull_range{0, 6000, "the pull is usually 100 to 2000 N/m (0.6 to 11 lb/in)"};
constexpr Range curve_temperature_range{300, 533.15,
                                        "shrink sets in at about 80 degC and is measured up to about 350 degF"};
constexpr Range pull_common_range{0, 1,
                                  "one sigma as a share of the pull, in place of spread.pull_common at this point"};
constexpr Range loose_range{0, 0.06, "looseness is usually 0.5 to 3 %"};

/// Strain measure of a shrink given as a fraction of length (docs/model.md, section 2).
double shrink_strain(double fraction) { return 0.5 * (1 - (1 - fraction) * (1 - fraction)); }

void read_mass(const CaseTable& t, Cloth& cloth) {
  const int cls = t.choice_if("class", {"light", "medium", "heavy"});
  if (const auto mass = t.quantity_if("areal_mass", Quantity::area_mass, mass_range)) {
    cloth.areal_mass = *mass;
    return;
  }
  if (cls < 0)
    t.missing(
        "class",
        "class = \"medium\" (light, medium or heavy: about 60, 90 or 120 g/m^2), or areal_mass = \"2.7 oz/yd^2\"");
  cloth.areal_mass = cloth_defaults::class_mass[static_cast<size_t>(cls)];
  t.context().note_default(t.path("areal_mass"), fmt::format("{:.0f} g/m²", cloth.areal_mass * 1000),
                           "usual for the class stated (from memory); weigh a piece");
}

void read_stiffness(const CaseTable& t, Cloth& cloth) {
  const double scale = cloth.areal_mass / cloth_defaults::reference_mass;
  if (const auto both = t.yarns_if("stiffness", Quantity::force_per_width, stiffness_range)) {
    cloth.stiffness = *both;
  } else {
    const double e = round_12(cloth_defaults::stiffness * scale);
    cloth.stiffness = {e, e};
    t.context().note_default(t.path("stiffness"), fmt::format("{:.0f} kN/m each way", e / 1000),
                             "estimate (band 80 to 200 for 92 g/m²), scaled by areal mass");
  }
  if (const auto shear = t.quantity_if("shear", Quantity::force_per_width, shear_range)) {
    cloth.shear = *shear;
  } else {
    cloth.shear = round_12(cloth_defaults::shear * scale);
    t.context().note_default(t.path("shear"), fmt::format("{} kN/m", print_number(cloth.shear / 1000, 3)),
                             "estimate (band 0.5 to 10 for 92 g/m²), scaled by areal mass");
  }
  cloth.poisson = t.quantity_or("poisson", Quantity::fraction, {0, 0.6, "woven cloth usually has 0.05 to 0.4"},
                                {cloth_defaults::poisson, "0.2", "estimate (band 0.05 to 0.4)"});
  if (cloth.poisson * cloth.poisson * cloth.stiffness.fill >= 0.9 * cloth.stiffness.warp)
    t.context().fail(
        t.path("poisson"),
        fmt::format("= {} is too large for the two stiffnesses, of which the fill is {} times the warp: such a "
                    "cloth would give energy back when pulled; check the three",
                    print_number(cloth.poisson), print_number(cloth.stiffness.fill / cloth.stiffness.warp, 3)));
}

void read_curve(const CaseTable& t, Cloth& cloth) {
  const auto points = t.tables("curve", {"temperature", "free_shrink", "pull", "pull_common"}, most::curve_points);
  if (points.empty()) {
    const double scale = cloth.areal_mass / cloth_defaults::reference_mass;
    std::string pulls;
    for (const auto& p : cloth_defaults::curve) {
      const double pull = round_12(p.pull * scale);
      cloth.curve.push_back({t.context().units.parse(p.temperature, Quantity::temperature),
                             {p.free_shrink, p.free_shrink},
                             {pull, pull}});
      if (p.pull > 0) pulls += fmt::format("{}{:.0f}", pulls.empty() ? "" : " / ", pull);
    }
    t.context().note_default(t.path("curve"),
                             "free shrink 5 / 7.5 / 10 % and pull " + pulls + " N/m at 250 / 300 / 350 °F; onset 80 °C",
                             "free shrink: FAA-H-8083-31 (5 and 10 %); pull: estimate, band x 0.53 to x 1.9 (two "
                             "sigma), scaled by areal mass; the "
                             "weakest input; `evenpull coupon` says how to measure your own cloth");
    return;
  }
  for (size_t i = 0; i < points.size(); ++i) {
    const auto& p = points[i];
    ShrinkPoint point;
    point.temperature = p.quantity("temperature", Quantity::temperature, curve_temperature_range);
    const auto shrink = p.yarns_if("free_shrink", Quantity::fraction, shrink_range);
    if (!shrink) p.missing("free_shrink", "free_shrink = \"5 %\" or { warp = \"5 %\", fill = \"4 %\" }");
    const auto pull = p.yarns_if("pull", Quantity::force_per_width, pull_range);
    if (!pull) p.missing("pull", "pull = \"350 N/m\" or { warp = \"2 lb/in\", fill = \"1.8 lb/in\" }");
    point.free_shrink = *shrink;
    point.pull = *pull;
    point.pull_common = p.quantity_if("pull_common", Quantity::fraction, pull_common_range);
    if (i > 0) {
      const auto& before = cloth.curve.back();
      if (point.temperature <= before.temperature)
        p.fail("temperature", fmt::format("is not above the point before it ({}, {}); list the points from cool to hot",
                                          viz::degrees_both(before.temperature),
                                          t.context().line_of(nth(t.path("curve"), i - 1) + ".temperature")));
      if (point.free_shrink.warp < before.free_shrink.warp || point.free_shrink.fill < before.free_shrink.fill)
        p.fail(
            "free_shrink",
            fmt::format("falls from the point before it ({}) although the temperature rises; cloth shrinks more when "
                        "hotter: check the measurement",
                        t.context().line_of(nth(t.path("curve"), i - 1) + ".free_shrink")));
    }
    cloth.curve.push_back(point);
  }
  if (cloth.curve.size() < 2)
    t.context().fail(t.path("curve"),
                     "has one point and needs two at least: the onset (no shrink, about 80 degC) and a measured one");
  const auto& first = cloth.curve.front();
  if (first.free_shrink.warp != 0 || first.free_shrink.fill != 0 || first.pull.warp != 0 || first.pull.fill != 0)
    t.context().fail(nth(t.path("curve"), 0),
                     "the first point is the onset: free_shrink = \"0 %\" and pull = \"0 N/m\", at about 80 degC");
}

/// Cloth that is held both ways must have more free shrink than its own stretch under the pull takes up
/// (docs/model.md, section 3: (C P)_d < s_d), or the load line has no end.
void check_shrink_against_pull(const CaseTable& t, const Cloth& cloth) {
  for (size_t i = 0; i < cloth.curve.size(); ++i) {
    const auto& p = cloth.curve[i];
    const double cross = cloth.poisson / cloth.stiffness.warp;
    const Yarns stretch{p.pull.warp / cloth.stiffness.warp - cross * p.pull.fill,
                        p.pull.fill / cloth.stiffness.fill - cross * p.pull.warp};
    const auto check = [&](double stretched, double shrink, double pull, const char* yarn) {
      if (pull <= 0 || stretched < shrink_strain(shrink)) return;
      t.context().fail(
          nth(t.path("curve"), i),
          fmt::format(
              "the free shrink of the {} ({} %) is too small for its pull ({}): at a stiffness of {} kN/m the cloth "
              "stretches {} % under that pull, and free shrink must be more than that; check the three numbers",
              yarn, print_number(shrink * 100, 3), print_pull(pull),
              print_number((yarn == std::string("warp") ? cloth.stiffness.warp : cloth.stiffness.fill) / 1000, 3),
              print_number(stretched * 100, 3)));
    };
    check(stretch.warp, p.free_shrink.warp, p.pull.warp, "warp");
    check(stretch.fill, p.free_shrink.fill, p.pull.fill, "fill");
  }
}

}  // namespace

void read_cloth(const CaseTable& top, Case& c) {
  const auto t = top.table("cloth",
                           {"class", "areal_mass", "stiffness", "shear", "poisson", "warp_angle", "looseness",
                            "creep_share", "half_time", "activation_energy", "curve"},
                           "[cloth] with class = \"medium\"");
  read_mass(t, c.cloth);
  read_stiffness(t, c.cloth);
  c.cloth.warp_angle = t.quantity_or(
      "warp_angle", Quantity::angle, {-M_PI / 2, M_PI / 2, "0 deg is along the span, 90 deg along the chord"},
      {0, "0 deg (warp along the span)", "AC 43.13-1B par. 2-8: warp or fill along the line of flight"});
  if (const auto loose = t.yarns_if("looseness", Quantity::fraction, loose_range)) {
    c.cloth.looseness = *loose;
  } else {
    c.cloth.looseness = {cloth_defaults::looseness, cloth_defaults::looseness};
    t.context().note_default(t.path("looseness"), "1 % each way", "estimate (band 0 to 3 %)");
  }
  c.cloth.creep_share = t.quantity_or("creep_share", Quantity::fraction, {0, 1, "0 (none) to 1"},
                                      {0, "0", "no data at hand; 0 is the side that leaves more pull"});
  c.cloth.half_time = t.quantity_or("half_time", Quantity::time, {0.02, 60, "0.1 to 1 s"},
                                    {cloth_defaults::half_time, "0.5 s", "estimate (band 0.1 to 1 s)"});
  c.cloth.activation = t.quantity_or("activation_energy", Quantity::molar_energy, {0, 200e3, "0 to 60 kJ/mol"},
                                     {cloth_defaults::activation, "30 kJ/mol", "estimate (band 0 to 60 kJ/mol)"});
  read_curve(t, c.cloth);
  check_shrink_against_pull(t, c.cloth);
}

}  // namespace evenpull
