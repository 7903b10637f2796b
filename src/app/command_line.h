// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>

#include "option_table.h"

namespace tinwright::app {

enum class Command { kPlan, kTry };

/// What was asked for, as it was typed; names are not looked up yet.
struct CommandLine {
    Command command = Command::kPlan;
    std::string part_path;
    std::string shop_path;
    std::optional<std::string> brake;  ///< none: every brake of the shop
    std::string formed;                ///< "a,b"
    std::string order;                 ///< "a,b+c,d", for `try`
    std::optional<std::string> json;   ///< file, or "-"
    std::optional<std::string> sheet;  ///< file for the bench sheet
    std::optional<std::string> svg;    ///< folder for its drawings
    std::optional<std::string> glb;    ///< file for the folds as moving bodies
    double plans = kPlansOption.standard;
    double threads = kThreadsOption.standard;
    double time_limit_s = kTimeLimitOption.standard;
    bool verify = false;
    std::string log_level = "warn";
};

/// Either a command to carry out, or the exit code of a program that has nothing more to do: help and version were
/// printed, or the complaint about what was typed was.
struct ParsedCommandLine {
    std::optional<CommandLine> command;
    int exit_code = 0;
};

[[nodiscard]] ParsedCommandLine parseCommandLine(int argc, const char* const* argv);

}  // namespace tinwright::app
