// What `evenpull log` is asked for.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace evenpull {

struct LogRequest {
  std::string file;                   ///< of the log; empty: named after the case
  std::string plan;                   ///< folder of the plan followed; empty: named after the case
  std::vector<std::string> worked;    ///< "next 5", "T3 T4", "top", "300 degF: T3"
  std::string sole;                   ///< true temperature while these were worked
  std::vector<std::string> read;      ///< "top, bay 2: 500 g = 3.4 mm", "twist = 2 mm"
  std::string page;                   ///< what a plan's page saved
  std::optional<std::string> jolted;  ///< what happened
  std::string remark;
  std::optional<int> take_back;  ///< number of an entry
  bool adds() const {
    return !worked.empty() || !read.empty() || !page.empty() || jolted || !remark.empty() || take_back;
  }
};

}  // namespace evenpull
