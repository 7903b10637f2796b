// SPDX-License-Identifier: GPL-3.0-or-later
#include <tinwright/brake/machines/hemming.h>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>
#include <optional>
#include <vector>

#include <tinwright/base/words.h>
#include <tinwright/part/allowance/allowance.h>

namespace tinwright {

namespace {

constexpr double kUnder_deg = 0.01;     // short of where the return lies against a bar or a flank of the punch
constexpr double kRounding_deg = 1e-7;  // what leaf and V allow exactly, they allow
constexpr double kLevel_mm = 1e-3;
constexpr double kSomething_mm2 = 1e-2;

// To which angle a short return goes up round the nose or tip of a section before it lies against what is next to that.
// The face at angle a is the tangent at C + r (-sin a, -cos a) of the arc about C = (y, r); a point p keeps behind it
// while sin(a + γ) >= -r / |p - C|, γ the direction of p - C.
double besideNose_rad(const Polygon& section, const Vec2& centre, double radius_mm) {
    constexpr double kAlong_mm = 12;    // as far as returns reach, about
    constexpr double kOnArc_mm = 0.02;  // vertices that stand for the arc lie a little outside of it
    const double wide_mm = 1e4;
    double most = std::numbers::pi;
    for (const Region& low : intersection(
             {section, {}}, {{-wide_mm, -wide_mm}, {wide_mm, -wide_mm}, {wide_mm, kAlong_mm}, {-wide_mm, kAlong_mm}})) {
        for (const Vec2& point : low.outline) {
            const Vec2 p = point - centre;
            const double away = p.norm();
            if (away <= radius_mm + kOnArc_mm || p.y() <= 0) continue;
            most = std::min(most, std::numbers::pi + std::asin(radius_mm / away) - std::atan2(p.y(), p.x()));
        }
    }
    return most;
}

// The slimmest of tools of one kind; tools of many widths follow one another with one profile.
template <class Tools, class Beside>
double slimmest_deg(const Tools& tools, Beside beside_deg) {
    double slimmest_deg = 0;
    const Polygon* before = nullptr;
    for (const auto* tool : tools) {
        if (before == nullptr || *before != tool->profile)
            slimmest_deg = std::max(slimmest_deg, beside_deg(tool->profile));
        before = &tool->profile;
    }
    return slimmest_deg;
}

std::vector<const Tool*> uppersOf(const BrakeInSetup& brake) {
    std::vector<const Tool*> uppers;
    for (const ToolId id : brake.tools(ToolRow::kUpper)) uppers.push_back(&brake->tool(id));
    return uppers;
}

double mostAngle_deg(const LeafBrake& leaf, const BrakeInSetup& brake) {
    const double radius_mm = brake.inside_radius_mm();
    const auto front_deg = [&](const Polygon& bar) {
        return Angle::radians(besideNose_rad(bar, Vec2(radius_mm, radius_mm), radius_mm)).deg();
    };
    return std::min(slimmest_deg(uppersOf(brake), front_deg) - kUnder_deg, leaf.max_leaf_angle.deg() + kRounding_deg);
}

// Both flanks of a punch, each of which bears half of the angle. Short of the V's flanks too: sheet that lies on them
// bears far out, and a short return would not reach there.
double mostAngle_deg(const PressBrake&, const BrakeInSetup& brake) {
    const double radius_mm = brake.inside_radius_mm();
    const auto flanks_deg = [&](const Polygon& punch) {
        Polygon back;
        for (const Vec2& point : punch) back.emplace_back(-point.x(), point.y());
        std::reverse(back.begin(), back.end());
        const Vec2 centre(0, radius_mm);
        return 2 * Angle::radians(
                       std::min(besideNose_rad(punch, centre, radius_mm), besideNose_rad(back, centre, radius_mm)))
                       .deg();
    };
    return std::min(slimmest_deg(uppersOf(brake), flanks_deg) - kUnder_deg,
                    180 - brake.vee()->angle.deg() - kUnder_deg);
}

// By the rule that gave the bend its strip. The handbook's has no value of its own; a table of test strips is told by
// the k it came to.
double firstAllowance_mm(const Bend& bend, Angle angle, double inside_radius_mm, double thickness_mm) {
    constexpr double kMiddle = 0.5;
    switch (bend.rule) {
        case AllowanceRule::kHandbook: return handbookAllowance_mm(angle, inside_radius_mm, thickness_mm);
        case AllowanceRule::kDin6935:
            if (inside_radius_mm > 0) return din6935Allowance_mm(angle, inside_radius_mm, thickness_mm);
            return kFactorAllowance_mm(angle, inside_radius_mm, thickness_mm, kMiddle);
        case AllowanceRule::kKFactor:
        case AllowanceRule::kMeasured: break;
    }
    return kFactorAllowance_mm(angle, inside_radius_mm, thickness_mm, bend.rule_value);
}

// Sheet along the bend between two distances from its line, towards the child; by span.
std::vector<Polygon> alongBend(const Bend& bend, double from_mm, double to_mm) {
    std::vector<Polygon> strips;
    for (const StripSpan& span : bend.spans) {
        const auto at = [&](double along, double out) -> Vec2 {
            return bend.origin + along * bend.along + out * bend.toward_child;
        };
        Polygon strip{at(span.from_mm, from_mm), at(span.from_mm, to_mm), at(span.to_mm, to_mm),
                      at(span.to_mm, from_mm)};
        if (signedArea_mm2(strip) < 0) std::reverse(strip.begin(), strip.end());
        strips.push_back(std::move(strip));
    }
    return strips;
}

void reshape(Region& panel, const Bend& bend, double from_mm, double to_mm, bool takes) {
    const std::vector<Polygon> strips = alongBend(bend, from_mm, to_mm);
    std::vector<Region> result;
    if (takes) {
        result = difference(panel, strips);
    } else {
        std::vector<Region> all{panel};
        for (const Polygon& strip : strips) all.push_back({strip, {}});
        result = unite(all);
    }
    // At a corner without a relief slivers fall off where two strips cross: the bends are refused for want of it (the
    // strip meets its neighbour).
    constexpr double kSliver = 0.02;
    std::sort(result.begin(), result.end(), [](const Region& a, const Region& b) { return area_mm2(a) > area_mm2(b); });
    double rest_mm2 = 0;
    for (std::size_t i = 1; i < result.size(); ++i) rest_mm2 += area_mm2(result[i]);
    if (!result.empty() && rest_mm2 < kSliver * area_mm2(result.front())) panel = std::move(result.front());
}

void foldFirst(Part& part, Bend& bend, Angle angle, double inside_radius_mm) {
    bend.angle = angle;
    bend.inside_radius_mm = inside_radius_mm;
    bend.allowance_mm = firstAllowance_mm(bend, angle, inside_radius_mm, part.thickness_mm);
    const double closed_mm = 0.5 * bend.hem->allowance_mm;
    const double first_mm = 0.5 * bend.allowance_mm;
    const bool takes = first_mm > closed_mm;
    const double near_mm = std::min(closed_mm, first_mm);
    const double far_mm = std::max(closed_mm, first_mm);
    if (far_mm - near_mm < kLevel_mm) return;
    reshape(part.panels[bend.child.index()].region, bend, near_mm, far_mm, takes);
    reshape(part.panels[bend.parent.index()].region, bend, -far_mm, -near_mm, takes);
}

double thickestHem_mm(const LeafBrake& leaf, const BrakeInSetup&) { return leaf.hem_thickness_mm; }

double thickestHem_mm(const PressBrake&, const BrakeInSetup& brake) {
    double thickest_mm = 0;
    for (const ToolId id : brake.tools(ToolRow::kLower)) {
        const Die& die = *brake->die(id);
        if (die.jaw) thickest_mm = std::max(thickest_mm, die.jaw->hem_thickness_mm);
    }
    return thickest_mm;
}

NoHem::Why whyNoneOn(const LeafBrake&) { return NoHem::Why::kClampUnsaid; }
NoHem::Why whyNoneOn(const PressBrake&) { return NoHem::Why::kNoJaw; }

NoHem::Why whyTooLittleOn(const LeafBrake&) { return NoHem::Why::kFirstSwing; }
NoHem::Why whyTooLittleOn(const PressBrake&) { return NoHem::Why::kFirstPress; }

// The longest level stretch of a section at this height.
std::optional<HemFlats> levelAt(const Polygon& section, double z_mm) {
    std::optional<HemFlats> longest;
    for (std::size_t i = 0; i < section.size(); ++i) {
        const Vec2& a = section[i];
        const Vec2& b = section[(i + 1) % section.size()];
        if (std::abs(a.y() - z_mm) > kLevel_mm || std::abs(b.y() - z_mm) > kLevel_mm) continue;
        const HemFlats flat{std::min(a.x(), b.x()), std::abs(a.x() - b.x()), 0};
        if (!longest || flat.depth_mm > longest->depth_mm) longest = flat;
    }
    return longest;
}

// y at which a section begins at this height.
double frontAt_mm(const Polygon& section, double z_mm) {
    double front_mm = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < section.size(); ++i) {
        const Vec2& a = section[i];
        const Vec2& b = section[(i + 1) % section.size()];
        if (std::min(a.y(), b.y()) > z_mm || std::max(a.y(), b.y()) < z_mm) continue;
        const double share = a.y() == b.y() ? 0 : (z_mm - a.y()) / (b.y() - a.y());
        front_mm = std::min(front_mm, a.x() + share * (b.x() - a.x()));
        if (a.y() == b.y()) front_mm = std::min(front_mm, b.x());
    }
    return front_mm;
}

}  // namespace

double hemThickness_mm(const BrakeInSetup& brake) {
    return std::visit([&](const auto& kind) { return thickestHem_mm(kind, brake); }, brake->kind);
}

Angle firstFoldAngle(const BrakeInSetup& brake, double overbend_deg) {
    const double most_deg = std::visit([&](const auto& kind) { return mostAngle_deg(kind, brake); }, brake->kind);
    return Angle::degrees(std::max(0.0, std::floor(std::min(kMostFirstFold_deg, most_deg - overbend_deg))));
}

PartOnBrake partOnBrake(const Part& drawn, const Shop& shop, const BrakeInSetup& brake) {
    Part folded = drawn;
    const Angle angle = firstFoldAngle(brake, shop.overbendFor_deg(drawn.material, *brake));
    if (!hasHems(drawn) || !(angle.deg() > 0)) return PartOnBrake(std::move(folded));
    for (Bend& bend : folded.bends) {
        if (bend.hem) foldFirst(folded, bend, angle, brake.inside_radius_mm());
    }
    return PartOnBrake(std::move(folded));
}

std::optional<NoHem> whyNoHem(const PartOnBrake& folded, const Shop& shop, const BrakeInSetup& brake, BendId id) {
    using Why = NoHem::Why;
    const Part& part = folded.part();
    const double thickest_mm = hemThickness_mm(brake);
    if (thickest_mm <= 0) {
        const Why why = std::visit([](const auto& kind) { return whyNoneOn(kind); }, brake->kind);
        return NoHem{why, id, 0, {}, {}};
    }
    if (part.thickness_mm > thickest_mm + 1e-9) return NoHem{Why::kThickness, id, thickest_mm, {}, {}};
    const Angle first = firstFoldAngle(brake, shop.overbendFor_deg(part.material, *brake));
    if (first.deg() < kLeastFirstFold_deg - 1e-6) {
        const Why why = std::visit([](const auto& kind) { return whyTooLittleOn(kind); }, brake->kind);
        return NoHem{why, id, 0, first, {}};
    }
    const Bend& bend = part.bend(id);
    for (const PanelId panel : {bend.child, bend.parent}) {
        double swallowed_mm2 = 0;
        for (const Polygon& strip : alongBend(bend, -0.5 * bend.allowance_mm, 0.5 * bend.allowance_mm)) {
            for (const Region& piece : intersection(part.panel(panel).region, strip)) swallowed_mm2 += area_mm2(piece);
        }
        if (swallowed_mm2 > kSomething_mm2) return NoHem{Why::kSwallowed, id, 0.5 * bend.allowance_mm, {}, panel};
    }
    return std::nullopt;
}

std::string toText(const NoHem& no_hem, const Part& part) {
    switch (no_hem.why) {
        case NoHem::Why::kNoJaw:
            return "is a hem, and no die of this brake has a jaw that would close it (the shop file's \"jaw\")";
        case NoHem::Why::kClampUnsaid:
            return "is a hem, and the shop file does not say that this brake's clamp closes hems (\"hem_thickness\")";
        case NoHem::Why::kThickness:
            return fmt::format("is a hem, and this brake closes hems in sheet up to {:.4g} mm", no_hem.limit_mm);
        case NoHem::Why::kFirstPress:
            return fmt::format(
                "is a hem, and this brake presses it to {} at most: short of {} the return buckles when "
                "it is pressed flat",
                includedAndTurned(no_hem.first_fold.deg()), includedAndTurned(kLeastFirstFold_deg));
        case NoHem::Why::kFirstSwing:
            return fmt::format(
                "is a hem, and this brake folds it to {:.4g}° at most: under {:.0f}° the return buckles when it is "
                "pressed flat",
                no_hem.first_fold.deg(), kLeastFirstFold_deg);
        case NoHem::Why::kSwallowed: break;
    }
    return fmt::format(
        "is a hem, and {} is no longer than what its first fold takes: {:.1f} mm either side of the line",
        part.panel(no_hem.panel).name, no_hem.limit_mm);
}

HemFlats clampFlats(const BrakeInSetup& brake, const Bar& bar) {
    const LeafBrake& leaf = brake->leaf();
    const auto upper = levelAt(bar.profile, 0);
    const auto lower = levelAt(leaf.bed, 0);
    if (!upper || !lower) return {};
    const double setback_mm = brake.setback_mm();
    const double front_mm = std::max(upper->front_mm, lower->front_mm - setback_mm);
    const double back_mm = std::min(upper->front_mm + upper->depth_mm, lower->front_mm + lower->depth_mm - setback_mm);
    const double opens_mm =
        leaf.clamp == ClampKind::kOnBeam ? leaf.opening_mm : std::numeric_limits<double>::infinity();
    return {front_mm, std::max(0.0, back_mm - front_mm), opens_mm};
}

HemFlats jawFlats(const Die& die) {
    const double floor_z = die.jaw->floor_mm - die.height_mm;
    const double front_mm =
        std::max(frontAt_mm(die.profile, floor_z), frontAt_mm(die.profile, floor_z + die.jaw->opening_mm));
    return {front_mm, die.jaw->depth_mm, die.jaw->opening_mm};
}

std::string whyNoJaw(const Die& die) {
    const Jaw& jaw = *die.jaw;
    const double vee_depth_mm = 0.5 * die.vee.opening_mm / std::tan(0.5 * die.vee.angle.rad());
    if (jaw.floor_mm + jaw.opening_mm + vee_depth_mm >= die.height_mm) {
        return fmt::format("a jaw that ends under the V: floor and opening together less than {:.1f} mm",
                           std::max(0.0, die.height_mm - vee_depth_mm));
    }
    double back_mm = -std::numeric_limits<double>::infinity();
    for (const Vec2& point : die.profile) back_mm = std::max(back_mm, point.x());
    const double front_mm = jawFlats(die).front_mm;
    return front_mm + jaw.depth_mm <= back_mm
               ? std::string()
               : fmt::format("a depth of up to {:.1f} mm, as deep as the die is there", back_mm - front_mm);
}

double hemDepth_mm(const Part& part, BendId id) {
    const Bend& bend = part.bend(id);
    double furthest_mm = 0;
    for (const Vec2& point : part.panel(bend.child).region.outline)
        furthest_mm = std::max(furthest_mm, (point - bend.origin).dot(bend.toward_child));
    return 0.5 * bend.hem->gap_mm + part.thickness_mm + std::max(0.0, furthest_mm - 0.5 * bend.hem->allowance_mm);
}

}  // namespace tinwright
