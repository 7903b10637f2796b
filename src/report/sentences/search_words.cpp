// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/search_words.h"

#include <fmt/format.h>

#include "sentences/reason_text.h"
#include "words/words.h"

namespace tinwright::report {

std::string provenWords(const BrakeResult& result) {
    if (result.plans.empty()) return {};
    const std::string none = result.as_pinned ? "no order weighed as pinned takes less" : "no order weighed takes less";
    return result.work.proven_best ? none : none + " than " + duration(result.work.least_ms);
}

std::string freeRuns(const Plan& plan) {
    std::vector<std::string> runs;
    int at = 1;
    for (const int size : plan.any_order) {
        if (size == 2) runs.push_back(fmt::format("folds {} and {}", at, at + 1));
        if (size > 2) runs.push_back(fmt::format("folds {} to {}", at, at + size - 1));
        at += size;
    }
    return listed(runs);
}

std::vector<std::string> forcedWords(const FoldContext& on, const BrakeResult& result) {
    std::vector<std::string> sentences;
    for (const ForcedOrder& one : result.forced) {
        std::string text = on.part.bend(one.first).name + " before " + on.part.bend(one.then).name;
        if (!one.reasons.empty()) text += "; afterwards " + sentencesOf(on, one.reasons).front().words;
        sentences.push_back(std::move(text));
    }
    return sentences;
}

std::vector<const Reason*> toldReasons(const BrakeResult& result) {
    std::vector<const Reason*> told;
    const auto add = [&](const std::vector<Reason>& reasons) {
        for (const Reason& reason : reasons) told.push_back(&reason);
    };
    if (result.causes.empty()) add(result.reasons);
    for (const Cause& cause : result.causes) add(cause.reasons);
    return told;
}

std::string causesWords(const FoldContext& on, const BrakeResult& result) {
    if (result.causes.empty()) return {};
    if (result.causes.size() > 1) {
        return fmt::format(
            "There are {} causes, each enough by itself: all of them must be lifted. Within a cause it is enough to "
            "lift one point.",
            result.causes.size());
    }
    const std::string every = result.as_pinned ? "every order that keeps the pins" : "every order";
    if (sentencesOf(on, result.causes.front().reasons).size() == 1) return "This alone rules out " + every + ".";
    return "Together these rule out " + every + "; with any one of them lifted, the others would leave one.";
}

}  // namespace tinwright::report
