# SPDX-License-Identifier: GPL-3.0-or-later
# Rooms are compiled together. Most of a small file's time goes into its headers (Eigen, the standard library, JSON), so the files of
# a room, and of small rooms next to one another, are one unit of compilation.
option(TINWRIGHT_UNITS "Compile rooms together; OFF compiles each file by itself, which shows whether it includes what it uses" ON)

# A room is split over no two units; rooms follow one another into a unit while it has no more files than this. More makes units that
# two cores cannot share evenly.
set(TINWRIGHT_UNIT_FILES 12)

# tinwright_units(TARGET [FOLDER]): groups the sources of a target by the folder they are in. Sources made by the build, outside of
# FOLDER (by default the current one), stay by themselves. Files that share a unit must not use one private name for two things.
function(tinwright_units target)
  if(NOT TINWRIGHT_UNITS)
    return()
  endif()
  get_target_property(sources ${target} SOURCES)
  list(SORT sources)
  set(rooms "")
  foreach(source IN LISTS sources)
    if(source MATCHES "\\.cpp$" AND NOT IS_ABSOLUTE "${source}")
      get_filename_component(room "${source}" DIRECTORY)
      string(MAKE_C_IDENTIFIER "in_${room}" room)
      list(APPEND rooms ${room})
      list(APPEND files_${room} "${source}")
    endif()
  endforeach()
  list(REMOVE_DUPLICATES rooms)
  set(unit 1)
  set(in_unit 0)
  foreach(room IN LISTS rooms)
    list(LENGTH files_${room} count)
    math(EXPR together "${in_unit} + ${count}")
    if(in_unit GREATER 0 AND together GREATER TINWRIGHT_UNIT_FILES)
      math(EXPR unit "${unit} + 1")
      set(together ${count})
    endif()
    set(in_unit ${together})
    set_source_files_properties(${files_${room}} PROPERTIES UNITY_GROUP "${unit}")
  endforeach()
  set_target_properties(${target} PROPERTIES UNITY_BUILD ON UNITY_BUILD_MODE GROUP)
endfunction()
