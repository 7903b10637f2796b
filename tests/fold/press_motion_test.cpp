// SPDX-License-Identifier: GPL-3.0-or-later
// The motions of a press brake against the model of src/fold/NOTES.md, worked out point by point: where both sides lie,
// how they lie to one another, and where the die stands so that the sheet bears on its shoulders.
#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

#include <tinwright/brake/tooling/vee_bearing.h>

#include "kernel/motion.h"
#include "kernel/swing.h"
#include "machine/vee_lap.h"
#include "random_states.h"

using namespace tinwright;
using random_states::Dice;

namespace {

constexpr double kQuarter = std::numbers::pi / 2;

struct Air {
    double thickness_mm, radius_mm, allowance_mm, set_rad;
    Vee vee;
    Swing half, whole;
    VeeBearing bearing;
    explicit Air(Dice& dice)
        : thickness_mm(dice.between(0.5, 3)),
          radius_mm(dice.between(0.5, 4)),
          allowance_mm(dice.between(0.5, 8)),
          set_rad(dice.between(0.4, 2.2)),
          vee{dice.between(8, 30) * thickness_mm, Angle::radians(dice.between(0.2, 0.9 * (std::numbers::pi - set_rad))),
              dice.between(0, 3)},
          half(Vec2(0, thickness_mm + radius_mm), 0.5 * allowance_mm, 0.5 * set_rad),
          whole(Vec2(0.5 * allowance_mm, thickness_mm + radius_mm), allowance_mm, set_rad, StripStart::kInMiddle),
          bearing(vee, thickness_mm + radius_mm) {}
};

// A point of the front at half angle h for a share of uniform curvature: every length of the strip is told by itself,
// not by the shifts that the kernel works with. `y` is negative and in front of the strip, z over the lower face.
Vec2 frontPoint(const Air& air, double h, double share, const Vec2& p) {
    const double strip = 0.5 * air.allowance_mm;
    const double end = 0.5 * air.set_rad;
    const double cosine = std::cos(h);
    const double sine = std::sin(h);
    const Vec2 along(-cosine, sine);
    const Vec2 up(sine, cosine);
    const auto at_rest = [&](const Vec2& foot, double flat) -> Vec2 {
        return foot + (flat - strip - p.x()) * along + p.y() * up;
    };
    // Rolling: the arc has the bend's radius all the time, what it does not take of the strip goes on flat.
    const double outer = air.radius_mm + air.thickness_mm;
    const Vec2 rolled = at_rest(Vec2(0, outer) - outer * up, strip * (1 - h / end));
    // Uniform: the whole strip is an arc whose neutral radius falls as the angle grows.
    const double grown = outer + strip / h - strip / end;
    const Vec2 curved = at_rest(Vec2(0, grown) - grown * up, 0);
    return (1 - share) * rolled + share * curved;
}

Vec2 seenAt(const Motion& motion, double h, const Vec2& p) {
    const Moment moment = motion.at(h);
    return motion.centre() + turnedUp(p - motion.centre() + moment.shift, moment.cos_turn, moment.sin_turn);
}

}  // namespace

TEST_CASE("Both sides of an air bend lie, within the spread, where their arc and their flat rest put them") {
    Dice dice(5);
    for (int round = 0; round < 3000; ++round) {
        const Air air(dice);
        const double h = dice.between(0.01, 0.5 * air.set_rad);
        const Vec2 p(-0.5 * air.allowance_mm - dice.between(0, 80), dice.between(-30, 30));
        const Motion front = Motion::front(air.half);
        const Motion back = Motion::back(air.half);
        for (const double share : {0.0, 0.4, 1.0}) {
            const Vec2 truth = frontPoint(air, h, share, p);
            CHECK((seenAt(front, h, p) - truth).norm() <= front.at(h).spread_mm + 1e-9);
            CHECK((seenAt(back, h, Vec2(-p.x(), p.y())) - Vec2(-truth.x(), truth.y())).norm() <=
                  back.at(h).spread_mm + 1e-9);
        }
    }
}

TEST_CASE("Seen from the back, the front of an air bend turns by the whole angle") {
    Dice dice(6);
    for (int round = 0; round < 3000; ++round) {
        const Air air(dice);
        const double h = dice.between(0.01, 0.5 * air.set_rad);
        const Vec2 p(-0.5 * air.allowance_mm - dice.between(0, 80), dice.between(-30, 30));
        const Motion pair = Motion::swing(air.whole);
        for (const double share : {0.0, 1.0}) {
            // Where the back's own frame has gone: two of its points tell.
            const Vec2 origin = frontPoint(air, h, share, Vec2(-0.5 * air.allowance_mm, 0));
            const Vec2 back_origin(-origin.x(), origin.y());
            const Vec2 along(std::cos(h), std::sin(h));
            const Vec2 up(-std::sin(h), std::cos(h));
            const Vec2 moved = frontPoint(air, h, share, p) - back_origin;
            const Vec2 truth(0.5 * air.allowance_mm + moved.dot(along), moved.dot(up));
            const double spread_mm = pair.at(2 * h).spread_mm;
            CHECK((seenAt(pair, 2 * h, p) - truth).norm() <= spread_mm + 1e-9);
        }
    }
}

TEST_CASE("The die stands where the sheet's lower face touches its shoulders") {
    Dice dice(7);
    for (int round = 0; round < 3000; ++round) {
        const Air air(dice);
        const double h = dice.between(0.01, 0.5 * air.set_rad);
        const double c = 0.5 * air.vee.opening_mm +
                         air.vee.shoulder_radius_mm * std::tan(0.5 * (kQuarter - 0.5 * air.vee.angle.rad()));
        const double sink_mm = -air.half.uniformShift(h, std::cos(h), std::sin(h)).y();
        const VeeBearing::Rise rise = air.bearing.rise(std::cos(h), std::sin(h), sink_mm);
        const auto faceDistance = [&](double share, double die_mm) {
            const Vec2 foot = frontPoint(air, h, share, Vec2(-0.5 * air.allowance_mm, 0));
            return Vec2(std::sin(h), std::cos(h)).dot(foot - Vec2(-c, die_mm - air.vee.shoulder_radius_mm));
        };
        CHECK(faceDistance(0, rise.middle_mm + rise.spread_mm) == Approx(air.vee.shoulder_radius_mm).margin(1e-9));
        CHECK(faceDistance(1, rise.middle_mm - rise.spread_mm) == Approx(air.vee.shoulder_radius_mm).margin(1e-9));
        // Seen from the die, the sheet that bears on it is in the motion that the kernel checks.
        const Motion front = Motion::frontFromDie(air.half, air.bearing);
        const Motion back = Motion::backFromDie(air.half, air.bearing);
        const Vec2 p(-0.5 * air.allowance_mm - dice.between(0, 80), dice.between(-30, 30));
        for (const double share : {0.0, 0.5, 1.0}) {
            const double die_mm = rise.middle_mm + (1 - 2 * share) * rise.spread_mm;
            const Vec2 truth = frontPoint(air, h, share, p) - Vec2(0, die_mm);
            CHECK((seenAt(front, h, p) - truth).norm() <= front.at(h).spread_mm + 1e-9);
            CHECK((seenAt(back, h, Vec2(-p.x(), p.y())) - Vec2(-truth.x(), truth.y())).norm() <=
                  back.at(h).spread_mm + 1e-9);
        }
    }
}

// An ear of the sheet beside the strip that reaches past the strip's end, against the corners of a V that is not
// rounded.
TEST_CASE("What laps a bend's strip keeps from the other half of the die what is told") {
    Dice dice(9);
    int told = 0;
    double closest_mm = 1e9;
    for (int round = 0; round < 3000; ++round) {
        const Air air(dice);
        const double outer = air.thickness_mm + air.radius_mm;
        const double cot = 1 / std::tan(0.5 * air.vee.angle.rad());
        const double free_mm = dice.between(0.5, 1) * 0.5 * air.vee.opening_mm * cot;
        const double lap_mm = dice.between(0, 1) * dice.between(0, outer);
        const double clear_mm = lapClearance_mm({air.vee, free_mm, outer, 0.5 * air.set_rad}, lap_mm);
        if (clear_mm < 0) continue;
        ++told;
        for (int look = 0; look < 200; ++look) {
            const double h = dice.between(0.001, 0.5 * air.set_rad);
            const double share = dice.chance(0.5) ? dice.below(2) : dice.between(0, 1);
            const double lapped = dice.chance(0.5) ? lap_mm : dice.between(0, lap_mm);
            const Vec2 p(-0.5 * air.allowance_mm + lapped, dice.chance(0.5) ? 0 : dice.between(0, outer));
            const double sink_mm = -air.half.uniformShift(h, std::cos(h), std::sin(h)).y();
            const VeeBearing::Rise rise = air.bearing.rise(std::cos(h), std::sin(h), sink_mm);
            const Vec2 at = frontPoint(air, h, share, p) - Vec2(0, rise.middle_mm + (1 - 2 * share) * rise.spread_mm);
            const double over_floor_mm = at.y() + free_mm;
            const double over_flank_mm =
                (at.y() + (0.5 * air.vee.opening_mm - at.x()) * cot) * std::sin(0.5 * air.vee.angle.rad());
            CHECK(over_floor_mm >= clear_mm - 1e-9);
            CHECK(over_flank_mm >= clear_mm - 1e-9);
            closest_mm = std::min({closest_mm, over_floor_mm - clear_mm, over_flank_mm - clear_mm});
        }
    }
    CHECK(told > 800);
    CHECK(closest_mm < 0.2);  // and much more could not be told
}

// The bounds with which whole stretches of a stroke are proven clear.
TEST_CASE("Between two angles no motion of a press brake strays further than its rate allows") {
    Dice dice(8);
    for (int round = 0; round < 2000; ++round) {
        const Air air(dice);
        const Motion motions[] = {Motion::front(air.half), Motion::back(air.half), Motion::swing(air.whole),
                                  Motion::frontFromDie(air.half, air.bearing),
                                  Motion::backFromDie(air.half, air.bearing)};
        for (const Motion& motion : motions) {
            const double a = dice.between(0, motion.end_rad());
            const double b = dice.between(0, motion.end_rad());
            const Moment one = motion.at(std::min(a, b));
            const Moment other = motion.at(std::max(a, b));
            const double reach_mm = motion.rate_mm_per_rad() * std::abs(a - b) + 1e-9;
            CHECK((one.shift - other.shift).norm() <= reach_mm);
            CHECK(std::abs(one.spread_mm - other.spread_mm) <= reach_mm);
            CHECK(one.shift.norm() + one.spread_mm <= motion.shiftBound_mm() + 1e-9);
            // and the placing of a span holds what lies within it
            const Moment middle = motion.at(0.5 * (a + b));
            const Placing placing = motion.placing(one, middle, other);
            const Vec2 off = middle.shift - placing.shift;
            CHECK(off.norm() <= placing.stray.radius_mm + 1e-9);
            CHECK(std::abs(off.x()) <= placing.stray.half.x() + 1e-9);
            CHECK(std::abs(off.y()) <= placing.stray.half.y() + 1e-9);
        }
    }
}
