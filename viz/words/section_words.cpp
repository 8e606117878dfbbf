#include "viz/words/section_words.hpp"

#include "solver/geometry/nose.hpp"
#include "solver/geometry/surface.hpp"
#include "solver/statement/member_section.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace evenpull {
namespace {

using Shape = SectionShape::Kind;

std::string bend_words(const SectionShape& s) {
  return s.fold_radius > 0 ? fmt::format(", bend radius {}", print_length(s.fold_radius)) : "";
}

std::string rib_extras(const SectionShape& s) {
  std::string text;
  if (s.lip > 0) text += fmt::format(", lips {}", print_length(s.lip));
  text += bend_words(s);
  if (s.hole > 0) text += fmt::format(", holes {} every {}", print_length(s.hole), print_length(s.hole_spacing));
  return text;
}

const std::string& material_name(const Case& c, int index) { return c.materials[static_cast<std::size_t>(index)].name; }

std::string with_material(const std::string& shape, const MemberMake& make, const Case& c) {
  auto text = shape + ", " + material_name(c, make.material);
  if (make.web_material >= 0) text += ", web of " + material_name(c, make.web_material);
  return text;
}

/// Numbers from 1 in a row: "1, 7", "2 to 6".
std::string row_words(const std::vector<std::size_t>& numbers) {
  std::string text;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t last = i;
    while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) ++last;
    if (!text.empty()) text += ", ";
    if (last < i + 2) last = i;
    text += last > i ? fmt::format("{} to {}", numbers[i], numbers[last]) : std::to_string(numbers[i]);
    i = last + 1;
  }
  return text;
}

/// Three digits, never as a power of ten: "5150", "37.2".
std::string plain_number(double value) {
  if (value < 1000) return print_number(value, 3);
  const double unit = std::pow(10, std::floor(std::log10(value)) - 2);
  return fmt::format("{:.0f}", std::round(value / unit) * unit);
}

/// Gathers makes that read alike.
class Gathered {
 public:
  explicit Gathered(const Case& c) : case_(c), surface_(c) {}

  void add_span_member(const SpanMember& m) {
    add(m.name, 0, m.make, m.make.shape, m.make.written, m.chord_fraction, {0, 0});
    for (const ShapeFrom& change : m.make.changes)
      add(fmt::format("{} from {}", m.name, print_length(change.station)), 0, m.make, change.shape, {},
          m.chord_fraction, place_of(change.station));
  }
  void add_rib(std::size_t rib) {
    const bool last = rib + 1 == case_.ribs.size();
    const MemberMake& make = case_.ribs[rib].make;
    add("", rib + 1, make, make.shape, make.written, 0.5 * (1 + case_.span_members.front().chord_fraction),
        {static_cast<int>(last ? rib - 1 : rib), last ? 1.0 : 0.0});
  }
  void add_other(const std::string& name, const MemberMake& make) {
    add(name, 0, make, make.shape, make.written, 1, {0, 0});
  }

  std::vector<ShownSection> all() {
    for (std::size_t i = 0; i < all_.size(); ++i)
      if (!ribs_[i].empty()) {
        auto& carriers = all_[i].carriers;
        if (!carriers.empty()) carriers += ", ";
        carriers += (ribs_[i].size() == 1 ? "rib " : "ribs ") + row_words(ribs_[i]);
      }
    return std::move(all_);
  }

 private:
  SpanPlace place_of(double station) const {
    std::size_t bay = 0;
    while (bay + 2 < case_.ribs.size() && case_.ribs[bay + 1].station <= station) ++bay;
    const double a = case_.ribs[bay].station, b = case_.ribs[bay + 1].station;
    return {static_cast<int>(bay), (station - a) / (b - a)};
  }

  void add(const std::string& name, std::size_t rib, const MemberMake& make, const SectionShape& shape,
           const WrittenSizes& written, double fraction, SpanPlace place) {
    const auto key = with_material(shape_words(shape, written), make, case_);
    auto at = static_cast<std::size_t>(std::find(keys_.begin(), keys_.end(), key) - keys_.begin());
    if (at == keys_.size()) {
      keys_.push_back(key);
      ribs_.emplace_back();
      all_.push_back(shown(make, shape, written, fraction, place));
    }
    if (rib > 0) ribs_[at].push_back(rib);
    else all_[at].carriers += (all_[at].carriers.empty() ? "" : ", ") + name;
  }

  ShownSection shown(const MemberMake& make, const SectionShape& shape, const WrittenSizes& written, double fraction,
                     SpanPlace place) const {
    ShownSection s{"", make, shape, written, surface_.depth(fraction, place), {}, {}};
    const SectionRatios ratios = ratios_of(make, case_.materials);
    if (shape.kind == Shape::closed_nose) {
      s.outline = nose_outline(surface_, fraction, place);
      s.section = nose_section(shape, ratios, s.outline);
    } else {
      s.section = section_of(shape, s.depth, ratios);
    }
    return s;
  }

  const Case& case_;
  Surface surface_;
  std::vector<std::string> keys_;
  std::vector<std::vector<std::size_t>> ribs_;
  std::vector<ShownSection> all_;
};

}  // namespace

std::string shape_words(const SectionShape& s, const WrittenSizes& written) {
  const auto wall = print_length(s.wall, written.wall), width = print_length(s.width, written.width),
             depth = print_length(s.height, written.height);
  const auto height = s.height > 0 ? depth + " high" : std::string("as deep as the panel");
  const auto web = print_length(s.web);
  switch (s.kind) {
    case Shape::tube:
      return fmt::format("tube {} x {}", print_length(s.outside_diameter, written.outside_diameter), wall);
    case Shape::bar: return fmt::format("bar {} wide, {}", width, height);
    case Shape::sheet_rib: return fmt::format("sheet rib {}, flanges {}, {}{}", wall, width, height, rib_extras(s));
    case Shape::folded_edge:
      return fmt::format("folded edge {}, legs {}, open {}{}", wall, width, depth, bend_words(s));
    case Shape::closed_nose:
      return s.web > 0 ? fmt::format("closed nose {}, web {}", wall, web) : fmt::format("closed nose {}", wall);
    case Shape::properties:
      return fmt::format("area {:.3g} mm², I up {:.3g} mm⁴, I flat {:.3g} mm⁴", s.given.area * 1e6,
                         s.given.inertia_up * 1e12, s.given.inertia_flat * 1e12);
    case Shape::channel: return fmt::format("channel {}, flanges {}, {}{}", wall, width, height, bend_words(s));
    case Shape::angle: return fmt::format("angle {}, {} upright, {} flat{}", wall, depth, width, bend_words(s));
    case Shape::hat:
      return fmt::format("hat {}, {} wide, {} high, flanges {}{}", wall, width, depth, print_length(s.flange),
                         bend_words(s));
    case Shape::i_section: return fmt::format("I section, caps {} by {}, web {}, {}", width, wall, web, height);
    case Shape::triangle: return fmt::format("triangular edge {} wide, {} high at the front", width, depth);
    case Shape::capstrip_rib: return fmt::format("capstrip rib, caps {} by {}, web {}, {}", width, wall, web, height);
    case Shape::truss_rib:
      return fmt::format("truss rib, caps {} by {}, sticks {} square every {}, {}", width, wall, web,
                         print_length(s.hole_spacing), height);
  }
  return "";
}

std::string print_make(const MemberMake& make, const Case& c) {
  auto text = with_material(shape_words(make.shape, make.written), make, c);
  for (const ShapeFrom& change : make.changes)
    text += fmt::format("; from {} on {}", print_length(change.station), shape_words(change.shape, {}));
  return text;
}

std::vector<std::string> section_notes(const MemberMake& make, const SectionShape& s, const Case& c) {
  std::vector<std::string> notes;
  const double off = 100 * stiffness_estimate(s);
  if (s.kind == Shape::angle)
    notes.push_back(
        "An angle bends most easily about an axis askew to its legs: that lesser stiffness is reckoned both "
        "ways.");
  if (s.kind == Shape::truss_rib)
    notes.push_back(
        fmt::format("A truss rib is reckoned as a beam of four fifths of its caps' stiffness and the give of "
                    "its lattice, known to ± {:.0f} % (judgement). Its sticks and their joints are not judged.",
                    off));
  if (s.hole > 0)
    notes.push_back(
        fmt::format("Between its lightening holes and beside them a rib is reckoned as one of their mean "
                    "stiffness, known to ± {:.0f} % (estimate); stress is that beside a hole.",
                    off));
  if (make.web_material >= 0)
    notes.push_back(
        fmt::format("A web of {} counts by its stiffness beside {}; bending stress in each is held against its own "
                    "strength.",
                    material_name(c, make.web_material), material_name(c, make.material)));
  return notes;
}

std::vector<std::string> all_section_notes(const Case& c) {
  std::vector<std::string> notes;
  for (const auto& s : shown_sections(c))
    for (const auto& note : section_notes(s.make, s.shape, c))
      if (std::find(notes.begin(), notes.end(), note) == notes.end()) notes.push_back(note);
  return notes;
}

std::vector<ShownSection> shown_sections(const Case& c) {
  Gathered all(c);
  for (const SpanMember& m : c.span_members) all.add_span_member(m);
  for (std::size_t i = 0; i < c.ribs.size() - (c.tip_bow ? 1 : 0); ++i) all.add_rib(i);
  if (c.tip_bow) all.add_other("tip bow", *c.tip_bow);
  for (const Brace& b : c.braces)
    if (!b.wire) all.add_other(b.name, b.make);
  for (const Batten& b : c.battens) all.add_other(b.name, b.make);
  return all.all();
}

std::string shown_section_text(const ShownSection& s, const Case& c) {
  auto text = with_material(shape_words(s.shape, s.written), s.make, c);
  if (is_as_deep_as_its_place(s.shape)) text += fmt::format(" (shown {} deep)", print_length(s.depth));
  return text;
}

std::string section_numbers_text(const Section& s) {
  return fmt::format("area {} mm², I up {} mm⁴, I flat {} mm⁴, J {} mm⁴", plain_number(s.area * 1e6),
                     plain_number(s.inertia_up * 1e12), plain_number(s.inertia_flat * 1e12),
                     plain_number(s.torsion * 1e12));
}

}  // namespace evenpull
