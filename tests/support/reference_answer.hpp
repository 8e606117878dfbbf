// The stored answers of tests/reference: small panels as SciPy solved them (words and units:
// tests/reference/answer.py).
#pragma once

#include "tests/support/reference_panel.hpp"

#include <Eigen/Core>

#include <array>
#include <string>
#include <vector>

namespace evenpull::reference {

/// State of a panel after one step. SI units (the file has displacements in mm).
struct Answer {
  std::string kind;                     ///< "iron", "settle" or "release"
  double cloth_energy = 0;              ///< integral of 1/2 N:C:N [J]
  double frame_energy = 0;              ///< 1/2 u K u of the members without geometric stiffness, of wires N^2/2k [J]
  double use = 0;                       ///< worst stress / allowable
  std::array<double, 4> mean{};         ///< N/m: top and bottom along the chord, top and bottom along the span
  std::vector<double> slip;             ///< of the wrapped columns [m]
  std::vector<Eigen::Vector3d> pull;    ///< of each quad, as Mandel [N/m]
  std::vector<Eigen::Vector3d> joints;  ///< displacement [m]; after settling and release only
  std::vector<Eigen::Vector3d> nodes;   ///< the same of the cloth
  std::vector<double> wires;            ///< pull of each wire [N]; 0: it is slack
};

/// Text of <panel>_<which>.txt; throws std::runtime_error when it is not there.
std::string stored_text(const std::string& panel, const std::string& which);

/// Answers of all steps of a panel, in order.
std::vector<Answer> read_answers(const std::string& panel);

/// First place where two statements differ by more than the last digits of their numbers, in words; empty if nowhere.
std::string first_difference(const std::string& stored, const std::string& now);

}  // namespace evenpull::reference
