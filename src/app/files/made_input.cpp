// SPDX-License-Identifier: GPL-3.0-or-later
#include "files/made_input.h"

#include <cmath>

#include <tinwright/forming/metal/vee_choice.h>

namespace tinwright::app {
namespace {

constexpr double kSameRadius_mm = 1e-6;

/// That all brakes asked about give in every set-up; negative: as drawn, since they differ.
double foldedRadius_mm(const Inputs& inputs) {
    double radius_mm = -1;
    for (const std::size_t brake : inputs.brakes) {
        for (const BrakeInSetup& setup : setupsFor(inputs.part, inputs.shop.brakes[brake])) {
            if (radius_mm >= 0 && std::abs(radius_mm - setup.inside_radius_mm()) > kSameRadius_mm) return -1;
            radius_mm = setup.inside_radius_mm();
        }
    }
    return radius_mm;
}

bool isAsDrawn(const Part& part, double radius_mm) {
    for (const Bend& bend : part.bends) {
        if (!bend.hem && std::abs(bend.inside_radius_mm - radius_mm) > kSameRadius_mm) return false;
    }
    return true;
}

Issues ofOptions(const Part& part, const std::vector<MadeBend>& made, Issues issues) {
    for (Issue& issue : issues) {
        bool has_size = false;
        for (const MadeBend& one : made)
            has_size = has_size || (part.bend(one.bend).name == issue.place && one.outside_mm.has_value());
        issue.file = "command line";
        issue.place = (has_size && issue.code != "made.angle" ? "--made, " : "--made-angle, ") + issue.place;
    }
    return issues;
}

}  // namespace

Issues takeMade(std::vector<MadeBend> made, Inputs& inputs) {
    if (made.empty()) return {};
    for (const MadeBend& one : made) inputs.formed |= bit(one.bend);
    double radius_mm = foldedRadius_mm(inputs);
    const bool several = radius_mm < 0;
    if (radius_mm >= 0 && isAsDrawn(inputs.part, radius_mm)) radius_mm = -1;
    Result<Part> part = asMade(inputs.part, made, inputs.formed, radius_mm);
    if (!part) return ofOptions(inputs.part, made, part.issues());
    // Then the cards of some brake, or of some V, tell sizes with another radius than these are read with.
    if (several)
        part.value().warnings.emplace_back(
            "sizes as made are read with the inside radius as drawn: the brakes asked about, or their Vs, give "
            "several");
    MadeReport report{std::move(inputs.part), std::move(made), radius_mm, {}, {}};
    inputs.part = std::move(part).value();
    report.changes = sizeChanges(report.drawn, inputs.part, radius_mm);
    inputs.made = std::move(report);
    return {};
}

}  // namespace tinwright::app
