// What `evenpull draft` is asked for; the file to write is Request::case_file.
#pragma once

#include <string>
#include <vector>

namespace evenpull {

struct DraftRequest {
  std::string kind;                  ///< "welded steel tube"; empty: not said
  std::vector<std::string> answers;  ///< "span = 60 in"
  bool usual = false;                ///< usual answers for what was not given
  bool questions = false;            ///< prints what is asked, and writes nothing
  bool no_runs = false;              ///< does not look which answers matter most
  bool by_options() const { return !kind.empty() || !answers.empty() || usual; }
};

}  // namespace evenpull
