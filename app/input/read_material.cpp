// Materials: those known by name, those that a case describes, and what is left of them beside a weld.
#include "app/input/case_parts.hpp"
#include "app/input/materials.hpp"
#include "app/text/nearest.hpp"
#include "app/text/quoted.hpp"
#include "solver/geometry/welds.hpp"
#include "viz/words/material_words.hpp"
#include "viz/words/print.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace evenpull {
namespace {

constexpr Range modulus_range{1e8, 5e11, "metals have 69 to 205 GPa (10 to 30 million psi), spruce about 10 GPa"};
constexpr Range strength_range{1e6, 3e9,
                               "metals yield at 100 to 700 MPa (15 to 100 ksi); spruce breaks at about 70 MPa"};
constexpr Range lasting_range{1, 4, "1 of metal; wood gives in time about twice what it gives at once"};

/// What a case states beside stiffness and strength.
void read_beside(const CaseTable& t, Material& m) {
  if (t.has("compression")) m.compression_strength = t.quantity("compression", Quantity::stress, strength_range);
  for (const char* key : {"welded", "weld_reach"})
    if (m.kind == Strength::rupture && t.has(key))
      t.fail(key, "has a meaning only for metal, and `rupture` says that this is wood; leave the key out");
  if (t.has("welded")) m.welded_strength = t.quantity("welded", Quantity::stress, strength_range);
  if (t.has("weld_reach"))
    m.weld_reach = t.quantity("weld_reach", Quantity::length, {0.002, 0.1, "usually 20 to 30 mm (about an inch)"});
  if (m.welded_strength > m.strength && t.has("welded"))
    t.fail("welded",
           fmt::format("is more than its strength away from the weld, {} MPa; welding makes no metal stronger",
                       print_number(m.strength / 1e6)));
  if (t.has("lasting")) m.lasting_movement = t.quantity("lasting", Quantity::fraction, lasting_range);
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
    own_.push_back(read_own(CaseTable(*context_, value, "materials." + name,
                                      {"youngs_modulus", "shear_modulus", "yield", "rupture", "compression", "welded",
                                       "weld_reach", "lasting"}),
                            name));
  }
}

void MaterialShelf::check_name(const std::string& name) const {
  const auto key = "materials." + name;
  if (name != escaped(name, most::name_letters) || name.empty())
    context_->fail(key, fmt::format("{} is no name for a material; write at most {} plain letters", in_quotes(name),
                                    most::name_letters));
  for (const auto& m : own_)
    if (same_material(m.name, name))
      context_->fail(key, fmt::format("another material is called so too: {} ({}); give each its own name",
                                      in_quotes(m.name), context_->line_of("materials." + m.name)));
}

Material MaterialShelf::read_own(const CaseTable& t, const std::string& name) {
  Material m;
  // Of a known one whose strength goes with the wall what is not stated is that of the weakest.
  if (const auto* known = find_material(name, 0)) m = known->values;
  m.name = name;
  const bool is_new = m.youngs_modulus == 0;
  if (is_new || t.has("youngs_modulus"))
    m.youngs_modulus = t.quantity("youngs_modulus", Quantity::stress, modulus_range);
  if (is_new || t.has("shear_modulus"))
    m.shear_modulus =
        t.quantity("shear_modulus", Quantity::stress, {1e7, 2e11, "metals have 26 to 80 GPa; spruce about 0.7 GPa"});
  if (t.has("yield") && t.has("rupture")) t.fail("rupture", "stands for wood, yield for metal; state one of the two");
  const Strength was = m.kind;
  if (t.has("rupture")) {
    m.strength = t.quantity("rupture", Quantity::stress, strength_range);
    m.kind = Strength::rupture;
  } else if (is_new || t.has("yield")) {
    m.strength = t.quantity("yield", Quantity::stress, strength_range);
    m.kind = Strength::yield;
  }
  if (m.kind != was || is_new) {
    m.compression_strength = m.welded_strength = 0;
    m.lasting_movement = m.kind == Strength::rupture ? wood_lasting : 1;
  }
  // A stated strength never lifts what is known of compression and welds.
  if (m.compression_strength > m.strength) m.compression_strength = 0;
  read_beside(t, m);
  if (m.kind == Strength::rupture && is_new && !t.has("lasting"))
    context_->note_default(t.path("lasting"), print_number(wood_lasting),
                           "lasting pull doubles what wood gives; estimate");
  if (m.shear_modulus > m.youngs_modulus / 2)
    t.context().fail(t.path("shear_modulus"),
                     fmt::format("{} GPa is more than half of youngs_modulus, {} GPa; no material has that",
                                 print_number(m.shear_modulus / 1e9), print_number(m.youngs_modulus / 1e9)));
  return m;
}

int MaterialShelf::take(const CaseTable& owner, const std::string& key, double wall) {
  const auto name = owner.text(key, "6061-T6 tube");
  const auto own =
      std::find_if(own_.begin(), own_.end(), [&](const Material& m) { return same_material(m.name, name); });
  const KnownMaterial* known = own == own_.end() ? find_material(name, wall) : nullptr;
  if (own == own_.end() && !known) {
    auto names = known_material_names();
    for (const auto& m : own_) names.push_back(m.name);
    owner.fail(key, fmt::format("is not known; known are {}; or describe your own under [materials.{}]",
                                list_words(names), in_quotes(name)));
  }
  const Material& m = known ? known->values : *own;
  auto& all = case_->materials;
  const auto there = std::find_if(all.begin(), all.end(), [&](const Material& x) { return x.name == m.name; });
  if (there != all.end()) return static_cast<int>(there - all.begin());
  all.push_back(m);
  if (known) context_->note_default(std::string("materials.\"") + m.name + '"', viz::material_values(m), known->why);
  return static_cast<int>(all.size() - 1);
}

void fill_welds(CaseContext& context, Case& c) {
  std::set<int> welded;
  for (const Rib& r : c.ribs) {
    const bool front = is_welded(r.front_joint.kind), rear = is_welded(r.rear_joint.kind);
    if (!front && !rear) continue;
    const bool bow = c.tip_bow && &r == &c.ribs.back();
    welded.insert(bow ? c.tip_bow->material : r.make.material);
    for (std::size_t i = 0; i < c.span_members.size(); ++i)
      if ((i == 0 && front) || (i + 1 == c.span_members.size() && rear) || (front && rear))
        welded.insert(c.span_members[i].make.material);
  }
  for (const Brace& b : c.braces)
    for (const auto& [joint, member] : {std::pair(b.from_joint, b.from_member), {b.to_joint, b.to_member}})
      if (is_welded(joint.kind))
        welded.insert({b.make.material, c.span_members[static_cast<std::size_t>(member)].make.material});
  for (const int i : welded) {
    Material& m = c.materials[static_cast<std::size_t>(i)];
    if (m.kind == Strength::rupture) {
      context.doubts.push_back(
          fmt::format("{} is wood, and the case has it welded. Check joints and materials.", in_quotes(m.name)));
    } else if (m.welded_strength == 0) {
      m.welded_strength = welded_share * m.strength;
      context.note_default(fmt::format("materials.\"{}\".welded", m.name),
                           fmt::format("{:.0f} MPa", m.welded_strength / 1e6),
                           "44 % of its yield, what 6061-T6 keeps; estimate");
      context.doubts.push_back(
          fmt::format("{} is welded, and how strong it is beside a weld is not stated: it is taken to keep 44 % of its "
                      "yield there. 2024 and 7075 are not fusion welded at all (common practice, no source): ask.",
                      in_quotes(m.name)));
    }
  }
}

}  // namespace evenpull
