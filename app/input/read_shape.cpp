// Shapes of members, from the sizes that a tape measures.
#include "app/input/case_parts.hpp"
#include "app/input/section_sizes.hpp"

#include <algorithm>
#include <cctype>

namespace evenpull {
namespace {

using Kind = SectionShape::Kind;

constexpr Range thickness_range{0.0001, 0.03, "sheet is usually 0.3 to 1.6 mm (0.012 to 0.063 in)"};
constexpr Range width_range{0.001, 0.5, "usually 5 to 100 mm (0.2 to 4 in)"};
constexpr Range height_range{0.0005, 0.5, "usually 2 to 100 mm (0.1 to 4 in)"};
constexpr Range bend_range{0, 0.05, "the inside of a bend usually has 1 to 3 times the sheet's thickness"};
constexpr Range cap_range{0.0003, 0.06, "capstrips are usually 3 to 8 mm (1/8 to 5/16 in) thick"};
constexpr Range web_range{0.0003, 0.06, "webs are usually 0.4 to 6 mm (0.016 to 1/4 in) thick"};

/// Words of the trade, in the order of SectionShape::Kind, and the keys of each.
struct ShapeKeys {
  const char* word;
  std::vector<std::string> keys;
};
const std::vector<ShapeKeys>& shape_keys() {
  static const std::vector<ShapeKeys> all = {
      {"tube", {"outside_diameter", "wall"}},
      {"bar", {"width", "height"}},
      {"sheet rib", {"sheet", "flange", "height", "lip", "bend_radius", "hole_diameter", "hole_spacing"}},
      {"folded edge", {"sheet", "leg", "opening", "bend_radius"}},
      {"closed nose", {"sheet", "web", "web_material"}},
      {"properties",
       {"area", "inertia_up", "inertia_flat", "torsion", "reach_up", "reach_flat", "reach_twist", "shear_up",
        "shear_flat"}},
      {"channel", {"sheet", "flange", "height", "bend_radius"}},
      {"angle", {"sheet", "width", "height", "bend_radius"}},
      {"hat", {"sheet", "width", "height", "flange", "bend_radius"}},
      {"I section", {"width", "cap", "web", "height", "web_material"}},
      {"triangular edge", {"width", "height"}},
      {"capstrip rib", {"width", "cap", "web", "height", "web_material"}},
      {"truss rib", {"width", "cap", "stick", "pitch", "height"}}};
  return all;
}

double height_or_local(const CaseTable& s) {
  if (const auto h = s.quantity_if("height", Quantity::length, height_range)) return *h;
  s.context().note_default(s.path("height"), "the thickness of the panel there", "a member as deep as the panel");
  return 0;
}

Section read_properties(const CaseTable& s) {
  constexpr Range inertia{1e-14, 1e-3, "a light member has about 1e-10 to 1e-7 m^4 (100 to 100 000 mm^4)"};
  constexpr Range reach{1e-4, 0.5, "the outermost fibre is usually 3 to 50 mm from the middle"};
  constexpr Range area{1e-8, 1e-2, "usually 10 to 500 mm^2"};
  Section p;
  p.area = s.quantity("area", Quantity::area, area);
  p.inertia_up = s.quantity("inertia_up", Quantity::length4, inertia);
  p.inertia_flat = s.quantity("inertia_flat", Quantity::length4, inertia);
  p.torsion = s.quantity("torsion", Quantity::length4, inertia);
  p.reach_up = s.quantity("reach_up", Quantity::length, reach);
  p.reach_flat = s.quantity("reach_flat", Quantity::length, reach);
  p.reach_twist = s.quantity("reach_twist", Quantity::length, reach);
  p.shear_up = s.quantity_if("shear_up", Quantity::area, area).value_or(0);
  p.shear_flat = s.quantity_if("shear_flat", Quantity::area, area).value_or(0);
  return p;
}

/// A size as it was written, with single spaces; empty if it was not.
std::string written(const CaseTable& s, const std::string& key) {
  const auto* e = s.find(key);
  std::string out;
  if (!e) return out;
  for (const char letter : e->text) {
    const bool space = std::isspace(static_cast<unsigned char>(letter)) != 0;
    if (!space) out += letter;
    else if (!out.empty() && out.back() != ' ') out += ' ';
  }
  if (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

WrittenSizes written_sizes(const CaseTable& s, Kind kind) {
  switch (kind) {
    case Kind::tube: return {written(s, "outside_diameter"), written(s, "wall"), "", ""};
    case Kind::bar:
    case Kind::triangle: return {"", "", written(s, "width"), written(s, "height")};
    case Kind::sheet_rib:
    case Kind::channel: return {"", written(s, "sheet"), written(s, "flange"), written(s, "height")};
    case Kind::folded_edge: return {"", written(s, "sheet"), written(s, "leg"), written(s, "opening")};
    case Kind::closed_nose: return {"", written(s, "sheet"), "", ""};
    case Kind::angle:
    case Kind::hat: return {"", written(s, "sheet"), written(s, "width"), written(s, "height")};
    case Kind::i_section:
    case Kind::capstrip_rib:
    case Kind::truss_rib: return {"", written(s, "cap"), written(s, "width"), written(s, "height")};
    case Kind::properties: break;
  }
  return {};
}

double length_of(const CaseTable& s, const char* key, const Range& range) {
  return s.quantity(key, Quantity::length, range);
}
double length_or_none(const CaseTable& s, const char* key, const Range& range) {
  return s.quantity_if(key, Quantity::length, range).value_or(0);
}

void read_holes(const CaseTable& s, SectionShape& out) {
  constexpr Range hole{0.002, 0.4, "lightening holes are usually a third to a half as wide as the rib is high"};
  out.hole = length_or_none(s, "hole_diameter", hole);
  out.hole_spacing =
      length_or_none(s, "hole_spacing", {0.004, 1, "from the middle of one hole to the middle of the next"});
  if (out.hole > 0 && out.hole_spacing == 0)
    s.missing("hole_spacing", "hole_spacing = \"60 mm\" (from the middle of one hole to the middle of the next)");
  if (out.hole == 0 && out.hole_spacing > 0) s.missing("hole_diameter", "hole_diameter = \"25 mm\"");
}

void read_folded_edge(const CaseTable& s, SectionShape& out) {
  out.wall = length_of(s, "sheet", thickness_range);
  out.width = length_of(s, "leg", width_range);
  out.height = length_of(s, "opening", height_range);
  if (const auto r = s.quantity_if("bend_radius", Quantity::length, bend_range)) out.fold_radius = *r;
  else
    s.context().note_default(s.path("bend_radius"), "0 mm",
                             "a sharp fold: the weak side, where the leg is measured from the outside of the fold");
}

SectionShape read_sizes(const CaseTable& s, Kind kind) {
  SectionShape out;
  out.kind = kind;
  switch (kind) {
    case Kind::tube:
      out.outside_diameter = length_of(s, "outside_diameter", {0.002, 0.2, "usually 6 to 50 mm (1/4 to 2 in)"});
      out.wall = length_of(s, "wall", {0.0001, 0.02, "usually 0.5 to 2 mm (0.020 to 0.083 in)"});
      break;
    case Kind::bar:
      out.width = length_of(s, "width", width_range);
      out.height = height_or_local(s);
      break;
    case Kind::sheet_rib:
    case Kind::channel:
      out.wall = length_of(s, "sheet", thickness_range);
      out.width = length_of(s, "flange", width_range);
      out.height = height_or_local(s);
      out.fold_radius = length_or_none(s, "bend_radius", bend_range);
      if (kind == Kind::channel) break;
      out.lip = length_or_none(s, "lip", {0.001, 0.1, "lips are usually a quarter to a third as wide as the flange"});
      read_holes(s, out);
      break;
    case Kind::folded_edge: read_folded_edge(s, out); break;
    case Kind::closed_nose:
      out.wall = length_of(s, "sheet", thickness_range);
      out.web = length_or_none(s, "web", web_range);
      break;
    case Kind::properties: out.given = read_properties(s); break;
    case Kind::angle:
    case Kind::hat:
      out.wall = length_of(s, "sheet", thickness_range);
      out.width = length_of(s, "width", width_range);
      out.height = length_of(s, "height", height_range);
      out.fold_radius = length_or_none(s, "bend_radius", bend_range);
      if (kind == Kind::hat) out.flange = length_of(s, "flange", width_range);
      break;
    case Kind::triangle:
      out.width = length_of(s, "width", width_range);
      out.height = length_of(s, "height", height_range);
      break;
    case Kind::i_section:
    case Kind::capstrip_rib:
    case Kind::truss_rib:
      out.width = length_of(s, "width", width_range);
      out.wall = length_of(s, "cap", cap_range);
      if (kind == Kind::truss_rib) {
        out.web = length_of(s, "stick", {0.001, 0.05, "sticks are usually 5 to 8 mm (3/16 to 5/16 in) square"});
        out.hole_spacing =
            length_of(s, "pitch", {0.01, 0.6, "how far one diagonal reaches along the rib, usually 50 to 120 mm"});
      } else {
        out.web = length_of(s, "web", web_range);
      }
      out.height = height_or_local(s);
      break;
  }
  return out;
}

}  // namespace

MemberMake read_section(const CaseTable& owner, MaterialShelf& shelf) {
  const auto* entry = owner.find("section");
  if (!entry)
    owner.missing("section", "section = { shape = \"tube\", outside_diameter = \"12.7 mm\", wall = \"0.9 mm\" }");
  // Which keys are right depends on the shape, so the shape is looked at first.
  std::vector<std::string> all = {"shape"}, words;
  for (const auto& shape : shape_keys()) {
    words.emplace_back(shape.word);
    for (const auto& key : shape.keys)
      if (std::find(all.begin(), all.end(), key) == all.end()) all.push_back(key);
  }
  const CaseTable any(owner.context(), *entry, owner.path("section"), all);
  const auto index = static_cast<size_t>(any.choice("shape", words));
  std::vector<std::string> keys = {"shape"};
  keys.insert(keys.end(), shape_keys()[index].keys.begin(), shape_keys()[index].keys.end());
  const CaseTable s(owner.context(), *entry, owner.path("section"), keys);
  MemberMake make;
  make.shape = read_sizes(s, static_cast<Kind>(index));
  make.written = written_sizes(s, make.shape.kind);
  if (s.has("web_material")) {
    if (make.shape.kind == Kind::closed_nose && make.shape.web == 0)
      s.missing("web", "web = \"1/16 in\" (its thickness, since it is of another material than the skin)");
    make.web_material = shelf.take(s, "web_material", make.shape.web);
  }
  check_sizes(s, make.shape);
  return make;
}

}  // namespace evenpull
