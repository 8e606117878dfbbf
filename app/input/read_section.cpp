// Sections.
#include "app/input/case_parts.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace evenpull {
namespace {

constexpr Range thickness_range{0.0001, 0.03, "sheet is usually 0.3 to 1.6 mm (0.012 to 0.063 in)"};
constexpr Range width_range{0.001, 0.5, "usually 5 to 100 mm (0.2 to 4 in)"};
constexpr Range height_range{0.0005, 0.5, "usually 2 to 100 mm (0.1 to 4 in)"};

double height_or_local(const CaseTable& s) {
  if (const auto h = s.quantity_if("height", Quantity::length, height_range)) return *h;
  s.context().note_default(s.path("height"), "the thickness of the panel there", "a member as deep as the panel");
  return 0;
}

Section read_properties(const CaseTable& s) {
  constexpr Range inertia{1e-14, 1e-3, "a light member has about 1e-10 to 1e-7 m^4 (100 to 100 000 mm^4)"};
  constexpr Range reach{1e-4, 0.5, "the outermost fibre is usually 3 to 50 mm from the middle"};
  Section p;
  p.area = s.quantity("area", Quantity::area, {1e-8, 1e-2, "usually 10 to 500 mm^2"});
  p.inertia_up = s.quantity("inertia_up", Quantity::length4, inertia);
  p.inertia_flat = s.quantity("inertia_flat", Quantity::length4, inertia);
  p.torsion = s.quantity("torsion", Quantity::length4, inertia);
  p.reach_up = s.quantity("reach_up", Quantity::length, reach);
  p.reach_flat = s.quantity("reach_flat", Quantity::length, reach);
  p.reach_twist = s.quantity("reach_twist", Quantity::length, reach);
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

WrittenSizes written_sizes(const CaseTable& s, SectionShape::Kind kind) {
  using Kind = SectionShape::Kind;
  switch (kind) {
    case Kind::tube: return {written(s, "outside_diameter"), written(s, "wall"), "", ""};
    case Kind::bar: return {"", "", written(s, "width"), written(s, "height")};
    case Kind::sheet_rib: return {"", written(s, "sheet"), written(s, "flange"), written(s, "height")};
    case Kind::folded_edge: return {"", written(s, "sheet"), written(s, "leg"), written(s, "opening")};
    case Kind::closed_nose: return {"", written(s, "sheet"), "", ""};
    case Kind::properties:
    case Kind::channel:
    case Kind::angle:
    case Kind::hat:
    case Kind::i_section:
    case Kind::triangle:
    case Kind::capstrip_rib:
    case Kind::truss_rib: break;
  }
  return {};
}

/// Shape, sizes and sizes as written; the material is left open.
MemberMake read_section(const CaseTable& owner) {
  using Kind = SectionShape::Kind;
  const auto* entry = owner.find("section");
  if (!entry)
    owner.missing("section", "section = { shape = \"tube\", outside_diameter = \"12.7 mm\", wall = \"0.9 mm\" }");
  // Which keys are right depends on the shape, so the shape is looked at first.
  const std::vector<std::string> all = {
      "shape", "outside_diameter", "wall",         "width",   "height",   "sheet",      "flange",     "leg", "opening",
      "area",  "inertia_up",       "inertia_flat", "torsion", "reach_up", "reach_flat", "reach_twist"};
  const CaseTable any(owner.context(), *entry, owner.path("section"), all);
  const int shape = any.choice("shape", {"tube", "bar", "sheet rib", "folded edge", "closed nose", "properties"});
  static const std::vector<std::vector<std::string>> keys = {
      {"shape", "outside_diameter", "wall"},
      {"shape", "width", "height"},
      {"shape", "sheet", "flange", "height"},
      {"shape", "sheet", "leg", "opening"},
      {"shape", "sheet"},
      {"shape", "area", "inertia_up", "inertia_flat", "torsion", "reach_up", "reach_flat", "reach_twist"}};
  const CaseTable s(owner.context(), *entry, owner.path("section"), keys[static_cast<size_t>(shape)]);
  MemberMake make;
  SectionShape& out = make.shape;
  out.kind = static_cast<Kind>(shape);
  make.written = written_sizes(s, out.kind);
  switch (out.kind) {
    case Kind::tube:
      out.outside_diameter =
          s.quantity("outside_diameter", Quantity::length, {0.002, 0.2, "usually 6 to 50 mm (1/4 to 2 in)"});
      out.wall = s.quantity("wall", Quantity::length, {0.0001, 0.02, "usually 0.5 to 2 mm (0.020 to 0.083 in)"});
      if (2 * out.wall > out.outside_diameter)
        s.fail("wall", fmt::format("is more than half the outside diameter ({}); check the units",
                                   s.find("outside_diameter")->shown()));
      break;
    case Kind::bar:
      out.width = s.quantity("width", Quantity::length, width_range);
      out.height = height_or_local(s);
      break;
    case Kind::sheet_rib:
      out.wall = s.quantity("sheet", Quantity::length, thickness_range);
      out.width = s.quantity("flange", Quantity::length, width_range);
      out.height = height_or_local(s);
      break;
    case Kind::folded_edge:
      out.wall = s.quantity("sheet", Quantity::length, thickness_range);
      out.width = s.quantity("leg", Quantity::length, width_range);
      out.height = s.quantity("opening", Quantity::length, height_range);
      if (out.height >= 2 * out.width)
        s.fail("opening",
               fmt::format("is wider than the two legs of {} can reach; check the units", s.find("leg")->shown()));
      break;
    case Kind::closed_nose: out.wall = s.quantity("sheet", Quantity::length, thickness_range); break;
    case Kind::properties: out.given = read_properties(s); break;
    case Kind::channel:
    case Kind::angle:
    case Kind::hat:
    case Kind::i_section:
    case Kind::triangle:
    case Kind::capstrip_rib:
    case Kind::truss_rib: break;
  }
  return make;
}

}  // namespace

MemberMake read_make(const CaseTable& owner, MaterialShelf& shelf) {
  MemberMake make = read_section(owner);
  make.material = shelf.take(owner, make.shape.wall);
  return make;
}

}  // namespace evenpull
