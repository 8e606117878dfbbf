# evenpull_add_room(<room> [PUBLIC_HEADERS <file>...] HEADERS <file>... SOURCES <file>...)
# A static library evenpull_<room> (alias evenpull::<room>) whose headers are included as "<room>/<file>". PUBLIC_HEADERS are
# those that are installed, by cmake/public_headers.cmake.
function(evenpull_add_room room)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "PUBLIC_HEADERS;HEADERS;SOURCES")
  add_library(evenpull_${room} STATIC ${arg_SOURCES})
  add_library(evenpull::${room} ALIAS evenpull_${room})
  target_compile_features(evenpull_${room} PUBLIC cxx_std_20)
  set_target_properties(evenpull_${room} PROPERTIES EXPORT_NAME ${room} POSITION_INDEPENDENT_CODE ON)
  target_include_directories(evenpull_${room} PUBLIC "$<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}>")
  # A target of its own lets `dev` check that each header stands alone, those that are not installed too.
  add_library(evenpull_${room}_headers INTERFACE)
  target_sources(evenpull_${room}_headers INTERFACE
    FILE_SET HEADERS BASE_DIRS "${PROJECT_SOURCE_DIR}" FILES ${arg_PUBLIC_HEADERS} ${arg_HEADERS})
  target_link_libraries(evenpull_${room}_headers INTERFACE evenpull_${room})
  list(TRANSFORM arg_PUBLIC_HEADERS PREPEND "${room}/" OUTPUT_VARIABLE public)
  set_property(GLOBAL APPEND PROPERTY EVENPULL_PUBLIC_HEADERS ${public})
endfunction()
