// SPDX-License-Identifier: GPL-3.0-or-later
#include "webs/web.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <tinwright/forming/metal/bending.h>

namespace tinwright::forming {

namespace {

// The leaf bears on the last hundredth of the leg: at its very edge a leg that runs to a point has no width.
constexpr double kBearingInset = 0.01;
constexpr double kLeastCapacity_mm = 1e-6;  // a line through nothing but cut-outs: the piece beyond hangs on nothing
constexpr int kOffsets = 9;                 // lines of one slope through one cut-out
constexpr double kTouching = 1e-3;          // of a cut-out's extent: the outermost lines run just inside it
constexpr std::size_t kPairsOf = 12;        // cut-outs of a leg up to which lines through pairs of them are tried
constexpr double kSteepest_deg = 60;
constexpr int kBowSteps = 64;

double bearing_mm(const Leg& leg, const LegLoad& load) {
    const double tip = std::min(leg.depth_mm, load.leaf_mm);
    return tip - kBearingInset * (tip - leg.strip_mm);
}

/// Where the leaf bears, and with how much for each mm: its force is that which bends the bend line.
struct Bearing {
    Stretches stretches;  // x
    double y_mm = 0;
    double force = 0;  // for each mm
};

Bearing bearingOf(const Leg& leg, const LegLoad& load) {
    Bearing bearing;
    bearing.y_mm = bearing_mm(leg, load);
    bearing.stretches = chords(leg.solid, {Vec2::UnitY(), bearing.y_mm});
    const double width_mm = total_mm(bearing.stretches);
    if (width_mm > 0 && bearing.y_mm > 0)
        bearing.force = kPlaneStrain * load.hardening * leg.bend_mm / (bearing.y_mm * width_mm);
    return bearing;
}

/// What does not change from line to line.
struct LegSeen {
    const Leg& leg;
    const LegLoad& load;
    Bearing bearing;
    std::vector<Box> boxes;  // of its cut-outs
};

LegSeen seen(const Leg& leg, const LegLoad& load) {
    LegSeen all{leg, load, bearingOf(leg, load), {}};
    for (const LegCutOut& cut_out : leg.cut_outs) all.boxes.push_back(boxOf(cut_out.outline));
    return all;
}

bool mayCut(const CutLine& line, const Box& box) {
    const Vec2 half = 0.5 * (box.max() - box.min());
    return std::abs(line.normal.dot(box.center()) - line.offset_mm) <=
           std::abs(line.normal.x()) * half.x() + std::abs(line.normal.y()) * half.y();
}

/// Integral of how far the points of a stretch lie beyond the line, where they do.
double leverage_mm2(const Stretch& stretch, double y_mm, const CutLine& line) {
    const double a = line.normal.dot(Vec2(stretch.from_mm, y_mm)) - line.offset_mm;
    const double b = line.normal.dot(Vec2(stretch.to_mm, y_mm)) - line.offset_mm;
    const double length = stretch.length_mm();
    if (a <= 0 && b <= 0) return 0;
    if (a >= 0 && b >= 0) return 0.5 * (a + b) * length;
    const double beyond = std::max(a, b);
    return 0.5 * beyond * length * beyond / std::abs(a - b);
}

bool cutsBend(const Leg& leg, const CutLine& line) {
    const double most =
        std::max(line.normal.dot(Vec2(leg.from_mm, leg.strip_mm)), line.normal.dot(Vec2(leg.to_mm, leg.strip_mm)));
    return most > line.offset_mm;
}

CutLine lineOf(double slope_rad, double offset_mm) { return {{-std::sin(slope_rad), std::cos(slope_rad)}, offset_mm}; }

std::vector<double> slopes_rad(const Leg& leg) {
    std::vector<double> slopes;
    for (const double deg : {0.0, -10.0, 10.0, -20.0, 20.0, -30.0, 30.0, -45.0, 45.0, -60.0, 60.0})
        slopes.push_back(Angle::degrees(deg).rad());
    if (leg.cut_outs.size() > kPairsOf) return slopes;
    for (std::size_t i = 0; i < leg.cut_outs.size(); ++i) {
        for (std::size_t j = i + 1; j < leg.cut_outs.size(); ++j) {
            const Box a = boxOf(leg.cut_outs[i].outline);
            const Box b = boxOf(leg.cut_outs[j].outline);
            const Vec2 between = 0.5 * (b.min() + b.max() - a.min() - a.max());
            const double slope = std::atan2(between.y(), std::abs(between.x())) * (between.x() < 0 ? -1 : 1);
            if (std::abs(slope) <= Angle::degrees(kSteepest_deg).rad()) slopes.push_back(slope);
        }
    }
    return slopes;
}

std::optional<WebSection> sectionOf(const LegSeen& all, const CutLine& line);

void tryLines(const LegSeen& all, const Polygon& cut_out, double slope_rad, std::optional<WebSection>& worst) {
    const Vec2 normal = lineOf(slope_rad, 0).normal;
    double least = normal.dot(cut_out.front());
    double most = least;
    for (const Vec2& point : cut_out) {
        least = std::min(least, normal.dot(point));
        most = std::max(most, normal.dot(point));
    }
    for (int i = 0; i < kOffsets; ++i) {
        const double share = std::clamp(static_cast<double>(i) / (kOffsets - 1), kTouching, 1 - kTouching);
        const auto section = sectionOf(all, {normal, least + share * (most - least)});
        if (!section || section->net_mm > (1 - kNoticeableShare) * section->gross_mm || section->demand_mm <= 0)
            continue;
        if (!worst || section->ratio() > worst->ratio()) worst = section;
    }
}

}  // namespace

double webCapacity_mm(double width_mm, double thickness_mm) {
    return width_mm * (width_mm >= kWideOver * thickness_mm ? kPlaneStrain : 1.0);
}

namespace {

std::optional<WebSection> sectionOf(const LegSeen& all, const CutLine& line) {
    const Leg& leg = all.leg;
    if (cutsBend(leg, line)) return std::nullopt;
    const Stretches solid = chords(leg.solid, line);
    if (solid.empty()) return std::nullopt;
    WebSection section{.line = line,
                       .across = {solid.front().from_mm, solid.back().to_mm},
                       .demand_mm = 0,
                       .capacity_mm = 0,
                       .net_mm = 0,
                       .gross_mm = total_mm(solid),
                       .cut_out = 0};
    Stretches webs = solid;
    double most_taken = -1;
    for (std::size_t i = 0; i < leg.cut_outs.size(); ++i) {
        if (!mayCut(line, all.boxes[i])) continue;
        const Stretches cut = chords(leg.cut_outs[i].outline, line);
        if (total_mm(cut) > most_taken) most_taken = total_mm(cut), section.cut_out = i;
        webs = without(webs, cut);
    }
    for (const Stretch& web : webs) section.capacity_mm += webCapacity_mm(web.length_mm(), all.load.thickness_mm);
    section.capacity_mm = std::max(section.capacity_mm, kLeastCapacity_mm);
    section.net_mm = total_mm(webs);
    for (const Stretch& stretch : all.bearing.stretches)
        section.demand_mm += all.bearing.force * leverage_mm2(stretch, all.bearing.y_mm, line);
    return section;
}

}  // namespace

std::optional<WebSection> sectionAt(const Leg& leg, const LegLoad& load, const CutLine& line) {
    return sectionOf(seen(leg, load), line);
}

std::optional<WebSection> worstSection(const Leg& leg, const LegLoad& load) {
    std::optional<WebSection> worst;
    if (leg.cut_outs.empty()) return worst;
    const LegSeen all = seen(leg, load);
    for (const double slope : slopes_rad(leg)) {
        for (const LegCutOut& cut_out : leg.cut_outs) tryLines(all, cut_out.outline, slope, worst);
    }
    return worst;
}

Angle residualBow(const Leg& leg, const LegLoad& load, const Strength& strength, std::size_t cut_out) {
    if (strength.modulus_mpa <= 0) return Angle::degrees(0);
    const Box box = boxOf(leg.cut_outs[cut_out].outline);
    const double from = std::max(box.min().y(), leg.strip_mm);
    const double step = (std::min(box.max().y(), bearing_mm(leg, load)) - from) / kBowSteps;
    const double first_yield_per_mm = 2 * strength.yield_mpa / (strength.modulus_mpa * load.thickness_mm);
    const LegSeen all = seen(leg, load);
    double turned_rad = 0;
    for (int i = 0; i < kBowSteps && step > 0; ++i) {
        const auto section = sectionOf(all, {Vec2::UnitY(), from + (i + 0.5) * step});
        if (!section) continue;
        const double over = std::min(1.5 * section->ratio(), 1.5 - 1e-9);  // moment over that of first yield
        if (over > 1) turned_rad += step * first_yield_per_mm * (1 / std::sqrt(3 - 2 * over) - over);
    }
    return Angle::radians(turned_rad);
}

double longestWindow_mm(double land_mm, double thickness_mm, double hardening) {
    const double torsion = std::max(0.0, 3 * land_mm - thickness_mm) / (6 * std::numbers::sqrt3);  // over sigma t²
    return 2 * torsion / (0.25 * kPlaneStrain * hardening);
}

}  // namespace tinwright::forming
