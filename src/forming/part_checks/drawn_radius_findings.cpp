// SPDX-License-Identifier: GPL-3.0-or-later
// Whether bends get the inside radius that they are drawn with.
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

constexpr double kChartSpread = 0.1;        // of the chart's radii about 0.16 V
constexpr double kToolSpread_mm = 0.05;     // of a nose, and of a tip, bottoming
constexpr double kFarOffThicknesses = 0.5;  // a square bend then comes out a fifth of a thickness longer or shorter

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

Finding drawnFinding(const Part& part, const Drawn& drawn, double gets_mm, const std::string& by) {
    const bool far_off = std::abs(drawn.radius_mm - gets_mm) > kFarOffThicknesses * part.thickness_mm;
    Finding finding = startFinding("radius.drawn", far_off ? Severity::kWarning : Severity::kNote,
                                   bendsFeature(part, drawn.bends), drawn.bends);
    finding.figures = {{"drawn_radius_mm", drawn.radius_mm, gets_mm}};
    finding.words = fmt::format("{}; {} {} drawn with {} mm, so that the legs come out off", by, finding.feature,
                                drawn.bends.size() == 1 ? "is" : "are", millimetres(drawn.radius_mm));
    finding.remedies = {fmt::format("draw {} with an inside radius of {} mm", drawn.bends.size() == 1 ? "it" : "them",
                                    millimetres(gets_mm))};
    return finding;
}

}  // namespace

void addNoseDrawnRadius(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const double gets_mm = brake.inside_radius_mm();
    for (const Drawn& drawn : drawnRadii(part)) {
        if (std::abs(drawn.radius_mm - gets_mm) <= kToolSpread_mm + 1e-9) continue;
        Finding finding =
            drawnFinding(part, drawn, gets_mm,
                         fmt::format("bends get the inside radius of the nose, {} mm", trimmedNumber(gets_mm, 2)));
        finding.remedies.push_back("cut the blank that tinwright blank --shop makes: it is developed for the nose");
        findings.push_back(std::move(finding));
    }
}

void addVeeDrawnRadius(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee) return;
    const double gets_mm = brake.inside_radius_mm();
    const bool air = brake->press().mode == PressMode::kAirBending;
    for (const Drawn& drawn : drawnRadii(part)) {
        if (std::abs(drawn.radius_mm - gets_mm) <= (air ? kChartSpread * gets_mm : kToolSpread_mm) + 1e-9) continue;
        Finding finding = drawnFinding(part, drawn, gets_mm, radiusWords(brake, *vee));
        const std::optional<Vee> other = air ? veeForRadius(brake, drawn.radius_mm, part.thickness_mm) : std::nullopt;
        if (other) finding.remedies.push_back(fmt::format("a V of {}", millimetres(other->opening_mm)));
        findings.push_back(std::move(finding));
    }
}

}  // namespace tinwright::forming
