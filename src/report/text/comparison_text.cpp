// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/text/text.h>

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "document/document.h"
#include "sentences/trouble_words.h"
#include "words/table.h"
#include "words/words.h"
#include "words/wrap.h"

namespace tinwright {

namespace {

using namespace report;

std::string careColumn(const Plan& plan) {
    const auto count =
        std::count_if(plan.folds.begin(), plan.folds.end(), [](const FoldStep& fold) { return fold.care.any(); });
    return count == 0 ? "-" : fmt::format("{} of {} folds", count, plan.folds.size());
}

std::vector<std::string> rowOf(const PlanEntry& entry) {
    return {fmt::format("{}.", entry.plan.rank),
            entry.spoiling.empty() ? "-" : std::to_string(entry.spoiling.size()),
            careColumn(entry.plan),
            entry.clearance + (entry.plan.tight ? " TIGHT" : ""),
            std::to_string(entry.flips),
            std::to_string(entry.turns),
            std::to_string(entry.pieces),
            entry.time};
}

/// What the table has no room for: the folds, with what is held where orders fold alike, what is spoilt, what is done.
std::string detailText(const BrakeEntry& brake, const PlanEntry& entry) {
    const std::string head = fmt::format("  {}. ", entry.plan.rank);
    std::string folds;
    for (const FoldStep& fold : entry.plan.folds) {
        const Stroke& stroke = fold.stroke;
        folds += fmt::format("{}{} ({} held)", folds.empty() ? "" : ", ", strokeName(brake.on.part, fold.bends()),
                             heldName(brake.on.part, stroke.first(), stroke.hold));
    }
    std::string text = wrapped(head, "     ", folds, kReportColumns);
    if (!entry.spoiling.empty())
        text += wrapped("     ", "       ", "spoils " + spoiltList(entry.spoiling), kReportColumns);
    if (!entry.care.empty()) text += wrapped("     ", "       ", "care: " + entry.care, kReportColumns);
    return text;
}

std::string comparedText(const BrakeEntry& brake) {
    const BrakeResult& result = brake.result();
    std::string text = heading(fmt::format("{}: {}, {}", result.brake->name, toText(result.verdict), brake.count), '-');
    if (brake.plans.empty()) return text + "  no order to compare; without --compare it is told why\n";
    std::vector<std::vector<std::string>> rows{
        {"", "Spoils", "Care", "Closest mm", "Flips", "Turns", "Tools moved", "Time"}};
    for (const PlanEntry& plan : brake.plans) rows.push_back(rowOf(plan));
    text += tableText(rows);
    for (const PlanEntry& plan : brake.plans) text += detailText(brake, plan);
    return text;
}

}  // namespace

std::string comparisonText(const PlanReport& report) {
    const PlanDocument document = planDocument(report);
    std::string text = wrapped("", "  ", document.verdict, kReportColumns) + "\n";
    for (const BrakeEntry& brake : document.brakes) text += comparedText(brake) + "\n";
    return text +
           wrapped("", "",
                   "Ranked by what is spoilt, then comfortable before tight, then by time, in which care has its "
                   "part. Without --compare the best order is told fold by fold.",
                   kReportColumns);
}

}  // namespace tinwright
