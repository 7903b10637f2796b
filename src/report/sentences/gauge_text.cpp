// SPDX-License-Identifier: GPL-3.0-or-later
#include "sentences/gauge_text.h"

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
    return "outside of the bend of " + panel;
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

std::string gaugeText(const Part& part, const FoldStep& step) {
    if (step.gauge_stop) {
        const GaugeStop& stop = *step.gauge_stop;
        return fmt::format("stop {} mm behind the punch, {}, {}{}, {}", millimetres(stop.distance_mm),
                           touchedText(part, stop), betweenText(stop.bends_between), heightText(stop),
                           offText(stop.tolerance_mm));
    }
    if (step.sight_from_edge.empty()) return step.gauge_trouble;
    return fmt::format("{}, {} mm from edge {}", step.gauge_trouble, millimetres(step.sight_mm), step.sight_from_edge);
}

}  // namespace tinwright::report
