// The adhesive: the table [adhesive]. Nothing of it is guessed where somebody could be hurt by it: its temperature and its
// waiting times are its maker's, or not stated.
#include "app/input/case_parts.hpp"
#include "app/input/own_defaults.hpp"
#include "viz/words/glue_words.hpp"
#include "viz/words/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

constexpr Range coverage_range{1e3, 100e3, "one coat covers usually 8 to 15 m^2/L (330 to 610 ft^2/gal)"};
constexpr Range waiting_range{0, 7 * 86400.0, "as its maker says, usually minutes to hours"};
constexpr Range bears_range{300, 600, "as its maker says, usually 250 to 350 degF"};
constexpr Range dry_mass_range{0.001, 0.3, "one coat leaves usually 10 to 40 g/m^2"};
constexpr Range peel_range{20, 50e3,
                           "cemented cloth peels at some 2 to 20 lb/in (estimate); its maker says, or a strip"};
constexpr Range lap_shear_range{10e3, 30e6,
                                "of a lap, some 30 to 500 psi (estimate); its maker says, or a lap pulled apart"};
constexpr Range coats_range{0, 6, "usually 1"};

// Set so that a full-wrapped aileron takes the 2 fl oz or so of common practice (no source).
constexpr Default usual_coverage{14e3, "14 m²/L (570 ft²/gal) a coat",
                                 "judgement, set by what an aileron takes in common practice"};
constexpr Default usual_coverage_off{0.25, "25 %", default_judgement};
constexpr Default usual_lost{0.2, "20 %", default_judgement};
constexpr Default usual_dry_mass{0.020, "20 g/m² a coat", default_judgement};
constexpr int usual_coats = 1;

int read_coats(const OwnDefaults& own, const char* key) {
  return own.count(key, coats_range, usual_coats, default_from_practice);
}

}  // namespace

Adhesive read_adhesive(const CaseTable& top, const SeamStatement& seam) {
  const auto t =
      top.table_or_empty("adhesive", {"coverage", "coverage_off", "pre_coats", "lay_in_coats", "brush_through_coats",
                                      "lost", "dry_mass", "waiting_time", "between_coats", "hottest", "peel", "shear"});
  Adhesive a;
  const OwnDefaults own(t, a.taken);
  a.lap = seam.nose_overlap();
  a.tuck_round = seam.tuck;
  a.coverage = own.quantity("coverage", Quantity::coverage, coverage_range, usual_coverage);
  a.coverage_off =
      own.quantity("coverage_off", Quantity::fraction, {0.01, 1, "usually 10 to 30 %"}, usual_coverage_off);
  a.pre_coats = read_coats(own, "pre_coats");
  a.lay_in_coats = read_coats(own, "lay_in_coats");
  a.brush_through_coats = read_coats(own, "brush_through_coats");
  if (a.lay_in_coats + a.brush_through_coats == 0)
    t.fail("lay_in_coats", "and brush_through_coats = 0 leave nothing that glues the cloth; write 1 for one of them");
  a.lost = own.quantity("lost", Quantity::fraction, {0, 0.9, "usually 10 to 30 %"}, usual_lost);
  a.dry_mass = own.quantity("dry_mass", Quantity::area_mass, dry_mass_range, usual_dry_mass);
  a.waiting = t.quantity_if("waiting_time", Quantity::time, waiting_range);
  a.between = t.quantity_if("between_coats", Quantity::time, waiting_range);
  a.peel = t.quantity_if("peel", Quantity::force_per_width, peel_range);
  a.shear = t.quantity_if("shear", Quantity::stress, lap_shear_range);
  a.hottest = t.quantity_if("hottest", Quantity::temperature, bears_range);
  return a;
}

void leave_out_stages(const CaseTable& top, Adhesive& a, Case& c) {
  c.adhesive_bears = a.hottest;
  if (!a.hottest) return;
  const auto first = std::find_if(c.stages.begin(), c.stages.end(),
                                  [&](const Stage& s) { return s.temperature > *a.hottest + same_for_adhesive; });
  if (first == c.stages.begin())
    top.context().fail(
        "adhesive.hottest",
        fmt::format(
            "= {} is less than the first stage, {}: as stated this adhesive lets go before any ironing is done; "
            "ask its maker what it bears, or begin with a stage that it bears",
            top.find("adhesive")->table.at("hottest").shown(), viz::degrees_both(c.stages.front().temperature)));
  for (auto s = first; s != c.stages.end(); ++s) a.left_out.push_back(s->temperature);
  c.stages.erase(first, c.stages.end());
  c.too_hot_for_adhesive = a.left_out;
  if (!a.left_out.empty()) top.context().doubts.push_back(viz::adhesive_bears_sentence(*a.hottest, a.left_out.front()));
}

}  // namespace evenpull
