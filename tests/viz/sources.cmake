set(EVENPULL_VIZ_TESTS
  reading.cpp
  test_advice_words.cpp
  test_attach_words.cpp
  test_after_iron_words.cpp
  test_colours.cpp
  test_fields.cpp
  test_film.cpp
  test_joint_words.cpp
  test_lesson.cpp
  test_coupon_slip.cpp
  test_iron_card.cpp
  test_packed.cpp
  test_page.cpp
  test_push_slip.cpp
  test_pictures.cpp
  test_many.cpp
  test_note_words.cpp
  test_order_words.cpp
  test_runs.cpp
  test_section_words.cpp
  test_sentences.cpp
  test_time_words.cpp
  test_sheet.cpp
  test_survey_picture.cpp
  test_survey_text.cpp
  test_tap_slip.cpp
  test_text.cpp
  test_trouble.cpp
  test_wording.cpp
)
find_package(PkgConfig REQUIRED)
pkg_check_modules(CAIRO_READ REQUIRED IMPORTED_TARGET cairo)
find_package(ZLIB REQUIRED)
find_package(nlohmann_json REQUIRED)
find_package(VTK 9.1 COMPONENTS CommonCore CommonDataModel IOXML REQUIRED)
set(EVENPULL_VIZ_TEST_LIBRARIES PkgConfig::CAIRO_READ VTK::CommonCore VTK::CommonDataModel VTK::IOXML
  ZLIB::ZLIB nlohmann_json::nlohmann_json)
