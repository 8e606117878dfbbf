// How ribs and braces are joined to what they end on.
#include "app/input/case_parts.hpp"
#include "viz/words/joint_words.hpp"

#include <fmt/format.h>

namespace evenpull {
namespace {

const std::vector<std::string> table_keys = {"as", "rivets", "rivet", "apart", "stands"};
constexpr int most_rivets = 20;

std::vector<std::string> joint_choices() {
  std::vector<std::string> out;
  for (const JointKind k : viz::stated_joints) out.push_back(viz::joint_word(k));
  return out;
}

JointKind kind_of_word(const CaseTable& t, const std::string& key) {
  return viz::stated_joints[static_cast<size_t>(t.choice(key, joint_choices()))];
}

bool takes_plates(JointKind k) { return k == JointKind::gusset || k == JointKind::glued_gusset; }

void read_rivets(const CaseTable& j, JointMake& out) {
  out.fasteners = j.whole_number("rivets", {1, most_rivets, "rivets on each side of the gusset, usually 2 to 6"});
  if (j.has("rivet") != j.has("apart"))
    j.fail(
        j.has("rivet") ? "rivet" : "apart",
        "says how much the rivets give only together with the other of `rivet` (their diameter) and `apart` (between "
        "the two that stand furthest apart on one side); state both, or neither");
  if (!j.has("rivet")) return;
  if (out.fasteners == 1) j.fail("apart", "has no meaning where rivets = 1; leave `rivet` and `apart` out");
  out.fastener_diameter =
      j.quantity("rivet", Quantity::length, {0.001, 0.01, "rivets are usually 2.4 to 4 mm (3/32 to 5/32 in) thick"});
  out.fastener_spacing = j.quantity(
      "apart", Quantity::length, {0.003, 0.5, "between the two that stand furthest apart on one side of the gusset"});
  if (out.fastener_spacing < (out.fasteners - 1) * out.fastener_diameter)
    j.fail("apart",
           fmt::format("is less than {} rivets of {} need side by side", out.fasteners, j.find("rivet")->shown()));
}

}  // namespace

std::optional<JointMake> read_joint_if(const CaseTable& t, const std::string& key) {
  const auto* e = t.find(key);
  if (!e) return std::nullopt;
  JointMake out;
  if (e->kind != Entry::Kind::table) {
    out.kind = kind_of_word(t, key);
    if (out.kind == JointKind::gusset)
      t.fail(key,
             fmt::format("does not say how many rivets hold each side; write for example {} = {{ as = \"{}\", rivets "
                         "= 3 }}",
                         key, viz::joint_word(out.kind)));
    return out;
  }
  const auto j = t.table(key, table_keys, "");
  out.kind = kind_of_word(j, "as");
  if (out.kind == JointKind::gusset) read_rivets(j, out);
  else
    for (const char* own : {"rivets", "rivet", "apart"})
      if (j.has(own)) j.fail(own, fmt::format("has a meaning only for a {}", viz::joint_word(JointKind::gusset)));
  if (j.has("stands")) {
    if (!takes_plates(out.kind)) j.fail("stands", "has a meaning only for a gusset");
    out.upright = j.choice("stands", {"upright", "flat"}) == 0;
  }
  return out;
}

}  // namespace evenpull
