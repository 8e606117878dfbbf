# The offline pages in Debian's Chromium. The driver and the accessibility checker come from npm when the tests run, in
# the exact versions of package.json, into the build folder. `ctest -L page` runs these alone, `-LE page` leaves them out.
# Alone: what a page promises within seconds a machine full of other tests does not keep.
# The plan and the lesson are those of tests/cases/planned.cmake.
set(here "${CMAKE_CURRENT_SOURCE_DIR}/page")
set(work "${CMAKE_CURRENT_BINARY_DIR}/page")
file(MAKE_DIRECTORY "${work}")

add_test(NAME "page/driver and checker are installed"
  COMMAND ${CMAKE_COMMAND} -D "FROM=${here}/package.json" -D "TO=${work}/tools" -P "${here}/install_tools.cmake")
set_tests_properties("page/driver and checker are installed" PROPERTIES LABELS page TIMEOUT 300 FIXTURES_SETUP page_tools)

add_test(NAME "page/the page of a plan works in a browser, small and large"
  COMMAND ${CMAKE_COMMAND} -E env "EVENPULL_PAGE_TOOLS=${work}/tools" node "${here}/plan_page.mjs" "${EVENPULL_PLANNED}/metal_aileron/plan.html" "${work}/seen")
set_tests_properties("page/the page of a plan works in a browser, small and large"
  PROPERTIES LABELS page TIMEOUT 600 RUN_SERIAL ON FIXTURES_REQUIRED "page_tools;planned_metal_aileron")

add_test(NAME "page/the page of a lesson works in a browser, small and large"
  COMMAND ${CMAKE_COMMAND} -E env "EVENPULL_PAGE_TOOLS=${work}/tools" node "${here}/lesson_page.mjs" "${EVENPULL_PLANNED}/lesson/lesson.html" "${work}/seen")
set_tests_properties("page/the page of a lesson works in a browser, small and large"
  PROPERTIES LABELS page TIMEOUT 600 RUN_SERIAL ON FIXTURES_REQUIRED "page_tools;planned_lesson")

add_test(NAME "page/a page with readings to take is written"
  COMMAND ${CMAKE_COMMAND} -E env "EVENPULL_PAGE_OF_WINDOWS=${work}/windows.html" $<TARGET_FILE:test_viz> "[.page_of_windows]")
set_tests_properties("page/a page with readings to take is written" PROPERTIES LABELS page TIMEOUT 300 FIXTURES_SETUP page_of_windows)
add_test(NAME "page/what is read opens or stops the next stage in a browser, small and large"
  COMMAND ${CMAKE_COMMAND} -E env "EVENPULL_PAGE_TOOLS=${work}/tools" node "${here}/windows_page.mjs" "${work}/windows.html" "${work}/seen")
set_tests_properties("page/what is read opens or stops the next stage in a browser, small and large"
  PROPERTIES LABELS page TIMEOUT 600 RUN_SERIAL ON FIXTURES_REQUIRED "page_tools;page_of_windows")
