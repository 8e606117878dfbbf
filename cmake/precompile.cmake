# evenpull_precompile(<target>): headers of libraries that most files of a target read are compiled once. They are read
# before each file, which hides a missing include: the presets `dev` and `headers-only` build without.
option(EVENPULL_PRECOMPILE "Compile heavy headers once" ON)

set(EVENPULL_PRECOMPILED <Eigen/Core> <Eigen/SparseCore> <algorithm> <array> <cmath> <functional> <map> <optional> <sstream>
  <string> <vector>)

# False alarms of GCC 12 about strings, which come where a standard header is precompiled: `dev` builds without and warns.
function(evenpull_no_false_alarms target)
  if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
    target_compile_options(${target} PRIVATE -Wno-array-bounds -Wno-stringop-overflow -Wno-stringop-overread)
  endif()
endfunction()

function(evenpull_precompile target)
  if(EVENPULL_PRECOMPILE)
    target_precompile_headers(${target} PRIVATE ${EVENPULL_PRECOMPILED} ${ARGN})
    evenpull_no_false_alarms(${target})
  endif()
endfunction()

# evenpull_precompile_like(<target> <other>): the ones of another target that is compiled alike.
function(evenpull_precompile_like target other)
  if(EVENPULL_PRECOMPILE)
    target_precompile_headers(${target} REUSE_FROM ${other})
    evenpull_no_false_alarms(${target})
  endif()
endfunction()
