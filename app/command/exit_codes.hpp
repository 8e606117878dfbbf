// What the shell is told. Documented in --help.
#pragma once

namespace evenpull {

enum class ExitCode : int {
  done = 0,         ///< also when the answer is that no stage is safe
  our_mistake = 1,  ///< a bug
  bad_command = 2,
  bad_case = 3,       ///< case or order file
  not_converged = 4,  ///< no equilibrium found: no plan
  cannot_write = 5,
  folder_busy = 6  ///< another run is at work on the same folder; an interruption ends with 128 and the signal's number
};

}  // namespace evenpull
