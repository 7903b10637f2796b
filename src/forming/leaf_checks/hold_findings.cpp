// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "checks/checks.h"
#include "measures/flat_depth.h"
#include "metal/rating.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kLeastBarCover = 0.01;

/// What holds a fold on a brake with loose bars, and what it asks. The model is in NOTES.md: the bars pull evenly over
/// their underside, and what they hold with is the moment of that pull about the nose, so it goes with their depth
/// squared; the rating is for the deepest bar of the brake over its whole length.
struct Holding {
    double depth_mm = 0;    ///< shallowest bar that stands
    double deepest_mm = 0;  ///< of the brake
    double covered = 1;     ///< of the bend's length
    double under_mm = 0;    ///< depth of sheet that lies under the bars
    double asked = 0;       ///< of the rated moment on each mm

    [[nodiscard]] double bars() const { return covered * (depth_mm / deepest_mm) * (depth_mm / deepest_mm); }
    [[nodiscard]] double lifts() const { return asked / bars(); }
    [[nodiscard]] bool mayLift() const { return lifts() > 1; }
    [[nodiscard]] bool isShallow() const { return under_mm < depth_mm - 1e-6; }
};

Holding holdingOf(const FoldAsked& asked) {
    Holding holding;
    holding.depth_mm = holding.under_mm = 1e9;
    double covered_mm = 0;
    for (const PlacedTool& bar : asked.step.tools) {
        holding.depth_mm = std::min(holding.depth_mm, asked.brake->bar(bar.tool)->clamp_depth_mm);
        covered_mm += bar.to_mm - bar.from_mm;
    }
    for (const Bar& bar : asked.brake->leaf().bars)
        holding.deepest_mm = std::max(holding.deepest_mm, bar.clamp_depth_mm);
    double bend_mm = 0;
    for (const BendId bend : bendsIn(asked.step.stroke.bends)) {
        bend_mm += stripLength_mm(asked.part.bend(bend));
        holding.under_mm = std::min(holding.under_mm, flatDepth_mm(asked, bend, heldSide(asked, bend)));
    }
    holding.covered = std::clamp(covered_mm / bend_mm, kLeastBarCover, 1.0);
    const auto share = ratedShare(asked.brake, asked.material, asked.part.thickness_mm, bend_mm);
    holding.asked = share ? share->per_length : 0;
    return holding;
}

void addLifts(const FoldAsked& asked, const Holding& holding, std::vector<Finding>& findings) {
    if (!holding.mayLift()) return;
    Finding finding =
        startFinding("hold.lifts", Severity::kWarning, bendNames(asked.part, asked.step.bends()), asked.step.bends());
    finding.words = fmt::format(
        "the bars will lift or slide back: the fold asks {:.0f} % of the rated moment, and these bars hold about "
        "{:.0f} % ({} mm deep of {}, over {:.0f} % of the bend)",
        100 * holding.asked, 100 * holding.bars(), millimetres(holding.depth_mm), millimetres(holding.deepest_mm),
        100 * holding.covered);
    Holding deeper = holding;
    deeper.depth_mm = deeper.deepest_mm;
    if (deeper.depth_mm > holding.depth_mm && !deeper.mayLift())
        finding.remedies.push_back(fmt::format("bars {} mm deep where they fit", millimetres(deeper.deepest_mm)));
    Holding covered = holding;
    covered.covered = 1;
    if (holding.covered < 0.95 && !covered.mayLift()) finding.remedies.push_back("longer bars, over the whole bend");
    finding.remedies.push_back("a clamp at each end of the bars");
    finding.remedies.push_back("fold in two passes: half the angle, then bars reset and the rest");
    finding.figures = {{"moment_over_holding", holding.lifts(), 1.0}};
    findings.push_back(std::move(finding));
}

void addPack(const FoldAsked& asked, const Holding& holding, std::vector<Finding>& findings) {
    if (!holding.isShallow()) return;
    Finding finding =
        startFinding("hold.pack", Severity::kWarning, bendNames(asked.part, asked.step.bends()), asked.step.bends());
    finding.words = fmt::format(
        "only {} mm of sheet lie under bars {} mm deep: their back drops on the bed, they tip and the part slips",
        millimetres(holding.under_mm), millimetres(holding.depth_mm));
    finding.remedies = {fmt::format("put an offcut of the same {} mm sheet under the back of the bars",
                                    millimetres(asked.part.thickness_mm))};
    finding.figures = {{"sheet_under_bar_mm", holding.under_mm, holding.depth_mm}};
    findings.push_back(std::move(finding));
}

/// Sheet that a magnet does not draw: Ni-Cr stainless and aluminium.
bool isNotMagnetic(const Material& material) {
    return material.family == "aluminium" || material.family == "stainless";
}

bool isHeldByBars(const FoldAsked& asked) {
    return asked.brake->leaf().clamp == ClampKind::kLooseBars && !asked.step.tools.empty();
}

}  // namespace

Care holdingCare(const FoldAsked& asked) {
    if (!isHeldByBars(asked)) return {};
    const Holding holding = holdingOf(asked);
    return {.bars_packed = holding.isShallow(), .bars_clamped = holding.mayLift(), .in_tongs = false};
}

void addHolding(const FoldAsked& asked, std::vector<Finding>& findings) {
    if (!isHeldByBars(asked)) return;
    const Holding holding = holdingOf(asked);
    addLifts(asked, holding, findings);
    addPack(asked, holding, findings);
}

void addGapUnderBars(const Part& part, const Material* material, const BrakeInSetup& brake,
                     std::vector<Finding>& findings) {
    if (brake->leaf().clamp != ClampKind::kLooseBars || !material || !isNotMagnetic(*material)) return;
    Finding finding = startFinding("hold.gap", Severity::kWarning, part.material, {});
    finding.words = fmt::format(
        "it is not magnetic: the sheet's whole {} mm count as gap under the bars, and they hold less than on steel, by "
        "how "
        "much nobody has published",
        millimetres(part.thickness_mm));
    finding.remedies = {"try an offcut of the same length first", "a clamp at each end of the bars"};
    finding.figures = {{"gap_mm", part.thickness_mm, {}}};
    findings.push_back(std::move(finding));
}

}  // namespace tinwright::forming
