// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/shop/tolerances.h>

#include <algorithm>
#include <cmath>

#include <tinwright/base/general_tolerance.h>
#include <tinwright/brake/shop/cutting_tolerance.h>

namespace tinwright {

namespace {

constexpr double kSheet_share = 0.07;
constexpr double kSmallest_mm = 0.5;  // ISO 2768-1 begins here, and its last range ends there
constexpr double kGreatest_mm = 4000;

double greatestSize_mm(const Panel& panel) {
    if (panel.region.outline.empty()) return 0;
    Vec2 least = panel.region.outline.front();
    Vec2 most = least;
    for (const Vec2& corner : panel.region.outline) {
        least = least.cwiseMin(corner);
        most = most.cwiseMax(corner);
    }
    return (most - least).maxCoeff();
}

}  // namespace

std::optional<double> workingTolerance_mm(std::optional<CutProcess> process, double thickness_mm, double size_mm) {
    const double told_mm = std::round(size_mm * 1000) / 1000;  // rounding must not lift a size into the next range
    const std::optional<double> general = iso2768Linear_mm('m', told_mm);
    const std::optional<double> cut = process ? cuttingTolerance_mm(*process, thickness_mm, told_mm) : std::nullopt;
    if (!general || !cut) return general ? general : cut;
    return std::max(*general, *cut);
}

double CutEdges::over_mm(double size_mm) const {
    return told_mm ? *told_mm
                   : *workingTolerance_mm(process, thickness_mm, std::clamp(size_mm, kSmallest_mm, kGreatest_mm));
}

double ToleranceBox::leastCutting_mm() const {
    return cutting_mm.empty() ? 0.0 : *std::min_element(cutting_mm.begin(), cutting_mm.end());
}
double ToleranceBox::mostCutting_mm() const {
    return cutting_mm.empty() ? 0.0 : *std::max_element(cutting_mm.begin(), cutting_mm.end());
}

ToleranceBox toleranceBox(const Tolerances& tolerances, const Part& part, std::optional<CutProcess> process) {
    ToleranceBox box;
    box.thickness_mm = tolerances.thickness_mm.value_or(kSheet_share * part.thickness_mm);
    box.bend_line_mm = tolerances.bend_line_mm;
    box.bend_angle = tolerances.bend_angle;
    box.cut = {tolerances.cutting_mm, process, part.thickness_mm};
    for (const Panel& panel : part.panels) box.cutting_mm.push_back(box.cut.over_mm(greatestSize_mm(panel)));
    return box;
}

}  // namespace tinwright
