// What comes onto the cloth after the iron ([tapes], [coats]) and how long each part of the job takes ([times]).
#include "app/input/case_parts.hpp"
#include "app/input/own_defaults.hpp"
#include "app/text/nearest.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

constexpr Range tape_mass_range{0.02, 0.6, "cloth and what holds it: usually 100 to 200 g/m^2 (3 to 6 oz/yd^2)"};
constexpr Range coat_mass_range{0, 1, "all coats together usually leave 50 to 250 g/m^2 (1.5 to 7.4 oz/yd^2)"};
constexpr Default usual_coat_off{0.25, "25 %", default_judgement};
constexpr int coats_of_a_tape = 2;  // one below, one through it; judgement
constexpr double least_coat_off = 0.01;

// Of a part of the job, at the bench. All judgement.
constexpr Range part_range{0, 100 * 3600.0, "usually minutes to a few hours"};
constexpr double part_minute = 60;
constexpr Default usual_frame_check{30 * part_minute, "30 min", default_judgement};
constexpr Default usual_cutting{30 * part_minute, "30 min", default_judgement};
constexpr Default usual_gluing{2 * part_minute, "2 min a metre and coat", default_judgement};
constexpr Default usual_attaching{10 * part_minute, "10 min a rib", default_judgement};
constexpr Default usual_taping{4 * part_minute, "4 min a metre", default_judgement};
constexpr Default usual_inspection{30 * part_minute, "30 min", default_judgement};

const std::vector<std::string> taped_places = {"leading edge", "trailing edge", "end ribs", "inner ribs"};

// Widths are those of [seam].
void lay_tape(const SeamStatement& seam, std::size_t place, Tapes& tapes) {
  const double widths[] = {seam.nose_tape, seam.edge_tape, seam.rib_tape, seam.rib_tape};
  double Tapes::*const over[] = {&Tapes::leading_edge, &Tapes::trailing_edge, &Tapes::end_ribs, &Tapes::inner_ribs};
  tapes.*over[place] = widths[place];
}

void read_places(const CaseTable& t, const SeamStatement& seam, Tapes& tapes, std::vector<DefaultUsed>& taken) {
  if (!t.has("over")) {
    for (std::size_t i = 0; i < taped_places.size(); ++i) lay_tape(seam, i, tapes);
    taken.push_back({t.path("over"), "both edges, end ribs and inner ribs", default_from_practice});
    return;
  }
  for (const Entry& e : t.list("over", {1, taped_places.size(), "over = [\"leading edge\", \"end ribs\"]"})) {
    const auto at = std::find(taped_places.begin(), taped_places.end(), plain_word(e.text));
    if (e.kind != Entry::Kind::text || at == taped_places.end())
      t.context().fail(t.path("over"), fmt::format("= {} is no place for a tape here; known are {}", e.shown(),
                                                   list_words(taped_places)));
    lay_tape(seam, static_cast<std::size_t>(at - taped_places.begin()), tapes);
  }
}

std::optional<Tapes> read_tapes(const CaseTable& top, const Case& c, const Adhesive& a, const SeamStatement& seam,
                                std::vector<DefaultUsed>& taken) {
  if (!top.has("tapes")) return {};
  const auto t = top.table("tapes", {"areal_mass", "over"}, "");
  Tapes tapes;
  const double with_adhesive = c.cloth.areal_mass + coats_of_a_tape * a.dry_mass;
  const std::string printed = fmt::format("{:.0f} g/m²", 1e3 * with_adhesive);
  tapes.areal_mass = OwnDefaults(t, taken).quantity(
      "areal_mass", Quantity::area_mass, tape_mass_range,
      {with_adhesive, printed.c_str(), "the cloth of the case and two coats of its adhesive; judgement"});
  read_places(t, seam, tapes, taken);
  return tapes;
}

std::optional<Coats> read_coats_on_cloth(const CaseTable& top, std::vector<DefaultUsed>& taken) {
  if (!top.has("coats")) return {};
  const auto t = top.table("coats", {"dry_mass", "off_by"}, "");
  Coats coats;
  coats.dry_mass = t.quantity("dry_mass", Quantity::area_mass, coat_mass_range);
  coats.off = OwnDefaults(t, taken).quantity("off_by", Quantity::fraction, {least_coat_off, 1, "usually 10 to 30 %"},
                                             usual_coat_off);
  return coats;
}

}  // namespace

Finish read_finish(const CaseTable& top, const Case& c, const Adhesive& a, const SeamStatement& seam) {
  Finish out;
  out.tapes = read_tapes(top, c, a, seam, out.taken);
  out.coats = read_coats_on_cloth(top, out.taken);
  const auto t = top.table_or_empty("times", {"frame_check", "cutting", "gluing", "attaching", "taping", "inspection"});
  const OwnDefaults own(t, out.taken);
  const auto part = [&](const char* key, const Default& usual) {
    return own.quantity(key, Quantity::time, part_range, usual);
  };
  out.times.frame_check = part("frame_check", usual_frame_check);
  out.times.cutting = part("cutting", usual_cutting);
  out.times.gluing = part("gluing", usual_gluing);
  out.times.attaching = part("attaching", usual_attaching);
  out.times.taping = part("taping", usual_taping);
  out.times.inspection = part("inspection", usual_inspection);
  return out;
}

}  // namespace evenpull
