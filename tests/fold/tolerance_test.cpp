// SPDX-License-Identifier: GPL-3.0-or-later
// Deviating parts, made as other parts, against the inflated solids that are to hold them: points, before and after the
// stroke and during it. The part floor, whose kinematics have tests of their own, places them.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "deviating_part.h"
#include "kernel/motion.h"
#include "tolerances/inflated.h"
#include "tolerances/tolerance_table.h"

using namespace tinwright;
using deviating::Sample;
using random_states::Dice;

namespace {

constexpr double kRounding = 1e-6;
constexpr int kArcPoints = 7;
constexpr int kShares = 200;

// How far a point is outside the nearest of some solids; not over 0 when it is inside one.
double outside_mm(const Vec3& point, const std::vector<Solid>& solids) {
    double least = std::numeric_limits<double>::infinity();
    for (const Solid& solid : solids) {
        double most = -least;
        for (const Solid::Face& face : solid.faces()) most = std::max(most, face.normal.dot(point) - face.offset);
        least = std::min(least, most);
    }
    return least;
}

struct Placed {
    const random_states::Case* what;
    random_states::State state;
    bool after;
    [[nodiscard]] BendMask formed() const { return after ? state.formed | bit(state.bend) : state.formed; }
    [[nodiscard]] const Part& part() const { return what->part; }
    [[nodiscard]] double nose() const { return what->brake().inside_radius_mm(); }
    [[nodiscard]] PanelId held() const { return heldPanel(part().bend(state.bend), state.hold); }
};

// The held panel of the other part lies on the same bed, its tangent line further back by what the line is off.
Rigid foldFrame(const Placed& at, const Sample& sample) {
    Rigid frame = foldFromBlank(at.part().bend(at.state.bend), at.state.hold, sample.part.thickness_mm, at.nose());
    frame.pretranslate(Vec3(0, sample.line_off_mm, 0));
    return frame;
}

// Corners of one group of the other part, in its panel's blank frame.
std::vector<Vec3> pointsOf(const Placed& at, const Sample& sample, const PartBodies& bodies, std::size_t group,
                           Dice& dice) {
    const Group& what = bodies.groups()[group];
    std::vector<Vec3> points;
    if (!what.is_strip) {
        for (const Vec2& p : sample.part.panel(what.frame).region.outline) {
            points.emplace_back(p.x(), p.y(), 0);
            points.emplace_back(p.x(), p.y(), sample.part.thickness_mm);
        }
        return points;
    }
    const Bend& bend = sample.part.bend(what.bend);
    const bool is_arc = contains(at.formed(), what.bend);
    for (const StripSpan& span : bend.spans) {
        for (int i = 0; i < kArcPoints; ++i) {
            const Vec2 start = bend.origin - 0.5 * bend.allowance_mm * bend.toward_child +
                               dice.between(span.from_mm, span.to_mm) * bend.along;
            const double height = dice.between(0, sample.part.thickness_mm);
            const double share = i < 2 ? i : dice.between(0, 1);  // both ends of the arc, too
            if (!is_arc) {
                const Vec2 p = start + share * bend.allowance_mm * bend.toward_child;
                points.emplace_back(p.x(), p.y(), height);
                continue;
            }
            const double angle = share * bend.angle.rad();
            const double centre_z = bend.up ? sample.part.thickness_mm + at.nose() : -at.nose();
            const double radius = std::abs(centre_z - height);
            const Vec2 p = start + radius * std::sin(angle) * bend.toward_child;
            points.emplace_back(p.x(), p.y(), centre_z - (bend.up ? 1 : -1) * radius * std::cos(angle));
        }
    }
    return points;
}

std::vector<Solid> inflatedSolids(const Placed& at, const PartBodies& bodies, const ToleranceBox& box,
                                  std::size_t group, const Swelling& how) {
    const Group& what = bodies.groups()[group];
    const Rigid pose = foldFromBlank(at.part().bend(at.state.bend), at.state.hold, at.part().thickness_mm, at.nose()) *
                       bodies.pose(at.held(), what.frame, at.formed());
    const Deviation by(bodies, box, {at.state.bend, at.state.hold, at.formed()}, group);
    const bool is_arc = what.is_strip && contains(at.formed(), what.bend);
    std::vector<Solid> solids;
    std::vector<Vec2> corners;
    for (const PrismRings& prism : what.flat) {
        for (const Vec3& corner : prism.bottom) corners.emplace_back(corner.x(), corner.y());
    }
    const auto inflated = is_arc ? inflatedArc(what.formed, at.part().bend(what.bend), pose, by, how)
                                 : inflatedSheet(what.flat, hullOf(corners), pose, by, how);
    for (const PrismRings& rings : inflated) solids.emplace_back(rings, pose);
    return solids;
}

// Of a single convex piece, so that corners of the outline are corners of the group.
bool hasWholePanel(const PartBodies& bodies, std::size_t group) {
    return bodies.groups()[group].is_strip || bodies.groups()[group].flat.size() == 1;
}

struct Tally {
    double worst_mm = -std::numeric_limits<double>::infinity();
    long points = 0;
    std::string where;
    void take(double outside, const std::string& what) {
        ++points;
        if (outside <= worst_mm) return;
        worst_mm = outside;
        where = what;
    }
};

void compareAtRest(std::uint64_t seed, Tally& tally) {
    const random_states::Case what = random_states::randomCase(seed);
    Dice dice(seed);
    const PartOnBrake drawn_on_brake = partOnBrake(what.part, what.shop, what.brake());
    const PartBodies drawn(drawn_on_brake, what.brake().inside_radius_mm());
    for (int i = 0; i < 4; ++i) {
        const Placed at{&what, random_states::randomState(what.part, dice), dice.chance(0.5)};
        const ToleranceBox box = deviating::randomBox(what.part, {}, dice);
        const Sample sample =
            deviating::sampleOf(what.part, box, at.state.bend, at.state.hold, at.after, dice.chance(0.5), dice);
        const PartOnBrake other_on_brake = partOnBrake(sample.part, what.shop, what.brake());
        const PartBodies other(other_on_brake, what.brake().inside_radius_mm());
        const Rigid frame = foldFrame(at, sample);
        for (std::size_t group = 0; group < drawn.groups().size(); ++group) {
            const Group& of = drawn.groups()[group];
            if (!hasWholePanel(drawn, group) || (of.is_strip && of.bend == at.state.bend)) continue;
            // After the stroke the strip begins where the nose bent it, whatever the line was off: the tangent line is
            // that of the other bend.
            Rigid base = frame;
            if (at.after)
                base =
                    foldFromBlank(sample.part.bend(at.state.bend), at.state.hold, sample.part.thickness_mm, at.nose());
            const Rigid place = base * other.pose(at.held(), of.frame, at.formed());
            for (const SeenFrom from : {SeenFrom::kBed, SeenFrom::kBars}) {
                const std::vector<Solid> solids = inflatedSolids(at, drawn, box, group, {from, true, 0, 0});
                const Vec3 raised(0, 0, from == SeenFrom::kBars ? sample.thickness_more_mm : 0.0);
                for (const Vec3& point : pointsOf(at, sample, other, group, dice)) {
                    tally.take(
                        outside_mm(place * point - raised, solids),
                        fmt::format("randomCase({}), state {}, formed {:#x}, bend {}, hold {}, after {}, group {}",
                                    seed, i, at.state.formed, at.state.bend.value, static_cast<int>(at.state.hold),
                                    at.after, group));
                }
            }
        }
    }
}

}  // namespace

TEST_CASE("tolerances: every part within the box lies within the swollen solids, before a stroke and after it") {
    Tally tally;
    for (std::uint64_t seed = 700'000; seed < 701'000; ++seed) compareAtRest(seed, tally);
    INFO(tally.where << ": " << tally.worst_mm << " mm outside, of " << tally.points << " points");
    CHECK(tally.points > 100'000);
    CHECK(tally.worst_mm < kRounding);
}

TEST_CASE("tolerances: every stroke within the box stays within the swollen moving side and the longer swing") {
    Tally tally;
    for (std::uint64_t seed = 710'000; seed < 710'500; ++seed) {
        const random_states::Case what = random_states::randomCase(seed);
        Dice dice(seed);
        const auto model = makeMachine(what.brake(), what.part.thickness_mm);
        const Machine& machine = *model;
        const PartOnBrake drawn_on_brake = partOnBrake(what.part, what.shop, what.brake());
        const PartBodies drawn(drawn_on_brake, what.brake().inside_radius_mm());
        const Placed at{&what, random_states::randomState(what.part, dice), false};
        const Bend& line = what.part.bend(at.state.bend);
        const ToleranceBox box = deviating::randomBox(what.part, {}, dice);
        const double set_rad = line.angle.rad() + 0.05;
        const ToleranceTable::SwingBounds told(machine, line, set_rad, box);
        for (int i = 0; i < 6; ++i) {
            const Sample sample =
                deviating::sampleOf(what.part, box, at.state.bend, at.state.hold, false, dice.chance(0.5), dice);
            const Swing swing(Vec2(at.nose(), sample.part.thickness_mm + at.nose()),
                              sample.part.bend(at.state.bend).allowance_mm,
                              set_rad + Angle::degrees(sample.overbend_more_deg).rad());
            const double angle = dice.between(0, swing.set_rad());
            const double share = dice.between(0, 1);
            const auto shift = [&](const Swing& of, double uniform) -> Vec2 {
                return (1 - uniform) * of.rollingShift(angle, std::cos(angle), std::sin(angle)) +
                       uniform * of.uniformShift(angle, std::cos(angle), std::sin(angle));
            };
            const PartOnBrake other_on_brake = partOnBrake(sample.part, what.shop, what.brake());
            const PartBodies other(other_on_brake, what.brake().inside_radius_mm());
            const Rigid frame = foldFrame(at, sample);
            for (std::size_t group = 0; group < drawn.groups().size(); ++group) {
                const Group& of = drawn.groups()[group];
                const bool moves = contains(drawn.path(at.held(), of.frame), at.state.bend);
                if (!moves || !hasWholePanel(drawn, group) || (of.is_strip && of.bend == at.state.bend)) continue;
                const std::vector<Solid> solids =
                    inflatedSolids(at, drawn, box, group, {SeenFrom::kBars, true, told.motion_mm, told.flat_motion_mm});
                const Rigid place = frame * other.pose(at.held(), of.frame, at.state.formed);
                for (const Vec3& point : pointsOf(at, sample, other, group, dice)) {
                    // Where it is at the angle, and where a point that the longer swing takes there must have been.
                    const Vec3 start = place * point;
                    const Vec2 now =
                        swing.centre() + turnedUp(Vec2(start.y(), start.z()) - swing.centre() + shift(swing, share),
                                                  std::cos(angle), std::sin(angle));
                    const Vec2 raised = now - Vec2(0, sample.thickness_more_mm);
                    const Vec2 centre = told.motions.swing.centre();
                    // By whichever share of uniform curvature: the kernel looks at all of them.
                    double outside = std::numeric_limits<double>::infinity();
                    for (int k = 0; k <= kShares && outside > 0; ++k) {
                        const double uniform = share * (kShares - k) / kShares;
                        const Vec2 before = centre + turnedUp(raised - centre, std::cos(angle), -std::sin(angle)) -
                                            shift(told.motions.swing, uniform);
                        outside = std::min(outside, outside_mm(Vec3(start.x(), before.x(), before.y()), solids));
                    }
                    tally.take(
                        outside,
                        fmt::format("randomCase({}), sample {}, formed {:#x}, bend {}, hold {}, group {}, at {} rad",
                                    seed, i, at.state.formed, at.state.bend.value, static_cast<int>(at.state.hold),
                                    group, angle));
                }
            }
        }
    }
    INFO(tally.where << ": " << tally.worst_mm << " mm outside, of " << tally.points << " points");
    CHECK(tally.points > 25'000);
    CHECK(tally.worst_mm < kRounding);
}
