# SPDX-License-Identifier: GPL-3.0-or-later
# Installs program, floors, headers, schemas and generic tooling, and exports the floors for find_package(tinwright).
include(CMakePackageConfigHelpers)

set(TINWRIGHT_FLOORS "")
foreach(floor IN ITEMS base geometry part brake forming fold sequence verify io report)
  if(TARGET tinwright_${floor})
    list(APPEND TINWRIGHT_FLOORS tinwright_${floor})
  endif()
endforeach()
set(TINWRIGHT_HAS_VERIFY OFF)
if(TARGET tinwright_verify)
  set(TINWRIGHT_HAS_VERIFY ON)
endif()
set(config_dir "${CMAKE_INSTALL_LIBDIR}/cmake/tinwright")

if(TARGET tinwright)
  install(TARGETS tinwright COMPONENT program)
  if(TARGET tinwright_verifier)
    install(TARGETS tinwright_verifier LIBRARY DESTINATION ${CMAKE_INSTALL_LIBDIR}/tinwright COMPONENT program)
  endif()
endif()
install(TARGETS ${TINWRIGHT_FLOORS} EXPORT tinwrightTargets COMPONENT development)
install(EXPORT tinwrightTargets NAMESPACE tinwright:: DESTINATION ${config_dir} COMPONENT development)
install(DIRECTORY "${PROJECT_SOURCE_DIR}/include/" DESTINATION ${CMAKE_INSTALL_INCLUDEDIR} COMPONENT development FILES_MATCHING PATTERN "*.h")
install(DIRECTORY "${PROJECT_SOURCE_DIR}/tooling" "${PROJECT_SOURCE_DIR}/src/io/schema"
  DESTINATION ${CMAKE_INSTALL_DATADIR}/tinwright COMPONENT program FILES_MATCHING PATTERN "*.json")
install(FILES "${PROJECT_SOURCE_DIR}/LICENSE" DESTINATION ${CMAKE_INSTALL_DOCDIR} COMPONENT program RENAME copyright)

configure_package_config_file(
  "${CMAKE_CURRENT_LIST_DIR}/tinwrightConfig.cmake.in" "${PROJECT_BINARY_DIR}/tinwrightConfig.cmake"
  INSTALL_DESTINATION ${config_dir})
write_basic_package_version_file("${PROJECT_BINARY_DIR}/tinwrightConfigVersion.cmake" COMPATIBILITY SameMinorVersion)
install(FILES "${PROJECT_BINARY_DIR}/tinwrightConfig.cmake" "${PROJECT_BINARY_DIR}/tinwrightConfigVersion.cmake"
  DESTINATION ${config_dir} COMPONENT development)
