// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "run_program.h"

namespace tinwright::program_test {

/// The text is what tests/program/golden has; with TINWRIGHT_UPDATE_GOLDEN set the file is written first.
void checkGolden(const std::string& file, const std::string& text);

/// Exit code 2, these words among the complaints, and no output.
void checkRefused(const Outcome& outcome, const std::string& words);

}  // namespace tinwright::program_test
