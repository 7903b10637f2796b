// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/trouble_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "words/words.h"

namespace tinwright::report {

std::vector<std::string> careWords(const Part& part, const Care& care) {
    std::vector<std::string> words;
    if (care.bars_packed) {
        words.push_back(
            fmt::format("put an offcut of the same {} mm sheet under the back of the bars: less of the part lies under "
                        "them than they are deep, and they would tip",
                        millimetres(part.thickness_mm)));
    }
    if (care.bars_clamped) {
        words.emplace_back(
            "a clamp at each end of the bars, which by themselves would lift or slide back; or two passes, the bars "
            "set "
            "again between them");
    }
    if (care.in_tongs)
        words.emplace_back("hold it in tongs or by a magnet handle: little of it stands out in front of the tools");
    return words;
}

std::string careBrief(const Care& care) {
    std::vector<std::string> words;
    if (care.bars_packed) words.emplace_back("bars packed");
    if (care.bars_clamped) words.emplace_back("bars clamped");
    if (care.in_tongs) words.emplace_back("tongs");
    return listed(words);
}

std::string spoiltBrief(const std::vector<Finding>& spoiling) {
    const Finding& first = spoiling.front();
    const std::string more = spoiling.size() == 1 ? "" : fmt::format("; and {} more", spoiling.size() - 1);
    return fmt::format("{}: {}{}", first.feature, first.words, more);
}

std::string spoiltList(const std::vector<Finding>& spoiling) {
    std::vector<std::string> words;
    for (const Finding& finding : spoiling) {
        std::string one = fmt::format("{} ({})", finding.feature, finding.id);
        if (std::find(words.begin(), words.end(), one) == words.end()) words.push_back(std::move(one));
    }
    return listed(words);
}

std::string gravityWords(const Finding& finding) {
    if (finding.severity == Severity::kOverload) return "OVERLOAD: ";
    if (finding.severity == Severity::kFault) return "FAULT: ";
    return consequenceOf(finding) == Consequence::kSpoils ? "SPOILS: " : "";
}

}  // namespace tinwright::report
