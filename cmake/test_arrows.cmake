# Fails on an include against the arrows between rooms and between the sub-rooms of a room (DEVELOPERS.md), and on files,
# threads or printing in solver and sequencer.
# cmake -D ROOT=<repository> -P test_arrows.cmake
set(above_solver "sequencer|viz|shop|app|tests|bench")
set(above_sequencer "viz|shop|app|tests|bench")
set(above_viz "app|tests|bench")
set(above_shop "viz|app|tests|bench")
set(above_app "tests|bench")

# Sub-rooms, lowest first: each may include those before it.
set(sub_rooms_of_solver statement geometry numerics cloth frame heat equilibrium readings ironing sound)
set(sub_rooms_of_sequencer numbers plan orders replay search choice sure measured planner)
set(sub_rooms_of_viz words kit panel sheet pictures page lesson fields)
set(sub_rooms_of_app text input sound output command)

# What may not stand in an include of the pure rooms, and what may not be called there.
set(impure_header "<(iostream|fstream|cstdio|stdio\\.h|thread|future|mutex|filesystem|print|syncstream)>")
set(impure_call "(std::(cout|cerr|clog)|[^a-z_](f|v|vf)?printf *\\(|[^a-z_]puts *\\(|std::(thread|async))")

set(complaints "")
# Collects `<file>: <line>` for every line of `file` that matches `pattern`.
function(complain_of file pattern why)
  file(STRINGS "${file}" hits REGEX "${pattern}")
  foreach(hit IN LISTS hits)
    if(NOT hit MATCHES "^[ \t]*//")
      string(APPEND complaints "${file}: ${hit}\n    ${why}\n")
    endif()
  endforeach()
  set(complaints "${complaints}" PARENT_SCOPE)
endfunction()

# A file lies in a sub-room that is listed, and includes none above it.
function(check_sub_room room file)
  file(RELATIVE_PATH path "${ROOT}/${room}" "${file}")
  string(REGEX MATCH "^[^/]+" sub_room "${path}")
  list(FIND sub_rooms_of_${room} "${sub_room}" index)
  if(index EQUAL -1)
    string(APPEND complaints "${file}: lies in no sub-room of ${room}\n    they are ${sub_rooms_of_${room}}\n")
  else()
    set(above ${sub_rooms_of_${room}})
    foreach(unused RANGE ${index})
      list(POP_FRONT above)
    endforeach()
    if(above)
      list(JOIN above "|" above)
      complain_of("${file}" "^[ \t]*#[ \t]*include[ \t]*\"${room}/(${above})/" "${room}/${sub_room} lies below this sub-room")
    endif()
  endif()
  set(complaints "${complaints}" PARENT_SCOPE)
endfunction()

foreach(room IN ITEMS solver sequencer viz shop app)
  file(GLOB_RECURSE files "${ROOT}/${room}/*.hpp" "${ROOT}/${room}/*.cpp")
  foreach(file IN LISTS files)
    if(sub_rooms_of_${room})
      check_sub_room(${room} "${file}")
    endif()
    complain_of("${file}" "^[ \t]*#[ \t]*include[ \t]*[\"<](${above_${room}})/" "${room} may not use this room")
    complain_of("${file}" "^[ \t]*#[ \t]*include[ \t]*\"\\.\\./" "include from the root of the repository")
    if(room MATCHES "^(solver|sequencer)$")
      complain_of("${file}" "^[ \t]*#[ \t]*include[ \t]*${impure_header}" "${room} has no files, threads or printing")
      complain_of("${file}" "${impure_call}" "${room} has no files, threads or printing")
      complain_of("${file}" "^[ \t]*#[ \t]*include[ \t]*<(vtk|cairo|pango|toml|nlohmann|CLI|fmt)"
        "${room} builds with Eigen and Boost alone")
    endif()
    if(room STREQUAL "viz" AND file MATCHES "\\.hpp$" AND NOT file MATCHES "/(detail|internal)/")
      complain_of("${file}" "^[ \t]*#[ \t]*include[ \t]*[<\"](vtk|cairo|pango)" "no drawing library in a header of viz")
    endif()
  endforeach()
endforeach()

if(complaints)
  message(FATAL_ERROR "${complaints}")
endif()
