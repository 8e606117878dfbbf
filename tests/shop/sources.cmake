set(EVENPULL_SHOP_TESTS
  test_calibration.cpp
  test_draft.cpp
  test_job_log.cpp
  test_job_standing.cpp)
