#include "app/text/version.hpp"

#include "commit.hpp"  // written by cmake/commit.cmake

namespace evenpull {

const char* version() { return EVENPULL_VERSION; }

const char* version_and_commit() { return EVENPULL_VERSION ", commit " EVENPULL_COMMIT; }

}  // namespace evenpull
