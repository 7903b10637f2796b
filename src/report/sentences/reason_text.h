// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/brake/plan/plan.h>
#include <tinwright/part/model/part.h>

namespace tinwright::report {

/// A sentence, and the first of the reasons that it tells.
struct ReasonSentence {
    const Reason* reason = nullptr;
    std::string words;
};

/// Reasons in their order, a sentence each. Two that say the same of either side of a bend at the back of a press brake
/// are told once. Those without words are told with the part's names, when there is a part. The reasons must outlive
/// what is returned.
[[nodiscard]] std::vector<ReasonSentence> sentencesOf(const std::vector<Reason>& reasons, const Part* part = nullptr);

/// Why folds cannot be made, as a list. The sentence of a reason names fold and side held itself.
[[nodiscard]] std::string reasonsText(const Part& part, const std::vector<Reason>& reasons);

}  // namespace tinwright::report
