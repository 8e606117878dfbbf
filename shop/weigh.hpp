// What a covering weighs and how its weight hangs on the hinge line. Balance itself belongs to the approved data: these are the
// covering's shares in it.
#pragma once

#include "shop/adhesive.hpp"
#include "shop/finish.hpp"
#include "solver/geometry/panel.hpp"

#include <Eigen/Core>

#include <optional>
#include <vector>

namespace evenpull {

/// A straight line in plan.
struct HingeLine {
  Eigen::Vector2d from{0, 0}, to{0, 1};
  int member = -1;              ///< index into Case::span_members
  bool between_hinges = false;  ///< through the outermost hinges in use; else through the ends of the member
  /// Distance of a place behind it [m]; ahead of it below 0.
  double behind(const Eigen::Vector2d& at) const;
};

/// On that span member; -1: on the one that is said to carry the hinges, or on which the panel hangs by two or more. None where
/// there is no such member.
std::optional<HingeLine> hinge_line(const Case& c, int member = -1);

enum class WeighedPart { cloth, turned_cloth, adhesive, tapes, coats };

struct Weighed {
  double mass = 0;      ///< kg
  double mass_off = 0;  ///< one sigma [kg]
  double moment = 0;    ///< mass times distance behind the hinge line [kg m]; 0 without one
  double moment_off = 0;
  bool has_moment = false;
};

struct WeighedItem {
  WeighedPart part = WeighedPart::cloth;
  double area = 0;  ///< m^2
  Weighed weighed;
};

struct CoveringWeight {
  std::vector<WeighedItem> items;  ///< tapes and coats where the case states them
  Weighed all;
};

/// `areal_mass_stated`: the areal mass of the cloth was stated, not taken from its class.
CoveringWeight weigh_covering(const Case& c, const Panel& p, const Adhesive& a, const Finish& f,
                              const std::optional<HingeLine>& hinges, bool areal_mass_stated);

/// A covering that was taken off and put on scales, `behind`: its centre behind the hinge line [m], where that is known.
Weighed weigh_old(double mass, const std::optional<double>& behind);

/// What of one is more than of the other; moments only where both have one.
Weighed difference(const Weighed& now, const Weighed& before);

}  // namespace evenpull
