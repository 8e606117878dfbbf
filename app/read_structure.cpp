// Members, ribs, tip bow and braces.
#include "app/case_parts.hpp"
#include "app/nearest.hpp"
#include "solver/panel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

namespace evenpull {
namespace {

const std::vector<std::string> rib_keys = {"section", "material"};

std::string role_name(SpanRole role) {
  return role == SpanRole::leading_edge ? "leading edge" : role == SpanRole::trailing_edge ? "trailing edge" : "spar";
}

SpanMember read_member(const CaseTable& t, MaterialShelf& shelf, double chord) {
  SpanMember m;
  m.role = static_cast<SpanRole>(t.choice("role", {"leading edge", "spar", "trailing edge"}));
  m.name = t.text_or("name", role_name(m.role));
  m.make = read_make(t, shelf);
  const Range range{0, 1, "a member stands between 0 (leading edge) and 100 % (trailing edge) of the chord"};
  const bool nose = m.make.shape.kind == SectionShape::Kind::closed_nose;
  if (const auto* at = t.find("at")) {
    m.chord_fraction = t.share_or_length(*at, t.path("at"), chord, range);
  } else if (m.role == SpanRole::spar || nose) {
    t.missing("at", nose ? "at = \"22 %\" (where the web that closes the nose stands)" : "at = \"25 %\"");
  } else {
    m.chord_fraction = m.role == SpanRole::trailing_edge ? 1 : 0;
  }
  if (m.role == SpanRole::spar)
    m.touches_cloth =
        t.flag_or("touches_cloth", false, "a spar usually lies inside and the cloth rests on the ribs; judgement");
  else if (t.has("touches_cloth"))
    t.fail("touches_cloth", "has a meaning only for a spar; leading and trailing edge always touch the cloth");
  if (m.role == SpanRole::trailing_edge && m.chord_fraction != 1)
    t.fail("at", "must be \"100 %\" for the trailing edge; leave it out");
  if (nose && (m.chord_fraction < 0.02 || m.chord_fraction > 0.8))
    t.fail("at", "is where the closed nose ends; usually 10 to 40 % of the chord");
  return m;
}

void read_members(const CaseTable& top, Case& c, MaterialShelf& shelf) {
  const double chord = c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x;
  const auto tables = top.tables("member", {"name", "role", "at", "section", "material", "touches_cloth"});
  if (tables.empty())
    top.missing("member", "[[member]] with role = \"leading edge\" and another with role = \"trailing edge\"");
  std::map<std::string, std::string> place;  // key of where each member stands
  for (const auto& t : tables) {
    c.span_members.push_back(read_member(t, shelf, chord));
    if (!place.emplace(c.span_members.back().name, t.path("at")).second)
      t.context().fail(t.own_path(), fmt::format("a second member is called \"{}\"; give each its own name",
                                                 c.span_members.back().name));
  }
  std::stable_sort(c.span_members.begin(), c.span_members.end(),
                   [](const auto& a, const auto& b) { return a.chord_fraction < b.chord_fraction; });
  for (size_t i = 1; i < c.span_members.size(); ++i)
    if (const double apart = c.span_members[i].chord_fraction - c.span_members[i - 1].chord_fraction; apart < least_apart)
      top.context().fail(place[c.span_members[i].name],
                         fmt::format("\"{}\" and \"{}\" stand {} apart along the chord, practically in one place; state "
                                     "one of them, or where the other one really stands",
                                     c.span_members[i - 1].name, c.span_members[i].name, print_length(apart * chord)));
  const auto count = [&](SpanRole role) {
    return std::count_if(c.span_members.begin(), c.span_members.end(), [&](const auto& m) { return m.role == role; });
  };
  for (const auto role : {SpanRole::leading_edge, SpanRole::trailing_edge})
    if (count(role) != 1)
      top.context().fail("member", fmt::format("there are {} members with role = \"{}\"; there must be exactly one",
                                               count(role), role_name(role)));
  if (c.span_members.front().role != SpanRole::leading_edge)
    top.context().fail("member",
                       fmt::format("\"{}\" stands in front of the leading edge \"{}\"; a member inside a closed "
                                   "nose is part of the nose",
                                   c.span_members.front().name,
                                   std::find_if(c.span_members.begin(), c.span_members.end(), [](const auto& m) {
                                     return m.role == SpanRole::leading_edge;
                                   })->name));
}

std::vector<double> read_stations(const CaseTable& ribs, double span) {
  std::vector<double> y;
  if (ribs.has("bays")) {
    if (ribs.has("stations")) ribs.fail("bays", "cannot stand beside stations; state one or the other");
    const int bays = ribs.whole_number("bays", {1, 60, "a control surface usually has 3 to 12 bays"});
    for (int i = 0; i <= bays; ++i) y.push_back(i == bays ? span : round_12(span * i / bays));
    return y;
  }
  y = ribs.quantities("stations", Quantity::length, {0, 8, "stations are measured from the inboard end rib"});
  const auto key = ribs.path("stations");
  if (y.size() < 2) ribs.context().fail(key, "must name at least the two end ribs");
  for (size_t i = 1; i < y.size(); ++i) {
    if (y[i] <= y[i - 1])
      ribs.context().fail(nth(key, i),
                          fmt::format("= \"{}\" is out of order: the rib before it stands at {}; list ribs from "
                                      "the inboard end to the tip",
                                      ribs.find("stations")->list[i].text, print_length(y[i - 1])));
    if (y[i] - y[i - 1] < 0.02)
      ribs.context().fail(nth(key, i),
                          fmt::format("stands only {} from the rib before it; ribs are usually 150 to 400 mm "
                                      "(6 to 16 in) apart",
                                      print_length(y[i] - y[i - 1])));
  }
  if (y.front() != 0) ribs.context().fail(nth(key, 0), "the first rib is the inboard end rib and stands at \"0 mm\"");
  if (y.back() != span)
    ribs.context().fail(nth(key, y.size() - 1),
                        fmt::format("the last rib stands at the end of the outline, at {}", print_length(span)));
  return y;
}

void read_ribs(const CaseTable& top, Case& c, MaterialShelf& shelf) {
  const auto ribs = top.table("ribs", {"stations", "bays", "joints", "inner", "end", "single"},
                              "[ribs] with stations = [\"0 mm\", \"300 mm\", ...]");
  const auto stations = read_stations(ribs, c.outline.span());
  const int joints = ribs.choice_if("joints", {"rigid", "pinned"});
  if (joints < 0) ribs.context().note_default("ribs.joints", "rigid", default_estimate);
  const auto end_table = ribs.table("end", rib_keys, "[ribs.end] with section = { ... } and material = \"...\"");
  const auto end = read_make(end_table, shelf);
  auto inner = end;
  if (ribs.has("inner")) {
    inner = read_make(ribs.table("inner", rib_keys, ""), shelf);
  } else if (stations.size() > 2) {
    ribs.context().note_default("ribs.inner", "as the end ribs", default_estimate);
  }
  for (size_t i = 0; i < stations.size(); ++i)
    c.ribs.push_back({stations[i], i == 0 || i + 1 == stations.size() ? end : inner, joints == 1});
  for (const auto& t : ribs.tables("single", {"number", "section", "material", "joints"})) {
    const int number =
        t.whole_number("number", {1, static_cast<double>(stations.size()), "ribs count from 1 at the inboard end"});
    auto& rib = c.ribs[static_cast<size_t>(number - 1)];
    if (t.has("section") || t.has("material")) rib.make = read_make(t, shelf);
    if (const int own = t.choice_if("joints", {"rigid", "pinned"}); own >= 0) rib.hinged_ends = own == 1;
  }
}

int read_end(const CaseTable& brace, const std::string& key, const Case& c, int& rib) {
  const auto end = brace.table(key, {"member", "rib"}, key + " = { member = \"spar\", rib = 1 }");
  rib = end.whole_number("rib", {1, static_cast<double>(c.ribs.size()), "ribs count from 1 at the inboard end"}) - 1;
  return find_member(end, "member", c);
}

}  // namespace

int find_member(const CaseTable& owner, const std::string& key, const Case& c) {
  std::vector<std::string> names;
  for (const auto& m : c.span_members) names.push_back(m.name);
  const auto name = owner.text(key, names.front());
  for (size_t i = 0; i < names.size(); ++i)
    if (names[i] == name) return static_cast<int>(i);
  const auto guess = nearest(name, names);
  owner.fail(key, fmt::format("names no member; the members are {}{}", list_words(names),
                              guess.empty() ? "" : "; did you mean \"" + guess + "\"?"));
}

void read_structure(const CaseTable& top, Case& c) {
  MaterialShelf shelf(top, c);
  read_members(top, c, shelf);
  read_ribs(top, c, shelf);
  if (top.has("tip_bow"))
    c.tip_bow = read_make(top.table("tip_bow", {"depth", "thickness", "section", "material"}, ""), shelf);
  for (const auto& t : top.tables("brace", {"name", "from", "to", "section", "material"})) {
    Brace b;
    b.name = t.text_or("name", fmt::format("brace {}", c.braces.size() + 1));
    b.make = read_make(t, shelf);
    b.from_member = read_end(t, "from", c, b.from_rib);
    b.to_member = read_end(t, "to", c, b.to_rib);
    if (b.from_member == b.to_member && b.from_rib == b.to_rib)
      t.context().fail(t.own_path(), "a brace needs two different ends");
    c.braces.push_back(b);
  }
}

}  // namespace evenpull
