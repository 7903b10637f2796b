// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include <tinwright/brake/machines/brake_in_setup.h>
#include <tinwright/brake/machines/shop.h>
#include <tinwright/forming/metal/springback.h>

#include "checks/checks.h"
#include "metal/press_vee.h"
#include "rules/wording.h"

namespace tinwright::forming {

namespace {

constexpr double kWorthTelling_deg = 1.5;  // between the shop's default and the table

/// By more than sums of angles are rounded: what a machine reaches exactly it reaches, as in plans.
bool isOver(Angle angle, Angle most) {
    constexpr double kRounding_deg = 1e-7;
    return angle.deg() > most.deg() + kRounding_deg;
}

Angle mostIn(const Vee& vee) { return Angle::degrees(180) - vee.angle; }

/// Bends of one angle and radius spring back alike.
struct Alike {
    Angle angle;
    double radius_mm = 0;
    std::vector<BendId> bends;
};

std::vector<Alike> alikeBends(const Part& part) {
    std::vector<Alike> groups;
    for (std::size_t i = 0; i < part.bends.size(); ++i) {
        const Bend& bend = part.bends[i];
        auto same = std::find_if(groups.begin(), groups.end(), [&](const Alike& group) {
            return std::abs(group.angle.deg() - bend.angle.deg()) < 1e-6 &&
                   std::abs(group.radius_mm - bend.inside_radius_mm) < 1e-6;
        });
        if (same == groups.end()) same = groups.insert(groups.end(), {bend.angle, bend.inside_radius_mm, {}});
        same->bends.push_back(idAt<BendId>(i));
    }
    return groups;
}

constexpr double kFlatOnItself_deg = 180;

std::string waysWords(const SetAngle& set, Angle wanted) {
    std::vector<std::string> ways;
    const auto isOut = [](const std::optional<Angle>& angle) { return angle && angle->deg() >= kFlatOnItself_deg; };
    if (isOut(set.by_table) || isOut(set.by_formula))
        return "more than any fold reaches, since so round a bend opens too far: roll it, or draw a smaller radius";
    if (set.by_table) ways.push_back(fmt::format("{} by the tool book's table", degrees(*set.by_table)));
    if (set.by_formula && std::abs(set.by_formula->deg() - wanted.deg()) >= 0.05) {
        ways.push_back(fmt::format("{}{} by the formula with the published yield limit",
                                   set.formula_is_least ? "at least " : "", degrees(*set.by_formula)));
    } else if (set.by_formula) {
        ways.push_back("next to no springback by the formula");
    }
    return listed(ways);
}

}  // namespace

void addSpringback(const Part& part, const Material* material, std::vector<Finding>& findings) {
    if (!material) return;
    for (const Alike& group : alikeBends(part)) {
        if (group.angle.deg() >= kFlatOnItself_deg) continue;  // a hem is pressed, not swung to an angle
        const SetAngle set = setAngleFor(*material, group.angle, group.radius_mm, part.thickness_mm);
        if (!set.by_formula && !set.by_table) continue;
        Finding finding =
            startFinding("angle.springback", Severity::kNote, bendsFeature(part, group.bends), group.bends);
        finding.figures = {{"wanted_deg", group.angle.deg(), {}}};
        if (set.by_table) finding.figures.push_back({"set_by_table_deg", set.by_table->deg(), {}});
        if (set.by_formula) finding.figures.push_back({"set_by_formula_deg", set.by_formula->deg(), {}});
        finding.words = fmt::format(
            "for {} at inside radius {} mm swing to {}; a strip folded on your brake beats both, and the shop file's "
            "overbend is what plans use",
            degrees(group.angle), millimetres(group.radius_mm), waysWords(set, group.angle));
        findings.push_back(std::move(finding));
    }
}

namespace {

void addOverLeaf(const Part& part, const BrakeInSetup& brake, const Alike& group, Angle set,
                 std::vector<Finding>& findings) {
    const bool never = isOver(group.angle, brake->leaf().max_leaf_angle);
    Finding finding = startFinding("angle.leaf", never ? Severity::kFault : Severity::kWarning,
                                   bendsFeature(part, group.bends), group.bends);
    finding.figures = {{"set_deg", set.deg(), brake->leaf().max_leaf_angle.deg()}};
    const Angle left = brake->leaf().max_leaf_angle - (set - group.angle);
    finding.words =
        never ? fmt::format("{} is more than the leaf swings: {}", degrees(group.angle),
                            degrees(brake->leaf().max_leaf_angle))
              : fmt::format("set {} for {}, but the leaf stops at {}: the bend is left at about {}", degrees(set),
                            degrees(group.angle), degrees(brake->leaf().max_leaf_angle), degrees(left));
    finding.remedies = {never ? "another brake, or a bend of less"
                              : "close it the rest of the way by hand or in a vice with soft jaws"};
    findings.push_back(std::move(finding));
}

/// The shop has not measured this metal, and the table expects something else than its default.
void addDefaultOverbend(const Part& part, const Material* material, const Shop& shop, const BrakeInSetup& brake,
                        const Alike& group, std::vector<Finding>& findings) {
    const Overbend& overbend = shop.overbendOf(*brake);
    if (!material || overbend.by_material_deg.contains(part.material)) return;
    const SetAngle set = setAngleFor(*material, group.angle, group.radius_mm, part.thickness_mm);
    if (!set.by_table) return;
    const double by_table_deg = set.by_table->deg() - group.angle.deg();
    if (std::abs(by_table_deg - overbend.default_deg) < kWorthTelling_deg) return;
    Finding finding = startFinding("angle.overbend", Severity::kNote, bendsFeature(part, group.bends), group.bends);
    finding.figures = {{"overbend_deg", overbend.default_deg, by_table_deg}};
    finding.words =
        fmt::format("plans overbend {} by {} default of {}; the tool book's table says {} for {}", degrees(group.angle),
                    brake->overbend ? "this brake's" : "the shop's", degrees(Angle::degrees(overbend.default_deg)),
                    degrees(Angle::degrees(by_table_deg)), part.material);
    finding.remedies = {"fold a strip of this sheet, measure how much it opens, and write it into the shop file"};
    findings.push_back(std::move(finding));
}

}  // namespace

void addLeafAngles(const Part& part, const Material* material, const Shop& shop, const BrakeInSetup& brake,
                   std::vector<Finding>& findings) {
    for (const Alike& group : alikeBends(part)) {
        const Angle set = group.angle + Angle::degrees(shop.overbendFor_deg(part.material, *brake));
        if (isOver(set, brake->leaf().max_leaf_angle)) addOverLeaf(part, brake, group, set, findings);
        addDefaultOverbend(part, material, shop, brake, group, findings);
    }
}

namespace {

constexpr double kSuits_deg = 2;  // a bottomed bend off by less is set right by the force

/// Another V of the same opening with such an angle between its flanks: the shop's, when it has one.
std::vector<std::string> suitingVees(const BrakeInSetup& brake, const Vee& used, double suits_from_deg,
                                     double suits_to_deg) {
    for (const Vee& vee : veesOf(*brake)) {
        if (vee.opening_mm != used.opening_mm || vee.angle.deg() < suits_from_deg || vee.angle.deg() > suits_to_deg)
            continue;
        return {fmt::format("the V of {} with {} between its flanks", millimetres(vee.opening_mm), degrees(vee.angle))};
    }
    return {fmt::format("a V with {} between its flanks{}", degrees(Angle::degrees(suits_to_deg)),
                        suits_from_deg > 0 ? "" : " or less")};
}

void addOverVee(const Part& part, const BrakeInSetup& brake, const Vee& vee, const Alike& group, Angle set,
                std::vector<Finding>& findings) {
    const Angle most = mostIn(vee);
    const bool never = isOver(group.angle, most);
    Finding finding = startFinding("angle.vee", never ? Severity::kFault : Severity::kWarning,
                                   bendsFeature(part, group.bends), group.bends);
    finding.figures = {{"set_deg", set.deg(), most.deg()}};
    const std::string wanted = includedAndTurned(group.angle.deg());
    const std::string limit = includedAndTurned(most.deg());
    finding.words =
        never ? fmt::format("{} is more than a V of {} lets the sheet be bent: {}", wanted, degrees(vee.angle), limit)
              : fmt::format("set {} for {}, but the flanks of a V of {} stop the sheet at {}",
                            includedAndTurned(set.deg()), wanted, degrees(vee.angle), limit);
    finding.remedies = suitingVees(brake, vee, 0, 180 - set.deg());
    findings.push_back(std::move(finding));
}

/// Bottomed, the sheet takes the angle of the V and springs back from it.
void addOtherVee(const Part& part, const BrakeInSetup& brake, const Vee& vee, const Alike& group, Angle set,
                 std::vector<Finding>& findings) {
    const double wanted_deg = 180 - set.deg();
    if (std::abs(vee.angle.deg() - wanted_deg) <= kSuits_deg + 1e-9) return;
    const bool never = isOver(group.angle, mostIn(vee));
    Finding finding = startFinding("angle.vee", never ? Severity::kFault : Severity::kWarning,
                                   bendsFeature(part, group.bends), group.bends);
    finding.figures = {{"vee_deg", vee.angle.deg(), wanted_deg}};
    finding.words = fmt::format("bottoming makes the V's angle: {} between the flanks comes out at about {}, not {}",
                                degrees(vee.angle), includedAndTurned((mostIn(vee) - (set - group.angle)).deg()),
                                includedAndTurned(group.angle.deg()));
    finding.remedies = suitingVees(brake, vee, wanted_deg - kSuits_deg, wanted_deg);
    if (!never) finding.remedies.push_back("an air bend, where the stroke makes the angle");
    findings.push_back(std::move(finding));
}

}  // namespace

void addVeeAngles(const Part& part, const Material* material, const Shop& shop, const BrakeInSetup& brake,
                  std::vector<Finding>& findings) {
    const Vee* const vee = brake.vee();
    if (!vee) return;
    for (const Alike& group : alikeBends(part)) {
        const Angle set = group.angle + Angle::degrees(shop.overbendFor_deg(part.material, *brake));
        if (brake->press().mode == PressMode::kBottoming) {
            addOtherVee(part, brake, *vee, group, set, findings);
        } else if (isOver(set, mostIn(*vee))) {
            addOverVee(part, brake, *vee, group, set, findings);
        }
        addDefaultOverbend(part, material, shop, brake, group, findings);
    }
}

}  // namespace tinwright::forming
