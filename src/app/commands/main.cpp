// SPDX-License-Identifier: GPL-3.0-or-later
#include <cstdio>
#include <exception>
#include <new>

#include "commands/commands.h"
#include "console/complain.h"
#include "console/exit_code.h"
#include "console/log.h"
#include "files/inputs.h"
#include "options/command_line.h"

namespace {

using namespace tinwright;
using namespace tinwright::app;

int carryOut(const CommandLine& line) {
    if (line.command == Command::kBlank) return runBlank(line);
    if (line.command == Command::kBars) return runBars(line);
    if (line.command == Command::kStart) return runStart(line);
    if (line.command == Command::kCalibrate) return runCalibrate(line);
    if (line.command == Command::kCheck) return runCheck(line);
    if (line.command == Command::kExplain) return runExplain(line);
    if (line.command == Command::kScreen) return runScreen(line);
    const Result<Inputs> inputs = readInputs(line);
    if (!inputs) return complain(inputs.issues());
    if (line.command == Command::kSuit) return runSuit(line, inputs.value());
    return line.command == Command::kPlan ? runPlan(line, inputs.value()) : runTry(line, inputs.value());
}

int run(int argc, char** argv) {
    const ParsedCommandLine parsed = parseCommandLine(argc, argv);
    if (!parsed.command) return parsed.exit_code;
    setUpLog(parsed.command->log_level);
    return carryOut(*parsed.command);
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
