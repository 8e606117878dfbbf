// Materials, and what a member is made of.
#include "app/input/case_parts.hpp"
#include "app/input/materials.hpp"
#include "app/input/section_sizes.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

namespace evenpull {
namespace {

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

int MaterialShelf::take(const CaseTable& owner, const std::string& key) {
  const auto name = owner.text(key, "6061-T6 tube");
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
  owner.fail(key, fmt::format("is not known; known are {}; or describe your own under [materials.{}]",
                              list_words(names), in_quotes(name)));
}

MemberMake read_make(const CaseTable& owner, MaterialShelf& shelf) {
  MemberMake make = read_section(owner, shelf);
  make.material = shelf.take(owner, "material");
  return make;
}

}  // namespace evenpull
