// What `evenpull blanket` is asked for.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct BlanketRequest {
  std::vector<std::string> also;  ///< further case files, cut from the same bolt
  int panels = 1;                 ///< of each case
  bool tiles = false;             ///< each piece at true size on many sheets
  std::string stage;              ///< "300 degF": the hottest it will be ironed at; empty: as the case says
  std::string plan;               ///< folder of a plan, whose hottest safe stage counts; empty: none
};

}  // namespace evenpull
