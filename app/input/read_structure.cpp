// Members, ribs, tip bow and braces.
#include "app/input/case_parts.hpp"
#include "app/input/instead.hpp"
#include "app/input/section_sizes.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "solver/geometry/panel.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

namespace evenpull {
namespace {

const std::vector<std::string> rib_keys = {"section", "material", "joints", "rear_joints"};
const std::vector<std::string> inner_rib_keys = {"section", "material", "joints", "rear_joints", "touches_cloth"};
/// Two ribs nearer to each other than this are a slip: ours.
constexpr double least_bay = 0.02;

std::string role_name(SpanRole role) {
  return role == SpanRole::leading_edge ? "leading edge" : role == SpanRole::trailing_edge ? "trailing edge" : "spar";
}

SpanMember read_member(const CaseTable& t, MaterialShelf& shelf, double chord, double span) {
  SpanMember m;
  m.role = static_cast<SpanRole>(t.choice("role", {"leading edge", "spar", "trailing edge"}));
  m.name = t.text_or("name", role_name(m.role));
  m.make = read_make(t, shelf);
  read_changes(t, m.make, span, shelf);
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
  m.hinge_line = t.has("hinge_line") && t.flag("hinge_line");
  if (m.role == SpanRole::trailing_edge && m.chord_fraction != 1)
    t.fail("at", "must be \"100 %\" for the trailing edge; leave the key out");
  if (nose && (m.chord_fraction < 0.02 || m.chord_fraction > 0.8))
    t.fail("at",
           "is where the closed nose would end; it must end between 2 and 80 % of the chord, usually at 10 to 40 %");
  return m;
}

/// A member and where the file states it.
struct Stated {
  SpanMember member;
  std::string path;
};

/// "spar" (line 12)
std::string named(const CaseContext& context, const Stated& s) {
  return fmt::format("{} ({})", in_quotes(s.member.name), context.line_of(s.path));
}

void check_names(const CaseContext& context, const std::vector<Stated>& stated) {
  for (size_t i = 0; i < stated.size(); ++i)
    for (size_t j = 0; j < i; ++j)
      if (stated[i].member.name == stated[j].member.name)
        context.fail(stated[i].path,
                     fmt::format("a second member is called {}, as the one on {}; give each its own name",
                                 in_quotes(stated[i].member.name), context.line_of(stated[j].path)));
}

/// One leading edge and one trailing edge, whose place in the file is that of the last member where there is none.
void check_roles(const CaseContext& context, const std::vector<Stated>& stated) {
  for (const auto role : {SpanRole::leading_edge, SpanRole::trailing_edge}) {
    const Stated* found = nullptr;
    for (const auto& s : stated) {
      if (s.member.role != role) continue;
      if (found)
        context.fail(s.path + ".role",
                     fmt::format("= \"{}\" stands at {} already; there must be exactly one, the others "
                                 "are spars",
                                 role_name(role), named(context, *found)));
      found = &s;
    }
    if (!found)
      context.fail(stated.back().path,
                   fmt::format("the members end here, and none has role = \"{}\"; add a [[member]] with "
                               "it, a section and a material: there must be exactly one",
                               role_name(role)));
  }
}

/// Sorted by their places along the chord, of which no two are practically the same.
void check_places(const CaseContext& context, const std::vector<Stated>& sorted, double chord) {
  for (size_t i = 1; i < sorted.size(); ++i) {
    const auto &a = sorted[i - 1], &b = sorted[i];
    const double apart = b.member.chord_fraction - a.member.chord_fraction;
    if (apart >= least_apart) continue;
    const bool in_file = context.places.of(a.path).line <= context.places.of(b.path).line;
    const auto &first = in_file ? a : b, &second = in_file ? b : a;
    context.fail(
        second.path + ".at",
        fmt::format("{} stands {} from {} along the chord, practically in one place; state one of them, or where the "
                    "other one really stands",
                    in_quotes(second.member.name), print_length(apart * chord), named(context, first)));
  }
  if (sorted.front().member.role == SpanRole::leading_edge) return;
  const auto leading =
      std::find_if(sorted.begin(), sorted.end(), [](const auto& s) { return s.member.role == SpanRole::leading_edge; });
  context.fail(sorted.front().path,
               fmt::format("{} stands in front of the leading edge {}; a member inside a closed nose is "
                           "part of the nose: leave it out",
                           in_quotes(sorted.front().member.name), named(context, *leading)));
}

void read_members(const CaseTable& top, Case& c, MaterialShelf& shelf) {
  const double chord = c.outline.trailing_edge.front().x - c.outline.leading_edge.front().x;
  const auto tables = top.tables(
      "member", {"name", "role", "at", "section", "material", "touches_cloth", "along", "hinge_line"}, most::members);
  if (tables.empty())
    top.missing("member", "[[member]] with role = \"leading edge\" and another with role = \"trailing edge\"");
  std::vector<Stated> stated;
  for (const auto& t : tables) {
    stated.push_back({read_member(t, shelf, chord, c.outline.span()), t.own_path()});
    const auto& m = stated.back().member;
    check_depth(t, m.make, c, m.chord_fraction, m.chord_fraction);
    for (size_t i = 0; i + 1 < stated.size() && m.hinge_line; ++i)
      if (stated[i].member.hinge_line)
        t.fail("hinge_line",
               fmt::format("stands at {} already; the hinges are on one member", named(t.context(), stated[i])));
  }
  check_names(top.context(), stated);
  check_roles(top.context(), stated);
  std::stable_sort(stated.begin(), stated.end(),
                   [](const auto& a, const auto& b) { return a.member.chord_fraction < b.member.chord_fraction; });
  check_places(top.context(), stated, chord);
  for (auto& s : stated) c.span_members.push_back(std::move(s.member));
}

void check_stations(const CaseTable& ribs, const std::vector<double>& y, double span) {
  const auto& context = ribs.context();
  const auto key = ribs.path("stations");
  const auto& written = ribs.find("stations")->list;
  const auto shown = [&](size_t i) { return written[i].shown(); };
  const auto rib = [&](size_t i) {
    return fmt::format("rib {} ({}, {})", i + 1, shown(i), context.line_of(nth(key, i)));
  };
  if (y.front() != 0)
    context.fail(nth(key, 0),
                 fmt::format("= {}: the first rib is the inboard end rib and stands at \"0 mm\"", shown(0)));
  for (size_t i = 1; i < y.size(); ++i) {
    if (y[i] == y[i - 1])
      context.fail(nth(key, i), fmt::format("= {}: rib {} stands where {} stands already; leave one of the two out",
                                            shown(i), i + 1, rib(i - 1)));
    if (y[i] < y[i - 1])
      context.fail(nth(key, i),
                   fmt::format("= {} is out of order, behind {}; list ribs from the inboard end to the tip", shown(i),
                               rib(i - 1)));
    if (y[i] - y[i - 1] < least_bay)
      context.fail(nth(key, i),
                   fmt::format("= {} stands only {} from {}; ribs are usually 150 to 400 mm (6 to 16 in) apart",
                               shown(i), print_length(y[i] - y[i - 1]), rib(i - 1)));
  }
  if (y.back() == span) return;
  const bool edges = !context.places.at.count("outline.span");
  context.fail(
      nth(key, y.size() - 1),
      fmt::format("= {}: the last rib must stand at the end of the outline, and that is {:.6g} mm from the inboard end "
                  "({}), {:.4g} mm {}; {}",
                  shown(y.size() - 1), span * 1000,
                  edges ? "outline.leading_edge, " + context.line_of("outline.leading_edge")
                        : "outline.span, " + context.line_of("outline.span"),
                  std::abs(span - y.back()) * 1000, y.back() < span ? "farther out" : "nearer",
                  y.back() < span ? "add the end rib there, or correct the outline"
                                  : "leave out what lies beyond, or correct the outline"));
}

std::vector<double> read_stations(const CaseTable& ribs, double span) {
  if (ribs.has("bays")) {
    if (ribs.has("stations"))
      ribs.fail("bays", fmt::format("cannot stand beside stations ({}); state one or the other",
                                    ribs.context().line_of(ribs.path("stations"))));
    const int bays = ribs.whole_number("bays", {1, most::bays, "a control surface usually has 3 to 12 bays"});
    std::vector<double> y;
    for (int i = 0; i <= bays; ++i) y.push_back(i == bays ? span : round_12(span * i / bays));
    if (y[1] < least_bay)
      ribs.fail("bays",
                fmt::format("makes bays of {}; ribs are usually 150 to 400 mm (6 to 16 in) apart", print_length(y[1])));
    return y;
  }
  if (const auto* stated = ribs.find("stations"); stated && stated->kind == Entry::Kind::list)
    for (size_t i = 0; i < stated->list.size(); ++i)
      if (stated->list[i].kind == Entry::Kind::list || stated->list[i].kind == Entry::Kind::table)
        ribs.context().fail(nth(ribs.path("stations"), i), instead_of("ribs", "slanted"));
  const auto y =
      ribs.quantities("stations", Quantity::length, {0, 8, "stations are measured from the inboard end rib"},
                      {2, most::ribs, "stations = [\"0 mm\", \"300 mm\", \"600 mm\"], the two end ribs at least"});
  check_stations(ribs, y, span);
  return y;
}

/// `joints` of both ends, and those at the trailing edge where they differ; what is not stated stays.
void read_joints(const CaseTable& t, Rib& rib) {
  if (const auto both = read_joint_if(t, "joints")) rib.front_joint = rib.rear_joint = *both;
  if (const auto rear = read_joint_if(t, "rear_joints")) rib.rear_joint = *rear;
}

/// The one rib that differs.
void read_single(const CaseTable& t, Case& c, MaterialShelf& shelf, std::map<int, std::string>& seen) {
  const auto ribs = static_cast<int>(c.ribs.size());
  const int number = t.whole_number("number", {1, static_cast<double>(ribs), "ribs count from 1 at the inboard end"});
  if (const auto [at, is_new] = seen.emplace(number, t.path("number")); !is_new)
    t.fail("number", fmt::format("is stated a second time; the first is on {}", t.context().line_of(at->second)));
  const bool make = t.has("section") || t.has("material");
  if (!make && !t.has("joints") && !t.has("rear_joints") && !t.has("touches_cloth"))
    t.context().fail(t.own_path(),
                     fmt::format("says nothing of rib {}; write its section and material, or its joints", number));
  if (make && number == ribs && c.outline.tip_bow_depth > 0)
    t.fail(
        "number",
        fmt::format("is the rib at the end of the outline, and the tip bow ({}) stands in its place; leave its section "
                    "out, or the tip bow",
                    t.context().line_of("tip_bow")));
  auto& rib = c.ribs[static_cast<size_t>(number - 1)];
  if (make) check_rib(t, rib.make = read_make(t, shelf), c);
  read_joints(t, rib);
  if (!t.has("touches_cloth")) return;
  rib.touches_cloth = t.flag("touches_cloth");
  if (!rib.touches_cloth && (number == 1 || number == ribs))
    t.fail("touches_cloth", "is for inner ribs; the cloth is glued to both end ribs");
  if (!rib.touches_cloth) check_low_rib(t, rib.make);
}

void read_ribs(const CaseTable& top, Case& c, MaterialShelf& shelf) {
  const auto ribs = top.table("ribs", {"stations", "bays", "joints", "rear_joints", "inner", "end", "single"},
                              "[ribs] with stations = [\"0 mm\", \"300 mm\", ...]");
  const auto stations = read_stations(ribs, c.outline.span());
  Rib first, inmost;
  read_joints(ribs, first);
  inmost = first;
  // A rib beyond which the wing goes on is an inner rib.
  const bool no_end = c.cloth_goes_on_inboard && c.cloth_goes_on_outboard;
  const bool all_end = stations.size() == 2 && !c.cloth_goes_on_inboard && !c.cloth_goes_on_outboard;
  if (no_end && ribs.has("end"))
    ribs.context().fail(
        "ribs.end", fmt::format("has no place: outline.goes_on_beyond ({}) says that the wing goes on at both ends, so "
                                "that all ribs are inner ones; state [ribs.inner] instead",
                                ribs.context().line_of("outline.goes_on_beyond")));
  bool inner_touch = true;
  const auto read_kind = [&](const char* kind, const std::vector<std::string>& keys, const char* example, Rib& joints) {
    const auto table = ribs.table(kind, keys, example);
    const auto make = read_make(table, shelf);
    check_rib(table, make, c);
    read_joints(table, joints);
    if (table.has("touches_cloth") && !(inner_touch = table.flag("touches_cloth"))) check_low_rib(table, make);
    return make;
  };
  std::optional<MemberMake> end, inner;
  if (!no_end) end = read_kind("end", rib_keys, "[ribs.end] with section = { ... } and material = \"...\"", first);
  if (no_end || ribs.has("inner"))
    inner = read_kind("inner", inner_rib_keys, "[ribs.inner] with section = { ... } and material = \"...\"", inmost);
  else if (!all_end) ribs.context().note_default("ribs.inner", "as the end ribs", default_estimate);
  if (!inner) inmost = first;
  for (size_t i = 0; i < stations.size(); ++i) {
    const bool outermost = i == 0 || i + 1 == stations.size();
    const bool is_end = (i == 0 && !c.cloth_goes_on_inboard) || (i + 1 == stations.size() && !c.cloth_goes_on_outboard);
    const Rib& like = is_end ? first : inmost;
    c.ribs.push_back({stations[i], is_end || !inner ? *end : *inner, like.front_joint, like.rear_joint});
    c.ribs.back().touches_cloth = outermost || inner_touch;
  }
  std::map<int, std::string> seen;
  for (const auto& t :
       ribs.tables("single", {"number", "section", "material", "joints", "rear_joints", "touches_cloth"}, most::ribs))
    read_single(t, c, shelf, seen);
  for (const Rib& r : c.ribs)
    if (r.front_joint.kind == JointKind::unstated || r.rear_joint.kind == JointKind::unstated) {
      ribs.context().note_default("ribs.joints", "rigid; in the chances anything from hardly fixed to welded",
                                  default_estimate);
      break;
    }
}

int read_end(const CaseTable& brace, const std::string& key, const Case& c, int& rib, bool& mid_bay) {
  const auto end = brace.table(key, {"member", "rib", "mid_bay"}, key + " = { member = \"spar\", rib = 1 }");
  mid_bay = end.has("mid_bay");
  if (mid_bay) {
    if (end.has("rib")) end.fail("mid_bay", "cannot stand beside rib: an end is at a rib or in the middle of a bay");
    rib = end.whole_number("mid_bay",
                           {1, static_cast<double>(c.ribs.size()) - 1, "bays count from 1 at the inboard end"}) -
          1;
    return find_member(end, "member", c);
  }
  if (const auto* stated = end.find("rib");
      stated &&
      (stated->kind == Entry::Kind::number || stated->kind == Entry::Kind::text || stated->kind == Entry::Kind::list))
    end.fail("rib", "is no rib: " + instead_of("brace[1].from", "at"));
  rib = end.whole_number("rib", {1, static_cast<double>(c.ribs.size()), "ribs count from 1 at the inboard end"}) - 1;
  return find_member(end, "member", c);
}

bool joins_the_same(const Brace& a, const Brace& b) {
  const auto ends = [](const Brace& x) {
    const auto place = [](int rib, bool mid_bay) { return 2 * rib + static_cast<int>(mid_bay); };
    std::array<std::pair<int, int>, 2> e{
        {{x.from_member, place(x.from_rib, x.from_mid_bay)}, {x.to_member, place(x.to_rib, x.to_mid_bay)}}};
    std::sort(e.begin(), e.end());
    return e;
  };
  return ends(a) == ends(b);
}

constexpr Range wire_range{0.0005, 0.02, "wires are 1.5 to 6 mm (1/16 to 1/4 in) thick"};
constexpr Range tightness_range{
    0, 2e4,
    "a wire only pulls, so none is less than 0, which just hangs straight; 100 to 500 N (20 to "
    "110 lbf) is usual"};

/// Whether a brace is a wire, and what only a wire has.
void read_wire(const CaseTable& t, Brace& b) {
  b.wire = t.has("wire") && t.flag("wire");
  for (const auto* key : {"diameter", "tightness"})
    if (!b.wire && t.has(key))
      t.fail(key, "has a meaning only for a wire, which pulls and cannot push; write wire = true, or leave it out");
  if (b.wire && t.has("diameter") == t.has("section"))
    t.context().fail(
        t.has("section") ? t.path("section") : t.own_path(),
        "a wire has either a diameter, like diameter = \"1/8 in\", or a section (of a flat one, or of a cable "
        "by its area), one of the two");
}

MemberMake read_rod(const CaseTable& t, MaterialShelf& shelf) {
  MemberMake make;
  make.shape.kind = SectionShape::Kind::tube;
  make.shape.outside_diameter = t.quantity("diameter", Quantity::length, wire_range);
  make.shape.wall = 0.5 * make.shape.outside_diameter;
  make.written.outside_diameter = t.find("diameter")->text;
  make.material = shelf.take(t, "material", make.shape.wall);
  return make;
}

void read_tightness(const CaseTable& t, const Case& c, Brace& b) {
  const Material& m = c.materials[static_cast<size_t>(b.make.material)];
  if (m.kind == Strength::rupture)
    t.fail("material", "is wood, and a wire is of metal; leave wire out for a wooden brace");
  b.tightness = t.quantity_or("tightness", Quantity::force, tightness_range,
                              {0, "0 N",
                               "none was stated: it just hangs straight, and pulls only where the frame draws on it; "
                               "measure it, since wires drawn tight load the frame before the iron does"});
  const double bears = m.strength * section_of(b.make.shape, b.make.shape.height).area;
  if (b.tightness > bears)
    t.fail("tightness", fmt::format("is more than this wire bears before it yields, {} N; check diameter and units",
                                    print_number(bears, 3)));
}

/// `paths`: where the braces before it stand.
Brace read_brace(const CaseTable& t, const Case& c, MaterialShelf& shelf, const std::vector<std::string>& paths) {
  Brace b;
  b.name = t.text_or("name", fmt::format("brace {}", c.braces.size() + 1));
  read_wire(t, b);
  if (t.has("diameter")) b.make = read_rod(t, shelf);
  else b.make = read_make(t, shelf);
  check_brace(t, b.make);
  if (b.wire) {
    read_tightness(t, c, b);
    b.from_joint.kind = b.to_joint.kind = JointKind::pinned;
  } else if (const auto joints = read_joint_if(t, "joints")) {
    b.from_joint = b.to_joint = *joints;
  } else {
    t.context().note_default(t.path("joints"), "rigid; in the chances anything from hardly fixed to welded",
                             default_estimate);
  }
  b.from_member = read_end(t, "from", c, b.from_rib, b.from_mid_bay);
  b.to_member = read_end(t, "to", c, b.to_rib, b.to_mid_bay);
  b.comes_out = t.has("comes_out") && t.flag("comes_out");
  if (b.comes_out && b.wire)
    t.fail("comes_out", "has no meaning for a wire: what is put in for the ironing alone pushes as well as it pulls");
  if (b.from_member == b.to_member && b.from_rib == b.to_rib && b.from_mid_bay == b.to_mid_bay)
    t.context().fail(t.path("to"),
                     fmt::format("is where {} begins, at {} {} {}; a brace needs two different ends", in_quotes(b.name),
                                 in_quotes(c.span_members[static_cast<size_t>(b.to_member)].name),
                                 b.to_mid_bay ? "amid bay" : "on rib", b.to_rib + 1));
  for (size_t i = 0; i < c.braces.size(); ++i)
    if (joins_the_same(c.braces[i], b))
      t.context().fail(t.own_path(),
                       fmt::format("{} joins the same two places as {} ({}); leave one of the two out",
                                   in_quotes(b.name), in_quotes(c.braces[i].name), t.context().line_of(paths[i])));
  return b;
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
  if (top.has("tip_bow")) {
    const auto bow = top.table("tip_bow", {"depth", "thickness", "section", "material"}, "");
    c.tip_bow = read_make(bow, shelf);
    check_tip_bow(bow, *c.tip_bow);
  }
  std::vector<std::string> paths;
  for (const auto& t :
       top.tables("brace",
                  {"name", "from", "to", "section", "material", "joints", "wire", "diameter", "tightness", "comes_out"},
                  most::braces)) {
    c.braces.push_back(read_brace(t, c, shelf, paths));
    paths.push_back(t.own_path());
  }
}

}  // namespace evenpull
