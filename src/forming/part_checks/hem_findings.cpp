// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/hemming.h>
#include <tinwright/brake/machines/shop.h>

#include "checks/checks.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

// Common practice: the return of a hem 4 to 6 t, and 6 mm at least.
constexpr double kReturnThicknesses = 4;
constexpr double kLeastReturn_mm = 6;

}  // namespace

void addHemReturns(const Part& part, std::vector<Finding>& findings) {
    const double wanted_mm = std::max(kLeastReturn_mm, kReturnThicknesses * part.thickness_mm);
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        if (!bend.hem) continue;
        const double return_mm = hemDepth_mm(part, idAt<BendId>(i));
        if (return_mm >= wanted_mm - 1e-6) continue;
        Finding finding =
            startFinding("hem.return", Severity::kWarning, part.panel(bend.child).name, {idAt<BendId>(i)});
        finding.figures = {{"return_mm", return_mm, wanted_mm}};
        finding.words = fmt::format(
            "the return of this hem is {} mm deep, under {} mm: it slips in the first fold, and does not come down "
            "flat",
            millimetres(return_mm), roundedUp(wanted_mm));
        finding.remedies = {
            fmt::format("a return of {} mm or more, from the outside of the fold", roundedUp(wanted_mm))};
        findings.push_back(std::move(finding));
    }
}

void addHemsOnBrake(const PartOnBrake& part, const Shop& shop, const BrakeInSetup& brake,
                    std::vector<Finding>& findings) {
    const Part& folded = part.part();
    for (std::size_t i = 0; i < folded.bends.size(); ++i) {
        const BendId id = idAt<BendId>(i);
        const std::optional<NoHem> why = folded.bends[i].hem ? whyNoHem(part, shop, brake, id) : std::nullopt;
        if (!why) continue;
        Finding finding = startFinding("hem.brake", Severity::kFault, folded.bends[i].name, {id});
        finding.figures = {{"thickness_mm", folded.thickness_mm, hemThickness_mm(brake)}};
        finding.words = "this bend " + toText(*why, folded);
        finding.remedies = {"a brake that closes hems in this sheet",
                            "an edge without a hem: a flange folded back as far as it goes, or a welded wire"};
        findings.push_back(std::move(finding));
    }
}

}  // namespace tinwright::forming
