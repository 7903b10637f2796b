// SPDX-License-Identifier: GPL-3.0-or-later
#include "work/made_part.h"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include <tinwright/base/words.h>
#include <tinwright/forming/metal/drawn_radius.h>
#include <tinwright/forming/metal/vee_choice.h>
#include <tinwright/io/dxf/dxf_io.h>

#include "files/part_file.h"

namespace tinwright::app {
namespace {

/// The radius hangs on the V, and which V the part goes in may hang on the radius: it settles at once as a rule, since
/// a V whose radius is drawn is tried first.
constexpr int kRounds = 3;

// "2 mm", "1 and 2 mm"
std::string drawnRadii(const Part& part, const std::vector<BendId>& bends) {
    std::vector<std::string> radii;
    for (const BendId id : bends) {
        std::string radius = trimmedNumber(part.bend(id).inside_radius_mm, 2);
        if (std::find(radii.begin(), radii.end(), radius) == radii.end()) radii.push_back(std::move(radius));
    }
    return listed(radii) + " mm";
}

std::string radiusWords(const BrakeInSetup& brake, const Part& drawn, const Part& made) {
    std::string words = fmt::format("{} mm inside, which {} gives ({})", trimmedNumber(brake.inside_radius_mm(), 2),
                                    radiusGiver(brake), brake->name);
    const std::vector<BendId> others = drawnOtherwise(drawn, brake.inside_radius_mm());
    if (others.empty()) return words;
    const bool developed = drawnOtherwise(made, brake.inside_radius_mm()).empty();
    const std::string radii = drawnRadii(drawn, others);
    return words + (developed ? ": the blank is developed for it, not for " + radii + " as drawn"
                              : ": the blank is for " + radii + " as drawn, and the legs come out off");
}

}  // namespace

Result<MadePart> madeOn(const PartChoice& choice, const Inputs& inputs, std::size_t brake, const MadeHow& how) {
    MadePart made{inputs.part, {}, {}, {}};
    const bool develops = !how.drawn_radius && !isDxfPath(choice.path);
    for (int round = 0; round < kRounds; ++round) {
        const std::vector<BrakeInSetup> setups = setupsFor(made.part, inputs.shop.brakes[brake]);
        const bool settled = setups.size() == 1 && drawnOtherwise(made.part, setups[0].inside_radius_mm()).empty();
        made.brake = setups.front();
        if (how.plan && (setups.size() > 1 || settled || !develops)) {
            made.planned = planOnBrake(made.part, inputs.shop, brake, how.options);
            made.brake = made.planned->brake;
        }
        const double radius_mm = made.brake.inside_radius_mm();
        if (!develops || drawnOtherwise(made.part, radius_mm).empty()) break;
        Result<Part> part = readPartWithRadius(choice, inputs.measured, radius_mm);
        if (!part) return part.issues();
        made.part = std::move(part).value();
        made.planned.reset();
    }
    if (how.plan && !made.planned) {
        made.planned = planOnBrake(made.part, inputs.shop, brake, how.options);
        made.brake = made.planned->brake;
    }
    made.radius_words = radiusWords(made.brake, inputs.part, made.part);
    return made;
}

}  // namespace tinwright::app
