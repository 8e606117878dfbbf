set(EVENPULL_SHOP_TESTS
  test_calibration.cpp)
