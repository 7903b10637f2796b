// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/base/result.h>
#include <tinwright/part/part.h>

#include "command_line.h"

namespace tinwright::app {

/// The part that was asked about: a recipe, or a blank in DXF with its bends file when the name ends in ".dxf".
/// Issue "part.kind" when options for drawings are given for a recipe.
[[nodiscard]] Result<Part> readPart(const CommandLine& line);

/// Files that are read, which no output may replace.
[[nodiscard]] std::vector<std::string> inputFiles(const CommandLine& line);

}  // namespace tinwright::app
