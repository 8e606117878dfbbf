// Sections and materials.
#include "app/input/case_parts.hpp"
#include "app/input/materials.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
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

std::string print_material(const Material& m) {
  return fmt::format("E {} GPa, G {} GPa, {} {} MPa", print_number(m.youngs_modulus / 1e9),
                     print_number(m.shear_modulus / 1e9), m.kind == Strength::yield ? "yield" : "modulus of rupture",
                     print_number(m.strength / 1e6));
}

const KnownMaterial* find_known(const std::string& name) {
  for (const auto& known : known_materials())
    if (plain_word(known.values.name) == plain_word(name)) return &known;
  return nullptr;
}

}  // namespace

MaterialShelf::MaterialShelf(const CaseTable& top, Case& c) : case_(&c), context_(&top.context()) {
  const auto* entry = top.find("materials");
  if (!entry) return;
  if (entry->kind != Entry::Kind::table) top.fail("materials", "must be tables like [materials.\"my tube\"]");
  if (entry->table.size() > most::materials)
    context_->fail("materials",
                   fmt::format("there are {} of them; {} is the most", entry->table.size(), most::materials));
  for (const auto& [name, value] : entry->table) {
    check_name(name);
    own_.push_back(read_own(
        CaseTable(*context_, value, "materials." + name, {"youngs_modulus", "shear_modulus", "yield", "rupture"}),
        name));
  }
}

void MaterialShelf::check_name(const std::string& name) const {
  const auto key = "materials." + name;
  if (name != escaped(name, most::name_letters) || name.empty())
    context_->fail(key, fmt::format("{} is no name for a material; write at most {} plain letters", in_quotes(name),
                                    most::name_letters));
  for (const auto& m : own_)
    if (plain_word(m.name) == plain_word(name))
      context_->fail(key, fmt::format("another material is called so too: {} ({}); give each its own name",
                                      in_quotes(m.name), context_->line_of("materials." + m.name)));
}

Material MaterialShelf::read_own(const CaseTable& t, const std::string& name) {
  const Range modulus{1e8, 5e11, "metals have 69 to 205 GPa (10 to 30 million psi), spruce about 10 GPa"};
  const Range strength{1e6, 3e9, "metals yield at 100 to 700 MPa (15 to 100 ksi); spruce breaks at about 70 MPa"};
  Material m;
  if (const auto* known = find_known(name)) m = known->values;
  m.name = name;
  const bool is_new = m.youngs_modulus == 0;
  if (is_new || t.has("youngs_modulus")) m.youngs_modulus = t.quantity("youngs_modulus", Quantity::stress, modulus);
  if (is_new || t.has("shear_modulus"))
    m.shear_modulus =
        t.quantity("shear_modulus", Quantity::stress, {1e7, 2e11, "metals have 26 to 80 GPa; spruce about 0.7 GPa"});
  if (t.has("yield") && t.has("rupture")) t.fail("rupture", "stands for wood, yield for metal; state one of the two");
  if (t.has("rupture")) {
    m.strength = t.quantity("rupture", Quantity::stress, strength);
    m.kind = Strength::rupture;
  } else if (is_new || t.has("yield")) {
    m.strength = t.quantity("yield", Quantity::stress, strength);
    m.kind = Strength::yield;
  }
  if (m.shear_modulus > m.youngs_modulus / 2)
    t.context().fail(t.path("shear_modulus"),
                     fmt::format("{} GPa is more than half of youngs_modulus, {} GPa; no material has that",
                                 print_number(m.shear_modulus / 1e9), print_number(m.youngs_modulus / 1e9)));
  return m;
}

int MaterialShelf::take(const CaseTable& owner) {
  const auto name = owner.text("material", "6061-T6 tube");
  for (size_t i = 0; i < case_->materials.size(); ++i)
    if (plain_word(case_->materials[i].name) == plain_word(name)) return static_cast<int>(i);
  for (const auto& m : own_)
    if (plain_word(m.name) == plain_word(name)) {
      case_->materials.push_back(m);
      return static_cast<int>(case_->materials.size() - 1);
    }
  if (const auto* known = find_known(name)) {
    case_->materials.push_back(known->values);
    context_->note_default(std::string("materials.\"") + known->values.name + '"', print_material(known->values),
                           known->why);
    return static_cast<int>(case_->materials.size() - 1);
  }
  std::vector<std::string> names;
  for (const auto& known : known_materials()) names.push_back(known.values.name);
  for (const auto& m : own_) names.push_back(m.name);
  owner.fail("material", fmt::format("is not known; known are {}; or describe your own under [materials.{}]",
                                     list_words(names), in_quotes(name)));
}

MemberMake read_make(const CaseTable& owner, MaterialShelf& shelf) {
  MemberMake make = read_section(owner);
  make.material = shelf.take(owner);
  return make;
}

}  // namespace evenpull
