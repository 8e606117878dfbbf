# evenpull_add_room(<room> HEADERS <file>... SOURCES <file>...)
# A static library evenpull_<room> (alias evenpull::<room>) whose headers are included as "<room>/<file>".
function(evenpull_add_room room)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "HEADERS;SOURCES")
  if(NOT arg_SOURCES)
    # A room of headers alone still needs one translation unit to be a library.
    set(stub "${CMAKE_CURRENT_BINARY_DIR}/no_sources_yet.cpp")
    file(CONFIGURE OUTPUT "${stub}" CONTENT "")
    set(arg_SOURCES "${stub}")
  endif()
  add_library(evenpull_${room} STATIC ${arg_SOURCES})
  add_library(evenpull::${room} ALIAS evenpull_${room})
  target_compile_features(evenpull_${room} PUBLIC cxx_std_20)
  set_target_properties(evenpull_${room} PROPERTIES EXPORT_NAME ${room} POSITION_INDEPENDENT_CODE ON)
  # FILE_SET carries the include folder, the list of headers to install, and lets `dev` check that each stands alone.
  target_sources(evenpull_${room} PUBLIC
    FILE_SET HEADERS BASE_DIRS "${PROJECT_SOURCE_DIR}" FILES ${arg_HEADERS})
  # Not installed headers of the room are included by the same path.
  target_include_directories(evenpull_${room} PUBLIC "$<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}>")
endfunction()
