set(EVENPULL_SHOP_TESTS
  test_calibration.cpp
  test_job_log.cpp
  test_job_standing.cpp
  test_push_frame.cpp
  test_push_choice.cpp
  test_push_readings.cpp)
