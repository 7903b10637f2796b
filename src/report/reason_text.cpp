// SPDX-License-Identifier: GPL-3.0-or-later
#include "reason_text.h"

#include <fmt/format.h>

#include "words.h"
#include "wrap.h"

namespace tinwright::report {
namespace {

/// For a reason that came without a sentence.
std::string plainWords(const Part& part, const Reason& reason) {
    std::string words;
    if (!reason.bends.empty()) {
        words = fmt::format("{}, holding {}: ", strokeName(part, reason.bends),
                            heldName(part, reason.bends.front(), reason.hold));
    }
    if (reason.panel.empty() || reason.body.empty()) return words + "cannot be made (" + reason.code + ")";
    return words + fmt::format("{} meets {} at {}", reason.panel, reason.body, degrees(reason.at_deg));
}

}  // namespace

std::string reasonsText(const Part& part, const std::vector<Reason>& reasons) {
    std::string text;
    for (const Reason& reason : reasons) text += bullet(reason.words.empty() ? plainWords(part, reason) : reason.words);
    return text;
}

}  // namespace tinwright::report
