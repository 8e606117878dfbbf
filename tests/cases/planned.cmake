# What several tests read is made once, by the command itself as a person would type it: every case planned in a quick
# way, and one lesson. ctest makes them first (fixtures); a test program started by hand makes what it needs itself.
set(EVENPULL_PLANNED "${CMAKE_CURRENT_BINARY_DIR}/planned")

# evenpull_plan_once(<name of the results> <name of the test> <argument of evenpull>...)
function(evenpull_plan_once name test)
  add_test(NAME "cases/${test}" COMMAND evenpull ${ARGN} --quiet --out "${EVENPULL_PLANNED}/${name}")
  set_tests_properties("cases/${test}" PROPERTIES LABELS slow TIMEOUT 1800 COST 400
    FIXTURES_SETUP "planned;planned_${name}")
endfunction()

foreach(case IN ITEMS metal_aileron light_tube_rudder very_light_bow two_sheet_elevator training_panel template
    welded_steel_rudder welded_elevator)
  evenpull_plan_once(${case} "${case} can be planned in a quick way"
    plan --quick "${PROJECT_SOURCE_DIR}/cases/${case}.toml")
endforeach()
evenpull_plan_once(lesson "a lesson can be made" contrast --quick "${PROJECT_SOURCE_DIR}/cases/training_panel.toml")
