// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "closing/closing.h"
#include "closing/closing_tools.h"

namespace tinwright::replay {

/// The part between the flats, in one state.
struct PartClosing {
    std::vector<Body> others;   ///< what the returns do not carry, own strips left out
    std::vector<Body> returns;  ///< and what they carry
    std::vector<Body> strips;   ///< of the hems that are closed
};

/// Everything a closing is checked with, in its frame.
struct ClosingScene {
    HemStep hems;
    FoldStep step;  ///< told in that frame
    Setting setting;
    PartClosing folded;
    PartClosing closed;
    ClosingTools tools;
    VerifyOptions options;
};

/// The returns between their first fold and closed, against all but the tools and the parents.
void checkReturns(const ClosingScene& scene, std::vector<std::string>& wrong);

/// The tools on their way between open and closed, and the part on its way in and out.
void checkComings(const ClosingScene& scene, std::vector<std::string>& wrong);

}  // namespace tinwright::replay
