# evenpull_add_room(<room> [PUBLIC_HEADERS <file>...] HEADERS <file>... SOURCES <file>...)
# A static library evenpull_<room> (alias evenpull::<room>) whose headers are included as "<room>/<file>". PUBLIC_HEADERS
# are those that are installed, by cmake/public_headers.cmake.
#
# evenpull_compile_together(<target> [ALONE <file or sub-room>...]): the files of a sub-room are compiled as one, but
# for those ALONE, whose names clash with a neighbour's. Most of a small file's time goes into headers, so this saves
# about half. It hides a missing include: the presets `dev` and `headers-only` build file by file. The solver is
# never put together.
option(EVENPULL_TOGETHER "Compile the files of a sub-room as one" ON)

function(evenpull_compile_together target)
  cmake_parse_arguments(PARSE_ARGV 1 arg "" "" "ALONE")
  if(NOT EVENPULL_TOGETHER)
    return()
  endif()
  set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_MODE GROUP)
  get_target_property(sources ${target} SOURCES)
  foreach(source IN LISTS sources)
    get_filename_component(sub_room "${source}" DIRECTORY)
    if(NOT IS_ABSOLUTE "${source}" AND NOT source IN_LIST arg_ALONE AND NOT sub_room IN_LIST arg_ALONE)
      set_source_files_properties("${source}" PROPERTIES UNITY_GROUP "${sub_room}")
    endif()
  endforeach()
endfunction()

# evenpull_compile_quickly(<target>): what reads, words and draws leaves its time in libraries, and optimising it as the
# physics is takes a third of the time that the program takes to build.
function(evenpull_compile_quickly target)
  target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O1>)
endfunction()

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
