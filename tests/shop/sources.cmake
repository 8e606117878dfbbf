set(EVENPULL_SHOP_TESTS
  test_attach.cpp
  test_calibration.cpp
  test_coupon.cpp
  test_coupon_boards.cpp
  test_coupon_curve.cpp
  test_draft.cpp
  test_glue_lines.cpp
  test_job_clock.cpp
  test_job_log.cpp
  test_job_standing.cpp
  test_old_cloth.cpp
  test_push_choice.cpp
  test_push_frame.cpp
  test_push_readings.cpp
  test_sign_off.cpp
  test_stiffen.cpp
  test_tap.cpp
  test_weigh.cpp)

# Names in these clash with a neighbour's.
set(EVENPULL_SHOP_TESTS_ALONE
  test_coupon_boards.cpp
  test_job_standing.cpp
  test_old_cloth.cpp
  test_push_choice.cpp
  test_tap.cpp)
