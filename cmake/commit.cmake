# Writes which commit a tree is, as a header that changes only when the answer does, and the files on which it hangs.
# A tree that git does not know, or that lies within the tree of another project, is "unknown".
# cmake -D ROOT=<repository> -D HEADER=<file to write> -D DEPFILE=<file to write> -P commit.cmake
cmake_minimum_required(VERSION 3.25)
# Git sets these in a hook: then they would speak of another tree than the one asked for.
foreach(name IN ITEMS GIT_DIR GIT_WORK_TREE GIT_INDEX_FILE GIT_COMMON_DIR GIT_OBJECT_DIRECTORY)
  unset(ENV{${name}})
endforeach()
set(ENV{GIT_OPTIONAL_LOCKS} 0)  # looking changes nothing
find_program(GIT git)
# Sets `out` in the caller, empty where git has no answer.
function(ask_git out)
  set(answer "")
  if(GIT)
    execute_process(COMMAND "${GIT}" -c core.quotepath=off ${ARGN} WORKING_DIRECTORY "${ROOT}" RESULT_VARIABLE failed
      OUTPUT_VARIABLE said ERROR_QUIET OUTPUT_STRIP_TRAILING_WHITESPACE)
    if(failed STREQUAL "0")
      set(answer "${said}")
    endif()
  endif()
  set(${out} "${answer}" PARENT_SCOPE)
endfunction()

set(commit "")
set(hangs_on "${CMAKE_CURRENT_LIST_FILE}")
ask_git(top rev-parse --show-toplevel)
get_filename_component(here "${ROOT}" REALPATH)
if(top STREQUAL here)
  ask_git(commit describe --always --dirty)
  # Commits, checkouts and tags change these of git's own files; "-dirty" hangs on every file that git keeps.
  ask_git(branch symbolic-ref -q HEAD)
  set(own "")
  foreach(name IN ITEMS logs/HEAD HEAD index packed-refs refs/tags ${branch})
    ask_git(file rev-parse --git-path "${name}")
    get_filename_component(file "${file}" ABSOLUTE BASE_DIR "${ROOT}")
    list(APPEND own "${file}")
  endforeach()
  ask_git(files ls-files)
  string(REPLACE "\n" ";" files "${files}")
  list(TRANSFORM files PREPEND "${ROOT}/")
  foreach(file IN LISTS own files)
    if(EXISTS "${file}")
      string(REGEX REPLACE "([ #])" "\\\\\\1" file "${file}")
      list(APPEND hangs_on "${file}")
    endif()
  endforeach()
endif()
if(commit STREQUAL "")
  set(commit "unknown")
endif()

file(CONFIGURE OUTPUT "${HEADER}" CONTENT "#define EVENPULL_COMMIT \"@commit@\"\n" @ONLY)
list(JOIN hangs_on " \\\n  " hangs_on)
file(WRITE "${DEPFILE}" "${HEADER}: ${hangs_on}\n")
