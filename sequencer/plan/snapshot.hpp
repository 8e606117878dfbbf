// Everything the drawings need about the cloth and the frame after one step.
#pragma once

#include <vector>

namespace evenpull::inline sequencer {

struct Snapshot {
  int step = 0;                     ///< 0 = before ironing, else steps done
  std::vector<float> displacement;  ///< nodes x 3 [m]
  std::vector<float> sag;  ///< per node, inward from the surface that the ribs carry [m] (solver/readings/sag.hpp)
  std::vector<float> pull_warp, pull_fill, pull_major, pull_minor;  ///< per quad [N/m]; warp, fill, principal
  std::vector<float> pull_chord, pull_span;                         ///< per quad [N/m]; along chord and span
  std::vector<float> major_angle;    ///< of the larger principal pull from the span towards the TE [rad], per quad
  std::vector<unsigned char> state;  ///< per quad: 0 loose, 1 puckered, 2 tight
  std::vector<float> shrink_warp, shrink_fill;  ///< per quad, accumulated heat shrink (strain)
  std::vector<float> edge_slip;                 ///< per column [m], positive: cloth gone from the bottom to the top
  std::vector<float> joint_displacement;        ///< joints x 6 (3 translations [m], 3 rotations [rad])
  std::vector<float> beam_use;                  ///< stress / allowable, per beam
  double twist = 0, tip_turn = 0;               ///< rad, as they were read (solver/readings/readings.hpp)
  double difference_chord = 0, difference_span = 0;  ///< N/m, top minus bottom, of the bay where each is largest
};

}  // namespace evenpull::inline sequencer
