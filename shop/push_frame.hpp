// The bare frame of a case under a weight put on it: small movements, from the solver's own beams, joints, wires and
// supports (docs/model.md, sections 5 and 11). No cloth. A place between two joints becomes a joint, so that nothing
// hangs on the mesh but how a member that changes along its length is stepped.
#pragma once

#include "solver/equilibrium/model.hpp"
#include "solver/statement/case.hpp"

#include <array>
#include <vector>

namespace evenpull {

/// A place on the frame.
struct FramePlace {
  bool on_rib = false;
  int which = 0;  ///< of Case::span_members or of Case::ribs
  double at = 0;  ///< m: y of a span member; on a rib from its front end
};

/// Members whose stiffness scatters together.
enum class MemberGroup { edges, spars, ribs };
inline constexpr int member_groups = 3;
/// A tip bow and the front of a pocket are edges, braces go with the ribs.
MemberGroup group_of(MemberRole role);

/// How the frame may differ from what is stated.
struct FrameChange {
  std::array<double, member_groups> stiffness{1, 1, 1};  ///< times E and G of a group
  int one_member = -1;                                   ///< index into Panel::members that has a factor of its own
  double of_one = 1;
};

/// A weight, N, pushing down at a place (an index among the places of the frame).
struct PushLoad {
  int place = 0;
  double newtons = 0;
};

/// What a weight does.
struct Pushed {
  std::vector<double> down;  ///< m, of each place of the frame
  double use = 0;            ///< largest stress over the allowable one
  int most_stressed = -1;    ///< index into Panel::members
  std::vector<int> slack;    ///< wires that hang slack, by Case::braces
};

/// Places that the frame has, and what it does under a weight.
class PushFrame {
 public:
  /// Nodes of the cloth's mesh, which decides where joints are; the frame of a wing that goes on is a part of one and
  /// cannot be pushed: throws CaseError. So it does where the frame does not stand.
  PushFrame(const Case& c, Held held, int nodes = search_nodes);

  const Panel& panel() const { return panel_; }
  Held held() const { return held_; }
  double rib_length(int rib) const;  ///< m
  /// Whether the member goes there; it does not within a pocket.
  bool has(const FramePlace& p) const;
  /// Whether the place moves at all: no support holds it up.
  bool moves(const FramePlace& p) const;
  Eigen::Vector3d position(const FramePlace& p) const;

  /// All further answers are about these places.
  void set_places(const std::vector<FramePlace>& places);

  /// Under each weight by itself. `like`: the case whose joints and supports count, with the sections and materials
  /// of the one that the frame was made of. Throws CaseError where wires find no rest.
  std::vector<Pushed> push(const Case& like, const FrameChange& change, const std::vector<PushLoad>& loads,
                           bool with_stress = false) const;

 private:
  struct Spot {
    int beam = -1;     ///< within a beam; else at a joint
    double share = 0;  ///< of the beam
    int joint = -1;
  };
  struct Piece {
    int beam = 0, from = 0, to = 0;  ///< joints, those of the places after the panel's own
    Eigen::Vector3d start, end;
    double share_from = 0, share_to = 1;
  };
  class Loaded;
  Spot spot_of(const FramePlace& p) const;
  std::vector<int> beams_of(const FramePlace& p) const;

  Panel panel_;
  Held held_;
  std::vector<char> held_up_;  ///< of each joint: a support holds it against moving up and down
  std::vector<Piece> pieces_;
  std::vector<int> joint_of_place_;
  int joints_ = 0;
};

}  // namespace evenpull
