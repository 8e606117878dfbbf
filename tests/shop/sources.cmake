set(EVENPULL_SHOP_TESTS
  test_calibration.cpp
  test_coupon.cpp
  test_coupon_boards.cpp
  test_coupon_curve.cpp
  test_job_log.cpp
  test_job_standing.cpp
  test_old_cloth.cpp)
