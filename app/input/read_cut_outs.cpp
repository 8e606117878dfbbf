// Where there is no cloth: pockets in the trailing edge, hinge gaps in a metal nose.
#include "app/input/case_parts.hpp"
#include "app/input/usual.hpp"
#include "app/text/quoted.hpp"
#include "solver/geometry/cut_outs.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace evenpull {
namespace {

constexpr Range station_range{0, 8, "stations are measured from the inboard end rib"};
/// Nearer to a rib than this and not at it is a slip, and would make cells thinner than cloth has a use for: ours.
constexpr double nearest_rib = 0.01;
/// A hinge bracket needs more: ours.
constexpr double least_gap = 0.01;

std::string rib_words(const Case& c, int rib) {
  return fmt::format("rib {} ({})", rib + 1, print_length(c.ribs[static_cast<size_t>(rib)].station));
}

int nearest_rib_to(const Case& c, double station) {
  const auto off = [&](const Rib& r) { return std::abs(r.station - station); };
  const auto it =
      std::min_element(c.ribs.begin(), c.ribs.end(), [&](const Rib& a, const Rib& b) { return off(a) < off(b); });
  return static_cast<int>(it - c.ribs.begin());
}

/// The station of a rib, and its number.
int read_side(const CaseTable& t, const Case& c, const char* key, double& station) {
  station = t.quantity(key, Quantity::length, station_range);
  const int rib = rib_at_station(c, station);
  if (rib < 0)
    t.fail(key,
           fmt::format("is not at a rib; a pocket's sides are ribs, and the nearest is {}: write its station, or add "
                       "a rib here",
                       rib_words(c, nearest_rib_to(c, station))));
  station = c.ribs[static_cast<size_t>(rib)].station;
  return rib;
}

/// Whether the trailing edge is taken away at a station: between the sides, and at an end where the pocket is open.
bool takes_away(const Case& c, const Pocket& p, double station) {
  const bool open_inboard = p.from <= c.ribs.front().station, open_outboard = p.to >= c.ribs.back().station;
  return (station > p.from || (open_inboard && station >= p.from)) &&
         (station < p.to || (open_outboard && station <= p.to));
}

void check_sides(const CaseTable& t, const Case& c, const Pocket& p, int from, int to) {
  if (from >= to) t.fail("to", fmt::format("is not beyond from, {}; write the side farther out", rib_words(c, from)));
  const int last = static_cast<int>(c.ribs.size()) - 1;
  if (from == 0 && to == last)
    t.fail("to",
           "leaves nothing of the trailing edge; move it forward in the outline instead, and leave the pocket out");
  if (c.tip_bow && to == last)
    t.fail("to", fmt::format("is where the tip bow begins; a pocket must end at a rib before it, {} at most",
                             rib_words(c, last - 1)));
  for (int side : {from, to})
    if (!c.ribs[static_cast<size_t>(side)].touches_cloth)
      t.fail(
          side == from ? "from" : "to",
          fmt::format("is at {}, which does not touch the cloth; the cloth is glued to the ribs at a pocket's sides: "
                      "leave touches_cloth out there",
                      rib_words(c, side)));
  for (const Pocket& other : c.pockets)
    if (p.from <= other.to && other.from <= p.to)
      t.fail("from",
             fmt::format("meets {}, from {} to {}; between two pockets there must be a bay, or state them as one",
                         in_quotes(other.name), print_length(other.from), print_length(other.to)));
}

/// Members, braces and supports that would hang in the air.
void check_nothing_there(const CaseTable& t, const Case& c, const Pocket& p) {
  const double front = pocket_front(c, p);
  const double ahead =
      std::max({c.blanket.seam_chord_fraction, c.blanket.nose_chord_fraction, c.span_members.front().chord_fraction});
  if (front < ahead + least_apart)
    t.fail("depth",
           fmt::format("reaches to {:.3g} % of the chord, and the nose ends at {:.3g} %: no cloth would be left "
                       "between; state the depth from the trailing edge forward",
                       100 * front, 100 * ahead));
  for (const SpanMember& m : c.span_members)
    if (m.role == SpanRole::spar && m.chord_fraction > front + 1e-9)
      t.fail("depth",
             fmt::format("reaches to {:.3g} % of the chord, ahead of {} at {:.3g} %; a pocket's front lies behind "
                         "all spars or on the last: state a depth that ends there, or where that spar stands",
                         100 * front, in_quotes(m.name), 100 * m.chord_fraction));
  const int edge = static_cast<int>(c.span_members.size()) - 1;
  for (const auto& [list, words] : {std::pair(&c.while_ironed, "while it is ironed"), std::pair(&c.in_use, "in use")})
    for (const Support& s : *list)
      if (s.member == edge && !s.whole_length && takes_away(c, p, s.station))
        t.fail("from", fmt::format("to {} takes the trailing edge away where a support holds it {} (at {}); state that "
                                   "support at one side of the pocket or on another member",
                                   print_length(p.to), words, print_length(s.station)));
  for (const Brace& b : c.braces)
    for (const auto& [member, rib, mid_bay] :
         {std::tuple(b.from_member, b.from_rib, b.from_mid_bay), std::tuple(b.to_member, b.to_rib, b.to_mid_bay)}) {
      const double at = c.ribs[static_cast<size_t>(rib)].station;
      const double place = mid_bay ? 0.5 * (at + c.ribs[static_cast<size_t>(rib) + 1].station) : at;
      if (member == edge && takes_away(c, p, place))
        t.fail("from", fmt::format("to {} takes the trailing edge away where {} ends, {} {}; let it end at another "
                                   "member",
                                   print_length(p.to), in_quotes(b.name), mid_bay ? "amid bay" : "at rib", rib + 1));
    }
}

/// The front is a member of the pocket's own, but where a spar stands already.
void read_front(const CaseTable& t, const Case& c, Pocket& p, MaterialShelf& shelf) {
  const int spar = member_at_front(c, p);
  const bool own = t.has("section") || t.has("material");
  if (spar >= 0 && own)
    t.fail(
        t.has("section") ? "section" : "material",
        fmt::format("stands where {} runs already ({:.3g} % of the chord); leave section and material out, then that "
                    "member is the pocket's front, or state the depth at which its own stands",
                    in_quotes(c.span_members[static_cast<size_t>(spar)].name), 100 * pocket_front(c, p)));
  if (spar >= 0) return;
  if (!own)
    t.missing("section",
              "section = { shape = \"tube\", outside_diameter = \"3/8 in\", wall = \"0.035 in\" } and a material: the "
              "member along the pocket's front, to which the cloth is glued");
  p.make = read_make(t, shelf);
  check_pocket_front(t, *p.make, c, pocket_front(c, p));
}

void read_pocket(const CaseTable& t, Case& c, MaterialShelf& shelf) {
  Pocket p;
  p.name = t.text_or("name", c.pockets.empty() ? "tab pocket" : fmt::format("tab pocket {}", c.pockets.size() + 1));
  for (const Pocket& other : c.pockets)
    if (other.name == p.name)
      t.context().fail(t.own_path(),
                       fmt::format("a second pocket is called {}; give each its own name", in_quotes(p.name)));
  const int from = read_side(t, c, "from", p.from), to = read_side(t, c, "to", p.to);
  check_sides(t, c, p, from, to);
  p.depth = t.quantity("depth", Quantity::length, {0.01, 1, "a tab's pocket is usually 50 to 150 mm (2 to 6 in) deep"});
  check_nothing_there(t, c, p);
  if (const double share = 1 - pocket_front(c, p); share > usual::deepest_pocket)
    t.context().doubts.push_back(
        fmt::format("The {} takes {:.0f} % of the chord, more than is usual: its depth is measured "
                    "from the trailing edge forward.",
                    p.name, 100 * share));
  read_front(t, c, p, shelf);
  p.gap = t.quantity_if("gap", Quantity::length, {0.0002, 0.05, "a tab usually has 2 to 6 mm of room at each side"})
              .value_or(0);
  c.pockets.push_back(std::move(p));
}

void check_gap_ends(const CaseTable& t, const Case& c, const HingeGap& g) {
  if (g.to - g.from < least_gap)
    t.fail("to", fmt::format("is not at least {} beyond from; a hinge needs that much", print_length(least_gap)));
  if (g.to > c.outline.span())
    t.fail("to", fmt::format("lies beyond the last rib, at {}", print_length(c.outline.span())));
  for (const auto& [key, station] : {std::pair("from", g.from), std::pair("to", g.to)}) {
    const int rib = nearest_rib_to(c, station);
    const double off = std::abs(c.ribs[static_cast<size_t>(rib)].station - station);
    if (off >= rib_slack && off < nearest_rib)
      t.fail(key, fmt::format("is {} from {}; let the gap end there, or {} away at least", print_length(off),
                              rib_words(c, rib), print_length(nearest_rib)));
  }
  if (c.tip_bow && g.to > c.ribs[c.ribs.size() - 2].station)
    t.fail("to", "lies in the bay of the tip bow, whose nose is curved; a gap there cannot be reckoned: leave it out");
  for (const HingeGap& other : c.hinge_gaps)
    if (g.from < other.to + nearest_rib && other.from < g.to + nearest_rib)
      t.fail("from", fmt::format("meets the gap from {} to {}; state the two as one", print_length(other.from),
                                 print_length(other.to)));
}

/// The cloth's edge round a gap is glued to the nose: beyond it nothing holds it, and a free edge cannot be reckoned.
void read_hinge_gap(const CaseTable& t, Case& c) {
  HingeGap g;
  g.from = t.quantity("from", Quantity::length, station_range);
  g.to = t.quantity("to", Quantity::length, station_range);
  check_gap_ends(t, c, g);
  g.depth = t.quantity("depth", Quantity::length, {0.005, 1, "a gap for a hinge is usually 30 to 80 mm deep"});
  const double nose = c.blanket.nose_chord_fraction, seam = c.blanket.seam_chord_fraction, end = gap_end(c, g);
  if (nose <= seam)
    t.fail("depth",
           "has no meaning without a metal nose, to which the cloth's edge round the gap is glued; leave the gap "
           "out: it is then reckoned as covered");
  if (end < seam + least_apart)
    t.fail("depth",
           fmt::format("reaches to {:.3g} % of the chord, and the cloth begins at {:.3g} %: no cloth is cut out; "
                       "leave the gap out",
                       100 * end, 100 * seam));
  if (end > nose + 1e-9)
    t.fail("depth",
           fmt::format("reaches to {:.3g} % of the chord, beyond the metal nose, which ends at {:.3g} %: nothing "
                       "would hold the edge of the cloth there; state the depth to the end of the nose",
                       100 * end, 100 * nose));
  c.hinge_gaps.push_back(g);
}

}  // namespace

void read_cut_outs(const CaseTable& top, Case& c) {
  if (top.has("pocket")) {
    MaterialShelf shelf(top, c);
    for (const auto& t :
         top.tables("pocket", {"name", "from", "to", "depth", "section", "material", "gap"}, most::pockets))
      read_pocket(t, c, shelf);
  }
  for (const auto& t : top.tables("hinge_gap", {"from", "to", "depth"}, most::hinge_gaps)) read_hinge_gap(t, c);
  if (!c.hinge_gaps.empty())
    top.context().doubts.push_back(
        "The metal nose is reckoned whole where it has hinge gaps. Cut through there it twists and bends more: where a "
        "gap "
        "goes deep, state a thinner nose.");
}

}  // namespace evenpull
