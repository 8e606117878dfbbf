// What weights on the bare frame said of it, as `evenpull push --into` writes it: the table [measured_frame].
#include "app/input/case_parts.hpp"
#include "solver/frame/joint_turn.hpp"
#include "solver/heat/thermal.hpp"
#include "viz/words/joint_words.hpp"

#include <fmt/format.h>

namespace evenpull {
namespace {

void scale_members(Case& c, double by) {
  for (Material& m : c.materials) {
    m.heat = heat_of(m);  // what metal it is shows in its modulus
    m.youngs_modulus *= by;
    m.shear_modulus *= by;
  }
}

std::vector<std::string> joint_keys() {
  std::vector<std::string> out{viz::joint_word(JointKind::unstated)};
  for (const JointKind k : viz::stated_joints)
    if (has_range(k)) out.push_back(viz::joint_word(k));
  return out;
}

// In the place of the default, if that was used.
void tell_spread(CaseContext& context, const std::string& value) {
  const char* const key = "spread.member_stiffness";
  const char* const why = "measured on the bare frame (measured_frame), as is the stiffness of its members";
  for (DefaultUsed& d : context.defaults_used)
    if (d.key == key) {
      d.value = value, d.why = why;
      return;
    }
  context.note_default(key, value, why);
}

void read_joint_places(const CaseTable& t, Case& c, bool counts) {
  if (!t.has("joints")) return;
  const auto joints = t.table("joints", joint_keys(), "");
  const std::vector<JointKind> varying = joints_that_vary(c);
  for (const std::string& key : joint_keys()) {
    if (!joints.has(key)) continue;
    const double at =
        joints.quantity(key, Quantity::fraction,
                        {0, 1, "where in its range such a joint turned out: \"0 %\" softest, \"100 %\" stiffest"});
    const auto kind =
        std::find_if(varying.begin(), varying.end(), [&](JointKind k) { return viz::joint_word(k) == key; });
    if (kind == varying.end())
      joints.fail(key,
                  "is a kind of joint that this case does not have; the frame was changed since it was measured: leave "
                  "[measured_frame] out and push it anew");
    if (counts) put_joints(c, *kind, at);
  }
}

}  // namespace

void read_measured_frame(const CaseTable& top, Case& c, bool counts) {
  if (!top.has("measured_frame")) return;
  const auto t = top.table("measured_frame", {"member_stiffness", "off_by", "joints"}, "");
  const double by = t.quantity("member_stiffness", Quantity::fraction,
                               {0.5, 2, "how many times as stiff as stated the members are, usually 0.8 to 1.2"});
  const double off =
      t.quantity("off_by", Quantity::fraction,
                 {least_measured_spread, 1, "one sigma of member_stiffness; 3 % is the least that is believed"});
  read_joint_places(t, c, counts);
  if (!counts) return;
  scale_members(c, by);
  c.spreads.member_stiffness = off;
  tell_spread(t.context(), fmt::format("{:.3g} %", 100 * off));
}

}  // namespace evenpull
