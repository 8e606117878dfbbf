// How the cloth is cut and lapped: the tables [bolt] and [seam].
#include "app/input/case_parts.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

/// Nobody laps more of a panel than that with one seam; judgement.
constexpr double most_of_chord = 0.5;
/// What is left of a bolt between its selvedges, at least [m].
constexpr double least_usable = 0.2;
constexpr const char* tape_why = "AC 43.13-1B par. 2-7 b, for doped seams: no wider one is known for cement";

/// Keeps what a default was, apart from those of the plan: nothing here changes a plan.
class Told {
 public:
  Told(const CaseTable& t, Trimming& out) : t_(t), out_(out) {}
  void length(const char* key, Range range, double& into, const char* why) {
    if (const auto v = t_.quantity_if(key, Quantity::length, range)) into = *v;
    else note(key, print_length(into), why);
  }
  void note(const char* key, const std::string& value, const char* why) {
    out_.defaults_used.push_back({t_.path(key), value, why});
  }

 private:
  const CaseTable& t_;
  Trimming& out_;
};

void read_bolt(const CaseTable& top, Trimming& out) {
  const auto t = top.table_or_empty("bolt", {"width", "selvedge", "warp"});
  Told told(t, out);
  told.length("width", {0.25, 5, "bolts are usually 36 to 72 in (0.9 to 1.8 m) wide; measure yours"}, out.bolt.width,
              "from memory; measure yours");
  told.length("selvedge", {0, 0.1, "usually 1/4 to 3/4 in on each side"}, out.bolt.selvedge, default_judgement);
  if (out.bolt.usable() < least_usable)
    t.fail(
        t.has("selvedge") ? "selvedge" : "width",
        fmt::format("leaves {} of the bolt between two selvedges; state the selvedge of one side, and the whole width",
                    print_length(std::max(0.0, out.bolt.usable()))));
  out.bolt.warp_either_way = t.choice_if("warp", {"as the case says", "either way"}) == 1;
}

double narrowest_chord(const Case& c) {
  const auto& le = c.outline.leading_edge;
  const auto& te = c.outline.trailing_edge;
  return std::min(te.front().x - le.front().x, te.back().x - le.back().x);
}

void refuse_wide(const CaseTable& t, const Case& c, const char* key, double width) {
  if (width <= most_of_chord * narrowest_chord(c)) return;
  t.fail(key, fmt::format("is more than half of the narrowest chord, {}; laps are usually 1.5 to 3 in",
                          print_length(narrowest_chord(c))));
}

void read_laps(const CaseTable& t, const Case& c, Trimming& out) {
  SeamStatement& s = out.seam;
  Told told(t, out);
  s.sewn = t.has("sewn") && t.flag("sewn");
  s.wing = t.has("wing") ? t.flag("wing") : c.cloth_goes_on_inboard || c.cloth_goes_on_outboard;
  s.overlap = t.quantity_if("overlap", Quantity::length, {0.005, 0.5, "cemented laps are 1.5 to 2 in wide"});
  if (s.overlap) refuse_wide(t, c, "overlap", *s.overlap);
  else
    told.note("overlap", print_length(s.nose_overlap()),
              s.wing && !s.sewn
                  ? "3 in on a wing's leading edge without a sewn seam, 2 in elsewhere; common practice, no source"
                  : "cemented laps are 1.5 to 2 in; common practice, no source");
  told.length("tuck", {0.005, 0.3, "usually 1 to 3 in round an end rib"}, s.tuck, default_judgement);
  if (t.has("tuck")) refuse_wide(t, c, "tuck", s.tuck);
  told.length("trim", {0, 0.2, "usually 1/4 to 1 in"}, s.trim, default_judgement);
}

void read_tapes(const CaseTable& t, Trimming& out) {
  SeamStatement& s = out.seam;
  Told told(t, out);
  const Range range{0, 0.5, "tapes are 1 to 6 in wide; \"0 in\" for none"};
  told.length("nose_tape", range, s.nose_tape, tape_why);
  told.length("edge_tape", range, s.edge_tape, tape_why);
  told.length("rib_tape", range, s.rib_tape, default_from_practice);
}

}  // namespace

Trimming read_trimming(const CaseTable& top, const Case& c) {
  Trimming out;
  read_bolt(top, out);
  const auto t =
      top.table_or_empty("seam", {"overlap", "tuck", "trim", "sewn", "wing", "nose_tape", "edge_tape", "rib_tape"});
  read_laps(t, c, out);
  read_tapes(t, out);
  return out;
}

}  // namespace evenpull
