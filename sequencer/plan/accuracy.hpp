// How much work a plan may take: which meshes and zone sizes its error bars rest on.
#pragma once

#include "solver/geometry/panel.hpp"
#include "solver/statement/case.hpp"

#include <optional>
#include <vector>

namespace evenpull::inline sequencer {

enum class Accuracy {
  quick,   ///< coarse mesh, no error bars
  normal,  ///< error bars from meshes of twice and two thirds the element edge
  fine,    ///< error bars from the element edge halved: about four times the nodes
};

/// Mesh of the plan itself: what the drawings and the steps show.
MeshOptions plan_mesh(const Case& c, Accuracy a);

/// Mesh on which an order is searched, prefix by prefix.
MeshOptions search_mesh(Accuracy a);

/// Mesh on which ways to pass over a stage are tried against each other.
MeshOptions trial_mesh();

/// Mesh on which all orders are ranked.
MeshOptions ranking_mesh(Accuracy a);

/// Mesh of the reduced model that runs the scenarios of the chances.
MeshOptions scenario_mesh();

/// The plan's mesh with twice its element edge, on which a run costs an eighth and uses are within 1 to 2 %
/// (bench/RECORD.md); none where that would be as coarse as the mesh of a quick plan.
std::optional<MeshOptions> half_mesh(const Case& c, Accuracy a);

/// The runs behind the error bars besides that of the plan itself, costly ones first.
std::vector<MeshOptions> study_meshes_of(const Case& c, Accuracy a);

/// Mean length of an element edge [m]: root of cloth area over quads.
double mean_edge(const Panel& p);

}  // namespace evenpull::inline sequencer
