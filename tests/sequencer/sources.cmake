set(EVENPULL_SEQUENCER_TESTS
  test_cut_out_orders.cpp
  test_families.cpp
  test_heat_plan.cpp
  test_judge.cpp
  test_zone_graph.cpp
  test_ceiling.cpp
  test_certified_counts.cpp
  test_chances.cpp
  test_tail_fit.cpp
  test_windows.cpp
  test_job_time.cpp
  test_error_bars.cpp
  test_frame_range.cpp
  test_mesh_study.cpp
  test_choice.cpp
  test_planner.cpp
  test_order_search.cpp
  test_coarse_model.cpp
  test_thin_sheet.cpp
  test_trade_offs.cpp
  test_job_graph.cpp
  test_bench_check.cpp
  test_going_on.cpp
  test_mid_work.cpp
  test_full_passes.cpp
  test_trial_runs.cpp
  test_turn_overs.cpp
  test_extra_stage.cpp
  test_run_estimate.cpp
  test_ways.cpp
  test_setting.cpp
  test_notes.cpp
  test_quick.cpp
  test_pass_choice.cpp
  test_stage_shapes.cpp
  test_surer_orders.cpp
  test_orders_compared.cpp
  test_ordinary_cases.cpp
)

# Property tests need RapidCheck; `check` installs it.
find_library(EVENPULL_RAPIDCHECK rapidcheck)
if(EVENPULL_RAPIDCHECK)
  list(APPEND EVENPULL_SEQUENCER_TESTS test_order_bounds.cpp test_order_floor.cpp)
  set(EVENPULL_SEQUENCER_TEST_LIBRARIES ${EVENPULL_RAPIDCHECK})
else()
  set(EVENPULL_SEQUENCER_TESTS_LEFT_OUT test_order_bounds.cpp test_order_floor.cpp)
endif()

# Names in these clash with a neighbour's.
set(EVENPULL_SEQUENCER_TESTS_ALONE
  test_coarse_model.cpp
  test_mid_work.cpp
  test_trial_runs.cpp
  test_turn_overs.cpp
  test_setting.cpp
  test_order_floor.cpp)
