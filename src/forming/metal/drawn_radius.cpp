// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/metal/drawn_radius.h>

#include <cmath>
#include <variant>

#include <fmt/format.h>

namespace tinwright {

namespace {

constexpr double kSameDrawn_mm = 0.05;

std::string giverOn(const LeafBrake&, const BrakeInSetup&) { return "the nose of this brake"; }
std::string giverOn(const PressBrake&, const BrakeInSetup& brake) {
    return fmt::format("a V of {:.4g}", brake.vee()->opening_mm);
}

}  // namespace

std::vector<BendId> drawnOtherwise(const Part& part, double inside_radius_mm) {
    std::vector<BendId> bends;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        if (!bend.hem && std::abs(bend.inside_radius_mm - inside_radius_mm) > kSameDrawn_mm + 1e-9)
            bends.push_back(idAt<BendId>(i));
    }
    return bends;
}

std::string radiusGiver(const BrakeInSetup& brake) {
    return std::visit([&](const auto& kind) { return giverOn(kind, brake); }, brake->kind);
}

}  // namespace tinwright
