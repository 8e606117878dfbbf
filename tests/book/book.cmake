# Runs every published check in one process with its records, then writes the verification book or compares it.
#   cmake -D WHAT=write|compare -D CHECKS=<test_published> -D MAKE_BOOK=<make_book> -D SCRATCH=<folder> -D DOCS=<docs>
#     -P book.cmake
file(REMOVE_RECURSE "${SCRATCH}")
file(MAKE_DIRECTORY "${SCRATCH}")
set(ENV{EVENPULL_BOOK_RECORDS} "${SCRATCH}/records.txt")
# "*" runs tests that are hidden by a tag as well.
execute_process(COMMAND "${CHECKS}" "*" RESULT_VARIABLE failed OUTPUT_FILE "${SCRATCH}/checks.txt" ERROR_FILE "${SCRATCH}/errors.txt")
if(NOT failed EQUAL 0)
  file(READ "${SCRATCH}/checks.txt" said)
  message("${said}")
  message(FATAL_ERROR "A published check fails (above), so the verification book is left as it was.")
endif()
execute_process(COMMAND "${MAKE_BOOK}" ${WHAT} "${SCRATCH}/records.txt" "${DOCS}" RESULT_VARIABLE failed)
if(NOT failed EQUAL 0)
  message(FATAL_ERROR "make_book ${WHAT} ended with ${failed}")
endif()
if(WHAT STREQUAL "write")
  message("Wrote ${DOCS}/verification.md and its pictures.")
endif()
