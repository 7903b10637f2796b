// SPDX-License-Identifier: GPL-3.0-or-later
#include "kinds/gauge_text.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "words/words.h"

namespace tinwright::report {
namespace {

std::string touchedText(const Part& part, const GaugeStop& stop) {
    const std::string& panel = part.panel(stop.panel).name;
    switch (stop.touch) {
        case GaugeStop::Touch::kEdge: return stop.edge.empty() ? "an edge of " + panel : "edge " + stop.edge;
        case GaugeStop::Touch::kFace: return "outside of " + panel;
        case GaugeStop::Touch::kBend: break;
    }
    const bool is_hem = std::any_of(part.bends.begin(), part.bends.end(),
                                    [&](const Bend& bend) { return bend.child == stop.panel && bend.hem; });
    return (is_hem ? "folded edge of " : "outside of the bend of ") + panel;
}

std::string betweenText(int bends) {
    if (bends == 0) return "flat";
    return bends == 1 ? "1 bend between" : fmt::format("{} bends between", bends);
}

/// Of the flat sheet they are where one would have them anyway.
std::string heightText(const GaugeStop& stop) {
    if (stop.isFlat()) return "";
    return fmt::format(", fingers {} mm {} the die's top", millimetres(std::abs(stop.fingers_z_mm)),
                       stop.fingers_z_mm < 0 ? "under" : "over");
}

/// Rounded up: it is never said to be less than it is.
std::string offText(double tolerance_mm) { return fmt::format("±{:g} mm", std::ceil(tolerance_mm * 10 - 1e-6) / 10); }

}  // namespace

std::string gaugeTroubleWords(const BrakeInSetup& brake, const FoldStep& step) {
    if (!step.gauge_trouble) return {};
    switch (*step.gauge_trouble) {
        case GaugeTrouble::kNoGauge: return "the brake has no back gauge: set by a sight line";
        case GaugeTrouble::kNoEdge:
            return fmt::format("no edge parallel to the bend within {:g} to {:g} mm: set by a sight line",
                               brake->press().gauge->nearest_mm, brake->press().gauge->furthest_mm);
        case GaugeTrouble::kOutOfReach: break;
    }
    return "the fingers get at no edge parallel to the bend: set by a sight line";
}

std::string gaugeText(const Part& part, const BrakeInSetup& brake, const FoldStep& step) {
    if (step.gauge_stop) {
        const GaugeStop& stop = *step.gauge_stop;
        return fmt::format("stop {} mm behind the punch, {}, {}{}, {}", millimetres(stop.distance_mm),
                           touchedText(part, stop), betweenText(stop.bends_between), heightText(stop),
                           offText(stop.tolerance_mm));
    }
    const std::string trouble = gaugeTroubleWords(brake, step);
    if (step.sight_from_edge.empty()) return trouble;
    return fmt::format("{}, {} mm from edge {}", trouble, millimetres(step.sight_mm), step.sight_from_edge);
}

}  // namespace tinwright::report
