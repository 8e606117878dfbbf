set(EVENPULL_DRAWINGS_TESTS
  test_true_size.cpp)
# Both come with what VTK needs to be built against.
find_package(GDAL REQUIRED)
find_package(LibXml2 REQUIRED)
set(EVENPULL_DRAWINGS_TEST_LIBRARIES GDAL::GDAL LibXml2::LibXml2)
