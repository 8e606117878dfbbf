# evenpull_precompile(<target>): headers of libraries that most files of a target read are compiled once. They are read
# before each file, which hides a missing include: the presets `dev` and `headers-only` build without.
option(EVENPULL_PRECOMPILE "Compile heavy headers once" ON)

set(EVENPULL_PRECOMPILED <Eigen/Core> <Eigen/SparseCore> <algorithm> <array> <cmath> <functional> <map> <optional> <sstream>
  <string> <vector>)

function(evenpull_precompile target)
  if(EVENPULL_PRECOMPILE)
    target_precompile_headers(${target} PRIVATE ${EVENPULL_PRECOMPILED} ${ARGN})
  endif()
endfunction()

# evenpull_precompile_like(<target> <other>): the ones of another target that is compiled alike.
function(evenpull_precompile_like target other)
  if(EVENPULL_PRECOMPILE)
    target_precompile_headers(${target} REUSE_FROM ${other})
  endif()
endfunction()
