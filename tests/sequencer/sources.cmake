set(EVENPULL_SEQUENCER_TESTS
  test_families.cpp
  test_zone_graph.cpp
  test_ceiling.cpp
  test_choice.cpp
  test_planner.cpp
  test_orders_compared.cpp
)
