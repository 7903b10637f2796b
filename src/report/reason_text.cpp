// SPDX-License-Identifier: GPL-3.0-or-later
#include "reason_text.h"

#include <fmt/format.h>

#include "words.h"
#include "wrap.h"

namespace tinwright::report {
namespace {

/// For a reason that came without a sentence.
std::string plainWords(const Reason& reason) {
    if (reason.panel.empty() || reason.body.empty()) return "cannot be made (" + reason.code + ")";
    return fmt::format("{} meets {} at {}", reason.panel, reason.body, degrees(reason.at_deg));
}

std::string depthText(const Reason& reason) {
    return reason.depth_mm > 0.05 ? fmt::format(" (by {} mm or more)", millimetres(reason.depth_mm)) : "";
}

std::string reasonText(const Part& part, const Reason& reason) {
    std::string words = (reason.words.empty() ? plainWords(reason) : reason.words) + depthText(reason);
    if (reason.bends.empty()) return words;
    return fmt::format("{}, holding {}: {}", strokeName(part, reason.bends),
                       heldName(part, reason.bends.front(), reason.hold), words);
}

}  // namespace

std::string reasonsText(const Part& part, const std::vector<Reason>& reasons) {
    std::string text;
    for (const Reason& reason : reasons) text += bullet(reasonText(part, reason));
    return text;
}

}  // namespace tinwright::report
