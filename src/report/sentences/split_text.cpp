// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/split_text.h"

#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/report/data/columns.h>

#include "sentences/fold_text.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright::report {

namespace {

const BrakeInSetup& brakeAt(const PlanReport& report, std::size_t brake) { return report.split->setupOf(brake); }

std::string foldsText(const PlanReport& report) {
    const SplitPlan& split = *report.split;
    std::string text;
    FoldPlace place{1, split.plan.folds.size(), report.formed, nullptr};
    for (std::size_t i = 0; i < split.plan.folds.size(); ++i) {
        const bool carried = i == 0 || split.brake_of_fold[i] != split.brake_of_fold[i - 1];
        const std::string name = printable(brakeAt(report, split.brake_of_fold[i])->name);
        if (carried) {
            text += "\n" + wrapped("", "  ", (i == 0 ? "On " : "Carry it to ") + name, kReportColumns);
            place.before = nullptr;  // tools of the other brake, and how the part lay there, tell nothing here
        }
        const FoldStep& step = split.plan.folds[i];
        text += "\n" + foldText(report.part, brakeAt(report, split.brake_of_fold[i]), step, place);
        place.formed_before |= maskOf(step.bends);
        place.before = &step;
        ++place.number;
    }
    return text;
}

// One blank serves both brakes: what their radii differ by goes into every size.
std::string radiusNote(const PlanReport& report) {
    const BrakeInSetup& a = brakeAt(report, report.split->brakes[0]);
    const BrakeInSetup& b = brakeAt(report, report.split->brakes[1]);
    if (std::abs(a.inside_radius_mm() - b.inside_radius_mm()) <= 0.05) return {};
    return labelled("Blank",
                    fmt::format("bends on {} have an inside radius of {:.2f} mm, those on {} one of {:.2f} "
                                "mm; the blank is developed for the radii drawn",
                                printable(a->name), a.inside_radius_mm(), printable(b->name), b.inside_radius_mm()));
}

std::string checkLine(const PlanReport& report) {
    if (!report.split_check || !report.split_check->checked) return {};
    if (report.split_check->findings.empty())
        return labelled("Replay", "an independent replay of this plan found nothing wrong");
    std::string text = wrapped(
        "  !! ", "     ", "NOT VERIFIED: an independent replay disagrees. Do not fold from this plan.", kReportColumns);
    for (const std::string& finding : report.split_check->findings) text += bullet(finding);
    return text;
}

}  // namespace

std::string splitWords(const PlanReport& report) {
    if (!report.split) return {};
    const SplitPlan& split = *report.split;
    return fmt::format("{} and {}, carried over {}: {}about {}", printable(brakeAt(report, split.brakes[0])->name),
                       printable(brakeAt(report, split.brakes[1])->name),
                       split.times_carried == 1 ? "once" : fmt::format("{} times", split.times_carried),
                       split.plan.tight ? "tight, " : "", duration(split.plan.cost_ms));
}

std::string splitText(const PlanReport& report) {
    if (!report.split_tried) return {};
    if (!report.split) return labelled("Two brakes", "no order over two brakes was found either") + "\n";
    const SplitPlan& split = *report.split;
    std::string text = heading("Over two brakes: " + splitWords(report), '-');
    text += labelled(
        "Time",
        fmt::format("about {} by the shop's own figures, {} of it to carry the part", duration(split.plan.cost_ms),
                    duration(static_cast<long long>(split.times_carried) * report.shop.times.carry_ms)));
    text += labelled("Closest", atLeastMillimetres(split.plan.worst_clearance_mm) + " mm over the whole plan");
    return text + radiusNote(report) + checkLine(report) + foldsText(report) + "\n";
}

}  // namespace tinwright::report
