// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "files/inputs.h"
#include "options/command_line.h"

namespace tinwright::app {

/// `tinwright plan`: plans, replays when asked, writes JSON and text. Gives the exit code.
int runPlan(const CommandLine& line, const Inputs& inputs);

/// `tinwright try`: simulates the order on each brake asked about. Gives the exit code.
int runTry(const CommandLine& line, const Inputs& inputs);

/// `tinwright blank`: writes the blank as a drawing. Gives the exit code.
int runBlank(const CommandLine& line);

/// `tinwright bars`: strings of bars under an inside width. Gives the exit code.
int runBars(const CommandLine& line);

/// `tinwright suit`: suggestions, and the changed part when one is taken. Gives the exit code.
int runSuit(const CommandLine& line, const Inputs& inputs);

/// `tinwright check`: what the metal does, before any is cut. Gives the exit code: 1 when there is a fault.
int runCheck(const CommandLine& line);

/// `tinwright screen`: parts against the brakes of the shop. Gives the exit code: of the part that is worst off.
int runScreen(const CommandLine& line);

/// `tinwright explain`: what stands behind an id of a finding, or the list of all. Gives the exit code.
int runExplain(const CommandLine& line);

/// `tinwright start`: writes the recipe of a part for a component. Gives the exit code.
int runStart(const CommandLine& line);

/// `tinwright calibrate`: test strips to k-factor and deduction, into the shop file when asked. Gives the exit code.
int runCalibrate(const CommandLine& line);

}  // namespace tinwright::app
