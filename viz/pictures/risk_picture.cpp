#include "viz/pictures/risk_picture.hpp"

#include "viz/panel/marks.hpp"
#include "viz/panel/skin_drawing.hpp"
#include "viz/panel/zone_words.hpp"
#include "viz/pictures/skin_picture.hpp"
#include "viz/words/wording.hpp"

#include <cairo.h>
#include <fmt/core.h>

#include <algorithm>

namespace evenpull::viz {

namespace {

constexpr double margin = SkinPicture::margin, type = SkinPicture::type;
constexpr double legend_height = 150;

double percent(const Chance& c) { return 100 * c.share(); }

}  // namespace

bool write_risk_picture(const Plan& plan, const std::string& path) {
  const Chances& k = plan.chances;
  const Panel& panel = plan.panel;
  if (k.zones.size() != panel.zones.size() || k.zones.empty()) return false;
  const double map = map_height(panel), width = SkinPicture::width - 2 * margin;
  const Case& c = plan.the_case;
  const bool slides = c.blanket.kind == BlanketKind::full_wrap;  // two sheets are glued where one could slide
  write_png(path, {SkinPicture::width, SkinPicture::head_height + map + legend_height}, [&](cairo_t* cr) {
    draw_picture_head(cr, plan, k.risk_stage,
                      "Risk of uneven pull after " + degrees_both(c.stages[k.risk_stage].temperature),
                      slides ? "Large: chance in % of uneven pull. Small: chance of sliding."
                             : "Numbers: chance in % of uneven pull.");
    const SkinView view = fit_skins(panel, {margin, SkinPicture::head_height, width, map}, type);
    const Bands bands = round_bands(100, 10);
    for (std::size_t z = 0; z < panel.zones.size(); ++z) {
      for (int q : panel.zones[z].quads)
        trace_nodes(cr, panel, view, {panel.quads[q].nodes.begin(), panel.quads[q].nodes.end()});
      set_ink(cr, bands.colour_of(percent(k.zones[z].uneven)));
      cairo_fill(cr);
    }
    draw_zone_lines(cr, panel, view, 2.4);
    draw_skin_frame(cr, panel, view, type);
    draw_zone_words(cr, panel, view, 18, 30, [&](const Zone& zone) {
      const ZoneRisk& r = k.zones[&zone - panel.zones.data()];
      return ZoneWords{fmt::format("{:.0f}", percent(r.uneven)),
                       slides ? fmt::format("{}: {:.0f}", zone.label, percent(r.slides)) : zone.label, black, true};
    });
    const double y = SkinPicture::head_height + map + 16;
    draw_text(cr, {margin, y}, "Chance of uneven pull", {.size = type, .bold = true});
    draw_chance_bar(cr, {margin + 20, y + 1.6 * type, 0.44 * width, 3 * type}, bands, type);
    const double x = margin + 0.52 * width;
    draw_text(
        cr, {x, y},
        fmt::format(
            "Uneven: the pull of the zone ends more than {} off the mean of the panel. {}From {} ways the job may "
            "turn out.",
            percent_text(c.wanted.uneven_share),
            slides ? fmt::format("Sliding: the cloth goes round the trailing edge by more than {} at the zone's "
                                 "stations. ",
                                 small_length_both(c.wanted.slide.value_or(c.limits.slip)))
                   : "",
            k.scenarios),
        {.size = type, .width = SkinPicture::width - margin - x});
  });
  return true;
}

}  // namespace evenpull::viz
