// SPDX-License-Identifier: GPL-3.0-or-later
#include "text/split_block.h"

#include <cmath>

#include <fmt/format.h>

#include <tinwright/report/data/columns.h>

#include "text/fold_block.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {
namespace {

std::string foldsText(const std::vector<FoldEntry>& folds) {
    std::string text;
    for (const FoldEntry& fold : folds) {
        const std::string on = (fold.place.number == 1 ? "On " : "Carry it to ") + printable(fold.on.brake->name);
        if (fold.is_carried_to) text += "\n" + wrapped("", "  ", on, kReportColumns);
        text += "\n" + foldText(fold);
    }
    return text;
}

// One blank serves both brakes: what their radii differ by goes into every size.
std::string radiusNote(const PlanReport& report) {
    const BrakeInSetup& a = report.split->setupOf(report.split->brakes[0]);
    const BrakeInSetup& b = report.split->setupOf(report.split->brakes[1]);
    if (std::abs(a.inside_radius_mm() - b.inside_radius_mm()) <= 0.05) return {};
    return labelled("Blank",
                    fmt::format("bends on {} have an inside radius of {:.2f} mm, those on {} one of {:.2f} mm; "
                                "the blank is developed for the radii drawn",
                                printable(a->name), a.inside_radius_mm(), printable(b->name), b.inside_radius_mm()));
}

}  // namespace

std::string replayText(const ReplayEntry& replay) {
    if (!replay.checked) return "";
    if (!replay.failed()) return labelled("Replay", "an independent replay of this plan found nothing wrong");
    std::string text = wrapped(
        "  !! ", "     ", "NOT VERIFIED: an independent replay disagrees. Do not fold from this plan.", kReportColumns);
    for (const std::string& finding : replay.findings) text += bullet(finding);
    return text;
}

std::string splitText(const PlanDocument& document) {
    if (!document.report.split_tried) return {};
    if (!document.split) return labelled("Two brakes", "no order over two brakes was found either") + "\n";
    const SplitEntry& split = *document.split;
    std::string text = heading("Over two brakes: " + split.words, '-');
    text += labelled("Time", fmt::format("about {} by the shop's own figures, {} of it to carry the part",
                                         split.plan.time, split.carrying));
    text += labelled("Closest", split.plan.clearance + " mm over the whole plan");
    return text + radiusNote(document.report) + replayText(split.plan.replay) + foldsText(split.plan.folds) + "\n";
}

}  // namespace tinwright::report
