# SPDX-License-Identifier: GPL-3.0-or-later
# Installs a build into a folder of its own, then configures, builds and runs the consumer project against it:
# cmake -DBUILD=… -DSTAGE=… -DCONSUMER=… -DCONFIG=… -DFLAGS=… -P install_and_use.cmake
file(REMOVE_RECURSE "${STAGE}")
function(run)
  execute_process(COMMAND ${ARGN} RESULT_VARIABLE code OUTPUT_VARIABLE output ERROR_VARIABLE output)
  if(NOT code EQUAL 0)
    message(FATAL_ERROR "failed (${code}): ${ARGN}\n${output}")
  endif()
endfunction()

run(${CMAKE_COMMAND} --install "${BUILD}" --prefix "${STAGE}/installed")
run(${CMAKE_COMMAND} -S "${CONSUMER}" -B "${STAGE}/build" -G Ninja "-DCMAKE_PREFIX_PATH=${STAGE}/installed"
  "-DCMAKE_BUILD_TYPE=${CONFIG}" "-DCMAKE_CXX_FLAGS=${FLAGS}")
run(${CMAKE_COMMAND} --build "${STAGE}/build")
run("${STAGE}/build/consumer" "${STAGE}/installed/share/tinwright/tooling")
if(EXISTS "${STAGE}/installed/bin/tinwright")
  run("${STAGE}/installed/bin/tinwright" --version)
endif()
