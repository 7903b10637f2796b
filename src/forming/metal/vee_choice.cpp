// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/forming/metal/vee_choice.h>

#include <algorithm>
#include <cmath>
#include <tuple>
#include <variant>

#include <tinwright/base/contract.h>
#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/forming/metal/bending.h>
#include <tinwright/forming/metal/press_bend.h>

namespace tinwright {

namespace {

// Of inside radii in the chart behind airBendRadius_mm: 0.156 to 0.175 of the opening.
constexpr double kRadiusSpread = 0.1;
constexpr double kLeastThicknesses = 5;
constexpr double kMostThicknesses = 20;

bool suits(const Vee& vee, double thickness_mm) {
    return vee.opening_mm >= kLeastThicknesses * thickness_mm && vee.opening_mm <= kMostThicknesses * thickness_mm;
}

bool isDrawn(const Part& part, double radius_mm) {
    return std::all_of(part.bends.begin(), part.bends.end(), [&](const Bend& bend) {
        return std::abs(bend.inside_radius_mm - radius_mm) <= kRadiusSpread * radius_mm;
    });
}

std::vector<BrakeInSetup> setupsOfKind(const LeafBrake&, const Part& part, const Brake& brake) {
    return {inSetup(brake, part.thickness_mm)};
}

// In each V, the one to try first at the front.
std::vector<BrakeInSetup> setupsOfKind(const PressBrake&, const Part& part, const Brake& brake) {
    const std::vector<Vee> all = veesOf(brake);
    TINWRIGHT_REQUIRE(!all.empty(), "a press brake has dies");
    std::vector<Vee> some;
    std::copy_if(all.begin(), all.end(), std::back_inserter(some),
                 [&](const Vee& vee) { return suits(vee, part.thickness_mm); });
    std::vector<BrakeInSetup> brakes;
    for (const Vee& vee : some.empty() ? all : some) brakes.push_back(usingVee(brake, vee));
    const auto key = [&](const BrakeInSetup& in_vee) {
        const Vee& vee = *in_vee.vee();
        return std::tuple(!isDrawn(part, in_vee.inside_radius_mm()),
                          std::abs(std::log(vee.opening_mm / usualDieOpening_mm(part.thickness_mm))), -vee.angle.rad());
    };
    std::stable_sort(brakes.begin(), brakes.end(),
                     [&](const BrakeInSetup& a, const BrakeInSetup& b) { return key(a) < key(b); });
    return brakes;
}

}  // namespace

BrakeInSetup usingVee(const Brake& brake, const Vee& vee) {
    return inVee(brake, vee, pressRadius_mm(brake.press(), vee));
}

std::vector<BrakeInSetup> setupsFor(const Part& part, const Brake& brake) {
    return std::visit([&](const auto& kind) { return setupsOfKind(kind, part, brake); }, brake.kind);
}

}  // namespace tinwright
