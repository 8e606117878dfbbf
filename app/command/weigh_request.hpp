// What `evenpull weigh` is asked for.
#pragma once

#include <string>

namespace evenpull {

struct WeighRequest {
  std::string old_mass;  ///< of the covering taken off, on scales: "310 g"; empty: not weighed
  std::string old_at;    ///< its centre behind the hinge line: "120 mm"; empty: not known
  std::string about;     ///< name of a member; empty: the case's own hinge line
};

}  // namespace evenpull
