// SPDX-License-Identifier: GPL-3.0-or-later
#include "start/start_sizes.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace tinwright {

namespace {

// A step between two bends that turn opposite ways must clear the leaf's narrow face: about its depth + t + 1 (shop
// practice).
constexpr double kNarrowLeaf_mm = 12.0;
constexpr double kLeastFlange_mm = 5.0;
constexpr double kSecondTab_mm = 120.0;

double roundFigure(const StartChoice& choice, double mm) {
    return choice.inches ? mm / kRoundInch_mm * kMmPerInch : mm;
}

void setWalls(const StartChoice& choice, StartSizes& sizes) {
    const bool legs = choice.shape == StartShape::kChannel || choice.shape == StartShape::kHat;
    if (isBox(choice.shape)) sizes.has_wall = {true, true, true, true};
    if (legs) sizes.has_wall = {false, true, false, true};
    if (choice.shape == StartShape::kBracket) sizes.has_wall = {false, false, true, false};
    const auto inside = [&](std::size_t axis, std::size_t of) {
        return choice.component_mm[of] + sizes.wallsAcross(axis) * choice.gap_mm[of];
    };
    sizes.across_mm = inside(0, sizes.view.width);
    sizes.along_mm = inside(1, sizes.view.depth);
}

// What is welded without filler may gape by a tenth of the sheet (common practice).
void setCorners(const StartChoice& choice, StartSizes& s) {
    const bool weld = choice.corners == StartCorners::kWeld;
    s.mitre_deg = weld ? 0 : kWallMitre_deg;
    s.corner_gap_mm = weld ? std::max(0.1 * s.thickness_mm, roundFigure(choice, 0.1))
                           : std::max(0.8 * s.thickness_mm, roundFigure(choice, 1));
}

std::vector<ComponentSide> fixedWalls(const StartChoice& choice) {
    using enum ComponentSide;
    if (choice.shape == StartShape::kHat) return {kLeft, kRight};
    if (choice.shape == StartShape::kBracket) return {kBack};
    if (!mayHaveTabs(choice.shape)) return {};
    if (choice.fix) return *choice.fix;
    if (choice.shape != StartShape::kHousing) return {};
    const BaseView view = baseView(openSide(choice));
    return {view.at[kLeftEdge], view.at[kRightEdge]};
}

FarEdge farEdge(const StartChoice& choice, const StartSizes& sizes) {
    if (choice.shape == StartShape::kHat) return FarEdge::kTurnedOut;
    if (choice.shape == StartShape::kChannel && choice.lip_mm) return FarEdge::kTurnedIn;
    return mayHaveTabs(choice.shape) && !sizes.fix.empty() ? FarEdge::kTurnedOut : FarEdge::kFree;
}

void setHeight(const StartChoice& choice, StartSizes& s) {
    const double t = s.thickness_mm, r = s.radius_mm;
    s.least_height_mm = choice.component_mm[s.view.height] + choice.gap_mm[s.view.height];
    double least = std::max(3 * t + r, kLeastFlange_mm);
    if (s.far == FarEdge::kTurnedOut) least = std::max(kNarrowLeaf_mm + 1, 2 * r + 2 * t);
    if (s.far == FarEdge::kTurnedIn) least = 0;  // the lip must close over the component, not higher
    if (choice.shape == StartShape::kBracket && s.screw_mm > 0) least = std::max(least, 2 * r + 4 * t + s.screw_mm);
    s.inside_height_mm = std::max(s.least_height_mm, least);
    if (choice.inside_height_mm) s.inside_height_mm = *choice.inside_height_mm;
    if (choice.shape == StartShape::kBracket && choice.upright_mm) s.inside_height_mm = *choice.upright_mm;
}

void setTurned(const StartChoice& choice, StartSizes& s) {
    const double t = s.thickness_mm, r = s.radius_mm;
    // From the free edge to the hole's edge 2.5 t, from the hole's edge to the start of the bend 1.5 t + r.
    const double from_far = 0.5 * s.screw_mm + 2.5 * t;
    const double to_bend = 0.5 * s.screw_mm + 1.5 * t + r;
    const double usual = s.screw_mm > 0 ? r + t + to_bend + from_far : std::max(4 * t + r, 2 * kLeastFlange_mm);
    s.turned_mm = usual;
    if (choice.shape == StartShape::kHat) s.turned_mm = choice.foot_mm.value_or(usual);
    if (choice.shape == StartShape::kChannel) s.turned_mm = choice.lip_mm.value_or(0);
    if (mayHaveTabs(choice.shape)) s.turned_mm = choice.tab_length_mm.value_or(usual);
    const double room = choice.shape == StartShape::kBracket ? s.inside_height_mm - r : s.turned_mm - r - t;
    s.screw_from_far_mm = std::min(from_far, room - to_bend);
}

void setTabs(const StartChoice& choice, StartSizes& s) {
    s.tab_width_mm =
        choice.tab_width_mm.value_or(std::max(roundFigure(choice, 20), 2 * s.screw_mm + roundFigure(choice, 10)));
    s.tab_inset_mm = std::max(roundFigure(choice, 5), 2 * s.thickness_mm);
    if (choice.fixings) {
        s.fixings = *choice.fixings;
        return;
    }
    s.fixings = 2;
    if (!isBox(choice.shape)) return;
    for (std::size_t edge = 0; edge < 4; ++edge) {
        const bool is_fixed = std::find(s.fix.begin(), s.fix.end(), s.view.at[edge]) != s.fix.end();
        if (is_fixed && s.farEdge_mm(edge) < kSecondTab_mm) s.fixings = 1;
    }
}

}  // namespace

double StartSizes::wallFlat_mm() const {
    if (far == FarEdge::kTurnedOut) return inside_height_mm + thickness_mm - 2 * (radius_mm + thickness_mm);
    return inside_height_mm - (far == FarEdge::kTurnedIn ? 2 : 1) * radius_mm;
}

double StartSizes::farEdge_mm(std::size_t edge) const {
    const double inside = edge == kFrontEdge || edge == kBackEdge ? across_mm : along_mm;
    return inside - std::numbers::sqrt2 * corner_gap_mm -
           2 * wallFlat_mm() * std::tan(mitre_deg * std::numbers::pi / 180);
}

int StartSizes::wallsAcross(std::size_t axis) const {
    return axis == 0 ? has_wall[kLeftEdge] + has_wall[kRightEdge] : has_wall[kFrontEdge] + has_wall[kBackEdge];
}

StartSizes startSizes(const StartChoice& choice) {
    StartSizes sizes{};
    sizes.view = baseView(openSide(choice));
    sizes.thickness_mm = choice.thickness_mm.value_or(roundFigure(choice, 1.5));
    sizes.radius_mm = choice.inside_radius_mm.value_or(roundFigure(choice, 1));
    sizes.k = choice.k.value_or(0.44);
    setCorners(choice, sizes);
    sizes.screw_mm = choice.screw_mm.value_or(roundFigure(choice, 4.5));
    setWalls(choice, sizes);
    sizes.fix = fixedWalls(choice);
    sizes.far = farEdge(choice, sizes);
    setHeight(choice, sizes);
    setTurned(choice, sizes);
    setTabs(choice, sizes);
    return sizes;
}

double leastTurned_mm(const StartSizes& s) {
    const double bend = s.radius_mm + (s.far == FarEdge::kTurnedOut ? s.thickness_mm : 0);
    if (s.screw_mm <= 0 || s.far == FarEdge::kTurnedIn) return bend + s.thickness_mm;
    return bend + 1.5 * s.thickness_mm + s.radius_mm + s.screw_mm + s.thickness_mm;
}

}  // namespace tinwright
