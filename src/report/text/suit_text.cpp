// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/text/suit_text.h>

#include <fmt/format.h>

#include <tinwright/report/text/text.h>

#include "kinds/brake_words.h"
#include "sentences/reason_text.h"
#include "words/change_text.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {

namespace {

using namespace report;

std::string gainWords(const Suggestion& suggestion, const BrakeSuit& brake) {
    const Suitability& before = brake.result.as_drawn;
    const Suitability& after = suggestion.result;
    std::vector<std::string> words;
    for (const Gain gain : suggestion.gains) {
        switch (gain) {
            case Gain::kGoes:
                words.push_back(after.orders_feasible.empty() ? "goes"
                                                              : fmt::format("goes: {} of {} orders work",
                                                                            after.orders_feasible, after.orders_total));
                break;
            case Gain::kCleanly:
                if (before.works()) words.emplace_back("spoils nothing");
                break;
            case Gain::kComfortable: words.push_back("the clearance is as wanted"); break;
            case Gain::kFewerBars:
                words.push_back(fmt::format("{} pieces over all folds instead of {}", after.bars, before.bars));
                break;
            case Gain::kBetterCover:
                words.push_back(fmt::format("at least {} of every bend under {} instead of {}",
                                            percent(after.least_cover), wordsFor(*brake.brake).terms.tools.upper,
                                            percent(before.least_cover)));
                break;
        }
    }
    std::string text;
    for (const std::string& word : words) text += word + "; ";
    if (after.verdict == Verdict::kWithTrouble) text += "with trouble; ";
    if (after.tight) text += "tight; ";
    return text + fmt::format("clearance at least {} mm", atLeastMillimetres(after.worst_clearance_mm));
}

std::string asDrawn(const BrakeSuit& brake) {
    const Suitability& drawn = brake.result.as_drawn;
    if (drawn.verdict == Verdict::kUndecided) return "undecided: neither shown to go nor shown not to";
    if (!drawn.works()) return "no order works";
    return fmt::format(
        "goes{}{}, {} pieces over all folds, at least {} of every bend under {}, clearance at least {} mm",
        drawn.verdict == Verdict::kWithTrouble ? " with trouble" : "", drawn.tight ? " tightly" : "", drawn.bars,
        percent(drawn.least_cover), wordsFor(*brake.brake).terms.tools.upper,
        atLeastMillimetres(drawn.worst_clearance_mm));
}

std::string wanted(const BrakeSuit& brake, const WantedBar& bar) {
    return fmt::format(
        "{}, to stand in the {} mm between two walls: with it the part goes as drawn{}",
        wordsFor(*brake.brake).wantedPiece(bar), millimetres(bar.between_mm),
        bar.result.verdict == Verdict::kWithTrouble ? ", with trouble" : (bar.result.tight ? ", tightly" : ""));
}

std::string offer(const SuitReport& report, const BrakeSuit& brake, const Suggestion& suggestion) {
    return changeText(report.dimensions[suggestion.dimension].name, suggestion.from_mm, suggestion.to_mm) + ": " +
           gainWords(suggestion, brake);
}

std::string pastLimits(const SuitReport& report, const Suggestion& beyond) {
    return changeText(report.dimensions[beyond.dimension].name, beyond.from_mm, beyond.to_mm) +
           " would, past its limit";
}

std::string nothing(const SuitReport& report, const BrakeSuit& brake) {
    std::string text;
    if (brake.result.as_drawn.works()) return labelled("Suggested", "no dimension within its limits makes it better");
    text += labelled("Suggested", "nothing within the limits of change makes it go");
    if (brake.result.beyond) text += labelled("Nearest", pastLimits(report, *brake.result.beyond));
    const ToolTerms& tools = wordsFor(*brake.brake).terms.tools;
    text += labelled(std::string("A ") + tools.upper_one,
                     brake.result.bar ? wanted(brake, *brake.result.bar) : tools.none_more);
    return text;
}

}  // namespace

std::string suitText(const SuitReport& report) {
    std::string text;
    int number = 0;
    for (const BrakeSuit& brake : report.brakes) {
        if (!text.empty()) text += "\n";
        text += heading(fmt::format("{} on {}", report.part.name, brake.brake->name), '-');
        if (brake.brake.vee() != nullptr)
            text += labelled("V", fmt::format("{} mm, {}", millimetres(brake.brake.vee()->opening_mm),
                                              degrees(brake.brake.vee()->angle.deg())));
        text += labelled("As drawn", asDrawn(brake));
        if (!brake.result.as_drawn.works()) {
            for (const ReasonSentence& sentence :
                 sentencesOf({report.part, report.shop, brake.brake}, brake.result.as_drawn.reasons))
                text += bullet(sentence.words);
        }
        if (brake.result.suggestions.empty()) text += nothing(report, brake);
        for (std::size_t i = 0; i < brake.result.suggestions.size(); ++i) {
            const Suggestion& suggestion = brake.result.suggestions[i];
            const std::string& name = report.dimensions[suggestion.dimension].name;
            text +=
                wrapped(fmt::format("  {:>2}. ", ++number), "      ", offer(report, brake, suggestion), kReportColumns);
            text += wrapped("      ", "      ", alsoChanges(brake.changes[i], {name}), kReportColumns);
        }
    }
    if (number > 0)
        text +=
            "\n" + wrapped("", "",
                           "Each was planned again before it is offered. `--take N -o FILE` writes the changed part.",
                           kReportColumns);
    if (report.dimensions.empty()) {
        text += "\n" + labelled("Free",
                                "no dimension may change: a recipe's dimension may when it has a name and is not "
                                "locked; a drawing's when it lies between two parallel bends");
    }
    if (!report.locked.empty()) text += "\n" + labelled("Locked", listed(report.locked));
    for (const std::string& warning : report.warnings) text += bullet(warning);
    return text;
}

}  // namespace tinwright
