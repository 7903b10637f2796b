// SPDX-License-Identifier: GPL-3.0-or-later
#include "remedies/press_tools.h"

#include <algorithm>
#include <cmath>

#include <tinwright/brake/tooling/die_profile.h>
#include <tinwright/brake/tooling/punch_profile.h>

namespace tinwright {

namespace {

constexpr double kSame_mm = 1e-6;
constexpr double kLeastThroat_mm = 1;
constexpr double kLeastWall_mm = 1;  // steel behind a hollow: limits of punchSection

/// Corners of a section in turn, from the seat's front down to the tip and up the back.
struct Chains {
    Polygon front;  // without the seat's corner and the tip's
    Polygon back;   // from the tip, with the seat's corner
};

bool isSeat(const Punch& punch, const Vec2& p) { return p.y() > punch.height_mm - kSame_mm; }

// None: the section is not of the kind that goes down its front and up its back once.
std::optional<Chains> chainsOf(const Punch& punch) {
    const Polygon& section = punch.profile;
    const std::size_t count = section.size();
    std::optional<std::size_t> seat_front;
    for (std::size_t i = 0; i < count; ++i) {
        if (isSeat(punch, section[i]) && !isSeat(punch, section[(i + 1) % count])) seat_front = i;
    }
    if (!seat_front) return std::nullopt;
    Chains chains;
    bool is_past_tip = false;
    for (std::size_t k = 1; k < count; ++k) {
        const Vec2& p = section[(*seat_front + k) % count];
        is_past_tip = is_past_tip || p.y() < kSame_mm;
        (is_past_tip ? chains.back : chains.front).push_back(p);
        if (isSeat(punch, p)) break;
    }
    return chains;
}

double frontmost_mm(const Punch& punch) {
    double most_mm = 0;
    for (const Vec2& p : punch.profile) most_mm = std::max(most_mm, -p.x());
    return most_mm;
}

double backmost_mm(const Punch& punch) {
    double most_mm = 0;
    for (const Vec2& p : punch.profile) most_mm = std::max(most_mm, p.x());
    return most_mm;
}

// The last two corners of the back are the end of its flank and the seat, one over the other.
bool hasUprightBack(const Chains& chains) {
    const std::size_t count = chains.back.size();
    return count >= 3 && std::abs(chains.back[count - 1].x() - chains.back[count - 2].x()) < kSame_mm &&
           chains.back[count - 2].x() > chains.back[count - 3].x() + kSame_mm;
}

// How far up for each millimetre back.
double riseOfFlank(const Chains& chains) {
    const Vec2& end = chains.back[chains.back.size() - 2];
    const Vec2& begin = chains.back[chains.back.size() - 3];
    return (end.y() - begin.y()) / (end.x() - begin.x());
}

bool isHollow(const Vec2& front, double depth_mm) { return std::abs(front.x() - depth_mm) < kSame_mm; }

}  // namespace

void heighten(Punch& punch, double height_mm) {
    const double by_mm = height_mm - punch.height_mm;
    for (Vec2& p : punch.profile) {
        if (isSeat(punch, p)) p.y() += by_mm;
    }
    punch.height_mm += by_mm;
}

std::optional<double> throatDepth_mm(const Punch& punch) {
    const std::optional<Chains> chains = chainsOf(punch);
    if (!chains || !hasUprightBack(*chains)) return std::nullopt;
    double depth_mm = 0;
    for (const Vec2& p : chains->front) depth_mm = std::max(depth_mm, p.x());
    if (depth_mm < kLeastThroat_mm || backmost_mm(punch) < frontmost_mm(punch) + kSame_mm) return std::nullopt;
    return depth_mm;
}

std::optional<Punch> withThroat(const Punch& punch, double depth_mm) {
    const std::optional<double> has_mm = throatDepth_mm(punch);
    if (!has_mm) return std::nullopt;
    const Chains chains = *chainsOf(punch);
    const double by_mm = depth_mm - *has_mm;
    const double rise = riseOfFlank(chains);
    const Vec2 flank_end = chains.back[chains.back.size() - 2];
    const double back_mm = flank_end.x();
    if (flank_end.y() + rise * by_mm > punch.height_mm - kLeastWall_mm) return std::nullopt;
    Punch deeper = punch;
    for (Vec2& p : deeper.profile) {
        if (isHollow(p, *has_mm)) {
            p.x() = depth_mm;
            const double flank_mm = flank_end.x() + (p.y() - flank_end.y()) / rise;
            if (flank_mm < depth_mm + kLeastWall_mm) return std::nullopt;
        } else if (std::abs(p.x() - back_mm) < kSame_mm) {
            if (!isSeat(punch, p)) p.y() += rise * by_mm;
            p.x() += by_mm;
        }
    }
    return deeper;
}

std::optional<Angle> tipAngle(const Punch& punch) {
    const std::optional<Chains> chains = chainsOf(punch);
    if (!chains || !hasUprightBack(*chains) || throatDepth_mm(punch)) return std::nullopt;
    if (std::abs(backmost_mm(punch) - frontmost_mm(punch)) > kSame_mm) return std::nullopt;
    return Angle::radians(2 * std::atan(1 / riseOfFlank(*chains)));
}

std::optional<Punch> straightened(const Punch& gooseneck) {
    if (!throatDepth_mm(gooseneck)) return std::nullopt;
    const Angle tip = Angle::radians(2 * std::atan(1 / riseOfFlank(*chainsOf(gooseneck))));
    const PunchSection section{tip, gooseneck.tip_radius_mm, gooseneck.height_mm, 2 * frontmost_mm(gooseneck), {}};
    if (!whyNoPunchSection(section).empty()) return std::nullopt;
    Punch straight = gooseneck;
    straight.profile = punchSection(section);
    straight.horn.reset();
    straight.id += ", straight";
    return straight;
}

std::optional<Punch> asSharpAs(const Punch& punch, Angle angle) {
    const std::optional<Angle> has = tipAngle(punch);
    if (!has || has->rad() <= angle.rad()) return std::nullopt;
    const PunchSection section{angle, punch.tip_radius_mm, punch.height_mm, 2 * frontmost_mm(punch), {}};
    if (!whyNoPunchSection(section).empty()) return std::nullopt;
    Punch sharper = punch;
    sharper.profile = punchSection(section);
    return sharper;
}

std::optional<Die> asSharpAs(const Die& die, Angle angle) {
    if (die.jaw || die.vee.angle.rad() <= angle.rad()) return std::nullopt;
    double width_mm = 0;
    for (const Vec2& p : die.profile) width_mm = std::max(width_mm, 2 * std::abs(p.x()));
    Vee vee = die.vee;
    vee.angle = angle;
    const DieSection section{{{vee, 0, {}}}, die.height_mm, width_mm};
    if (!whyNoDieSection(section).empty()) return std::nullopt;
    Die sharper = die;
    sharper.vee = vee;
    sharper.profile = dieSection(section, 0);
    return sharper;
}

}  // namespace tinwright
