// SPDX-License-Identifier: GPL-3.0-or-later
// Whether V and tip suit the sheet.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/metal/bending.h>

#include "checks/checks.h"
#include "metal/press_vee.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kSharp_t = 0.63;  // common practice

}  // namespace

void addVeeOpening(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee || part.bends.empty()) return;
    const double usual_mm = usualDieOpening_mm(part.thickness_mm);
    const double over_t = vee->opening_mm / part.thickness_mm;
    const bool narrow = vee->opening_mm < kLeastOfUsual * usual_mm || over_t < kNarrowestVee_t;
    const bool wide = vee->opening_mm > kMostOfUsual * usual_mm || over_t > kWidestVee_t;
    if (!narrow && !wide) return;
    const bool outside = over_t < kNarrowestVee_t - 1e-9 || over_t > kWidestVee_t + 1e-9;
    Finding finding = startFinding("vee.opening", outside ? Severity::kWarning : Severity::kNote,
                                   "V of " + millimetres(vee->opening_mm));
    finding.figures = {{"opening_over_thickness", over_t, narrow ? kNarrowestVee_t : kWidestVee_t},
                       {"opening_mm", vee->opening_mm, usual_mm}};
    finding.words = fmt::format(
        "a V of {} is {:.1f} thicknesses of {} mm, {} is usual: {}", millimetres(vee->opening_mm), over_t,
        millimetres(part.thickness_mm), millimetres(usual_mm),
        narrow ? "it marks the sheet and asks much force" : "the bend gets round, and the angle is hard to hold");
    finding.remedies = {fmt::format("a V near {}", millimetres(usual_mm))};
    findings.push_back(std::move(finding));
}

void addSharpPunch(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const std::optional<double> tip_mm = roundestTip_mm(brake);
    const double wanted_mm = kSharp_t * part.thickness_mm;
    if (!tip_mm || part.bends.empty() || *tip_mm >= wanted_mm - 1e-9) return;
    Finding finding = startFinding("punch.sharp", Severity::kNote, "punches");
    finding.figures = {{"tip_radius_mm", *tip_mm, wanted_mm}};
    finding.words = fmt::format(
        "the roundest punch that may be used has a tip of {} mm, under {} mm for sheet of {} mm: it may press a crease "
        "into the inside of the bend",
        millimetres(*tip_mm), roundedUp(wanted_mm), millimetres(part.thickness_mm));
    finding.remedies = {fmt::format("a punch with a tip of {} mm or more", roundedUp(wanted_mm))};
    findings.push_back(std::move(finding));
}

}  // namespace tinwright::forming
