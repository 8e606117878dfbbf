// Weights on the bare frame in words: places, what is unknown, what the readings say.
#pragma once

#include "shop/push_choice.hpp"
#include "shop/push_readings.hpp"
#include "shop/push_suspects.hpp"

#include <string>
#include <vector>

namespace evenpull::viz {

/// "trailing edge tube, rib 4"; "rib 3, 4.7 in (120 mm)", from its front; of a member from the inboard end.
std::string frame_place_text(const Case& c, const FramePlace& p);
/// The same as --push takes it: "trailing edge tube, 750 mm".
std::string typed_place_text(const Case& c, const FramePlace& p);
/// "2.2 lb (1 kg)", "1.1 lb (500 g)".
std::string push_weight_text(double kilograms);
/// "0.13 in (3.2 mm)", "0.016 in (0.4 mm) up".
std::string push_movement_text(double down);
/// "0.13 in, 3.2 mm (2.8 to 3.6)"; up with a minus sign.
std::string expected_movement_text(double down, double low, double high);
/// "as for ironing", "as in use".
std::string push_held_text(Held held);

/// How joints act: with half of the stiffness of the member that ends there or less they count as pinned, with eight
/// times or more as rigid (EN 1993-1-8, 5.2.2.5, seen as reprint; docs/data.md, joints).
enum class JointsAct { pinned, between, rigid, unclear };
inline constexpr double pinned_alpha = 0.5, rigid_alpha = 8;
/// Of stiffness over E I/L at both ends of what is possible.
JointsAct joints_act(double low, double high);
/// Stiffness over E I/L, up and down, of the first joint of a kind at a place in its range given in sigmas.
double alpha_of_joints(const Case& c, const Panel& p, JointKind kind, double sigmas);

/// A line of what is known of a factor: what, before, now (95 %), in short words.
struct PushFactorRow {
  std::string what, before, now;
};
PushFactorRow push_factor_row(const Case& c, const Panel& p, const PushFactor& f, const PushKnown& k);
/// What it means, as sentences: for joints whether the readings say pinned, between or rigid.
std::vector<std::string> push_factor_sentences(const Case& c, const Panel& p, const std::vector<PushFactor>& factors,
                                               const PushAnswer& a);

/// Why the readings contradict the case, and what to look at; hints. Empty where they agree.
std::vector<std::string> push_misfit_sentences(const Case& c, const Panel& p, Held held, const PushAnswer& a,
                                               const std::vector<PushSuspect>& suspects, int most_telling);

/// What the proposed weights will tell.
std::vector<std::string> push_choice_sentences(const Case& c, const PushChoice& choice, double reading_off);
/// How to do it.
std::vector<std::string> push_how_to_sentences(Held held, double reading_off);

}  // namespace evenpull::viz
