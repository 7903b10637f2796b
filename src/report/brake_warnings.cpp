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
        return rating.material == part.material && rating.thickness_mm >= part.thickness_mm && rating.length_mm >= length_mm;
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
    return fmt::format("{}: over its rating for {} mm {}: {}", brake.name, part.thickness_mm, part.material, listed(over));
}

std::string uncertainWarning(const LeafBrake& brake) {
    if (brake.uncertain.empty()) return {};
    return fmt::format("{}: figures that nobody has measured, measure them before you rely on a close fit: {}", brake.name,
                       listed(brake.uncertain));
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
