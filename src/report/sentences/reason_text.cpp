// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/reason_text.h"

#include <algorithm>

#include <fmt/format.h>

#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

/// For a reason that came without a sentence.
std::string plainWords(const Part& part, const Reason& reason) {
    std::string words;
    if (!reason.bends.empty()) {
        const std::string held = heldName(part, reason.bends.front(), reason.hold);
        words = fmt::format("{}, {}: ", strokeName(part, reason.bends),
                            reason.side.empty() ? "holding " + held : reason.side);
    }
    if (reason.panel.empty() || reason.body.empty()) return words + "cannot be made (" + reason.code + ")";
    return words + fmt::format("{} meets {} at {}", reason.panel, reason.body, degrees(reason.at_deg));
}

/// The same of either side; empty when it does not name the side.
std::string eitherSide(const Reason& reason) {
    if (reason.side.empty()) return {};
    const std::string side = ", " + reason.side;
    const std::size_t at = reason.words.find(side);
    if (at == std::string::npos) return {};
    return reason.words.substr(0, at) + ", whichever side is at the back" + reason.words.substr(at + side.size());
}

bool tellsTheSame(const Reason& a, const Reason& b) {
    const std::string words = eitherSide(a);
    return a.bends == b.bends && a.hold != b.hold && !words.empty() && words == eitherSide(b);
}

}  // namespace

std::vector<ReasonSentence> sentencesOf(const std::vector<Reason>& reasons, const Part* part) {
    std::vector<ReasonSentence> sentences;
    for (const Reason& reason : reasons) {
        const auto twin = std::find_if(sentences.begin(), sentences.end(),
                                       [&](const ReasonSentence& one) { return tellsTheSame(*one.reason, reason); });
        if (twin != sentences.end()) {
            twin->words = eitherSide(reason);
        } else {
            sentences.push_back(
                {&reason, reason.words.empty() && part != nullptr ? plainWords(*part, reason) : reason.words});
        }
    }
    return sentences;
}

std::string reasonsText(const Part& part, const std::vector<Reason>& reasons) {
    std::string text;
    for (const ReasonSentence& sentence : sentencesOf(reasons, &part)) text += bullet(sentence.words);
    return text;
}

}  // namespace tinwright::report
