// Small whole panels that are also solved a second way, by SciPy (tests/reference): who they are, what is done to them,
// and the statement of the problem that the other solution starts from.
#pragma once

#include "solver/equilibrium/model.hpp"

#include <string>
#include <vector>

namespace evenpull::reference {

/// One thing done to the panel.
struct Step {
  enum class Kind { iron, settle, release };
  Kind kind = Kind::iron;
  int zone = 0;            ///< ironed: index into Panel::zones
  double temperature = 0;  ///< true sole temperature [K]
  double dose = 0;
};

struct SmallPanel {
  std::string name;   ///< of the files: <name>_problem.txt and <name>_answer.txt
  std::string title;  ///< for a reader
  Case the_case;
  MeshOptions mesh;
  std::vector<Step> steps;
};

/// The panels, all invented.
std::vector<SmallPanel> small_panels();

/// The problem in plain text, a word and its numbers a line, SI units: mesh, ties, members, supports, cloth, friction
/// and steps as docs/model.md uses them. No matrix, strain, stiffness or load line of ours stands in it, so that none
/// of our mistakes in them can travel. The words are explained in tests/reference/problem.py.
std::string statement(const SmallPanel& p, const Model& m);

}  // namespace evenpull::reference
