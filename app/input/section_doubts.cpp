// Sections and materials against each other: a decimal point that slipped, millimetres for inches, tables exchanged.
#include "app/input/case_parts.hpp"
#include "app/input/usual.hpp"
#include "app/text/quoted.hpp"
#include "solver/geometry/surface.hpp"
#include "solver/statement/member_section.hpp"
#include "solver/statement/section_shapes.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace evenpull {
namespace {

using Shape = SectionShape::Kind;

/// A make and what carries it.
struct Named {
  std::string name;
  const MemberMake* make;
};

/// Every make once, by who carries it first.
std::vector<Named> all_makes(const Case& c) {
  std::vector<Named> all;
  for (const auto& m : c.span_members) all.push_back({in_quotes(m.name), &m.make});
  for (size_t i = 0; i < c.ribs.size(); ++i)
    if (!c.tip_bow || i + 1 < c.ribs.size()) all.push_back({fmt::format("Rib {}", i + 1), &c.ribs[i].make});
  if (c.tip_bow) all.push_back({"The tip bow", &*c.tip_bow});
  for (const auto& b : c.braces)
    if (!b.wire) all.push_back({in_quotes(b.name), &b.make});
  for (const auto& b : c.battens) all.push_back({in_quotes(b.name), &b.make});
  return all;
}

bool has_a_sheet(const MemberMake& m) { return is_of_sheet(m.shape.kind) || m.shape.kind == Shape::closed_nose; }

bool is_capped(Shape kind) {
  return kind == Shape::i_section || kind == Shape::capstrip_rib || kind == Shape::truss_rib;
}

std::string wall_words(const MemberMake& m) { return print_length(m.shape.wall, m.written.wall); }

/// What is odd about a wall by itself; empty if nothing.
std::string wall_doubt(const Named& n) {
  const SectionShape& s = n.make->shape;
  if (s.kind == Shape::tube) {
    const double share = s.wall / s.outside_diameter;
    const auto diameter = print_length(s.outside_diameter, n.make->written.outside_diameter);
    if (share > usual::thickest_wall)
      return fmt::format("has a wall of {} in a tube of {}: nearly a rod", wall_words(*n.make), diameter);
    if (share < usual::thinnest_wall)
      return fmt::format("has a wall of {} in a tube of {}: as thin as foil", wall_words(*n.make), diameter);
  }
  // An angle or a channel may be drawn or planed.
  const bool may_be_thick = s.kind == Shape::angle || s.kind == Shape::channel;
  if (has_a_sheet(*n.make) && s.wall > usual::thickest_sheet * (may_be_thick ? 2 : 1))
    return fmt::format("is of sheet {} thick; sheet is usually 0.3 to 1.6 mm (0.012 to 0.063 in)", wall_words(*n.make));
  if (is_of_sheet(s.kind) && s.fold_radius > usual::widest_bend * s.wall)
    return fmt::format(
        "is bent round a radius of {}, but its sheet is only {} thick: more than {:.0f} times that is unusual",
        print_length(s.fold_radius), wall_words(*n.make), usual::widest_bend);
  if (s.lip > usual::widest_lip * s.width)
    return fmt::format("has lips of {} on flanges of {}", print_length(s.lip),
                       print_length(s.width, n.make->written.width));
  if (is_capped(s.kind) && s.wall > usual::thickest_cap * s.width)
    return fmt::format("has caps {} thick and only {} wide", wall_words(*n.make),
                       print_length(s.width, n.make->written.width));
  return "";
}

/// One wall by itself, each make once; gives those that nothing was said of.
std::vector<Named> doubt_walls(Case& c, const std::vector<Named>& all) {
  std::vector<Named> fine;
  std::set<std::string> said;
  for (const auto& n : all) {
    const auto doubt = wall_doubt(n);
    if (doubt.empty()) fine.push_back(n);
    else if (said.insert(doubt).second)
      c.doubts.push_back(n.name + " " + doubt + ". Is the decimal point right, and the unit?");
  }
  return fine;
}

void doubt_walls_of_a_kind(Case& c, const std::vector<Named>& all, bool tubes) {
  const Named *thin = nullptr, *thick = nullptr;
  for (const auto& n : all) {
    if (tubes ? n.make->shape.kind != Shape::tube : !has_a_sheet(*n.make)) continue;
    if (!thin || n.make->shape.wall < thin->make->shape.wall) thin = &n;
    if (!thick || n.make->shape.wall > thick->make->shape.wall) thick = &n;
  }
  if (!thin || thick->make->shape.wall <= usual::walls_apart * thin->make->shape.wall) return;
  c.doubts.push_back(
      fmt::format("{} has {} of {}, but {} one of {}, {:.0f} times as thick. Is the decimal point right, and the "
                  "unit?",
                  thin->name, tubes ? "a wall" : "a sheet", wall_words(*thin->make), thick->name,
                  wall_words(*thick->make), thick->make->shape.wall / thin->make->shape.wall));
}

/// Stiffness and strength of a member where it stands at the inboard end, a rib in the middle of its length.
class Strengths {
 public:
  explicit Strengths(const Case& c) : case_(c), surface_(c) {}

  bool known(const MemberMake& m) const { return m.shape.kind != Shape::closed_nose; }

  /// Both bendings together [N m^2].
  double stiffness(const MemberMake& m, double fraction) const {
    const Section s = section(m, fraction, 0);
    return material(m).youngs_modulus * (s.inertia_up + s.inertia_flat);
  }

  /// Moment in the plane of the panel at which the material yields or breaks [N m].
  double strength(size_t rib) const {
    const MemberMake& m = case_.ribs[rib].make;
    const Section s = section(m, 0.5 * (1 + case_.span_members.front().chord_fraction), rib);
    return material(m).strength * s.inertia_flat / s.reach_flat;
  }

 private:
  const Material& material(const MemberMake& m) const { return case_.materials[static_cast<size_t>(m.material)]; }
  Section section(const MemberMake& m, double fraction, size_t rib) const {
    const bool last = rib + 1 == case_.ribs.size();
    return section_of(m.shape, surface_.depth(fraction, {static_cast<int>(last ? rib - 1 : rib), last ? 1.0 : 0.0}),
                      ratios_of(m, case_.materials));
  }

  const Case& case_;
  Surface surface_;
};

/// The end ribs bear what the inner ones share with their neighbours.
void doubt_end_ribs(Case& c, const Strengths& of) {
  const size_t last = c.ribs.size() - 1;
  if (last < 2) return;
  size_t weakest = 1;
  for (size_t i = 2; i < last; ++i)
    if (of.strength(i) < of.strength(weakest)) weakest = i;
  for (const size_t end : {size_t{0}, last}) {
    if (end == last && c.tip_bow) continue;
    if (end == 0 ? c.cloth_goes_on_inboard : c.cloth_goes_on_outboard) continue;
    const double share = of.strength(end) / of.strength(weakest);
    if (share < usual::weak_end_rib) {
      c.doubts.push_back(
          fmt::format("End rib {} bears only {:.0f} % of what inner rib {} bears in the plane of the panel, and "
                      "the cloth pulls it from one side only: are ribs.end and ribs.inner exchanged?",
                      end + 1, 100 * share, weakest + 1));
      return;
    }
  }
}

void doubt_spars(Case& c, const Strengths& of) {
  const double middle = 0.5 * (1 + c.span_members.front().chord_fraction);
  size_t stiffest = c.ribs.size();
  for (size_t i = 0; i < c.ribs.size() - (c.tip_bow ? 1 : 0); ++i)
    if (c.ribs[i].make.shape.kind == Shape::tube &&
        (stiffest == c.ribs.size() ||
         of.stiffness(c.ribs[i].make, middle) > of.stiffness(c.ribs[stiffest].make, middle)))
      stiffest = i;
  if (stiffest == c.ribs.size()) return;
  for (const auto& m : c.span_members) {
    if (m.role == SpanRole::trailing_edge || m.make.shape.kind != Shape::tube) continue;
    const double share = of.stiffness(m.make, m.chord_fraction) / of.stiffness(c.ribs[stiffest].make, middle);
    if (share < usual::weak_spar)
      c.doubts.push_back(
          fmt::format("{} is {} as stiff as rib {}, though it runs along the whole span. Check both sections.",
                      in_quotes(m.name), share < 0.1 ? "not a tenth" : "not a quarter", stiffest + 1));
  }
}

void doubt_trailing_edge(Case& c, const Strengths& of) {
  const SpanMember *edge = nullptr, *ahead = nullptr;
  for (const auto& m : c.span_members) {
    if (!of.known(m.make)) return;  // a nose is stiffer than any of them
    if (m.role == SpanRole::trailing_edge) edge = &m;
    else if (!ahead || of.stiffness(m.make, m.chord_fraction) > of.stiffness(ahead->make, ahead->chord_fraction))
      ahead = &m;
  }
  if (!edge || !ahead) return;
  const double times = of.stiffness(edge->make, 1) / of.stiffness(ahead->make, ahead->chord_fraction);
  if (times > usual::stiff_trailing_edge)
    c.doubts.push_back(
        fmt::format("The trailing edge, {}, is {:.0f} times as stiff as {}, the stiffest member ahead of it. "
                    "Check both sections and materials.",
                    in_quotes(edge->name), times, in_quotes(ahead->name)));
}

void doubt_materials(Case& c) {
  for (const Material& m : c.materials) {
    if (m.kind != Strength::yield) continue;
    const double gpa = m.youngs_modulus / 1e9, shear = m.shear_modulus / m.youngs_modulus;
    if (m.youngs_modulus < usual::softest_metal)
      c.doubts.push_back(
          fmt::format("{} has a youngs_modulus of {} GPa; metals have 69 to 205 GPa (10 to 30 million psi).",
                      in_quotes(m.name), print_number(gpa)));
    else if (shear < usual::least_shear_share || shear > usual::most_shear_share)
      c.doubts.push_back(
          fmt::format("{} has a shear_modulus of {} GPa beside a youngs_modulus of {} GPa; of metals it is "
                      "about 0.38 of that. Check both.",
                      in_quotes(m.name), print_number(m.shear_modulus / 1e9), print_number(gpa)));
  }
}

}  // namespace

void find_section_doubts(Case& c) {
  const auto all = all_makes(c);
  const auto fine = doubt_walls(c, all);
  doubt_walls_of_a_kind(c, fine, true);
  doubt_walls_of_a_kind(c, fine, false);
  doubt_materials(c);
  if (fine.size() < all.size()) return;  // what else is odd comes of that wall
  const Strengths strengths(c);
  doubt_end_ribs(c, strengths);
  doubt_spars(c, strengths);
  doubt_trailing_edge(c, strengths);
}

}  // namespace evenpull
