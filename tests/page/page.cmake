# The offline pages in Debian's Chromium. The driver and the accessibility checker come from npm when the tests run, in
# the exact versions of package.json, into the build folder. `ctest -L page` runs these alone, `-LE page` leaves them out.
set(here "${CMAKE_CURRENT_SOURCE_DIR}/page")
set(work "${CMAKE_CURRENT_BINARY_DIR}/page")
file(MAKE_DIRECTORY "${work}")

add_test(NAME "page/driver and checker are installed"
  COMMAND ${CMAKE_COMMAND} -D "FROM=${here}/package.json" -D "TO=${work}/tools" -P "${here}/install_tools.cmake")
set_tests_properties("page/driver and checker are installed" PROPERTIES LABELS page TIMEOUT 300 FIXTURES_SETUP page_tools)

add_test(NAME "page/a demo case is planned for the pages"
  COMMAND evenpull plan "${PROJECT_SOURCE_DIR}/cases/metal_aileron.toml" --quick --quiet --out "${work}/plan")
set_tests_properties("page/a demo case is planned for the pages" PROPERTIES LABELS page TIMEOUT 600 FIXTURES_SETUP page_plan)

add_test(NAME "page/the page of a plan works in a browser, small and large"
  COMMAND ${CMAKE_COMMAND} -E env "EVENPULL_PAGE_TOOLS=${work}/tools" node "${here}/plan_page.mjs" "${work}/plan/plan.html" "${work}/seen")
set_tests_properties("page/the page of a plan works in a browser, small and large"
  PROPERTIES LABELS page TIMEOUT 600 FIXTURES_REQUIRED "page_tools;page_plan")

add_test(NAME "page/a lesson is made for the pages"
  COMMAND evenpull contrast "${PROJECT_SOURCE_DIR}/cases/metal_aileron.toml" --quiet --out "${work}/contrast")
set_tests_properties("page/a lesson is made for the pages" PROPERTIES LABELS page TIMEOUT 600 FIXTURES_SETUP page_lesson)

add_test(NAME "page/the page of a lesson works in a browser, small and large"
  COMMAND ${CMAKE_COMMAND} -E env "EVENPULL_PAGE_TOOLS=${work}/tools" node "${here}/lesson_page.mjs" "${work}/contrast/lesson.html" "${work}/seen")
set_tests_properties("page/the page of a lesson works in a browser, small and large"
  PROPERTIES LABELS page TIMEOUT 600 FIXTURES_REQUIRED "page_tools;page_lesson")
