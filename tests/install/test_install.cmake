# Installs the libraries into a folder of the build, builds the consumer against that copy alone and runs it.
set(place "${BUILD}/install-test")
file(REMOVE_RECURSE "${place}")
function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE text ERROR_VARIABLE text)
  if(code)
    message(FATAL_ERROR "${ARGN}\nended with ${code}\n${text}")
  endif()
endfunction()
run("${CMAKE_COMMAND}" --install "${BUILD}" --prefix "${place}/prefix" --component development)
run("${CMAKE_COMMAND}" -S "${ROOT}/tests/install" -B "${place}/build" -G Ninja
  "-DCMAKE_PREFIX_PATH=${place}/prefix" "-DCMAKE_CXX_COMPILER=${CXX}" "-DCMAKE_CXX_FLAGS=${FLAGS}"
  "-DWANTED_VERSION=${VERSION}")
run("${CMAKE_COMMAND}" --build "${place}/build")
run("${place}/build/consumer")
