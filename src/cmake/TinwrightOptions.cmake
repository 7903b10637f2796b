# SPDX-License-Identifier: GPL-3.0-or-later
# Warnings, optimisation, sanitizers and floating-point rules shared by every target of this project; all private.
include(TinwrightUnits)

add_library(tinwright_build_options INTERFACE)
target_compile_options(tinwright_build_options INTERFACE -Wall -Wextra -Wpedantic -Wconversion -ffp-contract=off)
# GCC 12 warns falsely inside "literal" + std::string when it inlines (GCC bug 105651).
target_compile_options(tinwright_build_options INTERFACE $<$<AND:$<CXX_COMPILER_ID:GNU>,$<VERSION_LESS:$<CXX_COMPILER_VERSION>,13>>:-Wno-restrict>)
if(TINWRIGHT_WERROR)
  target_compile_options(tinwright_build_options INTERFACE -Werror)
endif()
if(TINWRIGHT_SANITIZE)
  # With the sanitizers in, GCC 12 takes members of std::function inside <regex> for uninitialised (GCC bug 105562).
  target_compile_options(tinwright_build_options INTERFACE -Wno-maybe-uninitialized)
  target_compile_options(tinwright_build_options INTERFACE -fsanitize=${TINWRIGHT_SANITIZE} -fno-sanitize-recover=all -fno-omit-frame-pointer)
  target_link_options(tinwright_build_options INTERFACE -fsanitize=${TINWRIGHT_SANITIZE})
endif()

# How hard a target is optimised in a release build: -O3 where planning spends its time (-O2 takes up to 4 % more instructions), -O1 where
# nothing that is measured is lost
# (tests/bench/instructions).
function(tinwright_optimise target level)
  target_compile_options(${target} PRIVATE $<$<CONFIG:Release>:-O${level}>)
endfunction()

# One floor of the library: tinwright_floor(NAME OPTIMISE level SOURCES … USES floors below … LIBRARIES …)
# A floor sees the headers of all floors (one include folder); tests/include_direction checks the direction.
function(tinwright_floor name)
  cmake_parse_arguments(ARG "" "OPTIMISE" "SOURCES;USES;LIBRARIES;PRIVATE_LIBRARIES" ${ARGN})
  add_library(tinwright_${name} STATIC ${ARG_SOURCES})
  add_library(tinwright::${name} ALIAS tinwright_${name})
  set_target_properties(tinwright_${name} PROPERTIES EXPORT_NAME ${name} POSITION_INDEPENDENT_CODE ON)
  target_compile_features(tinwright_${name} PUBLIC cxx_std_20)
  target_include_directories(tinwright_${name} PUBLIC
    $<BUILD_INTERFACE:${PROJECT_SOURCE_DIR}/include> $<INSTALL_INTERFACE:${CMAKE_INSTALL_INCLUDEDIR}>
    PRIVATE ${CMAKE_CURRENT_SOURCE_DIR})
  foreach(floor IN LISTS ARG_USES)
    target_link_libraries(tinwright_${name} PUBLIC tinwright_${floor})
  endforeach()
  target_link_libraries(tinwright_${name} PUBLIC ${ARG_LIBRARIES} PRIVATE $<BUILD_INTERFACE:tinwright_build_options> ${ARG_PRIVATE_LIBRARIES})
  tinwright_optimise(tinwright_${name} ${ARG_OPTIMISE})
  tinwright_units(tinwright_${name})
endfunction()
