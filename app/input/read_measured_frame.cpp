// What weights on the bare frame said of it, as `evenpull push --into` writes it: the table [measured_frame].
#include "app/input/case_parts.hpp"
#include "sequencer/numbers/sobol.hpp"
#include "solver/frame/joint_turn.hpp"
#include "solver/heat/thermal.hpp"
#include "viz/words/joint_words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace evenpull {
namespace {

// Ends of a range are written as whole percents; beyond this nothing is told apart.
constexpr double least_place_told = 0.005;
constexpr double end_of_range = 1.96;  // sigmas: 95 of 100 lie within
// One sigma of a joint's place, in sigmas, never less: about 4 in 100 of its range. Judgement, as the 3 % of stiffness.
constexpr double least_joint_told = 0.1;

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

struct PlaceTold {
  double at = 0;
  std::optional<JointTold> up{};  ///< none: nobody said how surely
};

double sigmas_of_place(double place) {
  return normal_quantile(std::clamp(place, least_place_told, 1 - least_place_told));
}

// Only a place, or with the two between which it lies in 95 of 100.
PlaceTold place_told(const CaseTable& joints, const std::string& key) {
  const Range range{0, 1, "where in its range such a joint turned out: \"0 %\" softest, \"100 %\" stiffest"};
  if (joints.find(key)->kind != Entry::Kind::table) return {joints.quantity(key, Quantity::fraction, range)};
  const CaseTable t = joints.table(key, {"at", "low", "high"}, "");
  PlaceTold out{t.quantity("at", Quantity::fraction, range)};
  const double low = t.quantity("low", Quantity::fraction, range), high = t.quantity("high", Quantity::fraction, range);
  if (low > out.at) t.fail("low", "is more than `at`, which lies between `low` and `high`");
  if (high < out.at) t.fail("high", "is less than `at`, which lies between `low` and `high`");
  const double a = sigmas_of_place(low), b = sigmas_of_place(high);
  out.up = JointTold{0.5 * (a + b), std::clamp((b - a) / (2 * end_of_range), least_joint_told, 1.0)};
  return out;
}

void read_joint_places(const CaseTable& t, Case& c, bool counts) {
  if (!t.has("joints")) return;
  const auto joints = t.table("joints", joint_keys(), "");
  const std::vector<JointKind> varying = joints_that_vary(c);
  for (const std::string& key : joint_keys()) {
    if (!joints.has(key)) continue;
    const PlaceTold told = place_told(joints, key);
    const auto kind =
        std::find_if(varying.begin(), varying.end(), [&](JointKind k) { return viz::joint_word(k) == key; });
    if (kind == varying.end())
      joints.fail(key,
                  "is a kind of joint that this case does not have; the frame was changed since it was measured: leave "
                  "[measured_frame] out and push it anew");
    if (!counts) continue;
    put_joints(c, *kind, told.at);
    if (told.up) tell_joints(c, *kind, *told.up);
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
