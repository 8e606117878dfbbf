// Where on a panel something is.
#pragma once

namespace evenpull::inline sequencer {

struct Place {
  enum class Kind {
    whole_panel,
    along_member,   ///< `member`, `station`
    across_member,  ///< a rib or the tip bow: `member`, `aft`
    trailing_edge,  ///< `station`
    bay             ///< `bay`
  };
  Kind kind = Kind::whole_panel;
  int member = -1;     ///< index into Panel::members
  double station = 0;  ///< from the inboard end rib [m]
  double aft = 0;      ///< share of the member's length
  int bay = -1;        ///< from 0
};

}  // namespace evenpull::inline sequencer
