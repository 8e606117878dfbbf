// A zone in a pass.
#pragma once

namespace evenpull::inline sequencer {

struct PassZone {
  int stage = 0, pass = 1, zone = 0;
};

}  // namespace evenpull::inline sequencer
