// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include "options/command.h"

namespace tinwright::app {

/// Either the command to run, whose options are read, or the exit code of a program that has nothing more to do: help
/// or version was printed, or the complaint about what was typed.
struct ParsedCommandLine {
    const Command* command = nullptr;  ///< one of those handed in
    int exit_code = 0;
};

[[nodiscard]] ParsedCommandLine parseCommandLine(int argc, const char* const* argv,
                                                 const std::vector<Command>& commands);

}  // namespace tinwright::app
