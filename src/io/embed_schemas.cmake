# SPDX-License-Identifier: GPL-3.0-or-later
# Writes the schema files as string literals: cmake -DOUT=… -DSCHEMAS=a,b -P embed_schemas.cmake
string(REPLACE "," ";" paths "${SCHEMAS}")
set(rows "")
foreach(path IN LISTS paths)
  get_filename_component(name "${path}" NAME)
  string(REPLACE ".schema.json" "" name "${name}")
  file(READ "${path}" text)
  string(APPEND rows "    {\"${name}\", R\"schema(${text})schema\"},\n")
endforeach()
file(WRITE "${OUT}" "// Made by embed_schemas.cmake.
#include <string_view>
#include \"json/schema_texts.h\"
namespace tinwright {
const std::vector<SchemaText>& schemaTexts() {
  static const std::vector<SchemaText> texts{
${rows}  };
  return texts;
}
}  // namespace tinwright
")
