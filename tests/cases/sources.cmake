set(EVENPULL_CASES_TESTS
  test_case_files.cpp
  test_through_command.cpp)
