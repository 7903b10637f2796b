// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/suit_brakes.h"

#include <spdlog/spdlog.h>

#include "work/for_each.h"

namespace tinwright::app {

SuitReport suitBrakes(const CommandLine& line, const Inputs& inputs, const SuitSubject& subject,
                      const std::vector<std::size_t>& brakes) {
    SuitReport report{inputs.part.name, subject.tweaks().dimensions, subject.locked(), {}, inputs.warnings};
    SuitOptions options;
    options.time_limit_s = line.time_limit_s;
    options.formed = inputs.formed;
    report.brakes.resize(brakes.size());
    forEach(brakes.size(), static_cast<int>(line.threads), [&](std::size_t i) {
        const std::size_t brake = brakes[i];
        const Brake& machine = inputs.shop.brakes[brake];
        const std::optional<Vee> vee = machine.isPress() ? machine.press->vee : std::nullopt;
        BrakeSuit found{machine.name, vee, suit(inputs.part, subject.tweaks(), inputs.shop, brake, options), {}};
        for (const Suggestion& suggestion : found.result.suggestions)
            found.changes.push_back(subject.changes({{suggestion.dimension, suggestion.to_mm}}));
        report.brakes[i] = std::move(found);
    });
    for (const BrakeSuit& found : report.brakes) {
        spdlog::info("{}: {} suggestions, {} plans made", found.brake, found.result.suggestions.size(),
                     found.result.plans_made);
    }
    return report;
}

}  // namespace tinwright::app
