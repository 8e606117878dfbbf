# What uses threads, under the thread sanitizer: pieces of work side by side, and a whole quick plan of a small panel.
add_test(NAME "threads/pieces of work side by side do not race" COMMAND test_app "[parallel]" -w NoTests)
add_test(NAME "threads/a plan does not race"
  COMMAND evenpull plan --quick --quiet "${PROJECT_SOURCE_DIR}/cases/light_tube_rudder.toml"
    --out "${CMAKE_CURRENT_BINARY_DIR}/raced")
set_tests_properties("threads/pieces of work side by side do not race" "threads/a plan does not race"
  PROPERTIES LABELS threads TIMEOUT 7200)
