// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "options/option.h"

namespace tinwright::app {

/// A command of the program as the command line knows it. Each has its options in a struct of its own, into which
/// `options` point and which `run` holds.
struct Command {
    const char* name;
    const char* title;
    std::string footer;           ///< of its help: examples and exit codes
    std::vector<Option> options;  ///< in the order of the help
    std::function<int()> run;     ///< once the options are read; gives the exit code
};

/// A command with its arguments, which are kept for as long as it is.
template <class Arguments>
[[nodiscard]] Command makeCommand(const char* name, const char* title, std::string footer,
                                  std::vector<Option> (*options_of)(Arguments&), int (*run)(const Arguments&)) {
    const auto arguments = std::make_shared<Arguments>();
    return {name, title, std::move(footer), options_of(*arguments), [arguments, run] { return run(*arguments); }};
}

inline constexpr const char* kVerdictExitCodes =
    "Exit codes: 0 feasible, 1 infeasible, 2 bad input or usage, 3 undecided, 4 feasible with trouble.\n";
inline constexpr const char* kWrittenExitCodes =
    "Exit codes: 0 written, 2 bad input or usage.\n"
    "For plan and try: 0 feasible, 1 infeasible, 2 bad input or usage, 3 undecided.\n";

}  // namespace tinwright::app
