// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>
#include <exception>
#include <new>
#include <vector>

#include "commands/commands.h"
#include "console/exit_code.h"
#include "console/log.h"
#include "options/parse.h"

namespace {

using namespace tinwright;
using namespace tinwright::app;

/// In the order of the help.
std::vector<Command> allCommands() {
    return {planCommand(),  tryCommand(),       blankCommand(),  barsCommand(),  suitCommand(),
            startCommand(), calibrateCommand(), screenCommand(), checkCommand(), explainCommand()};
}

int run(int argc, char** argv) {
    setUpLog();
    const std::vector<Command> commands = allCommands();
    const ParsedCommandLine parsed = parseCommandLine(argc, argv, commands);
    return parsed.command != nullptr ? parsed.command->run() : parsed.exit_code;
}

}  // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const std::bad_alloc&) {
        std::fputs("tinwright: not enough memory for this part and shop\n", stderr);
    } catch (const std::exception& error) {
        std::fprintf(stderr, "tinwright: internal error, please report it: %s\n", error.what());
    }
    return kBadInputExit;
}
