// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <string>
#include <vector>

#include <tinwright/report/sentences/reason_words.h>

namespace tinwright::report {

/// A sentence, and the first of the reasons that it tells.
struct ReasonSentence {
    const Reason* reason = nullptr;
    std::string words;
};

/// Reasons in their order, a sentence each. Two that say the same of either side of a bend held, on a kind of brake
/// where it may not matter (BrakeTerms::either_side), are told once. The reasons must outlive what is returned.
[[nodiscard]] std::vector<ReasonSentence> sentencesOf(const FoldContext& on, const std::vector<const Reason*>& reasons);
[[nodiscard]] std::vector<ReasonSentence> sentencesOf(const FoldContext& on, const std::vector<Reason>& reasons);

/// "holding base"; of a press brake "base at the back".
[[nodiscard]] std::string sideWords(const FoldContext& on, const Reason& reason);
/// reasonWords() with another word for the side.
[[nodiscard]] std::string reasonWordsOfSide(const FoldContext& on, const Reason& reason, const std::string& side);

/// The strip that is bent meets what lies beside it.
[[nodiscard]] bool ownStripMeets(const Reason& reason);
/// How deep a contact is said to be: what is no deeper than the contact tolerance is none, so 0.1 mm at the least.
[[nodiscard]] double toldDepth_mm(const Reason& reason);
/// A bar is so deep that it comes up on the fillet of a bend that is folded.
[[nodiscard]] bool meetsFilletInDepth(const FoldContext& on, const Reason& reason);
/// The contact lies past the angle that is wanted: only springback takes the fold there.
[[nodiscard]] bool overbendAlone(const Reason& reason);
/// A sentence says the same of both, but for the side held.
[[nodiscard]] bool toldAlike(const Reason& a, const Reason& b);

}  // namespace tinwright::report
