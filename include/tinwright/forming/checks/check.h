// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <vector>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/part_on_brake.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/brake/plan/plan.h>
#include <tinwright/brake/shop/material.h>
#include <tinwright/forming/rules/finding.h>
#include <tinwright/part/model/part.h>

/// What the metal does when a part is folded, before any is cut. Rules of thumb, published tables and a limit analysis
/// of the webs beside windows; ids and their sources are in rules.h, the model is in src/forming/NOTES.md.
///
///     std::vector<Finding> findings = partFindings(part, material);
///     append brakeFindings(partOnBrake(part, shop, brake), material, shop, brake) for each brake, or webFindings(...)
///     when there is none
///
/// Everywhere: `material` may be nullptr (the materials file does not know it), then what needs its numbers is left out
/// and said once. By what of them spoils, plans are ranked and verdicts told (consequenceOf). The same input gives the
/// same findings, sorted by severity (faults first), then id, then feature.
namespace tinwright {

/// Whether what would cure a web is looked for, which takes many times what it takes to find that it is weak.
enum class Cures { kFind, kLeave };

/// Whatever the brake: cut-outs near bends, ends of bends, corner reliefs, least radii, springback.
[[nodiscard]] std::vector<Finding> partFindings(const Part& part, const Material* material);

/// What concerns one brake (Finding::brake is its name): rating, leaf angle, short flanges, bends near one another, the
/// radius of its nose, and webs beside cut-outs with the usual face of its leaf. A press brake comes as it is used with
/// one V (inVee). Of it: force on press and tools, angle and opening of the V, tip of the punch, the radius that bends
/// get, short flanges, bends near one another, cut-outs over the V, and webs between bend and shoulder.
[[nodiscard]] std::vector<Finding> brakeFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                                 const BrakeInSetup& brake, Cures cures = Cures::kFind);

/// What findings on the part and on the brake spoil that no order of folds keeps clear of: all but those that are told
/// fold by fold (foldFindings), of bends that are not formed yet.
[[nodiscard]] Spoils spoiltAnyway(const Part& drawn, const Material* material, const Shop& shop,
                                  const BrakeInSetup& brake, BendMask formed);
/// Whether a finding of brakeFindings() is told again, for the fold as it is made, by foldFindings().
[[nodiscard]] bool isToldByFold(const Finding& finding, const BrakeInSetup& brake);

/// Holding and force of one fold with the bars that its plan uses, and webs of the sides that it swings and holds. On
/// a press brake: force of the stroke on press and tools that stand, and what the sheet in front asks of hands.
/// `formed` are the bends that are folded before it: a panel that is still flat lies under the bars with its neighbour.
/// Without it all others are taken as folded.
[[nodiscard]] std::vector<Finding> foldFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                                const BrakeInSetup& brake, const FoldStep& step);
[[nodiscard]] std::vector<Finding> foldFindings(const PartOnBrake& part, const Material* material, const Shop& shop,
                                                const BrakeInSetup& brake, const FoldStep& step, BendMask formed,
                                                Cures cures = Cures::kFind);

/// Webs beside cut-outs when no brake is known: for a leaf face of `leaf_reach_mm` (generic leaf brakes have about 25)
/// and the limits that shops have by default.
inline constexpr double kUsualLeafReach_mm = 25;
[[nodiscard]] std::vector<Finding> webFindings(const Part& part, const Material* material,
                                               double leaf_reach_mm = kUsualLeafReach_mm);

/// Sorts as told above.
void sortFindings(std::vector<Finding>& findings);

}  // namespace tinwright
