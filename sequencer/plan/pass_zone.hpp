// A zone in a pass.
#pragma once

namespace evenpull {

struct PassZone {
  int stage = 0, pass = 1, zone = 0;
};

}  // namespace evenpull
