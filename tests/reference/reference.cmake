# Solves the small panels anew where some Python has SciPy. Nothing else needs it, so no command installs it (Debian:
# python3-scipy). `ctest -L reference` runs these alone, `./check -LE reference` leaves them out.
set(EVENPULL_SCIPY_PYTHON "")
foreach(candidate IN ITEMS python3 /usr/bin/python3)
  # Debian's package serves Debian's Python, and another one may come first on the path.
  if(NOT EVENPULL_SCIPY_PYTHON)
    execute_process(COMMAND ${candidate} -c "import scipy.optimize" RESULT_VARIABLE failed OUTPUT_QUIET ERROR_QUIET)
    if(failed STREQUAL "0")
      set(EVENPULL_SCIPY_PYTHON ${candidate})
    endif()
  endif()
endforeach()
if(EVENPULL_SCIPY_PYTHON)
  foreach(panel IN ITEMS wrapped_rudder glued_sheets tapered_aileron pocketed_elevator)
    set(test "reference/SciPy finds the stored answer of ${panel} again")
    add_test(NAME "${test}" COMMAND "${EVENPULL_SCIPY_PYTHON}" -B
      "${CMAKE_CURRENT_SOURCE_DIR}/reference/solve_reference.py" --check ${panel})
    set_tests_properties("${test}" PROPERTIES LABELS reference TIMEOUT 1800)
  endforeach()
else()
  message(STATUS "No Python with SciPy: the tests labelled reference are left out")
endif()
