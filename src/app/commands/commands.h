// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "options/command.h"

namespace tinwright::app {

/// The commands of the program, each in its file with its options.
[[nodiscard]] Command planCommand();       ///< orders of folds that work; replays them when asked
[[nodiscard]] Command tryCommand();        ///< one order, fold by fold
[[nodiscard]] Command blankCommand();      ///< the blank as a drawing
[[nodiscard]] Command barsCommand();       ///< strings of bars under an inside width
[[nodiscard]] Command suitCommand();       ///< dimensions that suit the bars; writes the part when one is taken
[[nodiscard]] Command startCommand();      ///< the recipe of a part for a component
[[nodiscard]] Command calibrateCommand();  ///< test strips to k-factor and deduction, into the shop file when asked
[[nodiscard]] Command screenCommand();     ///< parts against the brakes of the shop
[[nodiscard]] Command checkCommand();      ///< what the metal does, before any is cut
[[nodiscard]] Command explainCommand();    ///< what stands behind an id of a finding

}  // namespace tinwright::app
