// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <tinwright/forming/rules/finding.h>
#include <tinwright/part/model/part.h>

namespace tinwright {

/// As people are told it: "move display_window 11 mm away from side_front".
[[nodiscard]] std::string cureWords(const Part& part, const CutOutCure& cure);

/// The part with it, the same in all else; a cut-out that is cut after folding is left out, one with tabs has become
/// several. Nothing when the cut-out is no hole of one panel, or would run over its edge or into another.
[[nodiscard]] std::optional<Part> withCure(const Part& part, const CutOutCure& cure);
/// The same with several, of different cut-outs.
[[nodiscard]] std::optional<Part> withCures(const Part& part, std::vector<CutOutCure> cures);

}  // namespace tinwright
