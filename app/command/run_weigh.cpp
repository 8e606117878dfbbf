// weigh: what the covering weighs and its moment about the hinge line, new and old.
#include "app/command/put_out_slip.hpp"
#include "app/input/case_reader.hpp"
#include "app/input/typed.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/weigh_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

constexpr Range old_mass_range{0.005, 50, "coverings of ailerons and rudders usually weigh 0.2 to 2 kg (0.4 to 4 lb)"};
constexpr Range old_at_range{-5, 5, "behind the hinge line, usually a few inches; below 0: ahead of it"};

int member_named(const std::string& name, const Case& c) {
  std::vector<std::string> names;
  for (const SpanMember& m : c.span_members) names.push_back(m.name);
  const auto at = std::find(names.begin(), names.end(), name);
  if (at == names.end())
    throw CaseFileError(
        "--about", {}, "",
        fmt::format("{} is no member of this case along which hinges could lie; its members along the span are {}",
                    in_quotes(name), list_words(names)));
  return static_cast<int>(at - names.begin());
}

std::optional<Weighed> old_covering(const WeighRequest& q, const std::optional<HingeLine>& hinges) {
  if (q.old_mass.empty()) {
    if (!q.old_at.empty())
      throw CaseFileError("--old-at", {}, "",
                          "says nothing by itself: give --old, what the old covering weighs, with it");
    return {};
  }
  const double mass = Typed("--old", q.old_mass).quantity(Quantity::mass, old_mass_range);
  if (q.old_at.empty()) return weigh_old(mass, {});
  if (!hinges)
    throw CaseFileError(
        "--old-at", {}, "",
        "is behind a hinge line that this case does not have: say hinge_line = true at a member, state two "
        "hinges in use on one, or name a member with --about");
  return weigh_old(mass, Typed("--old-at", q.old_at).quantity(Quantity::length, old_at_range));
}

bool states_areal_mass(const Case& c) {
  return std::none_of(c.defaults_used.begin(), c.defaults_used.end(),
                      [](const DefaultUsed& d) { return d.key == "cloth.areal_mass"; });
}

Json weighed_json(const Weighed& w) {
  return {{"mass_kg", json_number(w.mass, "mass")},
          {"mass_sigma_kg", json_number(w.mass_off, "mass_off")},
          {"moment_kg_m", w.has_moment ? json_number(w.moment, "moment") : Json(nullptr)},
          {"moment_sigma_kg_m", w.has_moment ? json_number(w.moment_off, "moment_off") : Json(nullptr)}};
}

const char* part_key(WeighedPart p) {
  switch (p) {
    case WeighedPart::cloth: return "cloth";
    case WeighedPart::turned_cloth: return "laps and tucks";
    case WeighedPart::adhesive: return "adhesive";
    case WeighedPart::tapes: return "tapes";
    case WeighedPart::coats: return "coats";
  }
  return "";
}

struct Scales {
  const CaseFile& file;
  std::optional<HingeLine> hinges;
  CoveringWeight now;
  std::optional<Weighed> old;
};

Json weigh_json(const Scales& s) {
  const Case& c = s.file.value;
  Json j = slip_json(c);
  j["hinge_line"] = s.hinges ? Json({{"member", c.span_members[static_cast<std::size_t>(s.hinges->member)].name},
                                     {"between_hinges", s.hinges->between_hinges}})
                             : Json(nullptr);
  auto parts = Json::array();
  for (const WeighedItem& i : s.now.items) {
    Json part = {{"part", part_key(i.part)}, {"area_m2", json_number(i.area, "area")}};
    part.update(weighed_json(i.weighed));
    parts.push_back(part);
  }
  j["parts"] = parts;
  j["new"] = weighed_json(s.now.all);
  j["tapes_counted"] = s.file.finish.tapes.has_value();
  j["coats_counted"] = s.file.finish.coats.has_value();
  j["old"] = s.old ? weighed_json(*s.old) : Json(nullptr);
  j["new_less_old"] = s.old ? weighed_json(difference(s.now.all, *s.old)) : Json(nullptr);
  j["warnings"] = viz::weigh_warnings(c, s.file.finish, s.old);
  std::vector<DefaultUsed> taken = s.file.adhesive.taken;
  taken.insert(taken.end(), s.file.finish.taken.begin(), s.file.finish.taken.end());
  j["defaults_used"] = defaults_json(taken);
  return j;
}

WorkSlip weigh_slip(const Scales& s) {
  const Case& c = s.file.value;
  WorkSlip slip{"Weight of the covering", c.title, viz::weigh_headline(s.now), "weighed by, date, scales", {}};
  SlipPart warnings, table, about, by_hand, notes;
  warnings.warnings = viz::weigh_warnings(c, s.file.finish, s.old);
  table.columns = {{"part", 0.28}, {"weighs", 0.32, true}, {"moment about hinge line", 0.4}};
  for (const viz::WeighRow& r : viz::weigh_rows(s.now, s.old)) table.rows.push_back({r.part, r.mass, r.moment});
  about.notes = {viz::hinge_line_sentence(c, s.hinges)};
  by_hand.heading = "On scales, by hand";
  by_hand.to_write = {"Bare frame", "Covered and coated"};
  notes.notes = viz::weigh_notes(s.file.adhesive, s.file.finish);
  slip.parts = {warnings, table, about, by_hand, notes};
  return slip;
}

}  // namespace

void run_weigh(const Request& r, std::ostream& out) {
  const CaseFile file = read_case_file(r.case_file);
  const Case& c = file.value;
  const Panel panel = panel_of(r, file);
  const std::optional<HingeLine> hinges = hinge_line(c, r.weigh.about.empty() ? -1 : member_named(r.weigh.about, c));
  const Scales s{file, hinges, weigh_covering(c, panel, file.adhesive, file.finish, hinges, states_areal_mass(c)),
                 old_covering(r.weigh, hinges)};
  put_out_slip(r, out, weigh_slip(s), SlipSize::whole_sheet, "weigh", weigh_json(s));
}

}  // namespace evenpull
