# evenpull_read_test_list(<folder> <out>): files of one test program, as <folder>/sources.cmake names them in
# EVENPULL_<NAME>_TESTS. A list that is missing, or a test file that it leaves out, would drop tests without a word: both
# are errors. What cannot be built here stands in EVENPULL_<NAME>_TESTS_LEFT_OUT.
macro(evenpull_read_test_list folder out)
  if(NOT EXISTS "${folder}/sources.cmake")
    message(FATAL_ERROR "${folder}/sources.cmake is missing: no list says which tests this folder holds")
  endif()
  include("${folder}/sources.cmake")
  get_filename_component(evenpull_list_name "${folder}" NAME)
  string(TOUPPER "${evenpull_list_name}" evenpull_list_name)
  set(${out} ${EVENPULL_${evenpull_list_name}_TESTS})
  if(NOT ${out})
    message(FATAL_ERROR "${folder}/sources.cmake names no test in EVENPULL_${evenpull_list_name}_TESTS")
  endif()
  set(evenpull_watched CONFIGURE_DEPENDS)  # a new file asks for a new configuration
  if(CMAKE_SCRIPT_MODE_FILE)
    set(evenpull_watched "")
  endif()
  file(GLOB evenpull_lying_there RELATIVE "${folder}" ${evenpull_watched} "${folder}/test_*.cpp")
  list(REMOVE_ITEM evenpull_lying_there ${${out}} ${EVENPULL_${evenpull_list_name}_TESTS_LEFT_OUT})
  if(evenpull_lying_there)
    message(FATAL_ERROR "${evenpull_lying_there} lies in ${folder}, and EVENPULL_${evenpull_list_name}_TESTS does not list it")
  endif()
endmacro()
