set(EVENPULL_CASES_TESTS
  command.cpp
  test_case_files.cpp
  test_drafted_cases.cpp
  test_killed_runs.cpp
  test_output.cpp
  test_through_command.cpp
  test_walkthrough.cpp)

# Names in these clash with a neighbour's.
set(EVENPULL_CASES_TESTS_ALONE
  test_output.cpp)
