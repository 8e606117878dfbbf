# `cmake --install <build>` puts the command under bin/; component `development` the two
# libraries, their public headers and the package.
include(GNUInstallDirs)
include(CMakePackageConfigHelpers)

if(TARGET evenpull)
  install(TARGETS evenpull RUNTIME COMPONENT command)
  set(manual "${PROJECT_BINARY_DIR}/app/manual")
  install(FILES "${manual}/evenpull.1" DESTINATION "${CMAKE_INSTALL_MANDIR}/man1" COMPONENT command)
  install(FILES "${manual}/evenpull.bash" DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions" RENAME evenpull
    COMPONENT command)
  install(FILES "${manual}/_evenpull" DESTINATION "${CMAKE_INSTALL_DATADIR}/zsh/site-functions" COMPONENT command)
  install(FILES "${manual}/evenpull.fish" DESTINATION "${CMAKE_INSTALL_DATADIR}/fish/vendor_completions.d" COMPONENT command)
  install(FILES "${PROJECT_SOURCE_DIR}/CHANGELOG.md" "${PROJECT_SOURCE_DIR}/CITATION.cff" "${PROJECT_SOURCE_DIR}/LICENSE"
    TYPE DOC COMPONENT command)
endif()
install(TARGETS evenpull_solver evenpull_sequencer EXPORT evenpullTargets
  ARCHIVE COMPONENT development
  INCLUDES DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}")
get_property(headers GLOBAL PROPERTY EVENPULL_PUBLIC_HEADERS)
set(written "${PROJECT_BINARY_DIR}/public_headers")
install(CODE "execute_process(COMMAND \"${CMAKE_COMMAND}\" -D \"ROOT=${PROJECT_SOURCE_DIR}\" -D \"HEADERS=${headers}\"
  -D \"TO=${written}\" -P \"${PROJECT_SOURCE_DIR}/cmake/public_headers.cmake\" COMMAND_ERROR_IS_FATAL ANY)"
  COMPONENT development)
install(DIRECTORY "${written}/" DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}/evenpull" COMPONENT development)
set(package_folder "${CMAKE_INSTALL_LIBDIR}/cmake/evenpull")
install(EXPORT evenpullTargets NAMESPACE evenpull:: DESTINATION "${package_folder}" COMPONENT development)
configure_package_config_file("${PROJECT_SOURCE_DIR}/cmake/evenpullConfig.cmake.in"
  "${PROJECT_BINARY_DIR}/evenpullConfig.cmake" INSTALL_DESTINATION "${package_folder}")
write_basic_package_version_file("${PROJECT_BINARY_DIR}/evenpullConfigVersion.cmake" COMPATIBILITY SameMinorVersion)
install(FILES "${PROJECT_BINARY_DIR}/evenpullConfig.cmake" "${PROJECT_BINARY_DIR}/evenpullConfigVersion.cmake"
  DESTINATION "${package_folder}" COMPONENT development)
install(FILES "${PROJECT_SOURCE_DIR}/LICENSE" TYPE DOC COMPONENT development)
