// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include "run_program.h"

namespace tinwright::program_test {

/// The text is what tests/program/golden has; with TINWRIGHT_UPDATE_GOLDEN set the file is written first.
void checkGolden(const std::string& file, const std::string& text);

/// A bracket that goes by its geometry, of sheet that the shipped machines are not rated for.
inline constexpr const char* kTooThickBracket =
    R"({"format":"tinwright-part/1","units":"mm","name":"thick","sheet":{"material":"mild-steel","thickness":6},
        "allowance":{"rule":"k-factor","k":0.44},"inside_radius":4,"measured":"outside","base":{"name":"floor","width":200,"depth":120},
        "flanges":[{"name":"leg","on":"floor.front","length":60}]})";

/// Exit code 2, these words among the complaints, and no output.
void checkRefused(const Outcome& outcome, const std::string& words);

}  // namespace tinwright::program_test
