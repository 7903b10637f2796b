// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// How hems are closed after their fold, as one does it at the bench. Precondition: the step has a closing.
[[nodiscard]] std::string closingText(const Part& part, const BrakeInSetup& brake, const FoldStep& step);

/// Why a hem is not closed, in words that go on from "the hem is not closed: ".
[[nodiscard]] std::string closingTroubleWords(const Part& part, const BrakeInSetup& brake,
                                              const ClosingTrouble& trouble);

}  // namespace tinwright::report
