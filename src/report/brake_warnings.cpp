// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/report/brake_warnings.h>

#include <algorithm>

#include <fmt/format.h>

#include "words.h"

namespace tinwright {
namespace {

using namespace report;

double bendLength_mm(const Bend& bend) { return bend.spans.back().to_mm - bend.spans.front().from_mm; }

bool isRated(const Part& part, const LeafBrake& brake, double length_mm) {
    return std::any_of(brake.ratings.begin(), brake.ratings.end(), [&](const Rating& rating) {
        return rating.material == part.material && rating.thickness_mm >= part.thickness_mm &&
               rating.length_mm >= length_mm;
    });
}

/// Empty when every bend is within a rating.
std::string ratingWarning(const Part& part, const LeafBrake& brake) {
    if (brake.ratings.empty()) return brake.name + ": the shop file gives no rated thickness; see the machine's manual";
    const bool has_material = std::any_of(brake.ratings.begin(), brake.ratings.end(),
                                          [&](const Rating& rating) { return rating.material == part.material; });
    if (!has_material) return fmt::format("{}: not rated for {}; see the machine's manual", brake.name, part.material);
    std::vector<std::string> over;
    for (const Bend& bend : part.bends) {
        if (!isRated(part, brake, bendLength_mm(bend))) {
            over.push_back(fmt::format("{} ({} mm long)", bend.name, millimetres(bendLength_mm(bend))));
        }
    }
    if (over.empty()) return {};
    return fmt::format("{}: over its rating for {:.4g} mm {}: {}", brake.name, part.thickness_mm, part.material,
                       listed(over));
}

/// "/bars/B30/height" -> "bars": in a shop file nearly every figure may be marked, and the field is enough to look it up.
std::string fieldOf(const std::string& pointer) {
    return pointer.size() < 2 ? pointer : pointer.substr(1, pointer.find('/', 1) - 1);
}

std::string uncertainWarning(const LeafBrake& brake) {
    std::vector<std::string> fields;
    for (const std::string& pointer : brake.uncertain) {
        const std::string field = fieldOf(pointer);
        if (std::find(fields.begin(), fields.end(), field) == fields.end()) fields.push_back(field);
    }
    if (fields.empty()) return {};
    return fmt::format(
        "{}: the shop file has figures that nobody has measured, in {}: measure them before you rely on a close fit",
        brake.name, listed(fields));
}

}  // namespace

std::vector<std::string> brakeWarnings(const Part& part, const LeafBrake& brake) {
    std::vector<std::string> warnings;
    for (std::string& warning : std::vector<std::string>{ratingWarning(part, brake), uncertainWarning(brake)}) {
        if (!warning.empty()) warnings.push_back(std::move(warning));
    }
    return warnings;
}

}  // namespace tinwright
