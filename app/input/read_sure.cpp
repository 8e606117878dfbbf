// How far off the inputs may be, and what the user wants to be sure of.
#include "app/input/case_parts.hpp"

namespace evenpull {
namespace {

constexpr const char* default_spread = "estimate, one sigma";
constexpr Range spread_range{0, 1, "one sigma as a share of the value, like \"25 %\""};
/// Fewer tell too little of a tail, more only cost time.
constexpr int fewest_scenarios = 32, most_scenarios = 4096;

// The pull in all, or its three parts one by one.
template <class Share>
void read_pull(const CaseTable& t, Spreads& s, const Share& share) {
  if (t.has("pull")) {
    for (const char* part : {"pull_common", "pull_of_stage", "pull_of_yarn"})
      if (t.has(part)) t.fail(part, "is a part of `pull`, which is stated too; state the whole or its parts, not both");
    const double all = s.pull();
    double stated = all;
    share("pull", stated, "32 %");
    s.pull_common *= stated / all, s.pull_of_stage *= stated / all, s.pull_of_yarn *= stated / all;
    return;
  }
  share("pull_common", s.pull_common, "29 %");
  share("pull_of_stage", s.pull_of_stage, "10 %");
  share("pull_of_yarn", s.pull_of_yarn, "8 %");
}

}  // namespace

void read_spreads(const CaseTable& top, Case& c) {
  const auto t = top.table_or_empty("spread", {"free_shrink", "pull", "pull_common", "pull_of_stage", "pull_of_yarn",
                                               "cloth_stiffness", "member_stiffness", "friction", "looseness",
                                               "half_time", "metal_strength", "wood_strength", "crippling", "sole"});
  auto& s = c.spreads;
  const auto share = [&](const char* key, double& value, const char* printed) {
    value = t.quantity_or(key, Quantity::fraction, spread_range, {value, printed, default_spread});
  };
  share("free_shrink", s.free_shrink, "10 %");
  read_pull(t, s, share);
  share("cloth_stiffness", s.cloth_stiffness, "25 %");
  share("member_stiffness", s.member_stiffness, "10 %");
  share("friction", s.friction, "30 %");
  share("looseness", s.looseness, "50 %");
  share("half_time", s.half_time, "50 %");
  share("metal_strength", s.metal_strength, "6 %");
  share("wood_strength", s.wood_strength, "16 %");
  share("crippling", s.crippling, "15 %");
  s.sole = t.quantity_or("sole", Quantity::temperature_difference, {0, 40, "what the set temperature may be off by"},
                         {s.sole, "4 K (7 °F)", "set by thermometer; estimate, one sigma"});
}

void read_wanted(const CaseTable& work, Case& c) {
  auto& w = c.wanted;
  const auto share = [&](const char* key, double& value, Range range, const char* printed) {
    value = work.quantity_or(key, Quantity::fraction, range, {value, printed, default_judgement});
  };
  share("done_band", w.done_band, {0.01, 0.5, "a share of full shrink, usually 5 to 20 %"}, "10 %");
  share("done_share", w.done_share, {0.5, 0.999, "a share of the area, usually 80 to 99 %"}, "90 %");
  share("confidence", w.confidence, {0.5, 0.999, "a chance, usually 80 to 95 %"}, "90 %");
  share("damage_chance", w.damage_chance, {0.001, 0.1, "a chance, usually 1 %"}, "1 %");
  share("uneven_share", w.uneven_share, {0.02, 1, "a share of the mean pull, usually 10 to 30 %"}, "20 %");
  w.turn_over_time = work.quantity_or("turn_over_time", Quantity::time, {0, 3600, "usually 1 to 3 minutes"},
                                      {w.turn_over_time, "60 s", default_judgement});
  w.check_time = work.quantity_or("check_time", Quantity::time, {0, 86400, "usually 10 minutes"},
                                  {w.check_time, "600 s", default_judgement});
  w.sag_reading = work.quantity_or("sag_reading", Quantity::length,
                                   {0.00002, 0.003, "usually 0.1 mm with a depth gauge, 0.25 mm with a ruler"},
                                   {w.sag_reading, "0.25 mm", default_judgement});
  w.slide = work.quantity_if("slide", Quantity::length, {0.0001, 0.1, "usually 2 to 10 mm"});
  if (!work.has("scenarios")) {
    work.context().note_default(work.path("scenarios"), "128", "know a chance of 5 % to ± 4 %; judgement");
    return;
  }
  w.scenarios = work.whole_number("scenarios", {0, most_scenarios, "128 is usual; 0 leaves the study out"});
  if (w.scenarios > 0 && w.scenarios < fewest_scenarios)
    work.fail("scenarios", "is too few to say anything of a chance; 128 is usual, 0 leaves the study out");
}

}  // namespace evenpull
