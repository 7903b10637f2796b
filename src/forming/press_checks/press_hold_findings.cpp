// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "checks/checks.h"
#include "measures/flat_depth.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kHands_mm = 101.6;  // 4 in from punch and die; from memory of a directive on press brakes
constexpr double kRise_mm = 200;     // less is held in the hand

/// Flat sheet from the bend line out on one side, the deepest of the stroke's bends.
double reach_mm(const FoldAsked& asked, bool in_front) {
    double reach = 0;
    for (const BendId bend : bendsIn(asked.step.stroke.bends)) {
        const Side held = heldSide(asked, bend);
        reach = std::max(reach, 0.5 * asked.part.bend(bend).allowance_mm +
                                    flatDepth_mm(asked, bend, in_front ? opposite(held) : held));
    }
    return reach;
}

bool isNearHands(double front_mm) { return front_mm < kHands_mm; }

void addRise(const FoldAsked& asked, double front_mm, std::vector<Finding>& findings) {
    const Angle set = std::max(asked.step.angle, asked.step.set_angle);
    const double rise_mm = front_mm * sinCos(Angle::radians(0.5 * set.rad())).sin;
    if (rise_mm < kRise_mm) return;
    Finding finding =
        startFinding("hold.rise", Severity::kNote, bendNames(asked.part, asked.step.bends()), asked.step.bends());
    finding.words = fmt::format(
        "the front edge of the sheet whips up by {:.0f} mm: keep clear of it, carry it up with the bend, and support a "
        "large one, or it bows under its own weight",
        rise_mm);
    finding.figures = {{"rise_mm", rise_mm, kRise_mm}};
    findings.push_back(std::move(finding));
}

void addHands(const FoldAsked& asked, double front_mm, std::vector<Finding>& findings) {
    if (!isNearHands(front_mm)) return;
    Finding finding =
        startFinding("hold.hands", Severity::kWarning, bendNames(asked.part, asked.step.bends()), asked.step.bends());
    finding.words = fmt::format(
        "only {} mm of sheet stand out in front: hands that hold it come nearer than {} mm to punch and die",
        millimetres(front_mm), millimetres(kHands_mm));
    const double back_mm = reach_mm(asked, false);
    if (back_mm >= kHands_mm)
        finding.remedies.push_back(
            fmt::format("the other side in front, {} mm of it, where it can be folded so", millimetres(back_mm)));
    finding.remedies.push_back("hold it with tongs or a magnet handle");
    finding.remedies.push_back("fold it from a larger blank and trim it");
    finding.figures = {{"front_mm", front_mm, kHands_mm}};
    findings.push_back(std::move(finding));
}

}  // namespace

bool comesNearHands(const FoldAsked& asked) { return isNearHands(reach_mm(asked, true)); }

void addInHands(const FoldAsked& asked, std::vector<Finding>& findings) {
    const double front_mm = reach_mm(asked, true);
    addRise(asked, front_mm, findings);
    addHands(asked, front_mm, findings);
}

}  // namespace tinwright::forming
