// SPDX-License-Identifier: GPL-3.0-or-later
// Whether V and tip suit the sheet, and the radius that they make the one that is drawn.
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

constexpr double kChartSpread = 0.1;    // of the chart's radii about 0.16 V
constexpr double kTipSpread_mm = 0.05;  // of a tip's radius, bottoming
constexpr double kFarOff_t = 0.5;       // a square bend then comes out a fifth of a thickness longer or shorter
constexpr double kSharp_t = 0.63;       // common practice

/// Bends drawn with one radius.
struct Drawn {
    double radius_mm = 0;
    std::vector<BendId> bends;
};

std::vector<Drawn> drawnRadii(const Part& part) {
    std::vector<Drawn> all;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const double radius_mm = part.bends[i].inside_radius_mm;
        auto same = std::find_if(all.begin(), all.end(),
                                 [&](const Drawn& drawn) { return std::abs(drawn.radius_mm - radius_mm) < 1e-6; });
        if (same == all.end()) same = all.insert(all.end(), {radius_mm, {}});
        same->bends.push_back(idAt<BendId>(i));
    }
    return all;
}

/// The V of the brake whose air bends come nearest to the drawn radius, when they are that by the chart and the V is
/// one for the sheet.
std::optional<Vee> veeForRadius(const BrakeInSetup& brake, double radius_mm, double thickness_mm) {
    std::optional<Vee> nearest;
    const auto off_mm = [&](const Vee& vee) { return std::abs(airBendRadius_mm(vee.opening_mm) - radius_mm); };
    for (const Vee& vee : veesOf(*brake)) {
        if (vee.opening_mm < kNarrowestVee_t * thickness_mm || vee.opening_mm > kWidestVee_t * thickness_mm) continue;
        if (off_mm(vee) <= kChartSpread * airBendRadius_mm(vee.opening_mm) &&
            (!nearest || off_mm(vee) < off_mm(*nearest)))
            nearest = vee;
    }
    return nearest;
}

}  // namespace

void addDrawnRadius(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee) return;
    const double gets_mm = brake.inside_radius_mm();
    const bool air = brake->press().mode == PressMode::kAirBending;
    for (const Drawn& drawn : drawnRadii(part)) {
        const double off_mm = std::abs(drawn.radius_mm - gets_mm);
        if (off_mm <= (air ? kChartSpread * gets_mm : kTipSpread_mm) + 1e-9) continue;
        Finding finding =
            startFinding("radius.drawn", off_mm > kFarOff_t * part.thickness_mm ? Severity::kWarning : Severity::kNote,
                         bendsFeature(part, drawn.bends), drawn.bends);
        finding.figures = {{"drawn_radius_mm", drawn.radius_mm, gets_mm}};
        finding.words =
            fmt::format("{}; {} {} drawn with {} mm, so that the legs come out off", radiusWords(brake, *vee),
                        finding.feature, drawn.bends.size() == 1 ? "is" : "are", millimetres(drawn.radius_mm));
        finding.remedies = {fmt::format("draw {} with an inside radius of {} mm",
                                        drawn.bends.size() == 1 ? "it" : "them", millimetres(gets_mm))};
        const std::optional<Vee> other = air ? veeForRadius(brake, drawn.radius_mm, part.thickness_mm) : std::nullopt;
        if (other) finding.remedies.push_back(fmt::format("a V of {}", millimetres(other->opening_mm)));
        findings.push_back(std::move(finding));
    }
}

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
