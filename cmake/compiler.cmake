# How everything is compiled: C++20, portable code, the same bytes from run to run.
set(CMAKE_CXX_STANDARD 20)
set(CMAKE_CXX_STANDARD_REQUIRED ON)
set(CMAKE_CXX_EXTENSIONS OFF)
set(CMAKE_EXPORT_COMPILE_COMMANDS ON)
if(NOT CMAKE_BUILD_TYPE)
  set(CMAKE_BUILD_TYPE Release CACHE STRING "Kind of build" FORCE)
endif()

# -ffp-contract=off: a fused multiply-add rounds differently, and a plan must not depend on where it was compiled.
# For the same reason no -march and no -ffast-math.
add_compile_options(-Wall -Wextra -Wpedantic -Wshadow -Wnon-virtual-dtor -ffp-contract=off)
if(CMAKE_CXX_COMPILER_ID STREQUAL "GNU")
  # False alarms of GCC 12: from inlined Eigen expressions, and from adding short strings at -O3.
  add_compile_options(-Wno-maybe-uninitialized -Wno-restrict)
  # What ccache needs to see through a precompiled header.
  add_compile_options($<$<COMPILE_LANGUAGE:CXX>:-fpch-preprocess>)
endif()

find_program(EVENPULL_CCACHE ccache)
if(EVENPULL_CCACHE AND NOT CMAKE_CXX_COMPILER_LAUNCHER)
  # The sloppiness is what ccache asks for where headers are precompiled.
  set(launcher ${CMAKE_COMMAND} -E env CCACHE_SLOPPINESS=pch_defines,time_macros "${EVENPULL_CCACHE}")
  set(CMAKE_C_COMPILER_LAUNCHER "${launcher}")
  set(CMAKE_CXX_COMPILER_LAUNCHER "${launcher}")
endif()

set(EVENPULL_SANITIZE "" CACHE STRING "Sanitizers to build with, for instance address,undefined")
if(EVENPULL_SANITIZE)
  add_compile_options(-fsanitize=${EVENPULL_SANITIZE} -fno-omit-frame-pointer)
  if(EVENPULL_SANITIZE MATCHES "undefined")
    add_compile_options(-fno-sanitize-recover=undefined)
  endif()
  add_link_options(-fsanitize=${EVENPULL_SANITIZE})
endif()
