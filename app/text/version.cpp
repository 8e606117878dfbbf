#include "app/text/version.hpp"

namespace evenpull {

const char* version() {
  return EVENPULL_VERSION;
}

}  // namespace evenpull
