# What uses threads, under the thread sanitizer, which makes a plan fifteen times as long: pieces of work side by side,
# every part of a full plan of a very small panel, and a quick plan by the command.
add_test(NAME "threads/pieces of work side by side do not race" COMMAND test_app "[parallel]" -w NoTests)
add_test(NAME "threads/the parts of a full plan do not race" COMMAND test_app "[race]" -w NoTests)
add_test(NAME "threads/a plan does not race"
  COMMAND evenpull plan --quick --quiet --threads 4 "${CMAKE_CURRENT_SOURCE_DIR}/cases/three_ribs.toml"
    --out "${CMAKE_CURRENT_BINARY_DIR}/raced")
set_tests_properties("threads/pieces of work side by side do not race" "threads/a plan does not race"
  "threads/the parts of a full plan do not race"
  PROPERTIES LABELS threads TIMEOUT 7200
    ENVIRONMENT "TSAN_OPTIONS=suppressions=${CMAKE_CURRENT_SOURCE_DIR}/cases/thread_sanitizer.supp")
