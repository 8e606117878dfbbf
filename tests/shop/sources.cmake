set(EVENPULL_SHOP_TESTS
  test_calibration.cpp
  test_tap.cpp)
