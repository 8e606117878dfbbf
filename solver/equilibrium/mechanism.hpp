// Does the frame stand by itself? A member that no support holds would move freely before any cloth is tight; one that is
// held far too softly would move absurdly. The two are told apart, whatever the size of the panel and its units.
#pragma once

#include "solver/equilibrium/model.hpp"

namespace evenpull::inline solver {

struct Mechanism {
  bool found = false;  ///< a motion without strain
  bool soft = false;   ///< a motion with strain, but so little that the pull of the cloth would move the frame absurdly
  double strain = 0;   ///< of the softest motion: energy over that of moving each unknown by itself; 0 = free
  double stiffness = 0;  ///< of the softest motion [N/m], a turn counted over the size of the panel
  int joint = -1;        ///< the joint that moves most
  int member = -1;       ///< found: a member it belongs to; soft: the one that is strained most
  std::string motion;    ///< "moves along the span", "turns about the span", ...
};

/// Looks for the softest motion of the bare frame under the given supports.
Mechanism find_mechanism(const Model& m, Held h);

/// Throws CaseError where a member can move freely (key "supports.<set>") or is far too soft (the key of its kind), under
/// either set of supports.
void check_stands(const Model& m);

/// The same, always on the mesh that ranks orders: whoever asks about a case gets the same answer.
void check_stands(const Case& c);

}  // namespace evenpull::inline solver
