set(EVENPULL_CASES_TESTS
  command.cpp
  test_case_files.cpp
  test_drafted_cases.cpp
  test_killed_runs.cpp
  test_output.cpp
  test_through_command.cpp
  test_walkthrough.cpp)
