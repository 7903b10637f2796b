// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/screen_words.h"

#include <algorithm>

#include <fmt/format.h>

#include "remedies/remedy_text.h"
#include "sentences/reason_text.h"
#include "sentences/search_words.h"
#include "sentences/trouble_words.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {

std::string verdictWords(const BrakeReport& brake) {
    const BrakeResult& result = brake.result;
    if (result.verdict == Verdict::kInfeasible) return "no";
    if (result.verdict == Verdict::kUndecided || result.plans.empty()) return "not decided";
    const char* how = result.plans.front().tight ? "tight" : "goes";
    if (result.verdict == Verdict::kWithTrouble) how = "TROUBLE";
    if (!findingWords(brake, Severity::kOverload).empty()) how = "OVERLOADED";
    return fmt::format("{}, {}", how, duration(result.plans.front().cost_ms));
}

std::vector<std::string> findingWords(const BrakeReport& brake, Severity severity) {
    std::vector<std::string> sentences;
    const auto add = [&](const std::vector<Finding>& findings) {
        for (const Finding& finding : findings) {
            std::string words = fmt::format("{}: {} ({})", finding.feature, finding.words, finding.id);
            if (finding.severity == severity && std::find(sentences.begin(), sentences.end(), words) == sentences.end())
                sentences.push_back(std::move(words));
        }
    };
    add(brake.findings);
    if (brake.fold_findings.empty()) return sentences;
    for (const std::vector<Finding>& findings : brake.fold_findings.front()) add(findings);
    return sentences;
}

std::string blockWords(const PlanReport& report, const BrakeReport& brake) {
    if (brake.result.verdict == Verdict::kWithTrouble && !brake.fold_findings.empty())
        return gravityWords(spoiling(report, brake, 0).front()) + spoiltBrief(spoiling(report, brake, 0));
    if (goes(brake.result.verdict)) return {};
    const std::vector<const Reason*> reasons = toldReasons(brake.result);
    if (reasons.empty()) return "why is not known";
    const std::vector<ReasonSentence> sentences = sentencesOf(contextOf(report, brake), reasons);
    if (sentences.size() == 1) return sentences.front().words;
    return fmt::format("{}; and {}", sentences.front().words, counted(sentences.size() - 1, "reason") + " more");
}

std::string leastRemedy(const PlanReport& report, const BrakeReport& brake) {
    if (!brake.remedies) return {};
    const std::vector<std::string> lines = remedyLines(report, *brake.remedies);
    return lines.empty() ? std::string() : lines.front();
}

std::vector<std::string> sideBySide(const PlanReport& report) {
    std::vector<std::string> lines;
    if (report.brakes.size() < 2) return lines;
    for (const BrakeReport& brake : report.brakes) {
        std::string line = fmt::format("{}: {}", printable(brake.result.brake->name), verdictWords(brake));
        if (const std::string blocks = blockWords(report, brake); !blocks.empty()) line += "; " + blocks;
        lines.push_back(std::move(line));
    }
    return lines;
}

}  // namespace tinwright::report
