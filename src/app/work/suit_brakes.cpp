// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/suit_brakes.h"

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>

#include "console/log.h"
#include "work/for_each.h"
#include "work/used_setup.h"

namespace tinwright::app {

SuitReport suitBrakes(const EffortChoice& effort, const Inputs& inputs, const SuitSubject& subject,
                      const std::vector<std::size_t>& brakes) {
    SuitReport report{inputs.part, inputs.shop, subject.tweaks().dimensions, subject.locked(), {}, inputs.warnings};
    SuitOptions options;
    options.time_limit_s = effort.time_limit_s;
    options.formed = inputs.formed;
    options.material = inputs.sheet();
    PlanOptions plan;  // what is suggested is for one set-up
    plan.time_limit_s = effort.time_limit_s;
    plan.formed = inputs.formed;
    plan.material = inputs.sheet();
    report.brakes.resize(brakes.size());
    forEach(brakes.size(), static_cast<int>(effort.threads), [&](std::size_t i) {
        const BrakeInSetup brake = setupAsDrawn(inputs.part, inputs.shop, brakes[i], plan);
        BrakeSuit found{brake, suit(inputs.part, subject.tweaks(), inputs.shop, brake, options), {}};
        for (const Suggestion& suggestion : found.result.suggestions)
            found.changes.push_back(subject.changes({{suggestion.dimension, suggestion.to_mm}}));
        report.brakes[i] = std::move(found);
    });
    for (const BrakeSuit& found : report.brakes) {
        logInfo(fmt::format("{}: {} suggestions, {} plans made", found.brake->name, found.result.suggestions.size(),
                            found.result.plans_made));
    }
    return report;
}

}  // namespace tinwright::app
