// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/remedies.h"

#include <algorithm>

#include <fmt/format.h>

#include "console/log.h"
#include "work/for_each.h"
#include "work/suit_subject.h"

namespace tinwright::app {
namespace {

std::vector<const BrakeResult*> knownResults(const PlanReport& report) {
    std::vector<const BrakeResult*> known(report.shop.brakes.size(), nullptr);
    for (const BrakeReport& brake : report.brakes) known[brake.brake] = &brake.result;
    return known;
}

std::vector<DimensionValue> valuesOf(const Remedy& remedy) {
    std::vector<DimensionValue> values;
    for (const DimensionChangeTo& change : remedy.dimensions) values.push_back({change.dimension, change.to_mm});
    return values;
}

RemedyReport remediesFor(const Inputs& inputs, const SuitSubject& subject, const BrakeReport& brake,
                         const RemedyOptions& options) {
    RemedyReport report{subject.tweaks().dimensions,
                        findRemedies(inputs.part, subject.tweaks(), inputs.shop, brake.brake, brake.result, options),
                        {}};
    for (const Remedy& remedy : report.found.list) report.changes.push_back(subject.changes(valuesOf(remedy)));
    return report;
}

}  // namespace

void addRemedies(const PartChoice& part, const EffortChoice& effort, const Inputs& inputs, PlanReport& report) {
    std::vector<BrakeReport*> asking;
    SuitLevel best = SuitLevel::kNoOrder;
    for (BrakeReport& brake : report.brakes) {
        const Suitability drawn = suitabilityOf(brake.result);
        best = std::max(best, drawn.level());
        if (wantsRemedy(drawn)) asking.push_back(&brake);
    }
    if (asking.empty()) return;
    const Result<SuitSubject> subject =
        inputs.made ? SuitSubject::cut(inputs.part) : SuitSubject::read(part, {}, inputs);
    if (!subject) return;
    RemedyOptions options;
    options.robust = effort.robust;
    options.formed = inputs.formed;
    options.material = inputs.sheet();
    options.known = knownResults(report);
    forEach(asking.size(), static_cast<int>(effort.threads), [&](std::size_t i) {
        BrakeReport& brake = *asking[i];
        const bool goes_better_elsewhere = best > suitabilityOf(brake.result).level();
        RemedyOptions own = options;
        own.max_work = goes_better_elsewhere ? 0 : options.max_work / asking.size();
        brake.remedies = remediesFor(inputs, subject.value(), brake, own);
    });
    for (const BrakeReport* brake : asking) {
        const Remedies& found = brake->remedies->found;
        logInfo(fmt::format("{}: {} remedies, {} plans made, work {}", brake->result.brake->name, found.list.size(),
                            found.plans_made, found.work));
    }
}

}  // namespace tinwright::app
