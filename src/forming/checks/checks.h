// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <tinwright/forming/checks/check.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>

/// The checks, each in a file of its own. Every one adds what it finds, in no particular order.
namespace tinwright::forming {

void addUnknownMaterial(const Part& part, const Material* material, std::vector<Finding>& findings);
void addHoleDistances(const Part& part, std::vector<Finding>& findings);
void addBendEnds(const Part& part, std::vector<Finding>& findings);
void addCornerReliefs(const Part& part, const Material* material, std::vector<Finding>& findings);
void addLeastRadii(const Part& part, const Material* material, std::vector<Finding>& findings);
void addSpringback(const Part& part, const Material* material, std::vector<Finding>& findings);
void addHemReturns(const Part& part, std::vector<Finding>& findings);

/// What follows is of parts as their brake folds them.
void addHemsOnBrake(const PartOnBrake& part, const Shop& shop, const BrakeInSetup& brake,
                    std::vector<Finding>& findings);

void addRating(const Part& part, const Material* material, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addLeafAngles(const Part& part, const Material* material, const Shop& shop, const BrakeInSetup& brake,
                   std::vector<Finding>& findings);
void addShortFlanges(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addNearBends(const Part& part, const Shop& shop, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addNoseRadius(const Part& part, const Material* material, const BrakeInSetup& brake,
                   std::vector<Finding>& findings);
void addNoseDrawnRadius(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings);

/// The same for press brakes, as they are used with one V (inVee).
void addPressForce(const Part& part, const Material* material, const BrakeInSetup& brake,
                   std::vector<Finding>& findings);
void addVeeAngles(const Part& part, const Material* material, const Shop& shop, const BrakeInSetup& brake,
                  std::vector<Finding>& findings);
void addVeeRadius(const Part& part, const Material* material, const BrakeInSetup& brake,
                  std::vector<Finding>& findings);
void addVeeDrawnRadius(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addVeeOpening(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addSharpPunch(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addVeeFlanges(const Part& part, const Shop& shop, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addVeeNearBends(const Part& part, const Shop& shop, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addVeeHoles(const Part& part, const BrakeInSetup& brake, std::vector<Finding>& findings);
void addVeeWebs(const Part& part, const Material* material, const BrakeInSetup& brake, Cures cures,
                std::vector<Finding>& findings);

/// The tools as a web feels them.
struct WebTools {
    double leaf_mm = 0;  ///< from the bend line to the tip of the leaf's face, along the leg
    double land_mm = 0;  ///< least depth of sheet that a bar clamps
};
/// With the face that it usually has, or another.
[[nodiscard]] WebTools leafOf(const Shop& shop, const BrakeInSetup& brake);
[[nodiscard]] WebTools leafOf(const Shop& shop, const BrakeInSetup& brake, const LeafFace& face);
/// What of a bend's two panels is spoilt when one is swung and the other held.
[[nodiscard]] Spoils webSpoils(const Part& part, const Material* material, const WebTools& tools, BendId bend,
                               Side swung);
void addWebs(const Part& part, const Material* material, const WebTools& tools, Cures cures,
             std::vector<Finding>& findings);

/// One fold of a plan.
struct FoldAsked {
    const Part& part;
    const Material* material;
    const Shop& shop;
    const BrakeInSetup& brake;
    const FoldStep& step;
    BendMask formed;
    Cures cures = Cures::kLeave;
};
/// The side of a bend that lies held in a fold: under the bars of a leaf brake, at the back of a press brake.
[[nodiscard]] Side heldSide(const FoldAsked& asked, BendId bend);
void addHolding(const FoldAsked& asked, std::vector<Finding>& findings);
void addGapUnderBars(const Part& part, const Material* material, const BrakeInSetup& brake,
                     std::vector<Finding>& findings);
[[nodiscard]] Care holdingCare(const FoldAsked& asked);
void addSwungWebs(const FoldAsked& asked, std::vector<Finding>& findings);
/// Of press brakes.
void addStrokeForce(const FoldAsked& asked, std::vector<Finding>& findings);
[[nodiscard]] Spoils forceSpoils(const FoldAsked& asked);
/// Of any stroke that makes the bend, whatever stands.
[[nodiscard]] Spoils leastForceSpoils(const Part& part, BendId bend, const BrakeInSetup& brake,
                                      const Material* material);
void addInHands(const FoldAsked& asked, std::vector<Finding>& findings);
[[nodiscard]] bool comesNearHands(const FoldAsked& asked);

}  // namespace tinwright::forming
