# `cmake --install <build>` puts the command under bin/; component `development` the two libraries, headers and package.
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
  FILE_SET HEADERS DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}/evenpull" COMPONENT development
  INCLUDES DESTINATION "${CMAKE_INSTALL_INCLUDEDIR}/evenpull")
set(package_folder "${CMAKE_INSTALL_LIBDIR}/cmake/evenpull")
install(EXPORT evenpullTargets NAMESPACE evenpull:: DESTINATION "${package_folder}" COMPONENT development)
configure_package_config_file("${PROJECT_SOURCE_DIR}/cmake/evenpullConfig.cmake.in"
  "${PROJECT_BINARY_DIR}/evenpullConfig.cmake" INSTALL_DESTINATION "${package_folder}")
write_basic_package_version_file("${PROJECT_BINARY_DIR}/evenpullConfigVersion.cmake" COMPATIBILITY SameMinorVersion)
install(FILES "${PROJECT_BINARY_DIR}/evenpullConfig.cmake" "${PROJECT_BINARY_DIR}/evenpullConfigVersion.cmake"
  DESTINATION "${package_folder}" COMPONENT development)
install(FILES "${PROJECT_SOURCE_DIR}/LICENSE" TYPE DOC COMPONENT development)
